"""What lies under a bed by rules that are published: each apart, as its source prints it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, assert_never

from pavewright.job import BaseRule, Bedding, UnitKind, Use
from pavewright.rules import read_figures

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import BaseDesign
    from pavewright.rules import Figure, Rulebook, Table


class BasePart(StrEnum):
    """A layer of which a rule speaks, from the top down."""

    CONCRETE = "concrete"
    SUB_BASE = "sub_base"
    CAPPING = "capping"


@dataclass(frozen=True, slots=True)
class RuledLayer:
    """A layer as a rule has it.

    Attributes:
        part: Which layer it is.
        thickness_mm: How thick it is. [mm]
        decided_by: Figures that it comes from, the main one first; nothing for a design of this job.
        rule: The rule that it comes from.
    """

    part: BasePart
    thickness_mm: float
    decided_by: tuple[Figure, ...]
    rule: BaseRule

    @property
    def is_for_storage(self) -> bool:
        """Whether it is thicker than it has to be to bear, for the rain that it stores."""
        return self.rule is BaseRule.PERMEABLE and self.thickness_mm > sum(each.value for each in self.decided_by)


@dataclass(frozen=True, slots=True)
class PublishedFigures:
    """Figures of published rules beside the rulebook's own.

    Attributes:
        shared_surface_mm: Capping and sub-base of a residential road with a shared surface, by bearing ratio.
        road_1984_mm: Sub-base of a road alone, or over capping, by bearing ratio.
        block_base_mm: Base under blocks by use.
        block_base_frost_mm: The same where the ground freezes and thaws.
        slab_base_mm: Sub-base under slabs that are walked on, by bearing ratio.
        million_axles_weak_mm: Sub-base for a million axles at the weak end.
        million_axles_weaker_mm: More under that.
        million_axles_firm_mm: Sub-base on firm ground.
        million_axles_weak_cbr_percent: The weak end.
        million_axles_firm_cbr_percent: Over this the ground is firm.
        million_axles_none_cbr_percent: Over this no sub-base is needed.
        concrete_drive_mm: Plain concrete of a drive.
        permeable_sub_base_mm: Open stone under permeable paving on ground that bears.
        permeable_addition_mm: More of it on weaker ground, by bearing ratio.
    """

    shared_surface_mm: Table
    road_1984_mm: Table
    block_base_mm: Table
    block_base_frost_mm: Table
    slab_base_mm: Table
    million_axles_weak_mm: Figure
    million_axles_weaker_mm: Figure
    million_axles_firm_mm: Figure
    million_axles_weak_cbr_percent: Figure
    million_axles_firm_cbr_percent: Figure
    million_axles_none_cbr_percent: Figure
    concrete_drive_mm: Figure
    permeable_sub_base_mm: Figure
    permeable_addition_mm: Table


@dataclass(frozen=True, slots=True)
class BaseCase:
    """What a rule for the base goes by.

    Attributes:
        use: What runs on the paving.
        bedding: How its units are carried.
        kind: Kind of its units.
        cbr_percent: Bearing ratio of the ground. [%]
        design: What is designed for this ground, where there is a design.
        stone_mm: Open stone of permeable paving as entered, for the rain that it stores; zero where none is. [mm]
    """

    use: Use
    bedding: Bedding
    kind: UnitKind
    cbr_percent: float
    design: BaseDesign | None = None
    stone_mm: float = 0.0


_TABLES = (
    "shared_surface_mm",
    "road_1984_mm",
    "block_base_mm",
    "block_base_frost_mm",
    "slab_base_mm",
    "permeable_addition_mm",
)
_WHEELS = (BaseRule.SHARED_SURFACE, BaseRule.ROAD_1984, BaseRule.ROAD_1984_CAPPED, BaseRule.MILLION_AXLES)


def published_figures(rules: Rulebook) -> PublishedFigures:
    """Return the figures of published rules from an edition."""
    tables = {name: rules.table(f"buildup.{name}") for name in _TABLES}
    return read_figures(PublishedFigures, rules, "buildup", **tables)


def rules_that_speak(case: BaseCase) -> tuple[BaseRule, ...]:
    """Return the rules that speak of a use, a bed and a kind of unit, a design first, the rulebook's own left out."""
    designed = () if case.design is None or not case.design.is_whole else (BaseRule.DESIGNED,)
    return (*designed, *_published(case))


def _published(case: BaseCase) -> tuple[BaseRule, ...]:
    match case.bedding:
        case Bedding.SAND_ON_SUB_BASE:
            blocks = (BaseRule.BLOCKS, BaseRule.BLOCKS_FROST, BaseRule.PERMEABLE) if case.kind is UnitKind.BLOCK else ()
            slabs = (BaseRule.SLABS,) if case.kind is UnitKind.FLAG and case.use is Use.FOOT else ()
            return (*blocks, *slabs, *(() if case.use is Use.FOOT else _WHEELS))
        case Bedding.MORTAR_ON_CONCRETE:
            return (BaseRule.CONCRETE_DRIVE,) if case.use is Use.CAR else ()
        case Bedding.MORTAR_ON_SUB_BASE:
            return (BaseRule.SLABS,) if case.kind is UnitKind.FLAG and case.use is Use.FOOT else ()
        case _ as never:
            assert_never(never)


def ruled_layers(rule: BaseRule, case: BaseCase, known: PublishedFigures) -> tuple[RuledLayer, ...] | None:
    """Return the layers that a published rule gives; None where it says nothing of this case.

    Args:
        rule: The rule; of the rulebook's own nothing is said here.
        case: What it goes by.
        known: Figures of published rules.
    """
    if rule not in rules_that_speak(case):
        return None
    if case.design is not None and rule is BaseRule.DESIGNED:
        return _designed(case.design, case.bedding)
    if rule is BaseRule.MILLION_AXLES:
        return _million_axles(case.cbr_percent, known)
    if rule is BaseRule.PERMEABLE:
        return _permeable(case, known)
    if rule is BaseRule.CONCRETE_DRIVE:
        return (_layer(rule, BasePart.CONCRETE, known.concrete_drive_mm),)
    table, columns = {
        BaseRule.BLOCKS: (known.block_base_mm, ("thickness_mm",)),
        BaseRule.BLOCKS_FROST: (known.block_base_frost_mm, ("thickness_mm",)),
        BaseRule.SLABS: (known.slab_base_mm, ("thickness_mm",)),
        BaseRule.SHARED_SURFACE: (known.shared_surface_mm, ("sub_base_mm", "capping_mm")),
        BaseRule.ROAD_1984: (known.road_1984_mm, ("alone_mm",)),
        BaseRule.ROAD_1984_CAPPED: (known.road_1984_mm, ("sub_base_mm", "capping_mm")),
    }[rule]
    row = _by_use(case.use, table) if rule in _BY_USE else _by_ratio(case.cbr_percent, table)
    return None if row is None else tuple(_layer(rule, _PART_OF[each], table.figure(row, each)) for each in columns)


_BY_USE = frozenset({BaseRule.BLOCKS, BaseRule.BLOCKS_FROST})
_PART_OF = {
    "thickness_mm": BasePart.SUB_BASE,
    "sub_base_mm": BasePart.SUB_BASE,
    "alone_mm": BasePart.SUB_BASE,
    "capping_mm": BasePart.CAPPING,
}


def road_step(cbr: float, from_percent: Sequence[float], more_than: Sequence[float]) -> int:
    """Return which step of a road table holds for a bearing ratio: one between two steps is rounded down.

    Args:
        cbr: Bearing ratio. [%]
        from_percent: Where each step begins, the weakest ground first. [%]
        more_than: One for a step that begins only past that, zero for one that holds there as well. [-]

    Source: leics_design_guide, table 34 and text
    """
    holds = [
        number
        for number, (start, past) in enumerate(zip(from_percent, more_than, strict=True))
        if (cbr > start if past else cbr >= start)
    ]
    return max(holds, default=0)


def million_axles_mm(
    cbr: float, sizes_mm: tuple[float, float, float], ratios_percent: tuple[float, float, float]
) -> float | None:
    """Return the sub-base of a road for a million standard axles; None between the grounds that are printed. [mm].

    Args:
        cbr: Bearing ratio. [%]
        sizes_mm: At the weak end, more under that, and on firm ground. [mm]
        ratios_percent: The weak end, over what the ground is firm, and over what no sub-base is needed. [%]

    Source: highway_engineering_textbook, page 230, step 4
    """
    (weak, weaker, firm), (weak_cbr, firm_cbr, none_cbr) = sizes_mm, ratios_percent
    if cbr <= weak_cbr:
        return weak if cbr == weak_cbr else weak + weaker
    if cbr > none_cbr:
        return 0.0
    return firm if cbr > firm_cbr else None


def _layer(rule: BaseRule, part: BasePart, figure: Figure) -> RuledLayer:
    return RuledLayer(part, figure.value, (figure,), rule)


def _designed(design: BaseDesign, bedding: Bedding) -> tuple[RuledLayer, ...]:
    """Return the layers of a design; stone of zero is a layer that is left out."""
    thick = {BasePart.SUB_BASE: design.sub_base_mm or 0.0, BasePart.CAPPING: design.capping_mm}
    if bedding is Bedding.MORTAR_ON_CONCRETE and design.concrete_mm is not None:
        thick = {BasePart.CONCRETE: design.concrete_mm, **thick}
    return tuple(RuledLayer(part, size, (), BaseRule.DESIGNED) for part, size in thick.items())


def open_stone_mm(bearing_mm: float, addition_mm: float, stored_mm: float) -> float:
    """Return the open stone of permeable paving: the thicker of what bears and what stores. [mm].

    Args:
        bearing_mm: What the rule takes on ground that bears. [mm]
        addition_mm: More of it on weaker ground. [mm]
        stored_mm: What the rain asks for. [mm]

    Source: definition, the larger of the two
    """
    return max(bearing_mm + addition_mm, stored_mm)


def _permeable(case: BaseCase, known: PublishedFigures) -> tuple[RuledLayer, ...] | None:
    """Return the open stone; nothing is said of ground that is weaker than the additions go."""
    table = known.permeable_addition_mm
    if case.cbr_percent < min(row.value("from_cbr_percent") for row in table.rows):
        return None
    more, bearing = table.figure(_by_ratio(case.cbr_percent, table), "addition_mm"), known.permeable_sub_base_mm
    thick = open_stone_mm(bearing.value, more.value, case.stone_mm)
    return (RuledLayer(BasePart.SUB_BASE, thick, (bearing, more), BaseRule.PERMEABLE),)


def _by_use(use: Use, table: Table) -> str | None:
    return use.value if use.value in {row.key for row in table.rows} else None


def _by_ratio(cbr: float, table: Table) -> str:
    starts = [row.value("from_cbr_percent") for row in table.rows]
    return table.rows[road_step(cbr, starts, [row.value("more_than") for row in table.rows])].key


def _million_axles(cbr: float, known: PublishedFigures) -> tuple[RuledLayer, ...] | None:
    sizes = known.million_axles_weak_mm, known.million_axles_weaker_mm, known.million_axles_firm_mm
    ratios = (
        known.million_axles_weak_cbr_percent,
        known.million_axles_firm_cbr_percent,
        known.million_axles_none_cbr_percent,
    )
    (weak, weaker, firm), (at, over, none) = sizes, ratios
    found = million_axles_mm(cbr, (weak.value, weaker.value, firm.value), (at.value, over.value, none.value))
    if found is None:
        return None
    used = (firm, over, none) if cbr > over.value else (weak, weaker, at)
    return (RuledLayer(BasePart.SUB_BASE, found, used, BaseRule.MILLION_AXLES),)
