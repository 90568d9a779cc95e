"""Photos of a plane that measure, and slopes read with a level that is turned end for end."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Accuracy, Length, Name, Part, Place, Text

Pixel = Annotated[float, Field(ge=-20_000.0, le=20_000.0)]
"""To the right or down from the upper left corner of a picture. [px]"""

Degrees = Annotated[float, Field(ge=-45.0, le=45.0)]
"""A slope as a level shows it. [deg]"""


class PhotoPlaneKind(StrEnum):
    """Which plane a photo shows: ground or paving from above, or the face of a wall."""

    FLOOR = "floor"
    WALL = "wall"


class PhotoMark(Part):
    """A thing seen in a photo whose place on the plane is known: a named point, or a place that was measured."""

    name: Name = Field(description="What it is called in the photo.")
    point: Name | None = Field(
        None,
        description="The point of the job that it is; its place is taken from there. None where its place is given.",
    )
    seen_x_px: Pixel = Field(description="Where it is seen, from the left edge of the picture. [px]")
    seen_y_px: Pixel = Field(description="Where it is seen, from the upper edge of the picture. [px]")
    x_mm: Place | None = Field(
        None,
        description="Where it is: east on the site grid, or along the wall from its start; none where its point says "
        "so. [mm]",
    )
    y_mm: Place | None = Field(
        None,
        description="Where it is: north on the site grid, or up the wall from any one level line; none where its point "
        "says so. [mm]",
    )
    sd_mm: Accuracy | None = Field(
        None, description="How far that place is trusted: standard deviation; the rulebook's where none is given. [mm]"
    )


class PhotoThing(Part):
    """A thing seen in a photo whose place is wanted."""

    name: Name
    seen_x_px: Pixel = Field(description="Where it is seen, from the left edge of the picture. [px]")
    seen_y_px: Pixel = Field(description="Where it is seen, from the upper edge of the picture. [px]")


class PhotoPlane(Part):
    """A photo that shows known places on one plane, from which the places of other things on it follow."""

    name: Name
    photo: Annotated[str, Field(max_length=64)] = Field(
        "", description="Key of the photo among those of the job; empty where it was not sent."
    )
    kind: PhotoPlaneKind = PhotoPlaneKind.FLOOR
    wall: Name | None = Field(None, description="The wall that it shows; none for ground, or where it has no name.")
    level_from: Name | None = Field(
        None, description="The point of known level on which heights up the wall are zero; none where nobody said."
    )
    width_px: Annotated[float, Field(gt=0.0, le=20_000.0)] = Field(description="Width of the picture. [px]")
    height_px: Annotated[float, Field(gt=0.0, le=20_000.0)] = Field(description="Height of the picture. [px]")
    marks: tuple[PhotoMark, ...] = Field((), max_length=24)
    things: tuple[PhotoThing, ...] = Field((), max_length=200)
    taken_on: dt.date | None = Field(None, strict=False, description="The day on which it was taken.")
    note: Text = ""


class SlopeTool(StrEnum):
    """With what a slope was read."""

    PHONE = "phone"
    DIGITAL_LEVEL = "digital_level"
    BUBBLE = "bubble"


class SlopePair(Part):
    """Two readings at one place, the tool turned end for end between them."""

    first_deg: Degrees = Field(description="As first read, more than zero where the far end is higher. [deg]")
    turned_deg: Degrees = Field(
        description="As read after turning, more than zero where the end of the tool that was far first shows higher. [deg]"
    )


class PhoneSlope(Part):
    """A slope read with a tool that is turned end for end, so that its own error cancels."""

    name: Name = Field(description="Where it was read, in a word.")
    tool: SlopeTool = SlopeTool.PHONE
    line_from: Name | None = Field(None, description="The point from which it was read; none where there is none.")
    line_to: Name | None = Field(None, description="The point to which it was read; none where there is none.")
    over_mm: Length | None = Field(
        None,
        description="Length of the straightedge, or of the tool itself, on which it stood; none where unknown. [mm]",
    )
    pairs: tuple[SlopePair, ...] = Field(min_length=1, max_length=50)
    read_on: dt.date | None = Field(None, strict=False, description="The day on which it was read.")
    note: Text = ""
