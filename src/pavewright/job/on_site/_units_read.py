"""Units as they are laid: their corners as read, and the bags used so far."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Accuracy, Millimetres, Name, NonNegativeLength, Part, Place, Text

PieceNumber = Annotated[int, Field(ge=1, le=1_000_000)]
"""Number of a piece in the laying plan of its area."""
Opened = Annotated[float, Field(ge=0.0, le=100_000.0)]
"""How many bags or barrows were opened."""
Left = Annotated[float, Field(ge=0.0, le=1.0)]
"""Which part of one is left."""


class CornerName(StrEnum):
    """A corner of a unit, as the laying screen letters it."""

    A = "A"
    B = "B"
    C = "C"
    D = "D"


class CornerWay(StrEnum):
    """With what the corners of a unit were read."""

    WEDGE = "wedge"
    STRING = "string"
    STAFF = "staff"
    PERCENT = "percent"


class Rocks(StrEnum):
    """Over which corners a unit rocks when they are pressed in turn."""

    NO = "no"
    A_C = "a_c"
    B_D = "b_d"


class UnitState(StrEnum):
    """What became of a unit."""

    LAID = "laid"
    TO_RE_BED = "to_re_bed"


class CornerRead(Part):
    """The level found at one corner."""

    corner: CornerName = Field(description="Which corner.")
    level_mm: Millimetres = Field(description="Level found on it. [mm]")


class UnitRead(Part):
    """One unit as read when it was laid, or when it was to be lifted again. The last entry of a unit holds."""

    area: Name = Field(description="Area in which it lies.")
    piece: PieceNumber = Field(description="Its number in the laying plan.")
    x_mm: Place = Field(description="East of its middle, by which it is found where pieces are numbered anew. [mm]")
    y_mm: Place = Field(description="North of its middle. [mm]")
    corners: tuple[CornerRead, ...] = Field(
        (), max_length=4, description="Corners that were read; none where none was."
    )
    way: CornerWay | None = Field(None, description="With what they were read; left out where nobody said.")
    sd_mm: Accuracy | None = Field(
        None, description="Standard deviation of one reading; the rulebook's for the tool where it is left out. [mm]"
    )
    rocks: Rocks | None = Field(None, description="Whether it rocks; left out where nobody tried.")
    bed_mm: NonNegativeLength | None = Field(None, description="Bed under it as measured. [mm]")
    state: UnitState = Field(UnitState.LAID, description="Whether it lies, or is to be bedded again.")
    date: dt.date | None = Field(None, strict=False, description="Day on which it was laid.")
    read_by: Text = ""


class BagsUsed(Part):
    """Bags of cement, or barrows of sand, used for the bed of an area up to some piece."""

    area: Name = Field(description="Area whose bed they went into.")
    opened: Opened = Field(description="Bags or barrows opened so far.")
    left_part: Left | None = Field(None, description="Part of the last one that is left; left out where nobody looked.")
    up_to_piece: PieceNumber = Field(description="Last piece laid by then, in the order of laying.")
    date: dt.date | None = Field(None, strict=False, description="Day on which they were counted.")
