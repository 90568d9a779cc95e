"""Codes of the findings at hold points."""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """What is noticed where work stops to be looked at."""

    DRAIN_FAILS = "hold_points.drain_fails"
    FAILS = "hold_points.fails"
    NOT_DECIDED = "hold_points.not_decided"
    THIN_BED = "hold_points.thin_bed"
