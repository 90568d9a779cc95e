"""Outlines of what stands on the site: rectangles, circles, and rings with arc sides."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from shapely.geometry import Polygon

from pavewright.geometry import Corner, Ring
from pavewright.survey.edges._arcs import rise_about, rise_through
from pavewright.survey.edges._one_arc import rise_by_offsets_mm

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.geometry import XY
    from pavewright.job import MeasuredCurve, OutlineCorner


_TWO = 2
_STRAIGHT_MM = 0.001
"""An arc that rises less than a thousandth of a millimetre is a straight side. [mm]"""


def rectangle(centre: XY, length_mm: float, width_mm: float, bearing_deg: float) -> tuple[XY, ...]:
    """Return the corners of a rectangle about its centre, anticlockwise, length along the bearing. [mm].

    Source: definition

    >>> rectangle((0.0, 0.0), 600.0, 400.0, 0.0)
    ((-200.0, 300.0), (-200.0, -300.0), (200.0, -300.0), (200.0, 300.0))
    """
    turn = math.radians(bearing_deg)
    ahead = math.sin(turn), math.cos(turn)
    left = -ahead[1], ahead[0]
    half_length, half_width = length_mm / 2.0, width_mm / 2.0
    return tuple(
        (
            centre[0] + along * half_length * ahead[0] + across * half_width * left[0],
            centre[1] + along * half_length * ahead[1] + across * half_width * left[1],
        )
        for along, across in ((1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0))
    )


def circle(centre: XY, diameter_mm: float) -> tuple[XY, ...]:
    """Return a circle as points, anticlockwise. [mm]."""
    radius = diameter_mm / 2.0
    ring = Ring(
        (
            Corner("", centre[0] - radius, centre[1], radius),
            Corner("", centre[0] + radius, centre[1], radius),
        )
    )
    return ring.points()


def ring_with_rises_outward(corners: Sequence[Corner]) -> Ring:
    """Return a ring run anticlockwise, in which a positive rise bulges out of what the ring encloses.

    Args:
        corners: Corners in the order in which they were walked, either way round; each carries the rise of the side to
            the next corner, positive outward.

    The straight lines between the corners tell which way round they were walked. Where they enclose nothing, as with
    two corners joined by arcs, or where the arcs turn the outline over, the way round that gives a sound outline is
    taken.
    """
    as_walked = tuple(
        corner if abs(corner.rise_mm) >= _STRAIGHT_MM else Corner(corner.name, corner.x_mm, corner.y_mm)
        for corner in corners
    )
    # walking back from the same first corner, the side that leaves a corner is the one that led to it before
    turned = tuple(
        Corner(as_walked[-k].name, as_walked[-k].x_mm, as_walked[-k].y_mm, as_walked[-k - 1].rise_mm)
        for k in range(len(as_walked))
    )
    ways = (as_walked, turned) if _doubled_area([c.xy for c in as_walked]) >= 0.0 else (turned, as_walked)
    rings = tuple(Ring(way) for way in ways)
    return next((ring for ring in rings if _is_sound(ring)), rings[0])


class ArcFaultError(ValueError):
    """An arc of an outline cannot be drawn; holds the number of its corner."""

    def __init__(self, number: int, words: str) -> None:
        """Keep the number."""
        super().__init__(words)
        self.number = number


def outline_ring(
    outline: Sequence[OutlineCorner], places: Mapping[str, XY], curves: Sequence[MeasuredCurve] = ()
) -> Ring:
    """Return the ring of an outline, run anticlockwise, arcs given by rise, a point, their centre or offsets.

    Args:
        outline: Corners in the order in which they were walked, either way round.
        places: Where their points stand, and those of their arcs. [mm]
        curves: Curves that were measured by offsets from their chords.

    Raises:
        ArcFaultError: an arc cannot be drawn.
    """
    found = [places[corner.point] for corner in outline]
    measured = {curve.name: curve for curve in curves}
    if not any(corner.through or corner.centre or corner.curve for corner in outline):
        corners = [Corner(each.point, *xy, each.rise_mm) for each, xy in zip(outline, found, strict=True)]
        return ring_with_rises_outward(corners)
    corners, outward = [], []
    for number, (each, xy) in enumerate(zip(outline, found, strict=True)):
        end = found[(number + 1) % len(found)]
        rise: float | None = None
        try:
            if each.through is not None:
                rise = rise_through(xy, end, places[each.through])
            elif each.centre is not None:
                rise = rise_about(xy, end, places[each.centre])
            elif each.curve is not None:
                rise = _rise_of(measured[each.curve], each.point, math.dist(xy, end))
        except ValueError as problem:
            name = outline[(number + 1) % len(found)].point
            words = f"the arc from {each.point} to {name} cannot be drawn: {problem}. Measure it again."
            raise ArcFaultError(number, words) from None
        corners.append(Corner(each.point, *xy, rise or 0.0))
        outward.append(each.rise_mm if rise is None else None)
    return ring_as_walked(corners, outward)


def _rise_of(curve: MeasuredCurve, start: str, chord_mm: float) -> float:
    """Return the rise of a measured curve, positive to the right of somebody who walks it from a start."""
    offsets = [(each.along_mm, each.offset_mm) for each in curve.offsets]
    rise = rise_by_offsets_mm(chord_mm, offsets)
    return -rise if curve.line_from == start else rise


def ring_as_walked(corners: Sequence[Corner], outward: Sequence[float | None]) -> Ring:
    """Return a ring run anticlockwise from corners whose arcs are given by their points.

    Args:
        corners: Corners in the order in which they were walked; each has the rise of its side, positive to the right.
        outward: Rise of a side that is given as bulging outward instead, None for the others. [mm]
    """
    walked = [corner.xy for corner in corners]
    around: list[XY] = []
    for number, (corner, reported) in enumerate(zip(corners, outward, strict=True)):
        around.append(corner.xy)
        end = walked[(number + 1) % len(walked)]
        chord = math.dist(corner.xy, end)
        if reported is None and chord > 0.0:
            ahead = (end[0] - corner.x_mm) / chord, (end[1] - corner.y_mm) / chord
            middle = (corner.x_mm + end[0]) / 2.0, (corner.y_mm + end[1]) / 2.0
            around.append((middle[0] + ahead[1] * corner.rise_mm, middle[1] - ahead[0] * corner.rise_mm))
    sign = 1.0 if _doubled_area(around) >= 0.0 else -1.0
    rises = [
        (corner.rise_mm if reported is None else sign * reported)
        for corner, reported in zip(corners, outward, strict=True)
    ]
    if sign > 0.0:
        return Ring(tuple(Corner(c.name, c.x_mm, c.y_mm, rise) for c, rise in zip(corners, rises, strict=True)))
    back = tuple(
        Corner(corners[-k].name, corners[-k].x_mm, corners[-k].y_mm, -rises[-k - 1]) for k in range(len(corners))
    )
    return Ring(back)


def is_inside_out(ring: Ring) -> bool:
    """Return whether the arcs of a ring turn it over, so that it runs clockwise."""
    return _doubled_area(ring.points()) < 0.0


def _is_sound(ring: Ring) -> bool:
    if any(side.chord_mm == 0.0 for side in ring.sides):
        return False
    points = ring.points()
    return len(points) > _TWO and _doubled_area(points) > 0.0 and Polygon(points).is_valid


def _doubled_area(points: Sequence[XY]) -> float:
    """Return twice the area inside points, positive where they run anticlockwise, local origin taken off. [mm²]."""
    x0, y0 = points[0]
    moved = [(x - x0, y - y0) for x, y in points]
    return math.fsum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(moved, (*moved[1:], moved[0]), strict=True))
