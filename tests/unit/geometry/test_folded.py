"""Facets under many places equal those found one by one, by the distance to every outline."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from pavewright.geometry import Facet, FoldedSurface, Plane

KINDS = {
    "valley": [((0, 0), (900, 0), (900, 600), (0, 600)), ((900, 0), (2000, 0), (2000, 600), (900, 600))],
    "fan": [
        ((0, 0), (2000, 0), (700, 300)),
        ((2000, 0), (2000, 600), (700, 300)),
        ((2000, 600), (0, 600), (700, 300)),
        ((0, 600), (0, 0), (700, 300)),
    ],
    "gap": [((0, 0), (800, 0), (800, 600), (0, 600)), ((1200, 0), (2000, 0), (2000, 600), (1200, 600))],
    "overlap": [((0, 0), (1200, 0), (1200, 600), (0, 600)), ((800, 0), (2000, 0), (2000, 600), (800, 600))],
}


def surface_of(outlines):
    return FoldedSurface(
        tuple(
            Facet(tuple((float(x), float(y)) for x, y in outline), Plane(100.0 * number, (0.0, 0.0), 0.01, 0.002))
            for number, outline in enumerate(outlines)
        )
    )


@pytest.mark.parametrize("kind", KINDS)
def test_levels_of_many_places_are_those_of_each_by_itself(kind):
    surface = surface_of(KINDS[kind])
    rng = np.random.default_rng(3)
    # places well inside, past the edge, on folds and corners, and a hair off them
    x, y = (axis.ravel() for axis in np.meshgrid(np.arange(-200.0, 2201.0, 50.0), np.arange(-150.0, 751.0, 50.0)))
    on = shapely.get_coordinates(shapely.segmentize([facet.polygon.boundary for facet in surface.facets], 37.0))
    hair = on + rng.uniform(-2e-3, 2e-3, on.shape)
    x, y = np.concatenate([x, on[:, 0], hair[:, 0]]), np.concatenate([y, on[:, 1], hair[:, 1]])
    assert surface.levels_at(x, y).tolist() == [surface.level_at(at) for at in zip(x.tolist(), y.tolist(), strict=True)]


def test_one_plane_has_no_end():
    surface = surface_of(KINDS["valley"][:1])
    assert surface.levels_at(np.array([5000.0]), np.array([0.0])).tolist() == [surface.level_at((5000.0, 0.0))]
