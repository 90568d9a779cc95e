"""Sums of flatness along a line."""

from __future__ import annotations

import numpy as np

from pavewright.as_laid.flatness._floor_numbers import curvatures, floor_numbers
from pavewright.as_laid.flatness._rolled import rolled_edge
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_MIN_HEIGHTS = 3


def flatness(heights_mm: tuple[float, ...], spacing_mm: float, edge_mm: float) -> dict[str, Value]:
    """Return how a line of heights bends, and the largest gap under a straight edge rolled along it.

    Source: definition; bends q = (h3 − h2) − (h2 − h1)
    """
    if len(heights_mm) < _MIN_HEIGHTS or spacing_mm <= 0.0 or edge_mm < 2.0 * spacing_mm:
        message = "Take three heights or more, and an edge that covers two spaces at least."
        raise SumRefusedError(message)
    heights, bends = np.array(heights_mm, dtype=np.float64), curvatures(heights_mm)
    rolled = rolled_edge(np.arange(len(heights), dtype=np.float64) * spacing_mm, heights, edge_mm)
    assert rolled is not None  # noqa: S101 - there are three heights
    return {
        "bends_mm": tuple(bends.tolist()),
        "mean_bend_mm": float(bends.mean()),
        "bend_scatter_mm": float(bends.std(ddof=1)) if len(bends) > 1 else 0.0,
        "largest_gap_mm": rolled.gap_mm,
        "at_mm": -1.0 if rolled.lowest is None else rolled.lowest * spacing_mm,
        "sees_between": _YES if rolled.sees_between else _NO,
    }


_YES, _NO = "known", "not known"


def floor(heights_mm: tuple[float, ...], flatness_mm: float, levelness_mm: float) -> dict[str, Value]:
    """Return the F-numbers of a line of a level floor.

    Source: astm_e1155
    """
    if min(flatness_mm, levelness_mm) <= 0.0:
        message = "Both constants are more than zero."
        raise SumRefusedError(message)
    try:
        found = floor_numbers(heights_mm, flatness_mm, levelness_mm)
    except ValueError as problem:
        raise SumRefusedError(str(problem)) from problem
    return {
        "mean_bend_mm": found.bend_mean_mm,
        "bend_scatter_mm": found.bend_sd_mm,
        "mean_rise_mm": found.rise_mean_mm,
        "rise_scatter_mm": found.rise_sd_mm,
        "flatness": found.flatness,
        "levelness": found.levelness,
    }


SUMS: tuple[Sum, ...] = (
    Sum(
        "flatness-along-a-line",
        "Find how a line of heights bends and the largest gap under a straight edge rolled along it",
        (
            Quantity("heights_mm", "mm", "heights at equal spaces", "numbers"),
            Quantity("spacing_mm", "mm", "from one to the next"),
            Quantity("edge_mm", "mm", "length of the straight edge"),
        ),
        (
            Quantity("bends_mm", "mm", "bend at each height but the ends: hollow is positive", "numbers"),
            Quantity("mean_bend_mm", "mm", "their mean"),
            Quantity("bend_scatter_mm", "mm", "their standard deviation"),
            Quantity("largest_gap_mm", "mm", "largest gap between the two places where the edge lies"),
            Quantity("at_mm", "mm", "how far along that gap is; -1 where there is none"),
            Quantity("sees_between", "", "what lies between the heights", kind="word"),
        ),
        "bend = (h3 − h2) − (h2 − h1); gap = upper hull under the edge, about its middle, less the heights",
        "definition",
        flatness,
    ),
    Sum(
        "floor-numbers",
        "Find the flatness and levelness numbers of a line of a level floor, read every 300 mm",
        (
            Quantity("heights_mm", "mm", "heights at steps of 300 mm", "numbers"),
            Quantity("flatness_mm", "mm", "constant of the flatness number", figure="as_laid.floor_flatness_mm"),
            Quantity("levelness_mm", "mm", "constant of the levelness number", figure="as_laid.floor_levelness_mm"),
        ),
        (
            Quantity("mean_bend_mm", "mm", "mean of the bends"),
            Quantity("bend_scatter_mm", "mm", "their standard deviation"),
            Quantity("mean_rise_mm", "mm", "mean rise over ten steps"),
            Quantity("rise_scatter_mm", "mm", "their standard deviation"),
            Quantity("flatness", "", "flatness number: the larger, the flatter"),
            Quantity("levelness", "", "levelness number; it says nothing of a surface that is laid to a fall"),
        ),
        "F = constant / (3 s + |mean|), of bends over one step and of rises over ten",
        "astm_e1155",
        floor,
    ),
)
"""Sums of this room."""
