"""What the earthworks room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.job import Soil

if TYPE_CHECKING:
    from pavewright.buildup import LayerKey
    from pavewright.earthworks._types_found import FoundDig
    from pavewright.findings import Finding
    from pavewright.geometry import XY, PrismVolumes
    from pavewright.rules import Figure
    from pavewright.sums import Working


@dataclass(frozen=True, slots=True)
class Spread:
    """A quantity as a range: low, likely, high, in one unit.

    Attributes:
        low: Lower end. [unit of the quantity]
        likely: What is likely. [unit of the quantity]
        high: Upper end. [unit of the quantity]
    """

    low: float
    likely: float
    high: float


class Compactor(StrEnum):
    """Class of a vibrating plate by its mass over the area of its sole."""

    PLATE_HEAVY = "plate_heavy"
    PLATE_LIGHT = "plate_light"
    BELOW_TABLE = "below_table"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class FillLayers:
    """How fill, or a course of stone, is compacted.

    Attributes:
        depth_mm: Greatest depth of the fill, or thickness of the course. [mm]
        layer_mm: Thickest layer when compacted. [mm]
        layers: How many layers at the deepest place.
        passes: Passes of the plate over each layer; None where the plate is not known, or outside the table.
        plate: Class of the plate.
        decided_by: The figure that decided.
    """

    depth_mm: float
    layer_mm: float
    layers: int
    passes: int | None
    plate: Compactor
    decided_by: Figure


@dataclass(frozen=True, slots=True)
class LayerCompaction:
    """How a course of stone under an area is compacted.

    Attributes:
        area: Name of the area.
        layer: Which layer it is.
        layers: The layers in which it goes in, and the passes over each.
    """

    area: str
    layer: LayerKey
    layers: FillLayers


@dataclass(frozen=True, slots=True)
class TopsoilAllowance:
    """What topsoil of unknown depth adds to an area, provisional until somebody measures it.

    Attributes:
        area: Name of the area.
        depth_mm: Depth that may be expected. [mm]
        dig_m3: More to dig, in the ground. [m³]
        fill_m3: More to fill, compacted. [m³]
        figure: The range it is based on.
        working: The sum behind it.
    """

    area: str
    depth_mm: Spread
    dig_m3: Spread
    fill_m3: Spread
    figure: Figure
    working: Working


class ServiceState(StrEnum):
    """How a dig stands to a known service beside it, by what the records say of its depth."""

    MET = "met"
    BELOW_THE_DIG = "below_the_dig"
    NOT_KNOWN = "not_known"


@dataclass(frozen=True, slots=True)
class ServiceNear:
    """A known service that a dig comes near.

    Attributes:
        number: Its place among the services of the site, from 0.
        areas: Names of the areas whose dig comes near it.
        dig_mm: How deep that dig goes along the service at the most; None where the ground was not levelled. [mm]
        state: How the two stand to each other.
        at_mm: Where the dig is deepest along it.
    """

    number: int
    areas: tuple[str, ...]
    dig_mm: float | None
    state: ServiceState
    at_mm: XY


@dataclass(frozen=True, slots=True)
class RootsNear:
    """A tree into whose root area a dig goes.

    Attributes:
        number: Its place among the trees of the site, from 0.
        areas: Names of the areas whose dig goes there.
        away_mm: From the middle of the stem to the dig. [mm]
        reach_mm: Radius of the root area. [mm]
    """

    number: int
    areas: tuple[str, ...]
    away_mm: float
    reach_mm: float


class Dug(StrEnum):
    """What is dug: topsoil, which holds roots, or subsoil by its class."""

    TOPSOIL = "topsoil"
    HEAVY_CLAY = "heavy_clay"
    SILTY_CLAY = "silty_clay"
    SANDY_CLAY = "sandy_clay"
    SILT = "silt"
    SAND = "sand"
    GRAVEL = "gravel"
    MADE_GROUND = "made_ground"
    CHALK = "chalk"
    UNKNOWN = "unknown"

    @property
    def soil(self) -> Soil | None:
        """Its class; None for topsoil."""
        return None if self is Dug.TOPSOIL else Soil(self.value)

    @property
    def words(self) -> str:
        """Its name for a person."""
        return self.value.replace("_", " ")


@dataclass(frozen=True, slots=True)
class SoilDig:
    """What is dug of one soil.

    Attributes:
        soil: What it is.
        cut_m3: In the ground. [m³]
    """

    soil: Dug
    cut_m3: float


@dataclass(frozen=True, slots=True)
class ZoneDig:
    """Cut and fill under one zone of an area.

    Attributes:
        zone: Its name; empty for the rest of the area.
        cut_m3: [m³]
        fill_m3: [m³]
        dig_m2: Area that is dug. [m²]
    """

    zone: str
    cut_m3: float
    fill_m3: float
    dig_m2: float


@dataclass(frozen=True, slots=True)
class AreaDig:
    """Cut and fill of one area.

    Attributes:
        area: Name of the area.
        volumes: Cut and fill against the ground surface, in the ground.
        dig_m2: Area that is dug. [m²]
        beyond_m2: Part of it where the ground was run on past the outermost spot levels. [m²]
        mean_depth_mm: Net volume over area. [mm]
        workings: The sums behind it.
        soils: What is dug of each soil, from above.
        zones: Cut and fill by zone; empty where there are none.
        sides_m3: Dug beside free edges for room to work and sloped sides, and filled again. [m³]
        margin_m3: Topsoil taken off beside the dig for room to work, and put back. [m³]
        fill_depth_mm: Greatest depth of fill under formation, topsoil off. [mm]
        fill_layers: How that fill is compacted; None where there is none.
        topsoil: What topsoil of unknown depth may add; None where its depth is known or the dig goes below it.
    """

    area: str
    volumes: PrismVolumes
    dig_m2: float
    beyond_m2: float
    mean_depth_mm: float
    workings: tuple[Working, ...]
    soils: tuple[SoilDig, ...] = ()
    zones: tuple[ZoneDig, ...] = ()
    sides_m3: float = 0.0
    margin_m3: float = 0.0
    fill_depth_mm: float = 0.0
    fill_layers: FillLayers | None = None
    topsoil: TopsoilAllowance | None = None


@dataclass(frozen=True)
class Earthworks:
    """Cut, fill and what leaves the site.

    Attributes:
        areas: By area; empty where there is no ground surface.
        cut_m3: Total cut in the ground. [m³]
        fill_m3: Total fill, compacted. [m³]
        away_m3: What leaves, in the ground: cut less what is used again as fill. [m³]
        loose_m3: What leaves, loose, as a range of bulking. [m³]
        tonnes: Its mass as a range. [t]
        loads: Loads as a range, whole loads; None where no disposal is priced.
        load_kind: ``skip``, ``grab`` or ``tipper``; empty where none is priced.
        barrows: Barrows as a range.
        workings: The sums behind totals and loads.
        findings: What was noticed.
        soils: What is dug of each soil over all areas.
        reused_m3: Fill made of what is dug, compacted. [m³]
        loads_working: The sum behind the loads; None where no disposal is priced.
        provisional: What topsoil of unknown depth may add, by area; empty where its depth is known.
        provisional_loads: Loads that leave more because of it; None where there is none, or no disposal is priced.
        compaction: How every course of stone is compacted, area by area, from above.
        services_near: Known services that a dig comes near.
        roots_near: Trees into whose root area a dig goes.
        found: What the dig found that nobody knew, in the order of the job; counted in the totals above.
    """

    areas: tuple[AreaDig, ...]
    cut_m3: float
    fill_m3: float
    away_m3: float
    loose_m3: Spread
    tonnes: Spread
    loads: Spread | None
    load_kind: str
    barrows: Spread
    workings: tuple[Working, ...]
    findings: tuple[Finding, ...]
    soils: tuple[SoilDig, ...] = ()
    reused_m3: float = 0.0
    loads_working: Working | None = None
    provisional: tuple[TopsoilAllowance, ...] = ()
    provisional_loads: Spread | None = None
    compaction: tuple[LayerCompaction, ...] = ()
    services_near: tuple[ServiceNear, ...] = ()
    roots_near: tuple[RootsNear, ...] = ()
    found: tuple[FoundDig, ...] = ()

    def found_in(self, area: str) -> tuple[FoundDig, ...]:
        """Return what the dig of an area found."""
        return tuple(each for each in self.found if each.area == area)

    def compacted(self, area: str) -> tuple[LayerCompaction, ...]:
        """Return how the courses of stone of an area are compacted, from above."""
        return tuple(each for each in self.compaction if each.area == area)

    def area(self, name: str) -> AreaDig:
        """Return the dig of an area."""
        return next(area for area in self.areas if area.area == name)
