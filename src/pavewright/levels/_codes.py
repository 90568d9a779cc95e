"""Codes of the findings of levels."""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """What is noticed about levels."""

    AIR_BRICK_COVERED = "levels.air_brick_covered"
    AREAS_DO_NOT_MEET = "levels.areas_do_not_meet"
    CAR_GROUNDS = "levels.car_grounds"
    CAR_MEETS_STEP = "levels.car_meets_step"
    CAR_WAY_STEEP = "levels.car_way_steep"
    COVER_CLASH = "levels.cover_clash"
    DIRECTION_CHOSEN = "levels.direction_chosen"
    DOOR_STEP_TOO_BIG = "levels.door_step_too_big"
    DOOR_STEP_TOO_SMALL = "levels.door_step_too_small"
    FOLD_CLASH = "levels.fold_clash"
    FOLDED = "levels.folded"
    FOOTWAY_CROSSING = "levels.footway_crossing"
    FRAME_TO_SET = "levels.frame_to_set"
    GARAGE_STEP = "levels.garage_step"
    GULLY_CLASH = "levels.gully_clash"
    LID_ON_FOLD = "levels.lid_on_fold"
    NEAR_BOUNDARY_TOP = "levels.near_boundary_top"
    NOT_ACCESSIBLE = "levels.not_accessible"
    PACE = "levels.pace"
    PARTED_BY_STEP = "levels.parted_by_step"
    RISE_UNEVEN = "levels.rise_uneven"
    RISER_OUT_OF_RANGE = "levels.riser_out_of_range"
    ROUNDED_FLATTER = "levels.rounded_flatter"
    RUNS_PAST_GULLY = "levels.runs_past_gully"
    RUNS_TO_OTHERS = "levels.runs_to_others"
    STANDS_ON_DESIGN = "levels.stands_on_design"
    STEEP_AT_ROAD = "levels.steep_at_road"
    STEP_AT_ACCESSIBLE_DOOR = "levels.step_at_accessible_door"
    STEPS_UPSIDE_DOWN = "levels.steps_upside_down"
    TIE_IN_CLASH = "levels.tie_in_clash"
    TOO_FLAT = "levels.too_flat"
    TOO_NEAR_DPC = "levels.too_near_dpc"
    TOO_STEEP = "levels.too_steep"
    TRANSITION_WANTED = "levels.transition_wanted"
