"""What holds the sides of an area."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Name, Part


class EdgeRestraint(StrEnum):
    """What holds a side, and whether water passes it.

    - wall: a wall that stands there already. Water does not pass it and collects along it. The dig stops at it. It is
      neither built nor priced, and whether it holds ground back is not checked.
    - kerb: a kerb on concrete, standing above the paving. Water does not pass it and runs along it to its low end.
    - edging: an edging flush with the paving, on concrete. Water passes over it.
    - haunch: concrete against the outer units, below their surface. Water passes over it.
    - existing: paving or an edge that is there already and stays. Water passes over it. The dig stops at it.
    - none: nothing. Water passes over it.
    """

    WALL = "wall"
    HAUNCH = "haunch"
    EDGING = "edging"
    KERB = "kerb"
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
    freedom_mm: Annotated[float, Field(ge=0.0, le=1000.0)] = Field(
        0.0, description="How far the side may be moved out or in, where that saves cuts; the search tells what. [mm]"
    )
