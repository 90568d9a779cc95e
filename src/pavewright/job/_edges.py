"""What holds the sides of an area."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Name, NonNegativeLength, Part


class EdgeRestraint(StrEnum):
    """What holds a side, and whether water passes it.

    - wall: a wall that stands there already. Water does not pass it and collects along it. The dig stops at it. It is
      neither built nor priced. Whether it was built to hold ground back is not known: where ground behind it lies
      lower, that is asked.
    - kerb: a kerb on concrete, standing above the paving. Water does not pass it and runs along it to its low end. It
      holds back a drop of about 150 mm.
    - edging: an edging flush with the paving, on concrete. Water passes over it. It holds back about 75 mm.
    - haunch: concrete against the outer units, below their surface. Water passes over it. It holds back about 75 mm.
    - retaining: a new low wall, flush with the paving, on a footing. Water passes over it. It holds back up to 600 mm
      under feet; it is measured and priced.
    - engineered: a wall that an engineer has designed, flush with the paving. Water passes over it. Its price is
      your own.
    - existing: paving or an edge that is there already and stays. Water passes over it. The dig stops at it.
    - none: nothing. Water passes over it.
    """

    WALL = "wall"
    HAUNCH = "haunch"
    EDGING = "edging"
    KERB = "kerb"
    RETAINING = "retaining"
    ENGINEERED = "engineered"
    EXISTING = "existing"
    NONE = "none"


class EdgeSide(Part):
    """What holds one side, named by the corner from which the side leaves."""

    corner: Name = Field(
        description="Corner from which the side leaves, in the order in which the outline is written; an outline written "
        "the other way round makes it another side."
    )
    to: Name | None = Field(
        None, description="Corner at which the side ends; given, it is checked, and a turned outline is refused."
    )
    restraint: EdgeRestraint
    freedom_mm: Annotated[NonNegativeLength, Field(le=1000.0)] = Field(
        0.0,
        description="How far the side may be moved out or in, where that saves cuts; the search shows how much. [mm]",
    )
