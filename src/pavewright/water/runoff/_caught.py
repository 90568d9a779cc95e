"""What drains to each edge and inlet of one area, and where it leaves."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import LineString, Point, Polygon

from pavewright import units
from pavewright.geometry import distance, joined, point_along, shape_from_polygon, without
from pavewright.sums import Working
from pavewright.water._types import Catchment
from pavewright.water.runoff._flow_off import flow_l_s
from pavewright.water.runoff._folded import folded_parts
from pavewright.water.runoff._receivers import EdgeLines, Receiver, cut_points, receiver
from pavewright.water.runoff._strips import Strip, strips

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY, Plane
    from pavewright.levels import FinishedArea
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, PlanChannel, SitePlan, Survey
    from pavewright.water._figures import WaterFigures

_APART_MM = 500.0
"""Water that leaves over an edge is followed from places no further apart than this. [mm]"""
_PAST_MM = 30.0
"""Water that leaves a plane is looked for this far past its edge. [mm]"""


@dataclass(frozen=True)
class Caught:
    """A catchment with the ground that it covers and the places where its water leaves.

    Attributes:
        catchment: The catchment.
        covers: Its parts in plan.
        leaves: Places just past the edge with the area whose water passes there. [mm, m²]
    """

    catchment: Catchment
    covers: tuple[Polygon, ...]
    leaves: tuple[tuple[XY, float], ...]


def caught_on_plane(area: PlanArea, plane: Plane, site: SitePlan, figures: WaterFigures) -> list[Caught]:
    """Return what drains where on an area of one plane: strips along its fall."""
    grouped: dict[Receiver, list[Strip]] = {}
    edges = EdgeLines.of(area)
    for part in _domain(area, site, figures):
        for strip in strips(part, plane.downhill, cut_points(area, site)):
            grouped.setdefault(receiver(strip, area, edges, site, plane, figures), []).append(strip)
    return [_of_strips(area, taker, taken, plane.downhill, figures) for taker, taken in grouped.items()]


def caught_on_folds(
    area: PlanArea, finished: FinishedArea, survey: Survey, figures: WaterFigures, rules: Rulebook
) -> list[Caught]:
    """Return what drains where on a folded area: cells."""
    how = "area from the cells that drain there"
    found = []
    for part in folded_parts(area, finished, survey, rules):
        made = replace(_catchment(area, part.taker, part.shapes, part.area_m2, part.at, how, figures), ways=part.ways)
        found.append(Caught(made, part.shapes, part.leaves))
    return found


def _domain(area: PlanArea, site: SitePlan, figures: WaterFigures) -> tuple[Polygon, ...]:
    """Return the paving on which water runs: gratings are taken out of it, covers and posts are not."""
    gratings: list[Polygon] = [
        shapely.box(x - half, y - half, x + half, y + half)
        for (x, y), half in ((placed.at, placed.gully.size_mm / 2.0) for placed in site.gullies)
    ]
    gratings += [taken for each in site.channels if (taken := _inside(each, area, figures)) is not None]
    left = without(area.gross.polygon, joined(gratings)) if gratings else area.gross.polygon
    parts = tuple(part for part in shapely.get_parts(left) if isinstance(part, Polygon) and part.area > 0.0)
    return parts or (area.gross.polygon,)


def _inside(channel: PlanChannel, area: PlanArea, figures: WaterFigures) -> Polygon | None:
    """Return the grating of a channel that runs through an area; None for one that lies along its edge or past it.

    An end as near to the edge as what counts as meeting it reaches the edge, so that nothing runs past it there.
    """
    within = figures.meets_within_mm.value
    line = LineString([channel.start, channel.end])
    if line.intersection(area.gross.polygon.buffer(-within)).length <= 0.0:
        return None
    run, edge = line.length, area.gross.polygon.boundary
    before, after = (within if edge.distance(Point(end)) <= within else 0.0 for end in (channel.start, channel.end))
    ends = point_along(channel.start, channel.end, -before), point_along(channel.start, channel.end, run + after)
    grating = LineString(ends).buffer(channel.width_mm / 2.0, cap_style="flat")
    return grating if isinstance(grating, Polygon) else None


def _of_strips(area: PlanArea, taker: Receiver, taken: list[Strip], downhill: XY, figures: WaterFigures) -> Caught:
    merged = joined([strip.polygon for strip in taken])
    parts = [part for part in shapely.get_parts(merged) if isinstance(part, Polygon)]
    area_m2 = units.mm2_to_m2(sum(strip.polygon.area for strip in taken))
    widest = max(taken, key=lambda strip: strip.polygon.area)
    made = _catchment(area, taker, parts, area_m2, widest.foot, "area from the strips that reach it", figures)
    return Caught(made, tuple(parts), tuple(itertools.chain.from_iterable(_past(each, downhill) for each in taken)))


def _past(strip: Strip, downhill: XY) -> list[tuple[XY, float]]:
    """Return places just past the foot of a strip, each with an even part of its area."""
    run = distance(strip.foot_start, strip.foot_end)
    pieces = max(1, math.ceil(run / _APART_MM))
    share = units.mm2_to_m2(strip.polygon.area) / pieces
    feet = [point_along(strip.foot_start, strip.foot_end, run * (n + 0.5) / pieces) for n in range(pieces)]
    return [((x + downhill[0] * _PAST_MM, y + downhill[1] * _PAST_MM), share) for x, y in feet]


def _catchment(
    area: PlanArea, into: Receiver, parts: Sequence[Polygon], area_m2: float, at: XY, how: str, figures: WaterFigures
) -> Catchment:
    rain, runoff = figures.rain_mm_per_h, figures.runoff
    flow = flow_l_s(area_m2, rain.value, runoff.value)
    return Catchment(
        area=area.name,
        to=into.taker.name,
        kind=into.taker.kind,
        shapes=tuple(shape_from_polygon(part) for part in parts),
        area_m2=area_m2,
        flow_l_s=flow,
        outfall=into.outfall,
        at=at,
        working=Working(
            f"flow = {area_m2:.2f} m² × {rain.value:g} mm/h × {runoff.value:g} / 3600",
            flow,
            "l/s",
            (rain, runoff),
            how,
        ),
        beyond=into.taker.beyond,
        disputed_by=into.taker.disputed_by,
    )
