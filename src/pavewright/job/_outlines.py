"""Outlines: corners that stand twice, too few of them, and, where coordinates are given, sides that cross."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.geometry import Corner, Ring, Shape, outline_faults
from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from pavewright.geometry import XY
    from pavewright.job._document import Job
    from pavewright.job._measured import MeasuredCurve
    from pavewright.job._paving import Area, OutlineCorner

_MIN_CORNERS = 3
"""Fewer corners than this enclose something only where a side is an arc."""


def corner_faults(job: Job) -> Iterator[Fault]:
    """Give what is wrong with the outlines and holes of areas."""
    places = {point.name: (point.x_mm, point.y_mm) for point in job.measurements.points}
    curves = {curve.name: curve for curve in job.measurements.curves}
    for number, area in enumerate(job.areas):
        path = f"areas.{number}"
        rings = [(f"{path}.outline", f"Area {area.name}", area.outline)]
        rings += [
            (f"{path}.holes.{index}", f"Hole {index + 1} of area {area.name}", hole)
            for index, hole in enumerate(area.holes)
        ]
        faults = tuple(fault for entry in rings for fault in (*_corners(*entry), *_curves(entry, curves)))
        yield from faults
        yield from _zone_curves(path, area)
        if not faults:
            yield from _crossings(path, area, places)


def _corners(path: str, what: str, corners: Sequence[OutlineCorner]) -> Iterator[Fault]:
    """Give corners through which one outline goes twice, and outlines that enclose nothing."""
    seen: set[str] = set()
    for place, corner in enumerate(corners):
        if corner.point in seen:
            words = f"{what} goes through {corner.point} twice: check the order of its corners."
            yield Fault(f"{path}.{place}", words)
        seen.add(corner.point)
        ways = (corner.through is not None, corner.centre is not None, corner.curve is not None)
        if sum((bool(corner.rise_mm), *ways)) > 1:
            words = (
                f"The side of {what} from {corner.point} is given as an arc in two ways: keep its rise, a point, its "
                f"centre or its measured curve."
            )
            yield Fault(f"{path}.{place}", words)
    if len(corners) < _MIN_CORNERS and not any(corner.is_curved for corner in corners):
        words = f"{what} has {len(corners)} corners and no arc: it needs three or more. Measure what is missing."
        yield Fault(path, words)


def _curves(entry: tuple[str, str, Sequence[OutlineCorner]], curves: Mapping[str, MeasuredCurve]) -> Iterator[Fault]:
    """Give sides that follow a curve which nobody measured, or which runs between other points."""
    path, what, corners = entry
    for place, (corner, after) in enumerate(zip(corners, (*corners[1:], *corners[:1]), strict=True)):
        if corner.curve is None:
            continue
        curve = curves.get(corner.curve)
        if curve is None:
            words = f"{what} follows curve {corner.curve}, which is not measured: measure it, or correct the name."
            yield Fault(f"{path}.{place}.curve", words)
        elif {curve.line_from, curve.line_to} != {corner.point, after.point}:
            words = (
                f"{what} follows curve {corner.curve} from {corner.point} to {after.point}, and the curve is measured "
                f"between {curve.line_from} and {curve.line_to}: choose the side that it runs along."
            )
            yield Fault(f"{path}.{place}.curve", words)
        elif not curve.one_arc:
            words = (
                f"{what} follows curve {curve.name}, which is no single arc: make its offsets points, and let the outline "
                f"go from one to the next."
            )
            yield Fault(f"{path}.{place}.curve", words)


def _zone_curves(path: str, area: Area) -> Iterator[Fault]:
    """Give zones whose outline names a measured curve: they take arcs in the other ways only."""
    for number, zone in enumerate(area.zones):
        for place, corner in enumerate(zone.outline):
            if corner.curve is not None:
                words = f"Zone {zone.name} follows curve {corner.curve}: give its arc by a rise, a point or a centre."
                yield Fault(f"{path}.zones.{number}.outline.{place}.curve", words)


def _crossings(path: str, area: Area, places: Mapping[str, XY]) -> Iterator[Fault]:
    """Give sides that cross and holes that lie outside, where every corner has its coordinates.

    Arcs that are given by their points are looked at when the points have their places.
    """
    if any(corner.through or corner.centre or corner.curve for ring in (area.outline, *area.holes) for corner in ring):
        return
    if any(corner.point not in places for ring in (area.outline, *area.holes) for corner in ring):
        return
    apart = tuple(
        Fault(ring_path, f"{what}: {start} and {end} stand on one place: measure one of them again.")
        for ring_path, what, corners in (
            (f"{path}.outline", f"Area {area.name}", area.outline),
            *((f"{path}.holes.{n}", f"Hole {n + 1} of area {area.name}", hole) for n, hole in enumerate(area.holes)),
        )
        for start, end in _same_places(corners, places)
    )
    yield from apart
    if apart:
        return
    sentences = _sentences(area, places, turned=False)
    # arcs can turn an outline over, and then they bulge the other way: it is sound if either way is
    if sentences and any(corner.rise_mm for corner in area.outline) and not _sentences(area, places, turned=True):
        return
    for sentence in sentences:
        yield Fault(f"{path}.outline", f"Area {area.name}: {sentence}")


def _sentences(area: Area, places: Mapping[str, XY], *, turned: bool) -> tuple[str, ...]:
    """Return what is wrong with an outline and its holes, rises of the outline taken the other way where it is turned."""
    ring, holes = _ring(area.outline, places, turned=turned), tuple(_ring(hole, places) for hole in area.holes)
    if Shape(ring.points(), tuple(hole.points() for hole in holes)).polygon.is_valid:
        return ()  # far quicker than looking at every pair of sides
    return outline_faults(ring, holes)


def _same_places(corners: Sequence[OutlineCorner], places: Mapping[str, XY]) -> Iterator[tuple[str, str]]:
    for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
        if places[start.point] == places[end.point]:
            yield start.point, end.point


def _ring(corners: Sequence[OutlineCorner], places: Mapping[str, XY], *, turned: bool = False) -> Ring:
    """Return a ring of given points whose arcs bulge out of it where their rise is positive.

    A rise of geometry is positive to the right of the direction of travel, which is outward only on an outline that
    runs anticlockwise; where the corners run clockwise the rises change sign.
    """
    around = [places[corner.point] for corner in corners]
    doubled = sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(around, (*around[1:], around[0]), strict=True))
    sign = -1.0 if (doubled < 0.0) != turned else 1.0
    return Ring(tuple(Corner(corner.point, *places[corner.point], sign * corner.rise_mm) for corner in corners))
