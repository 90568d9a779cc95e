"""What a finger drew, laid over what was taped: its scale, turn and shift, and which points are neighbours on it."""

from __future__ import annotations

import itertools
import math
import statistics
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.geometry import along_and_offset, point_along

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.geometry import XY

_FEW = 3
"""From so many taped lines on the middle of them gives the scale."""
_AS_SD = 1.4826
"""A median of distances from the middle, as a standard deviation. [-]"""
_NOWHERE = 1e-9
_SAME = 1e-6


@dataclass(frozen=True, slots=True)
class Laid:
    """How a sketch is laid on the site: scaled and turned about one place of its own, which comes to lie on another.

    Attributes:
        scale: How many times larger the site is. [-]
        turn: Where a stretch to the right on the sketch points. [-]
        own: The place of its own. [mm]
        on: Where that comes to lie. [mm]
    """

    scale: float
    turn: XY
    own: XY
    on: XY

    def on_site(self, place: XY) -> XY:
        """Return where a place of the sketch lies on the site. [mm]."""
        dx, dy = self.scale * (place[0] - self.own[0]), self.scale * (place[1] - self.own[1])
        return (
            self.on[0] + self.turn[0] * dx - self.turn[1] * dy,
            self.on[1] + self.turn[1] * dx + self.turn[0] * dy,
        )


def scale_of(sketch: Mapping[str, XY], lines: Sequence[tuple[str, str, float]]) -> float:
    """Return how many times larger the site is than its sketch: the middle of what was taped over what was drawn.

    Long lines count more.

    Args:
        sketch: Points as drawn. [mm]
        lines: Two points and their distance as taped or as known. [mm]

    Source: definition, weighted median of the ratios; with one or two lines their sum over the sum drawn

    >>> scale_of({"A": (0.0, 0.0), "B": (400.0, 0.0)}, [("A", "B", 6000.0)])
    15.0
    """
    seen = [(length, math.dist(sketch[a], sketch[b])) for a, b, length in lines if a in sketch and b in sketch]
    seen = [(length, drawn) for length, drawn in seen if drawn > 0.0 and length > 0.0]
    if not seen:
        return 1.0
    whole = math.fsum(drawn for _, drawn in seen)
    if len(seen) < _FEW:
        return math.fsum(length for length, _ in seen) / whole
    seen.sort(key=lambda each: each[0] / each[1])
    reached = 0.0
    for length, drawn in seen:
        reached += drawn
        if reached >= whole / 2.0:
            return length / drawn
    return seen[0][0] / seen[0][1]


def scatter_of(sketch: Mapping[str, XY], lines: Sequence[tuple[str, str, float]], min_share: float) -> float:
    """Return how far the lines of a sketch scatter about its scale, as a part of them. [-].

    Args:
        sketch: Points as drawn. [mm]
        lines: Two points and their distance as taped. [mm]
        min_share: What it is at the least. [-]

    Source: definition, median of the distances of log ratios from their median, as a standard deviation
    """
    logs = [
        math.log(length / math.dist(sketch[a], sketch[b]))
        for a, b, length in lines
        if a in sketch and b in sketch and sketch[a] != sketch[b]
    ]
    if len(logs) < _FEW:
        return min_share
    middle = statistics.median(logs)
    return max(min_share, _AS_SD * statistics.median(abs(each - middle) for each in logs))


def laid_over(sketch: Mapping[str, XY], known: Mapping[str, XY], scale: float) -> Laid:
    """Return the sketch turned and shifted so that its points miss their known places least, by squares.

    Args:
        sketch: Points as drawn. [mm]
        known: Places on the site. [mm]
        scale: How many times larger the site is. [-]

    Source: definition, least squares of turn and shift with the centres laid on each other
    """
    both = [(sketch[name], place) for name, place in known.items() if name in sketch]
    if not both:
        return Laid(scale, (1.0, 0.0), (0.0, 0.0), (0.0, 0.0))
    own, on = (
        (math.fsum(x for x, _ in places) / len(both), math.fsum(y for _, y in places) / len(both))
        for places in zip(*both, strict=True)
    )
    along = across = 0.0
    for (x, y), (u, v) in both:
        right, up, east, north = x - own[0], y - own[1], u - on[0], v - on[1]
        along += right * east + up * north
        across += right * north - up * east
    size = math.hypot(along, across)
    return Laid(scale, (along / size, across / size) if size > _NOWHERE else (1.0, 0.0), own, on)


def neighbours(sketch: Mapping[str, XY]) -> list[tuple[str, str]]:
    """Return the pairs of a sketch with no third point in the circle over the line between them.

    Source: definition, the Gabriel graph of the points
    """
    names = list(sketch)
    places = np.array([sketch[name] for name in names], dtype=np.float64).reshape(-1, 2)
    pairs = []
    for first, second in itertools.combinations(range(len(names)), 2):
        start, end = places[first], places[second]
        middle, reach = (start + end) / 2.0, float(np.hypot(*(end - start))) / 2.0
        near = np.hypot(*(places - middle).T) < reach * (1.0 + _SAME)
        apart = np.minimum(np.hypot(*(places - start).T), np.hypot(*(places - end).T)) > _SAME
        if not (near & apart).any():
            pairs.append((names[first], names[second]))
    return pairs


def mirrored(place: XY, start: XY, end: XY) -> XY:
    """Return a place on the other side of a line. [mm].

    >>> mirrored((1.0, 2.0), (0.0, 0.0), (4.0, 0.0))
    (1.0, -2.0)
    """
    along, off = along_and_offset(start, end, place)
    return point_along(start, end, along, -off)
