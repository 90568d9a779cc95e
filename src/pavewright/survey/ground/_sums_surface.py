"""Sums of surfaces and edges: a plane through readings, a curved edge as arcs."""

from __future__ import annotations

import itertools

import numpy as np

from pavewright.geometry import bearing_of, fit_plane
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.survey.edges import edge_by_arcs

_MIN_POINTS = 3


def plane_through(
    eastings_mm: tuple[float, ...], northings_mm: tuple[float, ...], levels_mm: tuple[float, ...]
) -> dict[str, Value]:
    """Return the plane that fits readings best, and how far each is off it.

    Source: definition, least squares of heights
    """
    if not len(eastings_mm) == len(northings_mm) == len(levels_mm) or len(levels_mm) < _MIN_POINTS:
        message = "A plane needs three readings or more, each with east, north and level: measure what is missing."
        raise SumRefusedError(message)
    try:
        plane = fit_plane(tuple(zip(eastings_mm, northings_mm, levels_mm, strict=True)))
    except ValueError as problem:
        message = "The readings stand on one line: read the staff to the side of it."
        raise SumRefusedError(message) from problem
    fitted = [plane.level_at(at) for at in zip(eastings_mm, northings_mm, strict=True)]
    off = [one - other for one, other in zip(fitted, levels_mm, strict=True)]
    fall = float(np.hypot(plane.slope_x, plane.slope_y))
    return {
        "level_at_origin_mm": plane.level_at((0.0, 0.0)),
        "slope_east": plane.slope_x,
        "slope_north": plane.slope_y,
        "fall": fall,
        "falls_to_deg": bearing_of((-plane.slope_x / fall, -plane.slope_y / fall)) if fall else 0.0,
        "residuals_mm": tuple(off),
        "squares_mm2": float(np.dot(off, off)),
    }


def curved_edge(along_mm: tuple[float, ...], offsets_mm: tuple[float, ...], tolerance_mm: float) -> dict[str, Value]:
    """Return an edge measured by offsets off a line as few arcs, each by the points at its ends and its rise.

    Source: definition; every point within the tolerance of its arc
    """
    if len(along_mm) != len(offsets_mm) or len(along_mm) < _MIN_POINTS or tolerance_mm <= 0.0:
        message = "Give three offsets or more, each with its place along the line, and a tolerance."
        raise SumRefusedError(message)
    if any(later <= earlier for earlier, later in itertools.pairwise(along_mm)):
        message = "Places along the line grow from one offset to the next: sort them, and keep one at each place."
        raise SumRefusedError(message)
    arcs = edge_by_arcs(tuple(zip(along_mm, offsets_mm, strict=True)), tolerance_mm)
    return {
        "ends": tuple(float(arc.last + 1) for arc in arcs),
        "rises_mm": tuple(arc.rise_mm for arc in arcs),
        "off_mm": max(arc.off_mm for arc in arcs),
        "arcs": float(len(arcs)),
    }


SURFACE_SUMS: tuple[Sum, ...] = (
    Sum(
        "plane-through-readings",
        "Find the plane that fits staff readings best, its fall, and how far each reading is off",
        (
            Quantity("eastings_mm", "mm", "east of each reading", "numbers"),
            Quantity("northings_mm", "mm", "north of each", "numbers"),
            Quantity("levels_mm", "mm", "level of each", "numbers"),
        ),
        (
            Quantity("level_at_origin_mm", "mm", "level where east and north are zero"),
            Quantity("slope_east", "", "rise per run towards east"),
            Quantity("slope_north", "", "rise per run towards north"),
            Quantity("fall", "", "steepest fall, drop over run"),
            Quantity("falls_to_deg", "deg", "where it falls to, clockwise from north"),
            Quantity("residuals_mm", "mm", "plane less reading, in order", "numbers"),
            Quantity("squares_mm2", "mm2", "sum of their squares"),
        ),
        "least squares of heights over z = a + b·east + c·north",
        "definition",
        plane_through,
    ),
    Sum(
        "curved-edge-by-arcs",
        "Find few arcs for a curved edge that was measured by offsets off a line",
        (
            Quantity("along_mm", "mm", "place of each offset along the line", "numbers"),
            Quantity("offsets_mm", "mm", "offsets in order, positive to the left", "numbers"),
            Quantity("tolerance_mm", "mm", "how far a point may stand off its arc"),
        ),
        (
            Quantity("ends", "", "number of the offset at which each arc ends, from 1", "numbers"),
            Quantity("rises_mm", "mm", "rise of each arc over its chord, positive to the right of the way", "numbers"),
            Quantity("off_mm", "mm", "how far the farthest point stands off"),
            Quantity("arcs", "", "how many arcs"),
        ),
        "each arc is led as far as every point stays within the tolerance; its rise keeps the farthest point nearest",
        "definition",
        curved_edge,
    ),
)
