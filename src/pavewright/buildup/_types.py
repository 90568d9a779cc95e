"""What the build-up room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.buildup._edge_types import EdgeSection
    from pavewright.findings import Finding
    from pavewright.geometry import XY, FoldedSurface, Shape
    from pavewright.job import EdgeRestraint
    from pavewright.rules import Figure
    from pavewright.sums import Working


class LayerKey(StrEnum):
    """Which layer it is, from the top down."""

    UNIT = "unit"
    BED = "bed"
    BASE = "base"
    SUB_BASE = "sub_base"
    CAPPING = "capping"
    GEOTEXTILE = "geotextile"

    @property
    def words(self) -> str:
        """Its name for a person."""
        return "sub-base" if self is LayerKey.SUB_BASE else self.value


class LayerMaterial(StrEnum):
    """What a layer is made of."""

    UNIT = "unit"
    MORTAR = "mortar_1_6"
    CONCRETE = "concrete_ballast_1_6"
    STONE = "sub_base"
    CAPPING = "capping"
    OPEN_STONE = "open_stone"
    GRIT = "grit"
    SAND = "sharp_sand"
    GEOTEXTILE = "geotextile"


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of the build-up.

    Attributes:
        key: Which layer it is.
        name: Its name in the trade's words.
        thickness_mm: Thickness when compacted or set. [mm]
        material: What it is made of.
        extends_mm: How far it runs past the edge of the paving where nothing stands in the way. [mm]
        decided_by: Figures that decided thickness and extent.
        why: The rule in words.
    """

    key: LayerKey
    name: str
    thickness_mm: float
    material: LayerMaterial
    extends_mm: float
    decided_by: tuple[Figure, ...]
    why: str


@dataclass(frozen=True)
class AreaBuildUp:
    """The build-up of one area.

    Attributes:
        area: Name of the area.
        layers: From the top down.
        total_mm: Total thickness. [mm]
        formation: The formation: the finished surface lowered by the total. [mm]
        base_shape: The paving with its base past free edges: where the layers lie.
        dig_shape: Plan shape that is dug to formation: that, and kerbs and edgings with their haunch.
        strip_shape: Where the topsoil goes: what is dug, and room to work beside free edges.
        cbr_percent: Bearing ratio that was used; None where unbound layers do not depend on it. [%]
        workings: The sums behind thickness and depth.
        edges: Sections of what is built to hold its sides, one of each kind.
        edge_trench_m3: Dug below formation for the beds of kerbs and edgings, in the ground. [m³]
    """

    area: str
    layers: tuple[Layer, ...]
    total_mm: float
    formation: FoldedSurface
    base_shape: Shape
    dig_shape: Shape
    strip_shape: Shape
    cbr_percent: float | None
    workings: tuple[Working, ...]
    edges: tuple[EdgeSection, ...] = ()
    edge_trench_m3: float = 0.0

    @property
    def is_permeable(self) -> bool:
        """Whether water goes through it into the ground: it is built on open stone."""
        return any(layer.material is LayerMaterial.OPEN_STONE for layer in self.layers)

    def top_of(self, key: LayerKey) -> float:
        """Return how far the top of a layer lies below the finished surface. [mm].

        Raises:
            KeyError: no such layer.
        """
        depth = 0.0
        for layer in self.layers:
            if layer.key == key:
                return depth
            depth += layer.thickness_mm
        raise KeyError(key)

    def edge(self, restraint: EdgeRestraint) -> EdgeSection:
        """Return the section of what is built to hold its sides, of one kind."""
        return next(each for each in self.edges if each.restraint is restraint)


class Beyond(StrEnum):
    """What lies below an edge."""

    GROUND = "ground"
    AREA = "area"
    BEHIND_WALL = "behind_wall"


class Remedy(StrEnum):
    """What holds back a drop: nothing more than is there, a kerb, a low wall, an engineer's wall; or a guard only."""

    KERB = "kerb"
    LOW_WALL = "low_wall"
    ENGINEER = "engineer"
    GUARD = "guard"


@dataclass(frozen=True, slots=True)
class LowWall:
    """A low wall that retains, by its section.

    Attributes:
        thickness_mm: Of the wall. [mm]
        footing_width_mm: [mm]
        footing_depth_mm: [mm]
        below_ground_mm: Top of the footing below the lower ground. [mm]
        face_m2: Face from the footing to the paving. [m²]
        footing_m3: Concrete. [m³]
        trench_m3: Dug for the footing, in the ground. [m³]
        drain_stone_m3: Clean stone behind it. [m³]
        decided_by: Figures that decided.
    """

    thickness_mm: float
    footing_width_mm: float
    footing_depth_mm: float
    below_ground_mm: float
    face_m2: float
    footing_m3: float
    trench_m3: float
    drain_stone_m3: float
    decided_by: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class RetainedEdge:
    """A stretch of a side that stands higher over what lies beyond than its restraint holds back.

    Attributes:
        area: Name of the area above.
        side: Name of the side.
        corner: Corner from which it leaves in the job document.
        restraint: What holds the side as entered.
        beyond: What lies below.
        other: Name of the area or the wall beyond; empty for the ground.
        length_mm: [mm]
        drop_mm: Greatest drop along it. [mm]
        mean_drop_mm: Mean drop along it. [mm]
        limit_mm: What the restraint holds back. [mm]
        surcharge: Whether vehicles stand above it.
        remedy: What it takes.
        wall: Its section and quantities where a low wall does.
        guarded_mm: Length along which the drop is high enough to hurt. [mm]
        at_mm: Its middle in plan.
        fall_mm: Greatest drop as far beyond as a guard looks. [mm]
    """

    area: str
    side: str
    corner: str
    restraint: EdgeRestraint
    beyond: Beyond
    other: str
    length_mm: float
    drop_mm: float
    mean_drop_mm: float
    limit_mm: float
    surcharge: bool
    remedy: Remedy
    wall: LowWall | None
    guarded_mm: float
    at_mm: XY
    fall_mm: float


class OpenKind(StrEnum):
    """What is open beyond an edge: a bank that stands over the paving, or ground of which nobody read the level."""

    BANK_ABOVE = "bank_above"
    GROUND_UNKNOWN = "ground_unknown"


@dataclass(frozen=True, slots=True)
class OpenEdge:
    """A side beyond which something is open that no price holds.

    Attributes:
        kind: What is open.
        area: Name of the area.
        side: Name of the side.
        length_mm: Along which it is open. [mm]
        stands_mm: How high the ground stands over the paving; None where that is not known. [mm]
        at_mm: Where in plan; None where the whole side is meant.
    """

    kind: OpenKind
    area: str
    side: str
    length_mm: float
    stands_mm: float | None
    at_mm: XY | None = None


@dataclass(frozen=True)
class BuildUps:
    """The build-up of all areas.

    Attributes:
        areas: By area.
        findings: What was noticed.
        retained: Stretches of edge that stand higher than their restraint holds back.
        open_edges: Sides beyond which something is open that is not in the price.
    """

    areas: tuple[AreaBuildUp, ...]
    findings: tuple[Finding, ...]
    retained: tuple[RetainedEdge, ...] = ()
    open_edges: tuple[OpenEdge, ...] = ()

    def area(self, name: str) -> AreaBuildUp:
        """Return the build-up of an area."""
        return next(area for area in self.areas if area.area == name)
