"""Bays as laid: each against the plane that was planned for it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import shapely
import shapely.ops

from pavewright import units
from pavewright.as_laid._types_surface import BayAsLaid, BayState, MovedVerdict
from pavewright.as_laid._verdicts import TRUSTED, Verdict, together, within
from pavewright.as_laid.planes import bent_plane, robust_plane

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from pavewright.as_laid._figures import AsLaidFigures
    from pavewright.as_laid._types import ReadingCheck
    from pavewright.as_laid._types_surface import VisitMoved
    from pavewright.as_laid.planes import RobustPlane
    from pavewright.geometry import XY, Plane
    from pavewright.levels import FinishedArea

_SLIVER = 0.005
"""What joints cut off a facet and is a smaller part of it is no bay. [-]"""
_PAST = 1.02
"""A joint is drawn a little longer, so that it reaches the edge of its facet. [-]"""
_TURN_DEG, _HALF_TURN_DEG = 360.0, 180.0


@dataclass(frozen=True)
class Bay:
    """A part of an area that is laid as one plane.

    Attributes:
        number: Its number, from 1.
        polygon: Its outline. [mm]
        planned: Its plane.
    """

    number: int
    polygon: shapely.Polygon
    planned: Plane


def bays_of(finished: FinishedArea, joints: Iterable[tuple[XY, XY]]) -> tuple[Bay, ...]:
    """Return the bays of an area: its facets, cut along its movement joints.

    Args:
        finished: The area.
        joints: Ends of each movement joint that runs across it. [mm]
    """
    lines = [_longer(ends) for ends in joints]
    found: list[tuple[shapely.Polygon, Plane]] = []
    for facet in finished.surface.facets:
        whole = facet.polygon
        parts = list(shapely.ops.polygonize(shapely.unary_union([whole.exterior, *lines])))
        inside = [each for each in parts if whole.contains(each.representative_point())]
        kept = [each for each in inside if each.area >= _SLIVER * whole.area]
        found += [(each, facet.plane) for each in kept or [whole]]
    return tuple(Bay(number, polygon, plane) for number, (polygon, plane) in enumerate(found, start=1))


def _longer(ends: tuple[XY, XY]) -> shapely.LineString:
    (x1, y1), (x2, y2) = ends
    x, y, dx, dy = (x1 + x2) / 2.0, (y1 + y2) / 2.0, (x2 - x1) / 2.0 * _PAST, (y2 - y1) / 2.0 * _PAST
    return shapely.LineString([(x - dx, y - dy), (x + dx, y + dy)])


def bay_under(bays: Sequence[Bay], at: XY) -> int:
    """Return the number of the bay on which a place lies, the nearest for one past the edge.

    Args:
        bays: The bays.
        at: The place. [mm]
    """
    point = shapely.Point(at)
    return min(bays, key=lambda each: (each.polygon.distance(point), each.number)).number


def bays_as_laid(
    finished: FinishedArea, bays: Sequence[Bay], readings: Sequence[ReadingCheck], sd_mm: float, held: AsLaidFigures
) -> tuple[BayAsLaid, ...]:
    """Return each bay with the plane through its readings against the plane that was planned."""
    found = []
    for bay in bays:
        own = [each for each in readings if bay_under(bays, each.at) == bay.number]
        found.append(_bay(finished, bay, own, sd_mm, held))
    return tuple(found)


def _bay(
    finished: FinishedArea, bay: Bay, readings: list[ReadingCheck], sd_mm: float, held: AsLaidFigures
) -> BayAsLaid:
    array = np.array([(*each.at, each.found_mm) for each in readings]).reshape(-1, 3)
    blank = unjudged(finished.area, bay, tuple(each.label for each in readings), held)
    blank = replace(blank, read_at=tuple(each.at for each in readings))
    try:
        fit = robust_plane(array, sd_mm)
    except ValueError:
        return blank
    told = judged(blank, fit, [each.verdict for each in readings], held)
    return replace(told, twist=bent_plane(array[list(fit.kept)], fit.sd_mm))


def unjudged(area: str, bay: Bay, labels: tuple[str, ...], held: AsLaidFigures) -> BayAsLaid:
    """Return a bay of which nothing is known but its plan.

    Args:
        area: Name of its area.
        bay: The bay.
        labels: Labels of the readings on it.
        held: What it is held to.
    """
    flat = _is_flat(bay.planned, held)
    return BayAsLaid(
        area=area,
        number=bay.number,
        outline=tuple((float(x), float(y)) for x, y in shapely.get_coordinates(bay.polygon.exterior)[:-1]),
        planned=bay.planned,
        readings=labels,
        fit=None,
        out=(),
        fall=None,
        fall_sd=None,
        planned_fall=bay.planned.fall,
        turned_deg=None,
        farthest_at=None,
        farthest_mm=None,
        farthest_sd_mm=None,
        twist=None,
        is_plane_off=False,
        states=(*((BayState.FLAT_BY_DESIGN,) if flat else ()), BayState.UNKNOWN),
    )


def _is_flat(planned: Plane, held: AsLaidFigures) -> bool:
    return planned.fall < units.one_in_n_to_fall(held.min_fall.value) * (1.0 - _EXACT)


def judged(blank: BayAsLaid, fit: RobustPlane, verdicts: Sequence[Verdict], held: AsLaidFigures) -> BayAsLaid:
    """Return a bay with the plane that was found on it, against the planned one.

    Args:
        blank: The bay, of which nothing is known yet.
        fit: The plane found.
        verdicts: Verdicts on the readings on it.
        held: What it is held to.
    """
    planned, outline = blank.planned, blank.outline
    flat = _is_flat(planned, held)
    way = planned.downhill
    corner = max(outline, key=lambda at: abs(fit.plane.level_at(at) - planned.level_at(at)))
    plane = _against(outline, planned, fit, held, is_flat=flat)
    state = BayState.OFF_DESIGN if Verdict.FAILS in verdicts else _STATES[plane]
    return replace(
        blank,
        fit=fit,
        out=tuple(blank.readings[number] for number in fit.out) if blank.readings else (),
        fall=fit.plane.fall_along(way),
        fall_sd=fit.fall_sd(way),
        turned_deg=_turned(planned, fit.plane),
        farthest_at=corner,
        farthest_mm=fit.plane.level_at(corner) - planned.level_at(corner),
        farthest_sd_mm=fit.level_sd_mm(corner),
        is_plane_off=plane is Verdict.FAILS,
        states=(*((BayState.FLAT_BY_DESIGN,) if flat else ()), state),
    )


_STATES: Mapping[Verdict, BayState] = {
    Verdict.PASSES: BayState.AS_DESIGNED,
    Verdict.FAILS: BayState.OFF_DESIGN,
    Verdict.INCONCLUSIVE: BayState.UNKNOWN,
}


def _turned(planned: Plane, found: Plane) -> float | None:
    """Return by how much the steepest fall turns clockwise from the planned one; None where either is level. [deg]."""
    if planned.fall == 0.0 or found.fall == 0.0:
        return None
    return (found.bearing_deg - planned.bearing_deg + _HALF_TURN_DEG) % _TURN_DEG - _HALF_TURN_DEG


def _against(
    outline: tuple[XY, ...], planned: Plane, fit: RobustPlane, held: AsLaidFigures, *, is_flat: bool
) -> Verdict:
    """Return whether the plane found is the planned one: by its level at every corner of the bay, and by its fall."""
    whole = together(
        [within(fit.plane.level_at(at) - planned.level_at(at), held.level.value, fit.level_sd_mm(at)) for at in outline]
    )
    least = 0.0 if is_flat else units.one_in_n_to_fall(held.min_fall.value)
    steepest, way, along = fit.plane.fall, fit.plane.downhill, planned.downhill
    too_flat = steepest + TRUSTED * fit.fall_sd(way) < least
    runs_back = planned.fall > 0.0 and fit.plane.fall_along(along) + TRUSTED * fit.fall_sd(along) < 0.0
    if whole is Verdict.FAILS or too_flat or runs_back:
        return Verdict.FAILS
    return whole if steepest >= least else Verdict.INCONCLUSIVE


def with_movement(bays: tuple[BayAsLaid, ...], visits: tuple[VisitMoved, ...]) -> tuple[BayAsLaid, ...]:
    """Return bays of which those that moved by any later visit say so."""
    moved = {(each.area, each.number) for visit in visits for each in visit.bays if each.verdict is MovedVerdict.MOVED}
    return tuple(
        replace(bay, states=(*(each for each in bay.states if each is not BayState.UNKNOWN), BayState.MOVED_SINCE))
        if bay.key in moved
        else bay
        for bay in bays
    )


_EXACT = 1e-9
