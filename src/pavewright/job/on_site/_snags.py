"""What is still to be put right on finished paving: each with its place, who sees to it and until when."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum

from pydantic import Field

from pavewright.job._base import Name, Part, Place, Text


class SnagKind(StrEnum):
    """What is wrong."""

    LEVEL = "level"
    STANDING_WATER = "standing_water"
    LIP = "lip"
    GAP = "gap"
    JOINT = "joint"
    ROCKING = "rocking"
    CHIPPED = "chipped"
    STAINED = "stained"
    DRAIN = "drain"
    EDGE = "edge"
    OTHER = "other"


class SnagState(StrEnum):
    """How far it is."""

    OPEN = "open"
    DONE = "done"
    LEFT = "left"


class Snag(Part):
    """Something on the finished paving that is to be put right, or that was agreed to stay."""

    name: Name = Field(description="Its number in the list, such as S1; each has its own.")
    kind: SnagKind
    what: Text = Field("", description="What is wrong, in a few words.")
    area: Name | None = Field(None, description="Its area; left out where it lies on none.")
    x_mm: Place | None = Field(None, description="East on the site grid; left out where the place is not known. [mm]")
    y_mm: Place | None = Field(None, description="North on the site grid. [mm]")
    found_on: dt.date = Field(strict=False)
    found_by: Text = ""
    owner: Text = Field("", description="Who sees to it; empty while nobody does.")
    due: dt.date | None = Field(None, strict=False, description="Until when; left out while no day is agreed.")
    state: SnagState = SnagState.OPEN
    closed_on: dt.date | None = Field(None, strict=False, description="When it was put right, or agreed to stay.")
    closed_by: Text = Field("", description="Who looked at it then, or with whom it was agreed.")
    note: Text = ""
