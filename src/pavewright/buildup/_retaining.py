"""Edges that stand higher than what holds them: stretches, what each takes, and its section with quantities."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup._drops import side_drops
from pavewright.buildup._open_edges import banks, unread
from pavewright.buildup._retaining_findings import bank_finding, edge_finding, guard_finding, unknown_finding
from pavewright.buildup._types import AreaBuildUp, Beyond, LayerKey, LowWall, Remedy, RetainedEdge
from pavewright.job import Bedding, EdgeRestraint, Use

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.buildup._drops import SideDrops, Station
    from pavewright.buildup._figures import EdgeFigures
    from pavewright.buildup._types import OpenEdge
    from pavewright.findings import Finding
    from pavewright.levels import Levels
    from pavewright.survey import PlanArea, Survey

_BUILT = frozenset({EdgeRestraint.RETAINING, EdgeRestraint.ENGINEERED})
"""Sides that are entered as walls that retain."""
_BOUND = frozenset({LayerKey.UNIT, LayerKey.BED, LayerKey.BASE})


def retaining(
    build_ups: Sequence[AreaBuildUp], survey: Survey, levels: Levels, known: EdgeFigures
) -> tuple[tuple[RetainedEdge, ...], tuple[OpenEdge, ...], tuple[Finding, ...]]:
    """Return every stretch of edge that stands higher than its restraint holds back, what is open, what is noticed."""
    edges: list[RetainedEdge] = []
    open_edges: list[OpenEdge] = []
    findings: list[Finding] = []
    for up in build_ups:
        area = survey.site.area(up.area)
        sides = side_drops(area, survey, levels, known)
        own = [edge for side in sides for edge in _stretches(side, area, up, known)]
        edges += own
        findings += [edge_finding(edge, area, known) for edge in own if edge.remedy is not Remedy.GUARD]
        findings += [guard_finding(edge, known) for edge in own if edge.guarded_mm > 0.0]
        not_read, over = tuple(unread(sides, area.name)), tuple(banks(sides, area.name, known))
        findings += unknown_finding(not_read, area, known)
        findings += [bank_finding(bank, known) for bank in over]
        open_edges += [*not_read, *over]
    return tuple(edges), tuple(open_edges), tuple(findings)


def holds_mm(restraint: EdgeRestraint, area: PlanArea, up: AreaBuildUp, known: EdgeFigures) -> float:
    """Return the drop that a side holds back. [mm].

    What is bound in mortar or concrete stands by itself as deep as it is, up to what a kerb holds.
    """
    if restraint in _BUILT:
        return 0.0
    own = known.retains[restraint].value
    if restraint is EdgeRestraint.WALL or area.area.laying.bedding is Bedding.SAND_ON_SUB_BASE:
        return own
    bound = sum(layer.thickness_mm for layer in up.layers if layer.key in _BOUND)
    return max(own, min(bound, known.kerb.value))


def _stretches(side: SideDrops, area: PlanArea, up: AreaBuildUp, known: EdgeFigures) -> list[RetainedEdge]:
    """Return the stretches of one side that stand too high, each over one thing."""
    guard = known.guard_drop.value

    def over(station: Station | None) -> tuple[Beyond, str, bool] | None:
        if station is None or station.drop_mm is None:
            return None
        behind = station.beyond is Beyond.BEHIND_WALL
        limit = holds_mm(EdgeRestraint.WALL if behind else side.restraint, area, up, known)
        if station.drop_mm > limit + _SLACK_MM:
            return station.beyond, station.other, False
        return (station.beyond, station.other, True) if _fall(station) > guard else None

    found = []
    for kind, group in itertools.groupby(side.stations, key=over):
        stations = [station for station in group if station is not None]
        if kind is not None and sum(station.length_mm for station in stations) >= _SHORT_MM:
            found.append(_edge(side, stations, kind, area, up, known))
    return found


_SHORT_MM = 200.0
"""A stretch shorter than this is the corner of a flight or a wall. [mm]"""
_SLACK_MM = 0.5
"""Levels are not known better than this. [mm]"""


def _edge(
    side: SideDrops,
    stations: Sequence[Station],
    kind: tuple[Beyond, str, bool],
    area: PlanArea,
    up: AreaBuildUp,
    known: EdgeFigures,
) -> RetainedEdge:
    drops = [(station.drop_mm or 0.0, station.length_mm) for station in stations]
    falls = [(_fall(station), station.length_mm) for station in stations]
    length = sum(each for _, each in drops)
    highest = max(drop for drop, _ in drops)
    behind = kind[0] is Beyond.BEHIND_WALL
    surcharge = area.area.use is not Use.FOOT
    remedy = Remedy.GUARD if kind[2] else _remedy(highest, known, surcharge=surcharge)
    guard = known.guard_drop.value
    if side.restraint in _BUILT and remedy is Remedy.KERB:
        remedy = Remedy.LOW_WALL
    return RetainedEdge(
        area=area.name,
        side=side.side,
        corner=side.corner,
        restraint=EdgeRestraint.WALL if behind else side.restraint,
        beyond=kind[0],
        other=kind[1],
        length_mm=length,
        drop_mm=highest,
        mean_drop_mm=sum(drop * each for drop, each in drops) / length,
        limit_mm=holds_mm(EdgeRestraint.WALL if behind else side.restraint, area, up, known),
        surcharge=surcharge,
        remedy=remedy,
        wall=_section(drops, highest, known)
        if remedy is Remedy.LOW_WALL and not behind and side.restraint is not EdgeRestraint.ENGINEERED
        else None,
        guarded_mm=sum(each for fall, each in falls if fall > guard),
        fall_mm=max(fall for fall, _ in falls),
        at_mm=stations[len(stations) // 2].at,
    )


def _fall(station: Station) -> float:
    """Return how far somebody may fall at a place. [mm]."""
    known = [each for each in (station.drop_mm, station.fall_mm) if each is not None]
    return max(known, default=0.0)


def _remedy(drop_mm: float, known: EdgeFigures, *, surcharge: bool) -> Remedy:
    if drop_mm <= known.kerb.value + _SLACK_MM:
        return Remedy.KERB
    if surcharge or drop_mm > known.engineer_above.value:
        return Remedy.ENGINEER
    return Remedy.LOW_WALL


def _section(drops: Sequence[tuple[float, float]], highest_mm: float, known: EdgeFigures) -> LowWall | None:
    """Return the section of a low wall by its greatest height, and its quantities along the stretch."""
    wall = next((wall for wall in known.walls if wall.height_mm >= highest_mm), None)
    if wall is None:
        return None
    below, behind = known.wall_below_ground, known.drain_behind
    wide, deep = wall.footing_width_mm, wall.footing_depth_mm
    length = units.mm_to_m(sum(each for _, each in drops))
    footing = length * units.mm2_to_m2(wide * deep)
    face = sum(units.mm2_to_m2((drop + below.value) * each) for drop, each in drops)
    return LowWall(
        thickness_mm=wall.thickness.value,
        footing_width_mm=wide,
        footing_depth_mm=deep,
        below_ground_mm=below.value,
        face_m2=face,
        footing_m3=footing,
        trench_m3=length * units.mm2_to_m2(wide * (deep + below.value)),
        drain_stone_m3=sum(units.mm3_to_m3(behind.value * drop * each) for drop, each in drops),
        decided_by=(wall.thickness, below, behind),
    )
