"""What is noticed in this room, by its short name."""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """Codes of findings."""

    BOND_UNDER_WHEELS = "laying.bond_under_wheels"
    BORDER_JOINT = "laying.border_joint"
    FEW_MEASURED = "laying.few_measured"
    FILLED_NARROW = "laying.filled_narrow"
    GROWTH_NOT_WORKED_OUT = "laying.growth_not_worked_out"
    GROWTH_PAST_JOINTS = "laying.growth_past_joints"
    INNER_CORNERS = "laying.inner_corners"
    JOINT_OUT_OF_RANGE = "laying.joint_out_of_range"
    MOVEMENT_JOINTS = "laying.movement_joints"
    RING_JOINT = "laying.ring_joint"
    RUN_GROWS = "laying.run_grows"
    SIZE_OUT_OF_CLASS = "laying.size_out_of_class"
    SLIVERS = "laying.slivers"
    SMALL_UNDER_WHEELS = "laying.small_under_wheels"
    TOO_NARROW = "laying.too_narrow"
    TOO_NARROW_AT_FOLD = "laying.too_narrow_at_fold"
    TWO_PERSON_LIFT = "laying.two_person_lift"
    UNCUT_AT_FOLD = "laying.uncut_at_fold"
    UNDER_STEPS = "laying.under_steps"
    UNITS_CROSS_FOLD = "laying.units_cross_fold"
    UNITS_UNDER_STEPS = "laying.units_under_steps"
    WOVEN_JOINT = "laying.woven_joint"
