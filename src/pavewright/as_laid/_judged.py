"""The verdict on paving as laid over everything that was read, with each reason why it does not pass."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright.as_laid._findings_water import pond_findings
from pavewright.as_laid._types_judged import Ground, Reason
from pavewright.as_laid._types_surface import BayState
from pavewright.as_laid._verdicts import Verdict, together
from pavewright.as_laid.standing import WaterState
from pavewright.findings import in_order

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from pavewright.as_laid._types import AreaAsLaid, AsLaidReport
    from pavewright.as_laid._types_judged import HoseAsLaid
    from pavewright.as_laid._types_surface import GapAsLaid, JointAsLaid, LipAsLaid
    from pavewright.as_laid.standing import AreaStanding, DrainFound
    from pavewright.survey import Survey

_WORST_FIRST = (Verdict.FAILS, Verdict.INCONCLUSIVE)


def judged(report: AsLaidReport, survey: Survey, unread: Sequence[Reason]) -> AsLaidReport:
    """Return a report whose verdicts are the worst of everything that was read, with the reasons.

    Args:
        report: What was read, each by itself.
        survey: The site, which says whose a grating is.
        unread: What was to be read and was not.
    """
    by_area = {area.area: _own(area) for area in report.areas}
    names = [area.name for area in survey.site.areas]
    reasons = [reason for own in by_area.values() for reason in own]
    reasons += [Reason(name, Ground.UNREAD, (), Verdict.INCONCLUSIVE) for name in names if name not in by_area]
    for ground, read in ((Ground.GAP, report.gaps), (Ground.LIP, report.lips), (Ground.JOINT, report.joints)):
        reasons += _by_hand(ground, names, read)
    for name in names:
        wet = [each for each in report.hoses if each.area == name and each.marks]
        reasons += _named(name, Ground.HOSE, [(each.name, each.verdict) for each in wet])
    reasons += _gratings(report.gratings, survey)
    return _with(report, [*reasons, *unread])


def with_standing(report: AsLaidReport, areas: Sequence[AreaStanding]) -> AsLaidReport:
    """Return a report that counts standing water too, by its chance.

    Args:
        report: What was read.
        areas: What stands on each area that was read.
    """
    if report.is_water_judged:
        return report
    reasons = [reason for area in areas for reason in _standing(area, report.hoses)]
    found = in_order([*report.findings, *pond_findings(areas, report.hoses)])
    told = {area.area for area in areas}
    reasons += [
        Reason(area.area, Ground.STANDING_UNKNOWN, (), Verdict.INCONCLUSIVE)
        for area in report.areas
        if area.area not in told
    ]
    return replace(_with(report, [*report.reasons, *reasons]), findings=found, is_water_judged=True)


def _with(report: AsLaidReport, reasons: Sequence[Reason]) -> AsLaidReport:
    """Return a report with reasons, the worst first within each area, and the verdicts that follow from them."""
    order = [area.area for area in report.areas]
    listed = sorted(
        dict.fromkeys(reasons),
        key=lambda each: (
            order.index(each.area) if each.area in order else len(order),
            _WORST_FIRST.index(each.verdict),
            list(Ground).index(each.ground),
        ),
    )
    areas = tuple(
        replace(area, reasons=own, verdict=together([each.verdict for each in own]))
        for area in report.areas
        for own in (tuple(each for each in listed if each.area == area.area),)
    )
    whole = together([each.verdict for each in listed])
    return replace(report, areas=areas, reasons=tuple(listed), verdict=whole)


def _named(area: str, ground: Ground, read: Iterable[tuple[str, Verdict | None]]) -> list[Reason]:
    """Return what fails of some readings, and what is not decided, each with their names."""
    told = tuple(read)
    found = []
    for verdict in _WORST_FIRST:
        names = tuple(name for name, own in told if own is verdict)
        if names:
            found.append(Reason(area, ground, names, verdict))
    return found


def _by_hand(
    ground: Ground, areas: Sequence[str], read: Sequence[GapAsLaid] | Sequence[LipAsLaid] | Sequence[JointAsLaid]
) -> list[Reason]:
    return [
        reason
        for area in areas
        for reason in _named(area, ground, [(each.name, each.verdict) for each in read if each.area == area])
    ]


def _own(area: AreaAsLaid) -> list[Reason]:
    """Return what levels, walls, bays and rows of readings of one area say against it."""
    name = area.area
    found = _named(name, Ground.LEVEL, [(each.label, each.verdict) for each in area.readings])
    found += _named(name, Ground.CLEARANCE, [(each.wall, each.verdict) for each in area.walls])
    if area.unknown_walls:
        found.append(Reason(name, Ground.CLEARANCE_UNKNOWN, area.unknown_walls, Verdict.INCONCLUSIVE))
    if area.fall is not None and area.planned_fall > 0.0 >= area.fall:
        found.append(Reason(name, Ground.FALL, (), Verdict.FAILS))
    off = tuple(str(bay.number) for bay in area.bays if bay.is_plane_off)
    unknown = tuple(str(bay.number) for bay in area.bays if BayState.UNKNOWN in bay.states)
    if off:
        found.append(Reason(name, Ground.BAY, off, Verdict.FAILS))
    if unknown:
        found.append(Reason(name, Ground.BAY_UNKNOWN, unknown, Verdict.INCONCLUSIVE))
    fails = tuple(dict.fromkeys(each.lowest or "" for each in area.profiles if each.verdict is Verdict.FAILS))
    if fails:
        found.append(Reason(name, Ground.EDGE, fails, Verdict.FAILS))
    return found


def _gratings(read: Sequence[DrainFound], survey: Survey) -> list[Reason]:
    """Return what gratings say against the area that lies nearest to each; in no area's name where none is there."""
    by_area: dict[str, list[tuple[str, Verdict | None]]] = {}
    for each in read:
        by_area.setdefault(_beside(each.drain, survey), []).append((each.mark, each.verdict))
    return [reason for area, own in by_area.items() for reason in _named(area, Ground.GRATING, own)]


def _beside(drain: str, survey: Survey) -> str:
    """Return the name of the area that lies nearest to a drain; empty where there is none."""
    site = survey.site
    lines: list[LineString | Point] = [
        LineString([each.start, each.end]) for each in site.channels if each.name == drain
    ]
    lines += [Point(each.at) for each in site.gullies if each.gully.name == drain]
    if not lines or not site.areas:
        return ""
    return min(site.areas, key=lambda area: float(area.gross.polygon.distance(lines[0]))).name


def _standing(area: AreaStanding, hoses: Sequence[HoseAsLaid]) -> list[Reason]:
    """Return what the chance of standing water says against an area: a test of the whole of it that was dry settles it.

    Where only wide gaps between readings keep it open nothing stands against it: what readings cannot show is said.
    """
    dry = any(each.area == area.area and each.is_whole and each.verdict is Verdict.PASSES for each in hoses)
    ponds = tuple(str(each.number) for each in area.ponds)
    if area.state is WaterState.STANDS:
        verdict = Verdict.INCONCLUSIVE if dry else Verdict.FAILS
        return [Reason(area.area, Ground.STANDING, ponds, verdict)]
    if dry or area.state is WaterState.CLEARS:
        return []
    if area.state is WaterState.UNKNOWN:
        return [Reason(area.area, Ground.STANDING_UNKNOWN, (), Verdict.INCONCLUSIVE)]
    return [Reason(area.area, Ground.STANDING, ponds, Verdict.INCONCLUSIVE)] if ponds else []
