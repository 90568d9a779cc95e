"""What is noticed about where water runs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.job import OutfallKind, Position
from pavewright.water._ways import from_boundary, from_kerb, from_wall, to_nowhere

if TYPE_CHECKING:
    from pavewright.findings import Way
    from pavewright.job import Outfall
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey
    from pavewright.water._types import Catchment

_SOFT = {OutfallKind.BORDER, OutfallKind.LAWN, OutfallKind.SOAKAWAY}
_SEWERS = {OutfallKind.SURFACE_WATER_SEWER, OutfallKind.COMBINED_SEWER}


def catchment_findings(caught: tuple[Catchment, ...], survey: Survey, rules: Rulebook) -> list[Finding]:
    """Return findings for catchments whose water goes where it should not, or nowhere."""
    found = []
    houses = {wall.name for wall in survey.site.walls if wall.is_house}
    neighbours = {line.name: line.neighbour for line in survey.site.boundaries}
    for each in caught:
        if each.area_m2 < rules.value("water.least_area_m2"):
            continue
        told = _one(each, houses, neighbours, survey)
        if told is not None:
            found.append(told)
    return found


def _one(each: Catchment, houses: set[str], neighbours: dict[str, str], survey: Survey) -> Finding | None:
    """Return what is wrong with where one catchment drains, if anything is."""
    amount = f"{each.area_m2:.1f} m² of {each.area} ({each.flow_l_s:.2f} l/s)"
    if each.kind == "wall":
        house = each.to in houses
        words = f"{amount} run to wall {each.to}{' of the house' if house else ''} and have nowhere to go."
        ways = from_wall(each, survey)
        return _wrong(each, "water.to_wall", words, ways, Severity.STOP if house else Severity.CHECK)
    if each.kind == "kerb":
        words = f"{amount} collect along the kerb {each.to} and no gully stands at its low end."
        return _wrong(each, "water.held_by_kerb", words, from_kerb(each, survey))
    if each.kind == "boundary" and neighbours.get(each.to) != "own":
        who = "the road" if neighbours.get(each.to) == "highway" else "the neighbour"
        words = f"{amount} run over boundary {each.to} to {who}."
        return _wrong(each, "water.over_boundary", words, from_boundary(each, survey))
    if each.kind in {"free_edge", "channel", "gully"} and each.outfall is None:
        words = f"{amount} run to {each.kind.replace('_', ' ')} {each.to}, and no outfall is named for it."
        return _wrong(each, "water.no_outfall", words, to_nowhere(each, survey))
    return None


def _wrong(
    each: Catchment, code: str, words: str, ways: tuple[Way, ...], severity: Severity = Severity.STOP
) -> Finding:
    place = f"area {each.area}, {each.to}"
    return Finding(code, severity, place, words, each.flow_l_s, 0.0, "l/s", at_mm=each.at).with_ways(ways)


def outfall_findings(caught: tuple[Catchment, ...], survey: Survey, rules: Rulebook) -> list[Finding]:
    """Return findings on the outfalls that are used."""
    used = {each.outfall for each in caught if each.outfall is not None}
    found = []
    for outfall in survey.site.outfalls:
        if outfall.name in used:
            found.extend(_outfall(outfall, caught, survey, rules))
    return found


def _outfall(outfall: Outfall, caught: tuple[Catchment, ...], survey: Survey, rules: Rulebook) -> list[Finding]:
    place = f"outfall {outfall.name}"
    found = []
    if outfall.kind is OutfallKind.UNKNOWN:
        words = (
            f"Nobody knows where {outfall.name} goes. A drain that leads nowhere floods the paving: pour water and "
            "look."
        )
        found.append(Finding("water.outfall_unknown", Severity.STOP, place, words))
    elif not outfall.confirmed:
        words = f"Nobody has seen water run away at {outfall.name}: pour a bucket and look before laying."
        found.append(Finding("water.outfall_unseen", Severity.CHECK, place, words))
    low = _lowest_inlet(outfall, caught, survey)
    if low is not None and outfall.invert_level_mm is not None and outfall.invert_level_mm >= low[1]:
        words = (
            f"{outfall.name} takes water at {units.metres_text(outfall.invert_level_mm)}; {low[0]} lets it out at "
            f"{units.metres_text(low[1])}, which is lower: water would have to run uphill."
        )
        ways = ("Raise the outlet, or find a lower outfall.", "Lay the paving higher, if the damp-proof course allows.")
        found.append(
            Finding(
                "water.outfall_too_high",
                Severity.STOP,
                place,
                words,
                outfall.invert_level_mm,
                low[1],
                "mm",
                ways_out=ways,
            )
        )
    if outfall.kind is OutfallKind.SOAKAWAY and (outfall.soakaway is None or outfall.soakaway.point is None):
        figure = rules.figure("water.soakaway_from_building_m")
        words = (
            f"Keep the soakaway {outfall.name} {figure.value:g} m or more from any building and from the road, and "
            f"test the ground first."
        )
        found.append(Finding("water.soakaway", Severity.NOTE, place, words, figure=figure))
    if outfall.kind in _SEWERS and rules.has("water.order_of_discharge"):
        figure = rules.figure("water.order_of_discharge")
        words = (
            f"{outfall.name} is a sewer: soaking away comes first, a watercourse second. Ask its owner before "
            f"connecting."
        )
        found.append(Finding("water.sewer", Severity.CHECK, place, words, figure=figure))
    return found


def _lowest_inlet(outfall: Outfall, caught: tuple[Catchment, ...], survey: Survey) -> tuple[str, float] | None:
    """Return the inlet of an outfall with the lowest known invert."""
    names = {each.to for each in caught if each.outfall == outfall.name}
    inverts = [
        (f"channel {channel.name}", channel.invert_level_mm)
        for channel in survey.site.channels
        if channel.name in names and channel.invert_level_mm is not None
    ]
    inverts += [
        (f"gully {placed.gully.name}", placed.gully.invert_level_mm)
        for placed in survey.site.gullies
        if placed.gully.name in names and placed.gully.invert_level_mm is not None
    ]
    return min(inverts, key=lambda inlet: inlet[1], default=None)


def front_findings(
    areas: tuple[PlanArea, ...], caught: tuple[Catchment, ...], survey: Survey, rules: Rulebook
) -> list[Finding]:
    """Return a finding where paving at the front drains to something hard and the place has a rule about it."""
    if not rules.has("water.front_garden_m2"):
        return []
    figure = rules.figure("water.front_garden_m2")
    fronts = {area.name for area in areas if area.area.position is Position.FRONT}
    total = sum(area.shape.area_m2 for area in areas if area.name in fronts)
    kinds = {outfall.name: outfall.kind for outfall in survey.site.outfalls}
    hard = sum(
        each.area_m2
        for each in caught
        if each.area in fronts
        and (each.outfall is None or kinds[each.outfall] not in _SOFT)
        and each.kind != "next_area"
    )
    if total <= figure.value or hard <= rules.value("water.least_area_m2"):
        return []
    words = (
        f"{total:.1f} m² are paved at the front and {hard:.1f} m² of it do not drain to ground on the plot: planning "
        f"permission is likely needed. Ask the council."
    )
    ways = ("Drain to a border, a lawn or a soakaway on the plot.", "Use permeable paving.", "Apply for permission.")
    return [
        Finding(
            "water.front_garden",
            Severity.CHECK,
            "front",
            words,
            total,
            figure.value,
            "m²",
            figure,
            ways_out=ways,
        )
    ]
