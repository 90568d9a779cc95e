"""How well marks are spread, and where a thing lies against them."""

from __future__ import annotations

import math
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np
import shapely

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.photo_survey._types import Array

_FOUR = 4


def triangle_share(places: Array) -> float:
    """Return how far the best four of the places are from having three in line.

    Of every four, the flattest of their triangles counts; of all fours, the best. A triangle counts by twice its area
    over the square of the longest way between any two places.

    Args:
        places: The places, shape (n, 2), n at least 4. [-]

    Source: common practice

    >>> triangle_share(np.array([(0.0, 0.0), (3.0, 0.0), (3.0, 4.0), (0.0, 4.0)]))
    0.48
    """
    across = places[:, None, :] - places[None, :, :]
    longest = float(np.max(np.sum(across**2, axis=2)))
    if longest <= 0.0:
        return 0.0
    fours = np.array(list(combinations(range(len(places)), _FOUR)))
    flattest = np.full(len(fours), math.inf)
    for left in range(_FOUR):
        a, b, c = (places[fours[:, each]] for each in range(_FOUR) if each != left)
        area = np.abs((b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0]))
        flattest = np.minimum(flattest, area)
    return float(np.max(flattest)) / longest


def hull_area_px2(marks_px: Array) -> float:
    """Return the area within a string round the marks.

    Args:
        marks_px: Marks of the picture, shape (n, 2). [px]
    """
    return float(shapely.MultiPoint(marks_px).convex_hull.area)


def beyond_share(marks_px: Array, seen_px: XY) -> float:
    """Return how far a thing lies beyond a string round the marks, over the side of a square of the same area.

    Args:
        marks_px: Marks of the picture, shape (n, 2). [px]
        seen_px: Where the thing is seen. [px]
    """
    hull = shapely.MultiPoint(marks_px).convex_hull
    return float(hull.distance(shapely.Point(seen_px))) / math.sqrt(max(hull.area, 1.0))


def chance_beyond(squares: float, spare: int) -> float:
    """Return how likely the sum of squares of so many spare readings is larger, for an even number of them.

    Args:
        squares: Sum of squared disagreements, each over its standard deviation. [-]
        spare: How many readings are spare; even.

    Source: definition, chi-square for an even number

    >>> round(chance_beyond(5.991465, 2), 6)
    0.05
    """
    half = squares / 2.0
    term = total = 1.0
    for number in range(1, spare // 2):
        term *= half / number
        total += term
    return math.exp(-half) * total
