"""The figures of the build-up, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, TypeAlias

from pavewright.buildup._base_rules import published_figures
from pavewright.job import EdgeRestraint, Soil, Use

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.buildup._base_rules import PublishedFigures
    from pavewright.rules import Figure, Rulebook, Table


@dataclass(frozen=True, slots=True)
class WallSection:
    """A low wall up to a height.

    Attributes:
        height_mm: Greatest height that it serves. [mm]
        thickness: Of the wall.
        footing_width_mm: [mm]
        footing_depth_mm: [mm]
    """

    height_mm: float
    thickness: Figure
    footing_width_mm: float
    footing_depth_mm: float


@dataclass(frozen=True, slots=True)
class LayerFigures:
    """What decides the layers.

    Attributes:
        cbr: Bearing ratio of each soil where none was measured.
        soft_below: Ground below this bearing ratio is soft.
        mortar_bed: Mortar bed on a concrete base.
        mortar_bed_on_stone: Mortar bed over an unbound sub-base.
        sand_bed: Laying course of sand.
        permeable_bed: Grit under permeable paving.
        permeable_from: Bearing ratio from which the usual detail of permeable paving holds.
        concrete: Concrete base by use.
        under_concrete: Sub-base under it by use.
        stone_firm: Sub-base on firm ground by use.
        stone_soft: Sub-base on soft ground by use.
        concrete_past: Concrete past a free edge.
        stone_past: Sub-base past a free edge.
        published: Figures of published rules beside the rulebook's own.
    """

    cbr: Mapping[Soil, Figure]
    soft_below: Figure
    mortar_bed: Figure
    mortar_bed_on_stone: Figure
    sand_bed: Figure
    permeable_bed: Figure
    permeable_from: Figure
    concrete: Mapping[Use, Figure]
    under_concrete: Mapping[Use, Figure]
    stone_firm: Mapping[Use, Figure]
    stone_soft: Mapping[Use, Figure]
    concrete_past: Figure
    stone_past: Figure
    published: PublishedFigures


class EdgePart(StrEnum):
    """A part of what holds a side."""

    UNIT = "unit"
    BED = "bed"
    BACK = "back"
    FRONT = "front"


@dataclass(frozen=True, slots=True)
class PartFigures:
    """Sizes of a part of what holds a side.

    Attributes:
        width: At its foot.
        top: Width at its top; None where it is upright.
        height: Height, or thickness of a bed.
    """

    width: Figure
    top: Figure | None
    height: Figure


EdgeParts: TypeAlias = "Mapping[EdgePart, PartFigures]"
"""The parts of one kind of edge."""


@dataclass(frozen=True, slots=True)
class EdgeFigures:
    """What decides what holds an edge.

    Attributes:
        meets_mm: A wall, a channel or paving this near to a side stands at it. [mm]
        sections: Sizes of what is built to hold a side: its unit, bed and haunches, where it has them.
        kerb_upstand: How far a kerb stands over the paving.
        haunch_top_share: Top of a haunch below the paving, as a part of the thickness of the unit.
        held_on_loose_bed: Part of the edge of paving on a loose bed that is held.
        retains: Drop that what holds a side holds back, where it is known.
        look_past_mm: The ground is looked at so far from the edge. [mm]
        known_within: So far past the outermost spot levels the ground is known.
        engineer_above: Above this height an engineer designs what retains.
        guard_drop: Beside a deeper drop people are guarded.
        guard_within_mm: How far from the edge a drop that needs a guard is looked for. [mm]
        guard_height: Lowest guard.
        guard_gap: A ball as large does not pass through a guard.
        walls: Low walls, the lowest first.
        wall_below_ground: Top of a footing below the lower ground.
        drain_behind: Clean stone behind a wall.
    """

    meets_mm: float
    sections: Mapping[EdgeRestraint, EdgeParts]
    kerb_upstand: Figure
    haunch_top_share: Figure
    held_on_loose_bed: Figure
    retains: Mapping[EdgeRestraint, Figure]
    look_past_mm: float
    known_within: Figure
    engineer_above: Figure
    guard_drop: Figure
    guard_within_mm: float
    guard_height: Figure
    guard_gap: Figure
    walls: tuple[WallSection, ...]
    wall_below_ground: Figure
    drain_behind: Figure

    @property
    def kerb(self) -> Figure:
        """The drop that a kerb holds back."""
        return self.retains[EdgeRestraint.KERB]


@dataclass(frozen=True, slots=True)
class UnitFigures:
    """What unit, bed and ground have to keep to.

    Attributes:
        design_from_cbr: Below this bearing ratio the ground needs a design of its own.
        block_for_vehicles: Thinnest block on a drive.
        largest_for_vehicles: Largest unit on a sand bed under wheels.
        stone_on_sand: Thinnest unit on a loose bed.
    """

    design_from_cbr: Figure
    block_for_vehicles: Figure
    largest_for_vehicles: Figure
    stone_on_sand: Figure


@dataclass(frozen=True, slots=True)
class BuildUpFigures:
    """All figures of this room.

    Attributes:
        layers: Of layers.
        edges: Of edges.
        units: Of units, beds and ground.
        strip_past_mm: Topsoil goes so far past a free edge, for room to work. [mm]
    """

    layers: LayerFigures
    edges: EdgeFigures
    units: UnitFigures
    strip_past_mm: float


def figures(rules: Rulebook) -> BuildUpFigures:
    """Return the figures of this room from an edition."""
    units = UnitFigures(
        design_from_cbr=rules.figure("buildup.design_from_cbr_percent"),
        block_for_vehicles=rules.figure("buildup.block_for_vehicles_mm"),
        largest_for_vehicles=rules.figure("buildup.largest_unit_for_vehicles_mm"),
        stone_on_sand=rules.figure("buildup.stone_on_sand_mm"),
    )
    return BuildUpFigures(_layers(rules), _edges(rules), units, rules.value("buildup.strip_past_edge_mm"))


_BY_USE = ("concrete_base_mm", "under_concrete_mm", "sub_base_mm", "sub_base_on_soft_mm")


def _layers(rules: Rulebook) -> LayerFigures:
    by_use = {name: rules.table(f"buildup.{name}") for name in _BY_USE}
    concrete, under, firm, soft_ground = (
        {use: table.figure(use.value, "thickness_mm") for use in Use} for table in by_use.values()
    )
    cbr = rules.table("buildup.soil_cbr")
    return LayerFigures(
        cbr={soil: cbr.figure(soil.value, "cbr_percent") for soil in Soil},
        soft_below=rules.figure("buildup.soft_below_cbr_percent"),
        mortar_bed=rules.figure("buildup.mortar_bed_mm"),
        mortar_bed_on_stone=rules.figure("buildup.mortar_bed_on_sub_base_mm"),
        sand_bed=rules.figure("buildup.sand_bed_mm"),
        permeable_bed=rules.figure("buildup.permeable_bed_mm"),
        permeable_from=rules.figure("buildup.permeable_from_cbr_percent"),
        concrete=concrete,
        under_concrete=under,
        stone_firm=firm,
        stone_soft=soft_ground,
        concrete_past=rules.figure("buildup.base_extends_mm"),
        stone_past=rules.figure("buildup.sub_base_extends_mm"),
        published=published_figures(rules),
    )


def _sections(table: Table) -> dict[EdgeRestraint, EdgeParts]:
    """Return the parts of each kind of edge; a row is named by both."""
    rows = {row.key: dict(row.values) for row in table.rows}
    found: dict[EdgeRestraint, dict[EdgePart, PartFigures]] = {}
    for kind in BUILT:
        for part in EdgePart:
            key = f"{kind.value}_{part.value}"
            if key in rows:
                top = table.figure(key, "top_mm") if "top_mm" in rows[key] else None
                sizes = PartFigures(table.figure(key, "width_mm"), top, table.figure(key, "height_mm"))
                found.setdefault(kind, {})[part] = sizes
    return dict(found)


BUILT = (EdgeRestraint.KERB, EdgeRestraint.EDGING, EdgeRestraint.HAUNCH)
"""What the job builds to hold a side, a low wall apart."""


def _edges(rules: Rulebook) -> EdgeFigures:
    retains, walls = (rules.table(f"buildup.{key}") for key in ("edge_retains_mm", "low_wall"))
    return EdgeFigures(
        meets_mm=rules.value("levels.meets_within_mm"),
        sections=_sections(rules.table("buildup.edge_section_mm")),
        kerb_upstand=rules.figure("buildup.kerb_upstand_mm"),
        haunch_top_share=rules.figure("buildup.haunch_top_share"),
        held_on_loose_bed=rules.figure("buildup.restraint_on_loose_bed"),
        retains={EdgeRestraint(row.key): retains.figure(row.key, "drop_mm") for row in retains.rows},
        look_past_mm=rules.value("buildup.look_past_edge_mm"),
        known_within=rules.figure("buildup.ground_known_within_mm"),
        engineer_above=rules.figure("buildup.engineer_above_mm"),
        guard_drop=rules.figure("buildup.guard_drop_mm"),
        guard_within_mm=rules.value("buildup.guard_within_mm"),
        guard_height=rules.figure("buildup.guard_height_mm"),
        guard_gap=rules.figure("buildup.guard_gap_mm"),
        walls=tuple(
            WallSection(
                row.value("height_mm"),
                walls.figure(row.key, "thickness_mm"),
                row.value("footing_width_mm"),
                row.value("footing_depth_mm"),
            )
            for row in walls.rows
        ),
        wall_below_ground=rules.figure("buildup.wall_below_ground_mm"),
        drain_behind=rules.figure("buildup.drain_stone_behind_mm"),
    )
