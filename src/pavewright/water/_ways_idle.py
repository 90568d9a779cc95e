"""Options for a drain that takes no paving and for an outfall that nothing reaches, with what they change."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import Point

from pavewright.findings import FieldChange, Option, OptionFacts, OptionKind
from pavewright.geometry import bearing_of, distance
from pavewright.job import Folding, GullyState
from pavewright.levels import TakerKind, can_lead_to
from pavewright.water import _words_idle as words
from pavewright.water._ways import FROM_CORNER_MM, channel_along, free_name

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY
    from pavewright.job import Channel, Gully, Job, Outfall
    from pavewright.levels import Levels
    from pavewright.survey import PlanArea, Survey
    from pavewright.water._types import Catchment, InletShare

_FOLDS = (Folding.CROSSED_VALLEY, Folding.TO_GULLY)
"""Ways to fold an area to a gully in it that bring all of it there."""
_LISTS = {TakerKind.GULLY: "site.gullies", TakerKind.CHANNEL: "site.channels"}


def ways_to_drain(
    share: InletShare, caught: Sequence[Catchment], job: Job, survey: Survey, levels: Levels
) -> tuple[Option, ...]:
    """Return options for a drain that takes no paving: fold to it, move it, another drain, or it is meant so."""
    area = max((survey.site.area(name) for name in share.areas), key=lambda each: each.gross.area_m2)
    path = _path(share, job)
    found = [*_folded(share, area, survey, levels)]
    if share.kind is TakerKind.GULLY:
        found += _at_low_edge(share, area, path, caught, job, survey, levels)
    meant = (FieldChange(f"{path}.takes_paving", value=False),)
    return (*found, Option(words.not_meant(share.name), meant, OptionFacts(OptionKind.ANSWER)))


def _path(share: InletShare, job: Job) -> str:
    named = job.site.gullies if share.kind is TakerKind.GULLY else job.site.channels
    return f"{_LISTS[share.kind]}.{[each.name for each in named].index(share.name)}"


def _folded(share: InletShare, area: PlanArea, survey: Survey, levels: Levels) -> list[Option]:
    """Return the fall of an area changed so that it leads to a drain: folds inside it, one plane to one at its edge."""
    fall = f"{area.path}.fall"
    if share.kind is TakerKind.GULLY:
        at = next(placed.at for placed in survey.site.gullies if placed.gully.name == share.name)
        if not _stands_in(area, at, 0.0):
            return [Option(words.turn_to(share.name), _turned(area, at))]
        led = FieldChange(f"{fall}.gully", share.name)
        downhill = levels.area(area.name).plane.downhill
        return [
            Option(words.fold_by(share.name, kind), (FieldChange(f"{fall}.folding", kind.value), led))
            for kind in _FOLDS
            if can_lead_to(kind, area.gross.outer, at, downhill)
        ]
    channel = next(each for each in survey.site.channels if each.name == share.name)
    middle = (channel.start[0] + channel.end[0]) / 2.0, (channel.start[1] + channel.end[1]) / 2.0
    if _stands_in(area, middle, channel.width_mm):
        return [Option(words.fold_to(share.name), (FieldChange(f"{fall}.folding", Folding.VALLEY.value),))]
    return [Option(words.turn_to(share.name), _turned(area, middle))]


def _stands_in(area: PlanArea, at: XY, clear_mm: float) -> bool:
    """Return whether a place lies inside an area, further than so much from its edge."""
    return area.gross.contains(at) and area.gross.polygon.exterior.distance(Point(at)) > clear_mm


def _turned(area: PlanArea, towards: XY) -> tuple[FieldChange, ...]:
    """Return the changes that let an area fall square to the side that is nearest to a drain."""
    side = min(area.sides, key=lambda each: _off(each.start.xy, each.end.xy, towards))
    (ax, ay), (bx, by) = side.start.xy, side.end.xy
    cx, cy = area.gross.centre_mm
    inside_left = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax) > 0.0
    out = (by - ay, ax - bx) if inside_left else (ay - by, bx - ax)
    fall, given = f"{area.path}.fall", area.area.fall
    away = () if given.away_from is None else (FieldChange(f"{fall}.away_from", None),)
    plain = () if given.folding is Folding.ONE_PLANE else (FieldChange(f"{fall}.folding", Folding.ONE_PLANE.value),)
    return (*away, *plain, FieldChange(f"{fall}.bearing_deg", round(bearing_of(out), 2) % 360.0))


def _off(start: XY, end: XY, at: XY) -> float:
    """Return how far a place lies from a side. [mm]."""
    run = max(distance(start, end), 1e-9)
    ux, uy = (end[0] - start[0]) / run, (end[1] - start[1]) / run
    along = min(max((at[0] - start[0]) * ux + (at[1] - start[1]) * uy, 0.0), run)
    return distance(at, (start[0] + ux * along, start[1] + uy * along))


def _at_low_edge(
    share: InletShare,
    area: PlanArea,
    path: str,
    caught: Sequence[Catchment],
    job: Job,
    survey: Survey,
    levels: Levels,
) -> list[Option]:
    """Return a new gully moved to the low end, and a channel along the edge over which most of the water goes."""
    gully = next(each for each in job.site.gullies if each.name == share.name)
    found = []
    if not gully.is_existing:
        low = min((corner.xy for corner in area.ring.corners), key=levels.area(area.name).surface.level_at)
        (x, y), (cx, cy) = low, area.gross.centre_mm
        away = max(distance(low, (cx, cy)), 1.0)
        point = free_name("Gully point", {each.name for each in survey.points})
        given = f"measurements.points.{len(job.measurements.points)}"
        moved = (
            FieldChange(f"{given}.name", point),
            FieldChange(f"{given}.x_mm", round(x + (cx - x) / away * FROM_CORNER_MM)),
            FieldChange(f"{given}.y_mm", round(y + (cy - y) / away * FROM_CORNER_MM)),
            FieldChange(f"{path}.point", point),
            FieldChange(f"{path}.state", GullyState.NEW.value),
        )
        found.append(Option(words.move_to_low_edge(share.name), moved))
    over = [each for each in caught if each.area == area.name and each.kind is TakerKind.FREE_EDGE]
    most = max(over, key=lambda each: each.area_m2, default=None)
    side = None if most is None else next((each for each in area.sides if each.name == most.to), None)
    if side is not None:
        along = channel_along(side.start.xy, side.end.xy, survey, to=gully.outfall)
        serves = (FieldChange(f"{path}.takes_paving", value=False),) if along else ()
        found.append(Option(words.channel_at_low_edge(share.name), (*along, *serves)))
    return found


def ways_to_connect(outfall: Outfall, job: Job) -> tuple[Option, ...]:
    """Return the drains without an outfall that could lead to one that nothing reaches."""
    found = []
    lists: tuple[tuple[TakerKind, tuple[Gully | Channel, ...]], ...] = (
        (TakerKind.GULLY, job.site.gullies),
        (TakerKind.CHANNEL, job.site.channels),
    )
    for kind, named in lists:
        for number, drain in enumerate(named):
            if drain.outfall is None:
                lead = (FieldChange(f"{_LISTS[kind]}.{number}.outfall", outfall.name),)
                found.append(Option(words.connect(drain.name, outfall.name), lead))
    return tuple(found)
