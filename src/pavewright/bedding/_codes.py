"""Codes of the findings of units and beds as they are laid."""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """What is noticed while units are laid."""

    TO_RE_BED = "bedding.to_re_bed"
    LIP = "bedding.lip"
    BED_THICK = "bedding.bed_thick"
    BED_THIN = "bedding.bed_thin"
    UNMATCHED = "bedding.unmatched"
