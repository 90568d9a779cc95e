"""Water let run over finished paving: where it stood, how deep, and how long after; and how gratings sit."""

from __future__ import annotations

import datetime as dt
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Name, NonNegativeLength, Offset, Part, Place, Text


class HoseMark(Part):
    """A place at which it was looked whether water stood."""

    name: Name = Field(description="Its name within the test, such as H1.")
    x_mm: Place = Field(description="East on the site grid. [mm]")
    y_mm: Place = Field(description="North on the site grid. [mm]")
    depth_mm: NonNegativeLength = Field(description="Depth of the water by a rule; zero where none stood. [mm]")
    across_mm: NonNegativeLength | None = Field(
        None, description="How far across it was wet; left out where it was not measured. [mm]"
    )


class HoseTest(Part):
    """Water let run over an area, and what stood when it was looked at."""

    name: Name = Field(description="Its name in the list; each test has its own.")
    area: Name
    date: dt.date = Field(strict=False)
    seen_by: Text = ""
    after_min: Annotated[float, Field(ge=0.0, le=10_000.0)] = Field(
        description="How long after the water was turned off it was looked at. [min]"
    )
    all_wet: bool = Field(default=False, description="Whether the whole of the area was wetted first.")
    all_seen: bool = Field(
        default=False, description="Whether the whole of the area was looked at, so that no mark means no water."
    )
    marks: tuple[HoseMark, ...] = Field((), max_length=200)
    note: Text = ""


class DrainMark(Part):
    """How far finished paving stands above a grating, by a rule from a straight edge."""

    name: Name = Field(description="Its name in the list; each mark has its own.")
    drain: Name = Field(description="Which channel or gully.")
    date: dt.date = Field(strict=False)
    above_mm: Offset = Field(
        description="How far the paving stands above the grating there; below zero where it lies lower than it. [mm]"
    )
    place: Text = Field("", description="Where along it, in a few words.")
