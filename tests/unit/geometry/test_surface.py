"""Levels under many points and volumes of many triangles equal the plain way: one by one, every triangle tried."""

import math
import random

import numpy as np
import pytest
import shapely

from pavewright.geometry import Plane, Shape, prism_volumes, triangulate

YARD = Shape(((500.0, 400.0), (9000.0, 700.0), (9300.0, 5000.0), (5000.0, 5200.0), (4800.0, 9000.0), (700.0, 8700.0)))


def ground(count, gap=None):
    chance = random.Random(count)
    spots = [(0.0, 0.0, 90.0), (10_000.0, 0.0, 40.0), (10_000.0, 10_000.0, 120.0), (0.0, 10_000.0, 10.0)]
    spots += [(chance.uniform(0, 1e4), chance.uniform(0, 1e4), chance.uniform(0, 200)) for _ in range(count - 4)]
    return triangulate(spots, gaps=() if gap is None else (gap,))


def in_line():
    """Spots of one tape line, a staff's width out of straight, beside a wide field: triangles thin as a hair."""
    spots = [(x * 500.0, 0.01 * (x % 2), 100.0 + 7.0 * (x % 3)) for x in range(12)]
    return triangulate([*spots, (2_000.0, 4_000.0, 30.0), (4_500.0, 3_000.0, 60.0)])


def weights_of(sheet, x, y):
    found = []
    for a, b, c in sheet.corners.tolist():
        spread = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
        if abs(spread) < 1.0:
            found.append((-math.inf, -math.inf, math.inf))
            continue
        first = ((b[0] - x) * (c[1] - y) - (b[1] - y) * (c[0] - x)) / spread
        second = ((c[0] - x) * (a[1] - y) - (c[1] - y) * (a[0] - x)) / spread
        found.append((first, second, 1.0 - first - second))
    return found


def plain_level(sheet, x, y):
    for weights, corners in zip(weights_of(sheet, x, y), sheet.corners.tolist(), strict=True):
        if min(weights) >= -1e-9:
            return sum(weight * corner[2] for weight, corner in zip(weights, corners, strict=True))
    return math.nan


def plain_beyond(sheet, x, y):
    inside = plain_level(sheet, x, y)
    if not math.isnan(inside):
        return inside
    nearest = shapely.shortest_line(sheet.outline, shapely.Point(x, y)).coords[0]
    weights = weights_of(sheet, *nearest)
    best = max(range(len(weights)), key=lambda k: min(weights[k]))
    held = [max(weight, 0.0) for weight in weights[best]]
    edge = sum(w * z for w, z in zip(held, sheet.corners[best, :, 2], strict=True)) / sum(held)
    slope = sheet.general_slope
    return edge + slope.level_at((x, y)) - slope.level_at(nearest)


SHEETS = {
    "few spots": ground(9),
    "many spots": ground(300),
    "a house in it": ground(300, gap=(20, 21, 22)),
    "spots in a line": in_line(),
}


def places(sheet, count=250):
    """Return places over the sheet and past it, with every kind of place on an edge of a triangle."""
    chance = random.Random(7)
    found = [(chance.uniform(-3e3, 13e3), chance.uniform(-3e3, 13e3)) for _ in range(count)]
    found += [tuple(corner[:2]) for corner in sheet.points[:20]]
    found += [tuple((ring[0, :2] + ring[1, :2]) / 2.0) for ring in sheet.corners[:20]]
    return np.array(found)


@pytest.mark.parametrize("name", SHEETS)
def test_levels_under_many_points_are_those_under_each(name):
    sheet = SHEETS[name]
    at = places(sheet)
    assert np.allclose(
        sheet.levels_at(*at.T), [plain_level(sheet, *p) for p in at], rtol=0.0, atol=1e-9, equal_nan=True
    )
    assert np.allclose(sheet.levels_beyond(*at.T), [plain_beyond(sheet, *p) for p in at], rtol=0.0, atol=1e-6)
    one = sheet.level_at(tuple(at[0]))
    assert (math.nan if one is None else one) == pytest.approx(sheet.levels_at(*at[:1].T)[0], nan_ok=True)


def test_boxes_find_what_trying_every_triangle_finds(monkeypatch):
    sheet = ground(300)
    at = places(sheet, 2_000)
    through_boxes = sheet.levels_beyond(*at.T)
    monkeypatch.setattr("pavewright.geometry._triangles._ALL_PAIRS", 10**9)
    assert np.array_equal(sheet.levels_beyond(*at.T), through_boxes)


def test_no_place_is_tried_in_every_triangle_of_a_large_sheet(monkeypatch):
    sheet = ground(1_000)
    tried = []
    weigh = type(sheet._finder)._weights
    monkeypatch.setattr(
        type(sheet._finder), "_weights", lambda self, at, which: tried.append(len(at)) or weigh(self, at, which)
    )
    sheet.levels_at(*places(sheet, 1_000).T)
    assert sum(tried) < 10_000


def plain_volumes(sheet, plane, shape):
    """Cut and fill [m³] and area [mm²] by squares of 20 mm, the level at their middles only."""
    xs = ys = np.arange(10.0, 10_000.0, 20.0)
    x, y = (grid.ravel() for grid in np.meshgrid(xs, ys))
    inside = shapely.contains_xy(shape.polygon, x, y)
    heights = sheet.levels_at(x[inside], y[inside]) - plane.levels_at(x[inside], y[inside])
    cell = 20.0 * 20.0
    return np.maximum(heights, 0).sum() * cell / 1e9, np.maximum(-heights, 0).sum() * cell / 1e9, inside.sum() * cell


def test_volumes_of_all_triangles_together_are_those_of_a_fine_grid():
    sheet, plane = ground(60), Plane(95.0, (0.0, 0.0), 0.002, 0.001)
    found = prism_volumes(sheet, plane, YARD)
    cut, fill, area = plain_volumes(sheet, plane, YARD)
    assert found.cut_m3 == pytest.approx(cut, rel=0.005)
    assert found.fill_m3 == pytest.approx(fill, rel=0.005)
    assert found.area_m2 == pytest.approx(YARD.polygon.area / 1e6, rel=1e-9)
    assert found.area_m2 == pytest.approx(area / 1e6, rel=0.005)
    inside = [p for p in sheet.points if YARD.contains(p[:2])]
    assert found.deepest_mm >= max(z - plane.level_at((x, y)) for x, y, z in inside)


def test_a_shape_past_the_sheet_shares_nothing_with_it():
    far = Shape(((20e3, 20e3), (21e3, 20e3), (21e3, 21e3)))
    found = prism_volumes(ground(9), Plane(0.0, (0.0, 0.0), 0.0, 0.0), far)
    assert (found.cut_m3, found.fill_m3, found.area_m2) == (0.0, 0.0, 0.0)
