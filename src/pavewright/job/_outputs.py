"""Own outputs: how long a firm's own people take for a unit of work."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Part, Text
from pavewright.job._pattern_traits import Pattern


class OutputKind(StrEnum):
    """What an output is of: each is a figure of the rulebook, in its unit."""

    SET_OUT = "set_out_h"
    DIG_BY_HAND = "dig_by_hand_h_per_m3"
    DIG_BY_MACHINE = "dig_by_machine_h_per_m3"
    LOAD_BY_HAND = "load_by_hand_h_per_m3"
    WHEEL = "wheel_h_per_m3"
    POWER_BARROW = "power_barrow_h_per_m3"
    CARRY_LOAD = "carry_load_h_per_m3"
    FILL = "fill_h_per_m3"
    WALL = "wall_h_per_m2"
    GUARD = "guard_h_per_m"
    SUB_BASE = "sub_base_h_per_m3"
    CONCRETE = "concrete_h_per_m3"
    CONCRETE_BY_HAND = "concrete_by_hand_h_per_m3"
    LAY_FLAGS = "lay_flags_h_per_m2"
    LAY_BLOCKS = "lay_blocks_h_per_m2"
    CUT = "cut_h_each"
    POINT = "point_h_per_m2"
    JOINT_SAND = "joint_sand_h_per_m2"
    KERB = "kerb_h_per_m"
    EDGING = "edging_h_per_m"
    HAUNCH = "haunch_h_per_m"
    CHANNEL = "channel_h_per_m"
    COVER = "cover_h_each"
    RISER = "riser_h_per_m"
    GULLY = "gully_h_each"
    PIPE = "pipe_h_per_m"
    PIT_FILL = "pit_fill_h_per_m3"
    SILT_TRAP = "silt_trap_h_each"
    CLEAR = "clear_h"


class OwnOutput(Part):
    """How long own people take for one unit of a kind of work."""

    kind: OutputKind = Field(description="What kind of work, and in which unit it is measured.")
    pattern: Pattern | None = Field(
        None, description="Of laying blocks: the pattern for which it holds; all that have no output of their own else."
    )
    hours_each: Annotated[float, Field(gt=0.0, le=1000.0)] = Field(
        description="Hours of one person for one unit, at the crew's own pace. [h]"
    )
    sd_hours: Annotated[float, Field(ge=0.0, le=1000.0)] | None = Field(
        None, description="Standard deviation from job to job; left out where it is not known. [h]"
    )
    jobs: Annotated[int, Field(ge=1, le=10_000)] | None = Field(
        None, description="From how many jobs it comes; left out where nobody counted."
    )
    note: Text = ""
