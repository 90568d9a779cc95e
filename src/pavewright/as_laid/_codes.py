"""Codes of the findings of paving as laid."""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """What is noticed about paving as laid."""

    DPC_BY_TOLERANCE = "as_laid.dpc_by_tolerance"
    DPC_INCONCLUSIVE = "as_laid.dpc_inconclusive"
    NOT_READ = "as_laid.not_read"
    OUT_OF_TOLERANCE = "as_laid.out_of_tolerance"
    OUTSIDE = "as_laid.outside"
    REVERSE_FALL = "as_laid.reverse_fall"
    SHIFTED = "as_laid.shifted"
    TOO_FEW_READINGS = "as_laid.too_few_readings"
    TOO_FLAT = "as_laid.too_flat"
    TOO_NEAR_DPC = "as_laid.too_near_dpc"
    UNREAD = "as_laid.unread"
