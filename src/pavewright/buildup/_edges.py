"""Edge restraint: how wide it stands past the paving, and where units on a loose bed lack one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup import _words as words
from pavewright.buildup._codes import Code
from pavewright.buildup._stretches import free_part, held_by_others, sides_of
from pavewright.findings import FieldChange, Finding, Option, Severity
from pavewright.job import Bedding, EdgeRestraint, Use

if TYPE_CHECKING:
    from collections.abc import Sequence

    from shapely.geometry import LineString

    from pavewright.buildup._edge_types import EdgeSection
    from pavewright.buildup._figures import EdgeFigures
    from pavewright.job import Area
    from pavewright.survey import PlanArea, SitePlan


def edge_widths(area: Area, sections: Sequence[EdgeSection]) -> dict[str, float]:
    """Return how far kerb, edging or haunch stands past the paving, by the corner from which the side leaves. [mm]."""
    past = {section.restraint: section.past_paving_mm for section in sections}
    return {edge.corner: past[edge.restraint] for edge in area.edges if edge.restraint in past}


def edge_trench_m3(area: PlanArea, sections: Sequence[EdgeSection]) -> float:
    """Return what is dug below formation for the beds of kerbs and edgings, in the ground. [m³]."""
    deep = {section.restraint: units.mm2_to_m2(section.bed_mm[0] * section.trench_mm) for section in sections}
    return sum(
        units.mm_to_m(area.side_from(edge.corner).length_mm) * deep.get(edge.restraint, 0.0) for edge in area.area.edges
    )


def edge_findings(area: PlanArea, site: SitePlan, known: EdgeFigures) -> tuple[Finding, ...]:
    """Return a finding where units on a loose bed have an edge that nothing holds: they creep apart from there."""
    if area.area.laying.bedding is not Bedding.SAND_ON_SUB_BASE:
        return ()
    taken = held_by_others(area, site, known.meets_mm)
    bare = [
        (corner, part)
        for corner, restraint, line in sides_of(area)
        if restraint is EdgeRestraint.NONE and (part := free_part(line, taken)) is not None
    ]
    if not bare:
        return ()
    vehicles = area.area.use is not Use.FOOT
    total = sum(part.length for _, part in bare)
    names = ", ".join(area.side_from(corner).name for corner, _ in bare)
    said = words.edge_not_held(area.name, total, names, vehicles=vehicles)
    longest = max((part for _, part in bare), key=lambda part: part.length)
    middle = longest.interpolate(0.5, normalized=True)
    return (
        Finding(
            Code.EDGE_NOT_HELD,
            Severity.STOP if vehicles else Severity.CHECK,
            f"area {area.name}",
            said,
            total,
            0.0,
            "mm",
            known.held_on_loose_bed,
            at_mm=(float(middle.x), float(middle.y)),
        ).with_options(_ways(area, bare, vehicles=vehicles)),
    )


def _ways(area: PlanArea, bare: Sequence[tuple[str, LineString]], *, vehicles: bool) -> tuple[Option, ...]:
    corners = [corner for corner, _ in bare]
    edging = Option(words.edging_along_sides(), held_with(area, corners, EdgeRestraint.EDGING))
    kerb = Option(words.kerb_along_sides(), held_with(area, corners, EdgeRestraint.KERB))
    haunch = Option(words.haunched_units(), held_with(area, corners, EdgeRestraint.HAUNCH))
    return (edging, kerb) if vehicles else (haunch, edging, kerb)


def held_with(area: PlanArea, corners: Sequence[str], restraint: EdgeRestraint) -> tuple[FieldChange, ...]:
    """Return the changes of the job document that give sides a restraint; a side without an entry gets one."""
    places = {edge.corner: number for number, edge in enumerate(area.area.edges)}
    changes, following = [], len(area.area.edges)
    for corner in corners:
        number = places.get(corner, following)
        path = f"{area.path}.edges.{number}"
        if corner not in places:
            changes.append(FieldChange(f"{path}.corner", corner))
            following += 1
        changes.append(FieldChange(f"{path}.restraint", restraint.value))
    return tuple(changes)
