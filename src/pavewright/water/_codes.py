"""What is noticed in this room, by its short name."""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """Codes of findings."""

    BEYOND_DISPUTED = "water.beyond_disputed"
    BEYOND_NOT_KNOWN = "water.beyond_not_known"
    DRAIN_TOO_SMALL = "water.drain_too_small"
    EDGE_BELOW_GROUND = "water.edge_below_ground"
    FRONT_GARDEN = "water.front_garden"
    GROUND_FROM_HOUSE = "water.ground_from_house"
    GROUND_TOO_TIGHT = "water.ground_too_tight"
    HELD_BY_KERB = "water.held_by_kerb"
    JOINT_RUNS_OUT = "water.joint_runs_out"
    LEVEL_SURFACE = "water.level_surface"
    MORE_OVER_BOUNDARY = "water.more_over_boundary"
    NO_OUTFALL = "water.no_outfall"
    ONTO_OWN_GROUND = "water.onto_own_ground"
    ONTO_OWN_PAVING = "water.onto_own_paving"
    OUTFALL_TOO_HIGH = "water.outfall_too_high"
    OUTFALL_UNKNOWN = "water.outfall_unknown"
    OUTFALL_UNSEEN = "water.outfall_unseen"
    OVER_BOUNDARY = "water.over_boundary"
    PIT_FILLED_TOO_SELDOM = "water.pit_filled_too_seldom"
    RAIN_NOT_GIVEN = "water.rain_not_given"
    RUNS_IN_CIRCLE = "water.runs_in_circle"
    SEWER = "water.sewer"
    SOAKAWAY = "water.soakaway"
    SOAKAWAY_FOR_THESE_STORMS = "water.soakaway_for_these_storms"
    SOAKAWAY_IN_GROUNDWATER = "water.soakaway_in_groundwater"
    SOAKAWAY_NOT_SIZED = "water.soakaway_not_sized"
    SOAKAWAY_PROPOSED = "water.soakaway_proposed"
    SOAKAWAY_SLOW = "water.soakaway_slow"
    SOAKAWAY_TAKES_TOO_MUCH = "water.soakaway_takes_too_much"
    SOAKAWAY_TOO_NEAR = "water.soakaway_too_near"
    SOAKAWAY_TOO_SMALL = "water.soakaway_too_small"
    TO_WALL = "water.to_wall"
