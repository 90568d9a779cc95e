"""What lies underneath: soils, the water table, and how the dig is kept open."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Assumed, NonNegativeLength, Part, Text, Thickness, Topsoil


class Soil(StrEnum):
    """Classes of ground as a trial hole shows them."""

    HEAVY_CLAY = "heavy_clay"
    SILTY_CLAY = "silty_clay"
    SANDY_CLAY = "sandy_clay"
    SILT = "silt"
    SAND = "sand"
    GRAVEL = "gravel"
    MADE_GROUND = "made_ground"
    CHALK = "chalk"
    UNKNOWN = "unknown"


class WaterTable(StrEnum):
    """How ground water stands; unknown where nobody has looked."""

    HIGH = "high"
    LOW = "low"
    UNKNOWN = "unknown"


class Stratum(Part):
    """A layer of soil under the topsoil, as the trial hole shows it."""

    soil: Soil
    thickness_mm: Thickness | None = Field(None, description="How thick it is; the last reaches on down. [mm]")
    note: Text = ""


class Ground(Part):
    """What lies underneath."""

    soil: Soil = Soil.UNKNOWN
    assumed: Assumed | None = Field(
        None,
        description="Who takes soil and topsoil to be so, and why, where nobody dug a hole; soil that is assumed without a "
        "class counts as soft. Left out where a hole showed them, or where they are not known.",
    )
    cbr_percent: Annotated[float, Field(gt=0.0, le=100.0)] | None = Field(
        None, description="California bearing ratio where it was measured, lowest on the site. [%]"
    )
    topsoil_mm: Topsoil | None = Field(
        None,
        description="Depth of soil with roots, all of which is dug away; zero where there is none. Leave it out where "
        "nobody has looked: then it is asked for, and a provisional sum stands in the price. [mm]",
    )
    strata: tuple[Stratum, ...] = Field(
        (), max_length=10, description="Layers under the topsoil from above, where the trial hole shows several."
    )
    side_room_mm: NonNegativeLength = Field(
        0.0, description="Room to work dug beside free edges and filled again with the same soil. [mm]"
    )
    side_slope: Annotated[float, Field(ge=0.0, le=5.0)] = Field(
        0.0, description="Slope of the sides of the dig at free edges, run over depth; zero is upright. [-]"
    )
    reuse_as_fill: bool = Field(
        default=False,
        description="Whether subsoil that is dug fills where formation lies above the ground, instead of stone.",
    )
    stays_m3: Annotated[float, Field(ge=0.0, le=10_000.0)] = Field(
        0.0, description="Soil that stays on the site, as in a border or under a lawn, measured in the ground. [m³]"
    )
    water_table: WaterTable = Field(WaterTable.UNKNOWN, description="Whether ground water stands near the formation.")
    note: Text = ""

    @property
    def is_known(self) -> bool:
        """Whether a class of soil, its bearing or its layers were seen or assumed: a bed can be built on it."""
        return self.soil is not Soil.UNKNOWN or self.cbr_percent is not None or bool(self.strata or self.assumed)
