"""Gullies and channels to which no paving falls, those that do not run, and outfalls that nothing reaches."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.job import OutfallKind
from pavewright.levels import TakerKind
from pavewright.water import _words_idle as words
from pavewright.water._codes import Code
from pavewright.water._types import InletShare
from pavewright.water._ways_idle import ways_to_connect, ways_to_drain

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.geometry import XY
    from pavewright.job import Channel, Gully, Job
    from pavewright.levels import Levels
    from pavewright.survey import PlanArea, Survey
    from pavewright.water._figures import WaterFigures
    from pavewright.water._types import Catchment, Water

_SOFT = {OutfallKind.BORDER, OutfallKind.LAWN}
"""Ground that takes what runs over an edge: nothing is built for it, so that none may be needed."""


def inlet_shares(caught: Sequence[Catchment], survey: Survey, figures: WaterFigures) -> tuple[InletShare, ...]:
    """Return how much of the paving beside it reaches every gully and channel that stands in or at an area."""
    within, site = figures.meets_within_mm.value, survey.site
    found = []
    for placed in site.gullies:
        reach = within + placed.gully.size_mm / 2.0
        beside = [area for area in site.areas if area.gross.polygon.distance(Point(placed.at)) <= reach]
        found.append(_share(TakerKind.GULLY, placed.gully.name, beside, caught))
    for channel in site.channels:
        line, reach = LineString([channel.start, channel.end]), within + channel.width_mm / 2.0
        beside = [
            area for area in site.areas if line.intersection(area.gross.polygon.buffer(reach)).length > 2.0 * reach
        ]
        found.append(_share(TakerKind.CHANNEL, channel.name, beside, caught))
    return tuple(share for share in found if share.areas)


def _share(kind: TakerKind, name: str, beside: Sequence[PlanArea], caught: Sequence[Catchment]) -> InletShare:
    reaches = sum(each.whole_m2 for each in caught if each.kind is kind and each.to == name)
    return InletShare(
        kind=kind,
        name=name,
        areas=tuple(area.name for area in beside),
        reaches_m2=reaches,
        whole_m2=sum(units.mm2_to_m2(area.gross.polygon.area) for area in beside),
    )


def share_of(water: Water, kind: TakerKind, name: str) -> InletShare | None:
    """Return how much of the paving beside it reaches a drain; None for one that stands at no area."""
    return next((share for share in water.shares if share.kind is kind and share.name == name), None)


def idle_findings(
    shares: Sequence[InletShare],
    caught: Sequence[Catchment],
    job: Job,
    survey: Survey,
    levels: Levels,
    figures: WaterFigures,
) -> list[Finding]:
    """Return findings on drains that take no paving or did not run when tried, and on unused outfalls."""
    found = [_idle(share, caught, job, survey, levels, figures) for share in shares if _is_idle(share, job, figures)]
    reached = {(each.kind, each.to): each.whole_m2 for each in caught}
    for kind, drain in _drains(job):
        takes = sum(area for place, area in reached.items() if place == (kind, drain.name))
        if drain.runs is False and takes >= figures.min_area_m2.value:
            said, options = words.blocked(drain.name, takes)
            at = _at(kind, drain.name, survey)
            found.append(
                Finding(Code.DRAIN_BLOCKED, Severity.STOP, f"{kind} {drain.name}", said, options=options, at_mm=at)
            )
    used = {each.outfall for each in caught} | {drain.outfall for _, drain in _drains(job)}
    for outfall in survey.site.outfalls:
        if outfall.kind not in _SOFT and outfall.name not in used:
            said = words.outfall_unused(outfall.name)
            place = f"outfall {outfall.name}"
            found.append(
                Finding(Code.OUTFALL_UNUSED, Severity.NOTE, place, said, options=ways_to_connect(outfall, job))
            )
    return found


def _is_idle(share: InletShare, job: Job, figures: WaterFigures) -> bool:
    """Return whether next to nothing reaches a drain that is not said to serve something else."""
    meant = next(each.takes_paving for kind, each in _drains(job) if kind is share.kind and each.name == share.name)
    least = share.whole_m2 * figures.dry_drain_percent.value / 100.0
    return meant is not False and share.reaches_m2 < max(least, figures.min_area_m2.value)


def _idle(
    share: InletShare,
    caught: Sequence[Catchment],
    job: Job,
    survey: Survey,
    levels: Levels,
    figures: WaterFigures,
) -> Finding:
    figure = figures.dry_drain_percent
    return Finding(
        Code.DRAINS_NOTHING,
        Severity.CHECK,
        f"{share.kind} {share.name}",
        words.drains_nothing(share),
        share.reaches_m2,
        share.whole_m2,
        "m²",
        figure,
        at_mm=_at(share.kind, share.name, survey),
        tries_options=True,
    ).with_options(ways_to_drain(share, caught, job, survey, levels))


def _drains(job: Job) -> Iterator[tuple[TakerKind, Gully | Channel]]:
    """Give the gullies and channels of a job, each with its kind."""
    yield from ((TakerKind.GULLY, gully) for gully in job.site.gullies)
    yield from ((TakerKind.CHANNEL, channel) for channel in job.site.channels)


def _at(kind: TakerKind, name: str, survey: Survey) -> XY:
    """Return where a drain stands: a channel at its middle."""
    if kind is TakerKind.GULLY:
        return next(placed.at for placed in survey.site.gullies if placed.gully.name == name)
    channel = next(each for each in survey.site.channels if each.name == name)
    return (channel.start[0] + channel.end[0]) / 2.0, (channel.start[1] + channel.end[1]) / 2.0
