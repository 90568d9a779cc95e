"""What is noticed about ground, use and unit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.buildup import _words as words
from pavewright.buildup._base_rules import ruled_layers
from pavewright.buildup._codes import Code
from pavewright.buildup._layers import base_parts, case_of, own_parts
from pavewright.findings import Finding, Severity
from pavewright.job import BaseRule, Bedding, Soil, Use, WaterTable

if TYPE_CHECKING:
    from pavewright.buildup._figures import LayerFigures, UnitFigures
    from pavewright.buildup._words import Said
    from pavewright.job import Area, Ground, PavingUnit
    from pavewright.rules import Figure


def ground_findings(
    ground: Ground, cbr: float, from_soil: Figure | None, known: UnitFigures, *, vehicles: bool
) -> tuple[Finding, ...]:
    """Return findings on the ground of the whole site.

    Args:
        ground: The ground as entered.
        cbr: Its bearing ratio. [%]
        from_soil: The figure that gives it by the soil; None where it was measured.
        known: Figures of this room.
        vehicles: Whether wheels run anywhere on the site on a base that nobody designed.
    """
    found, limit = [], known.design_from_cbr
    if ground.soil is Soil.UNKNOWN and from_soil is not None:
        said, options = words.soil_unknown()
        found.append(Finding(Code.SOIL_UNKNOWN, Severity.CHECK, "ground", said, figure=from_soil, options=options))
    if cbr < limit.value:
        severity = Severity.STOP if vehicles else Severity.CHECK
        found.append(_measured(Code.GROUND_TOO_WEAK, severity, "ground", words.ground_too_weak(cbr, limit), cbr, limit))
    if ground.soil in {Soil.HEAVY_CLAY, Soil.SILTY_CLAY}:
        found.append(_plain(Code.CLAY_MOVES, Severity.NOTE, "ground", words.clay_moves()))
    if ground.water_table is WaterTable.HIGH:
        found.append(_plain(Code.WATER_TABLE_HIGH, Severity.CHECK, "ground", words.water_table_high()))
    return tuple(found)


def area_findings(area: Area, unit: PavingUnit, known: UnitFigures) -> tuple[Finding, ...]:
    """Return findings where unit, bed and use do not go together."""
    place = f"area {area.name}"
    if area.laying.bedding is Bedding.SAND_ON_SUB_BASE:
        return _on_sand(area, unit, place, known)
    found = []
    if area.use is not Use.FOOT and area.laying.bedding is Bedding.MORTAR_ON_SUB_BASE:
        found.append(_plain(Code.RIGID_ON_UNBOUND, Severity.STOP, place, words.rigid_on_unbound(area.name)))
    if unit.low_absorption:
        found.append(_plain(Code.BOND_COAT, Severity.NOTE, place, words.bond_coat(unit.name)))
    return tuple(found)


def rule_findings(area: Area, unit: PavingUnit, cbr: float, known: LayerFigures) -> tuple[Finding, ...]:
    """Return what is noticed where another rule than the rulebook's own is chosen for what lies under the bed.

    Args:
        area: The area.
        unit: What it is paved with.
        cbr: Bearing ratio of the ground. [%]
        known: Figures of layers.
    """
    place, case = f"area {area.name}", case_of(area, unit, cbr)
    if area.base_rule is BaseRule.OWN:
        return ()
    if ruled_layers(area.base_rule, case, known.published) is None:
        return (_plain(Code.BASE_RULE_SILENT, Severity.CHECK, place, words.base_rule_silent(area.name)),)
    if area.base_rule is BaseRule.DESIGNED:
        return ()
    if area.base_rule is BaseRule.PERMEABLE:
        return _open_stone(area, cbr, place, known)
    own = own_parts(case, known)
    has = sum(each.thickness_mm for each in base_parts(area.base_rule, case, known))
    wanted = sum(each.thickness_mm for each in own)
    if has >= wanted:
        return ()
    said, figure = words.base_thinner(area.name, has, wanted), own[0].decided_by[0]
    return (Finding(Code.BASE_THINNER, Severity.CHECK, place, said[0], has, wanted, "mm", figure, options=said[1]),)


def _open_stone(area: Area, cbr: float, place: str, known: LayerFigures) -> tuple[Finding, ...]:
    """Return what is to be said of the open stone of permeable paving: its thickness stands on memory."""
    figure, limit = known.published.permeable_sub_base_mm, known.permeable_from
    said, options = words.permeable_from_memory(area.name, figure)
    found = [Finding(Code.PERMEABLE_FROM_MEMORY, Severity.CHECK, place, said, figure=figure, options=options)]
    if cbr < limit.value:
        weak = words.permeable_weak(area.name, cbr, limit)
        found.append(_measured(Code.PERMEABLE_WEAK, Severity.CHECK, place, weak, cbr, limit))
    return tuple(found)


def _on_sand(area: Area, unit: PavingUnit, place: str, known: UnitFigures) -> tuple[Finding, ...]:
    """Return findings on units over a loose bed: too thin for wheels, too large, too thin at all."""
    thin, large, stone = known.block_for_vehicles, known.largest_for_vehicles, known.stone_on_sand
    thick, longest = unit.thickness_mm, max(unit.length_mm, unit.width_mm)
    vehicles = area.use is not Use.FOOT
    found = []
    if vehicles and thick < thin.value:
        said = words.unit_too_thin(unit.name, thick, thin)
        found.append(_measured(Code.UNIT_TOO_THIN, Severity.STOP, place, said, thick, thin))
    if vehicles and longest > large.value:
        said = words.unit_too_large(unit.name, longest)
        found.append(_measured(Code.UNIT_TOO_LARGE, Severity.CHECK, place, said, longest, large))
    if thick < stone.value:
        said = words.too_thin_for_sand(unit.name, thick, stone)
        found.append(_measured(Code.TOO_THIN_FOR_SAND, Severity.CHECK, place, said, thick, stone))
    return tuple(found)


def opening_findings(area: Area) -> tuple[Finding, ...]:
    """Return what is not known of the edges round openings of an area: nothing is said of them by the document."""
    if not area.holes:
        return ()
    on_sand = area.laying.bedding is Bedding.SAND_ON_SUB_BASE
    said = words.opening_edges_unknown(area.name, len(area.holes), on_sand=on_sand)
    return (_plain(Code.OPENING_EDGES_UNKNOWN, Severity.CHECK, f"area {area.name}", said),)


def _plain(code: Code, severity: Severity, place: str, said: Said) -> Finding:
    return Finding(code, severity, place, said[0], options=said[1])


def _measured(code: Code, severity: Severity, place: str, said: Said, value: float, limit: Figure) -> Finding:
    """Return a finding on a value that passes a figure, in the figure's unit."""
    return Finding(code, severity, place, said[0], value, limit.value, limit.unit, limit, options=said[1])
