"""Where water goes: outfalls, soakaways with their tests, gullies, channels and the rain of the place."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import (
    Assumed,
    Depth,
    Length,
    Millimetres,
    Name,
    NonNegativeLength,
    Part,
    Percent,
    Run,
    Size,
    Text,
)


class OutfallKind(StrEnum):
    """Where water finally goes."""

    BORDER = "border"
    LAWN = "lawn"
    SOAKAWAY = "soakaway"
    WATERCOURSE = "watercourse"
    SURFACE_WATER_SEWER = "surface_water_sewer"
    COMBINED_SEWER = "combined_sewer"
    UNKNOWN = "unknown"


class PitTest(Part):
    """A trial pit filled with water, and how long each fill took to fall from three quarters to one quarter."""

    length_mm: Length = Field(description="Length of the pit. [mm]")
    width_mm: Length = Field(description="Width of the pit. [mm]")
    depth_mm: Depth = Field(description="Depth of water when it is full. [mm]")
    times_min: Annotated[
        tuple[Annotated[float, Field(gt=0.0, le=20_000.0)], ...], Field(min_length=1, max_length=20)
    ] = Field(description="Time of each fill. [min]")
    date: dt.date | None = Field(None, strict=False, description="Day of the test.")
    note: Text = ""


class PitFill(StrEnum):
    """What a soakaway is filled with."""

    STONE = "stone"
    CRATES = "crates"


class Soakaway(Part):
    """A rectangular pit that lets water into the ground, with the slowest of its tests.

    Sizes that are left out are proposed, where the rate of the ground and the rain of the place are given.
    """

    length_mm: Length | None = Field(None, description="Inside length; proposed where none is given. [mm]")
    width_mm: Length | None = Field(None, description="Inside width; proposed where none is given. [mm]")
    depth_mm: Depth | None = Field(None, description="Depth below the inlet; proposed where none is given. [mm]")
    cover_mm: NonNegativeLength | None = Field(
        None, description="From the surface down to its inlet; the smallest cover of a drain where none is given. [mm]"
    )
    fill: PitFill | None = Field(None, description="What fills it; taken from its voids where it is not said.")
    void_percent: Annotated[float, Field(gt=0.0, le=100.0)] = Field(
        30.0, description="Voids in what fills it: stone about 30, crates about 95. [%]"
    )
    infiltration_m_per_s: Annotated[float, Field(gt=0.0, le=0.1)] | None = Field(
        None, description="Infiltration rate, the slowest of three tests, where the test itself is not given. [m/s]"
    )
    pit_test: PitTest | None = Field(None, description="The test of the ground; it takes precedence over a rate.")
    point: Name | None = Field(
        None, description="Its middle on the plan, for its distance to buildings, boundaries and others."
    )
    note: Text = ""


class RainDepth(Part):
    """One row of a rainfall table."""

    duration_min: Annotated[float, Field(gt=0.0, le=10_080.0)] = Field(description="How long it rains. [min]")
    depth_mm: Annotated[float, Field(gt=0.0, le=2000.0)] = Field(description="How much falls. [mm]")


class Rain(Part):
    """Rain of the place for sizing storage: the five-year hour from a map, or a table of a rainfall service."""

    five_year_hour_mm: Annotated[float, Field(ge=5.0, le=100.0)] | None = Field(
        None, description="Depth of the storm of one hour that comes once in five years. [mm]"
    )
    hour_to_two_days: Annotated[float, Field(ge=0.12, le=0.45)] | None = Field(
        None, description="That depth divided by the five-year depth of two days, no unit."
    )
    depths: tuple[RainDepth, ...] = Field(
        (),
        max_length=100,
        description="Storms of the design return period by duration; they take precedence over the tables.",
    )
    years: Annotated[float, Field(ge=1.0, le=100.0)] = Field(10.0, description="Return period of the design storm.")
    climate_percent: Percent = Field(
        0.0, description="Added for climate change; asked for, never assumed silently. [%]"
    )


class GullyState(StrEnum):
    """Whether a gully, channel or soakaway is there already or is to be built by the job."""

    EXISTING = "existing"
    NEW = "new"


class Outfall(Part):
    """A place where water finally goes, and how that is known."""

    name: Name
    kind: OutfallKind
    invert_level_mm: Millimetres | None = Field(None, description="Level at which it takes water. [mm]")
    confirmed: bool = Field(description="Whether somebody saw water run there.")
    soakaway: Soakaway | None = Field(None, description="Size and test of a soakaway, checked against its storms.")
    state: GullyState | None = Field(
        None,
        description="Whether a soakaway is there already or is built by the job. Where it is left out, one with a size or a "
        "test is built by the job and priced; of one without, nothing is in the price, and that is said.",
    )
    assumed: Assumed | None = Field(
        None, description="Who takes its levels to be so, and why; left out where they were read."
    )
    note: Text = ""


class Gully(Part):
    """A trapped inlet in the paving."""

    name: Name
    point: Name
    size_mm: Size = Field(150.0, description="Side of its square grating. [mm]")
    grating_level_mm: Millimetres | None = Field(None, description="Level of the grating now. [mm]")
    fixed: bool = Field(default=False, description="Whether the grating cannot be reset to the paving.")
    invert_level_mm: Millimetres | None = Field(None, description="Level inside at its outlet. [mm]")
    outfall: Name | None = None
    takes_paving: bool | None = Field(
        None,
        description="Whether the paving beside it is meant to drain to it; no for one that serves a downpipe only. Left out "
        "where nobody said: then it is asked where nothing falls to it.",
    )
    runs: bool | None = Field(
        None, description="Whether water that was poured in ran away; left out where nobody tried it."
    )
    pipe_mm: Run | None = Field(
        None,
        description="Length of new pipe from it to its outfall; a straight line to the middle of a soakaway where none is "
        "given, not known where that has no place. [mm]",
    )
    state: GullyState | None = Field(
        None,
        description="Whether it is there already or is built by the job. Where it is left out, a gully with a level of its "
        "grating is there already and one without is new.",
    )
    assumed: Assumed | None = Field(
        None, description="Who takes its levels to be so, and why; left out where they were read."
    )

    @property
    def is_existing(self) -> bool:
        """Whether it is there already."""
        return self.grating_level_mm is not None if self.state is None else self.state is GullyState.EXISTING


class Channel(Part):
    """A linear drain between two points, emptied at its outlet."""

    name: Name
    start: Name
    end: Name
    width_mm: Size = Field(100.0, description="Width over its grating. [mm]")
    inside_mm: Size | None = Field(None, description="Width inside, where it is not that of the grating. [mm]")
    depth_mm: Depth | None = Field(None, description="Depth inside, to check it against its flow. [mm]")
    bottom_one_in: Annotated[float, Field(ge=5.0, le=2000.0)] | None = Field(
        None, description="n of the fall of its bottom towards the outlet; level where none is given. [1 in n]"
    )
    invert_level_mm: Millimetres | None = Field(None, description="Level inside at its outlet. [mm]")
    state: GullyState | None = Field(
        None, description="Whether it is there already or is built by the job; not known where it is left out."
    )
    outfall: Name | None = None
    takes_paving: bool | None = Field(
        None,
        description="Whether the paving beside it is meant to drain to it; no for one that serves a downpipe only. Left out "
        "where nobody said: then it is asked where nothing falls to it.",
    )
    runs: bool | None = Field(
        None, description="Whether water that was poured in ran away; left out where nobody tried it."
    )
    pipe_mm: Run | None = Field(
        None,
        description="Length of new pipe from it to its outfall; a straight line to the middle of a soakaway where none is "
        "given, not known where that has no place. [mm]",
    )
    assumed: Assumed | None = Field(
        None, description="Who takes its levels to be so, and why; left out where they were read."
    )
