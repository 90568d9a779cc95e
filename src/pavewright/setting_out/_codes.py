"""Codes of the findings of setting out."""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """What is noticed about setting out."""

    CORNER_NOT_TAPED = "setting_out.corner_not_taped"
    NO_BASE_LINE = "setting_out.no_base_line"
    PEG_NEAR_SERVICE = "setting_out.peg_near_service"
    STRING_END_IN_DIG = "setting_out.string_end_in_dig"
    STRING_SAGS = "setting_out.string_sags"
