"""Codes of the findings of paving as laid."""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """What is noticed about paving as laid."""

    BAY_MOVED = "as_laid.bay_moved"
    BAY_OFF_DESIGN = "as_laid.bay_off_design"
    BY_STAFF = "as_laid.by_staff"
    DATUM_UNSURE = "as_laid.datum_unsure"
    DPC_BY_TOLERANCE = "as_laid.dpc_by_tolerance"
    DPC_INCONCLUSIVE = "as_laid.dpc_inconclusive"
    DPC_UNREAD = "as_laid.dpc_unread"
    FLAT_BY_DESIGN = "as_laid.flat_by_design"
    GAP = "as_laid.gap"
    GRATING = "as_laid.grating"
    HOSE_FAILED = "as_laid.hose_failed"
    JOINT = "as_laid.joint"
    LIP = "as_laid.lip"
    MARK_MOVED = "as_laid.mark_moved"
    NO_DATUM = "as_laid.no_datum"
    NOT_READ = "as_laid.not_read"
    OUT_OF_TOLERANCE = "as_laid.out_of_tolerance"
    OUT_OF_PLANE = "as_laid.out_of_plane"
    OUTSIDE = "as_laid.outside"
    PLACE_MOVED = "as_laid.place_moved"
    PROFILE = "as_laid.profile"
    REVERSE_FALL = "as_laid.reverse_fall"
    SHIFTED = "as_laid.shifted"
    STANDS = "as_laid.stands"
    TOO_FEW_READINGS = "as_laid.too_few_readings"
    TOO_FLAT = "as_laid.too_flat"
    TOO_NEAR_DPC = "as_laid.too_near_dpc"
    UNREAD = "as_laid.unread"
