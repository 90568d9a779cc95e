"""Where lorries set down, and how far that is from the road and from the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright.job import Beyond, Neighbour
from pavewright.programme._order_types import DropPlace

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.survey import Survey


def drop_place(job: Job, survey: Survey) -> DropPlace | None:
    """Return where lorries set down; None where nobody said, or where that point has no place."""
    name, site = job.arrangements.drop_point, survey.site
    at = next((point.xy for point in survey.points if point.name == name), None)
    if name is None or at is None:
        return None
    here = Point(at)
    roads = [(each.start, each.end) for each in site.boundaries if each.neighbour is Neighbour.HIGHWAY]
    roads += [(each.start, each.end) for each in site.tie_ins if each.beyond is Beyond.HIGHWAY]
    return DropPlace(
        point=name,
        at_mm=at,
        to_work_mm=min((float(area.gross.polygon.distance(here)) for area in site.areas), default=0.0),
        from_road_mm=min((float(LineString(road).distance(here)) for road in roads), default=None),
    )
