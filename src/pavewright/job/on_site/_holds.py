"""Where work stops until somebody has looked, as it was read; and what the dig found that nobody knew."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import (
    Millimetres,
    Name,
    NonNegativeLength,
    Offset,
    Part,
    Place,
    Run,
    Text,
    Tolerance,
    of_kind,
)
from pavewright.typed import LengthKind


class HoldCheckKind(StrEnum):
    """What is looked at before work goes on."""

    FORMATION = "formation"
    LAYER = "layer"
    DRAIN = "drain"
    FIRST_ROW = "first_row"
    BED = "bed"


class HoldLayer(StrEnum):
    """The layers that are looked at by themselves, from the bottom."""

    CAPPING = "capping"
    SUB_BASE = "sub_base"
    BASE = "base"


class HoldReading(Part):
    """What was read at one place of a hold point: a level, or how far a row is off its string."""

    label: Name = Field(description="Name of the place.")
    x_mm: Place = Field(description="East on the site grid. [mm]")
    y_mm: Place = Field(description="North on the site grid. [mm]")
    level_mm: Millimetres | None = Field(
        None, description="Level found there; left out where none was read: it is not known. [mm]"
    )
    off_mm: Offset | None = Field(
        None, description="Of the first row: how far it lies off its string, positive to the left of it. [mm]"
    )
    note: Text = ""


class DrainTestKind(StrEnum):
    """How a drain that lies open was tested."""

    AIR = "air"
    WATER = "water"
    SEEN_RUNNING = "seen_running"


class DrainTest(Part):
    """A test of a drain before it is covered."""

    kind: DrainTestKind
    drop_mm: NonNegativeLength | None = Field(
        None, description="Of an air test: how far the gauge fell on a water gauge. [mm]"
    )
    minutes: Annotated[float, Field(gt=0.0, le=1440.0)] | None = Field(
        None, description="How long it was watched. [min]"
    )
    start_gauge_mm: NonNegativeLength | None = Field(
        None, description="Of an air test: what the water gauge stood at when it began. [mm]"
    )
    lost_litre: Annotated[float, Field(ge=0.0, le=1000.0)] | None = Field(
        None, description="Of a water test: what was poured in to keep it full. [l]"
    )
    length_mm: Run | None = Field(None, description="Of a water test: length of pipe under test. [mm]")
    pipe_mm: Annotated[float, Field(gt=0.0, le=1000.0), of_kind(LengthKind.SIZE)] | None = Field(
        None, description="Of a water test: bore of the pipe. [mm]"
    )
    seen_running: bool | None = Field(
        None, description="Whether water that was poured in at the head was seen to come out at the foot."
    )


class HoldCheck(Part):
    """One look at a hold point: who looked, when, with what, and what was read."""

    name: Name = Field(description="Its name in the list, made by whoever enters it; each check has its own.")
    kind: HoldCheckKind
    area: Name | None = Field(None, description="Which area; left out for a drain.")
    layer: HoldLayer | None = Field(None, description="Which layer, where a layer is looked at.")
    drain: Name | None = Field(None, description="Which channel, gully or outfall, where a drain is looked at.")
    date: dt.date = Field(strict=False)
    read_by: Text = ""
    instrument: Text = ""
    sd_mm: Tolerance = Field(3.0, description="Standard deviation of one reading. [mm]")
    readings: tuple[HoldReading, ...] = Field((), max_length=2000)
    run_mm: Run | None = Field(
        None,
        description="Of a drain: length of pipe from the first reading to the last; as the crow flies where left out. [mm]",
    )
    test: DrainTest | None = Field(None, description="Of a drain: how it was tested.")
    note: Text = ""


class FoundKind(StrEnum):
    """What the dig found that nobody knew."""

    DEEPER = "deeper"
    SOFT_SPOT = "soft_spot"
    CONCRETE = "concrete"
    DRAIN = "drain"


class FoundCorner(Part):
    """A corner of what was found, on the plan."""

    x_mm: Place = Field(description="East on the site grid. [mm]")
    y_mm: Place = Field(description="North on the site grid. [mm]")


class DigFound(Part):
    """What the dig found that nobody knew: the plan, the price and the days go by it."""

    name: Name = Field(description="What was found, in a few words; each find has its own.")
    kind: FoundKind
    area: Name = Field(description="Area in whose dig it was found.")
    found_on: dt.date = Field(strict=False)
    found_by: Text = ""
    outline: tuple[FoundCorner, ...] = Field(
        (), max_length=200, description="Where it lies, as an outline; or give its area alone."
    )
    area_m2: Annotated[float, Field(gt=0.0, le=100_000.0)] | None = Field(
        None, description="How much of the ground it takes up, where no outline is given. [m2]"
    )
    depth_mm: Annotated[float, Field(gt=0.0, le=5000.0), of_kind(LengthKind.OFFSET)] = Field(
        description="Of a deeper dig and a soft spot: how far below the planned formation it is dug. Of concrete: how "
        "thick it is within the dig. Of a drain: how far below formation it is dug free. [mm]"
    )
    length_mm: Run | None = Field(None, description="Of a drain: how long it is in the dig. [mm]")
    new_pipe: bool = Field(default=False, description="Of a drain: whether this length is laid anew.")
    note: Text = ""
