"""Triangles that keep to break lines, gaps in the ground, and lines of equal level."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, MultiPoint, Polygon

from pavewright.geometry import CrossingLinesError, Plane, Shape, contour_lines, prism_volumes, triangulate


def sides(surface):
    found = set()
    for a, b, c in surface.triangles:
        found |= {frozenset((a, b)), frozenset((b, c)), frozenset((c, a))}
    return found


# the foot and the top of a bank, 4 m long: rows of spots beside it would join across
BANK = [(0, 0, 0), (4000, 0, 0), (0, 1000, 0), (4000, 1000, 0), (0, 1300, 800), (4000, 1300, 800), (0, 2500, 800),
        (4000, 2500, 800), (2000, 700, 0), (2000, 1600, 800)]  # fmt: skip


def test_sides_keep_to_the_foot_and_the_top_of_a_bank():
    loose, kept = triangulate(BANK), triangulate(BANK, [(2, 3), (4, 5)])
    assert not {frozenset((2, 3)), frozenset((4, 5))} <= sides(loose)
    assert {frozenset((2, 3)), frozenset((4, 5))} <= sides(kept)
    assert kept.level_at((2000.0, 900.0)) == pytest.approx(0.0)
    assert kept.level_at((2000.0, 1150.0)) == pytest.approx(400.0)
    assert kept.level_at((2000.0, 1400.0)) == pytest.approx(800.0)


def test_a_line_runs_over_a_point_that_stands_on_it():
    points = [(0, 0, 0), (4000, 0, 0), (4000, 3000, 0), (0, 3000, 0), (2000, 1500, 0), (1000, 1500, 0), (3000, 1600, 0)]
    kept = triangulate(points, [(0, 2)])
    assert {frozenset((0, 4)), frozenset((4, 2))} <= sides(kept)


def test_lines_that_cross_where_nothing_was_measured_are_refused():
    with pytest.raises(CrossingLinesError) as reported:
        triangulate([(0, 0, 0), (4000, 0, 0), (4000, 3000, 0), (0, 3000, 0)], [(0, 2), (1, 3)])
    assert {frozenset(line) for line in reported.value.lines} == {frozenset((0, 2)), frozenset((1, 3))}


points_and_lines = (
    st.integers(0, 10_000)
    .map(np.random.default_rng)
    .map(lambda dice: (dice.integers(0, 400, (int(dice.integers(6, 40)), 2)) * 25.0, dice))
)


@settings(max_examples=80, deadline=None)
@given(points_and_lines)
def test_whatever_lines_are_kept_the_triangles_tile_the_hull_once(given_points):
    places, dice = given_points
    places = np.unique(places, axis=0)
    if np.linalg.matrix_rank(places - places[0]) < 2:
        return
    points = [(float(x), float(y), float(x - 2.0 * y)) for x, y in places]
    lines = []
    for _ in range(6):
        a, b = dice.choice(len(points), 2, replace=False).tolist()
        line = LineString([places[a], places[b]])
        if all(not line.crosses(LineString([places[c], places[d]])) and not line.overlaps(LineString([places[c], places[d]]))
               for c, d in lines):  # fmt: skip
            lines.append((a, b))
    try:
        kept = triangulate(points, lines)
    except CrossingLinesError:
        # a line led over a point beside it may come to cross another by a hair
        return
    hull = MultiPoint(places).convex_hull
    areas = shapely.area(shapely.polygons(kept.corners[:, :, :2]))
    assert areas.sum() == pytest.approx(hull.area)
    assert (areas > 0.0).all()
    for a, b in lines:
        over = LineString([places[a], places[b]])
        drawn = shapely.union_all([LineString([places[i], places[j]]) for i, j in map(tuple, sides(kept))])
        assert over.difference(drawn.buffer(1.0)).length < 1e-6
    # the ground is a plane: its level is the same however it is parted
    assert kept.level_at(tuple(places.mean(axis=0))) == pytest.approx(
        places.mean(axis=0)[0] - 2.0 * places.mean(axis=0)[1], abs=1e-6
    )


def test_a_gap_holds_no_ground_and_is_no_part_of_the_outline():
    points = [(0, 0, 0), (4000, 0, 0), (4000, 4000, 0), (0, 4000, 0), (1000, 1000, 0), (3000, 1000, 0), (3000, 3000, 0),
              (1000, 3000, 0), (2000, 2000, 0)]  # fmt: skip
    found = triangulate(points, gaps=[(4, 5, 6, 7)])
    assert found.gapped
    assert found.outline.area == pytest.approx(16e6 - 4e6)
    assert found.level_at((2000.0, 1900.0)) is None
    assert found.level_at((500.0, 500.0)) == pytest.approx(0.0)


def test_contours_of_a_plane_are_straight_and_as_far_apart_as_it_falls():
    points = [(x * 1000.0, y * 1000.0, 10_000.0 - x * 20.0) for x in range(6) for y in range(4)]
    found = contour_lines(triangulate(points), 50.0)
    assert list(found) == [9900.0, 9950.0, 10_000.0] or list(found) == [9900.0, 9950.0]
    for level, lines in found.items():
        assert lines.geom_type == "LineString"
        xs = shapely.get_coordinates(lines)[:, 0]
        assert xs == pytest.approx((10_000.0 - level) * 50.0)
        assert lines.length == pytest.approx(3000.0)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000))
def test_every_point_of_a_contour_lies_at_its_level(seed):
    dice = np.random.default_rng(seed)
    points = [(float(x), float(y), float(z)) for x, y, z in dice.uniform(0.0, 5000.0, (12, 3)) * (1.0, 1.0, 0.1)]
    surface = triangulate(points)
    for level, lines in contour_lines(surface, 100.0).items():
        for part in shapely.get_parts(lines):
            middle = part.interpolate(0.37, normalized=True)
            assert surface.level_at((middle.x, middle.y)) == pytest.approx(level, abs=1e-3)
        assert Polygon(MultiPoint([p[:2] for p in points]).convex_hull.exterior).buffer(1.0).contains(lines)


def test_net_volume_of_a_plane_is_the_same_with_any_lines():
    points = [(x * 1000.0, y * 1000.0, 100.0 + x * 10.0 - y * 5.0) for x in range(5) for y in range(5)]
    outline = ((500.0, 400.0), (3700.0, 600.0), (3300.0, 3500.0), (700.0, 3100.0))
    shape = Shape(outline, ())
    flat = Plane(90.0, (0.0, 0.0), 0.0, 0.0)
    one = prism_volumes(triangulate(points), flat, shape)
    other = prism_volumes(triangulate(points, [(0, 24), (20, 12), (2, 14)]), flat, shape)
    assert other.net_m3 == pytest.approx(one.net_m3)
    assert other.cut_m3 == pytest.approx(one.cut_m3)
