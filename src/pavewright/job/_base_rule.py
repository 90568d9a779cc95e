"""Whose rule gives what lies under a bed."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Name, Part, Text, Thickness, Topsoil


class BaseRule(StrEnum):
    """Whose rule gives what lies under the bed: the rulebook's own, or another that is published."""

    OWN = "own"
    BLOCKS = "blocks"
    BLOCKS_FROST = "blocks_frost"
    SLABS = "slabs"
    SHARED_SURFACE = "shared_surface"
    ROAD_1984 = "road_1984"
    ROAD_1984_CAPPED = "road_1984_capped"
    MILLION_AXLES = "million_axles"
    CONCRETE_DRIVE = "concrete_drive"
    DESIGNED = "designed"
    PERMEABLE = "permeable"


class BaseDesign(Part):
    """What lies under the bed of an area as an engineer, or the maker of the units, has designed it for this ground."""

    by: Name | None = Field(None, description="Who designed it; without it nothing is designed.")
    on: dt.date | None = Field(None, description="Date of the design.")
    concrete_mm: Thickness | None = Field(
        None, description="Concrete base under a mortar bed; left out, the rulebook's own holds. [mm]"
    )
    sub_base_mm: Topsoil | None = Field(
        None, description="Sub-base of graded stone, zero where there is none; without it nothing is designed. [mm]"
    )
    capping_mm: Topsoil = Field(0.0, description="Capping of coarse stone under it. [mm]")
    note: Text = ""

    @property
    def is_whole(self) -> bool:
        """Whether it says who designed it and how thick the stone is: half a design designs nothing."""
        return self.by is not None and self.sub_base_mm is not None


class PermeableBase(Part):
    """What has to be known of an area before water may go through it into the ground."""

    stone_mm: Topsoil | None = Field(
        None,
        description="Open stone under the grit, where it is thicker than the rule takes for bearing: for the rain that it "
        "stores. [mm]",
    )
    infiltration_m_per_s: Annotated[float, Field(gt=0.0, le=0.1)] | None = Field(
        None,
        description="Infiltration rate, the slowest of the tests of a pit dug to formation under this area; a test elsewhere "
        "does not answer it. [m/s]",
    )
    sealed_m2: Annotated[float, Field(ge=0.0, le=100_000.0)] | None = Field(
        None,
        description="Roofs and sealed ground outside the plan that drain on to this area, zero where there are none; paving "
        "of the plan that does is counted by itself. [m2]",
    )
    lets_through: bool | None = Field(
        None, description="Whether the maker says that the units with their joints let the rain through."
    )
