import math

import pytest
from shapely.geometry import Polygon

from pavewright.geometry import (
    Corner,
    Plane,
    Ring,
    Shape,
    fit_plane,
    outline_faults,
    plane_through,
    prism_volumes,
    triangulate,
)


def ring(*corners):
    return Ring(tuple(Corner(*corner) for corner in corners))


BULGED = ring(("A", 0, 0), ("B", 4000, 0, 500), ("C", 4000, 3000), ("D", 0, 3000))
SQUARE = Shape(((0.0, 0.0), (1000.0, 0.0), (1000.0, 1000.0), (0.0, 1000.0)))


def test_arc_by_chord_and_rise():
    side = BULGED.sides[1]
    assert side.radius_mm == pytest.approx(2500.0)
    assert side.length_mm == pytest.approx(2500.0 * 2 * math.asin(1500 / 2500))


def test_positive_rise_bulges_out_of_an_anticlockwise_outline():
    polygon = Polygon(BULGED.points())
    assert polygon.bounds[2] == pytest.approx(4500.0)
    sector = 2500.0**2 * math.asin(0.6) - 1500.0 * 2000.0
    assert polygon.area == pytest.approx(12e6 + sector, rel=1e-3)


def test_turning_a_clockwise_ring_keeps_each_rise_on_its_side():
    clockwise = ring(("D", 0, 3000), ("C", 4000, 3000, -500), ("B", 4000, 0), ("A", 0, 0))
    turned = clockwise.anticlockwise()
    assert {c.name: c.rise_mm for c in turned.corners}["B"] == 500
    assert Polygon(turned.points()).area == pytest.approx(Polygon(BULGED.points()).area)


@pytest.mark.parametrize(
    ("outer", "holes", "words"),
    [
        (ring(("A", 0, 0), ("B", 9, 9), ("C", 9, 0), ("D", 0, 9)), (), "crosses"),
        (ring(("A", 0, 0), ("B", 9, 0)), (), "three corners"),
        (ring(("A", 0, 0), ("B", 0, 0), ("C", 9, 9)), (), "same point"),
        (BULGED, (ring(("P", 9000, 0), ("Q", 9500, 0), ("R", 9500, 500)),), "outside"),
    ],
)
def test_faults_of_an_outline_say_what_to_measure(outer, holes, words):
    (fault,) = outline_faults(outer, holes)
    assert words in fault


def test_sound_outline_has_no_faults():
    assert outline_faults(BULGED, (ring(("P", 900, 900), ("Q", 1500, 900), ("R", 1500, 1500)),)) == ()


def test_plane_through_three_points_and_fit_agree():
    points = ((0.0, 0.0, 100.0), (3000.0, 0.0, 50.0), (0.0, 4000.0, 180.0))
    through, fitted = plane_through(points), fit_plane([*points, (3000.0, 4000.0, 130.0)])
    assert through.level_at((1000.0, 1000.0)) == pytest.approx(fitted.level_at((1000.0, 1000.0)))
    assert through.fall_along((1.0, 0.0)) == pytest.approx(1 / 60)


def test_readings_on_one_line_carry_no_plane():
    with pytest.raises(ValueError, match="one line"):
        fit_plane([(0.0, 0.0, 1.0), (1000.0, 1000.0, 2.0), (2000.0, 2000.0, 3.0)])


def test_cut_and_fill_of_two_triangles_across_the_plane():
    # triangle (0,0,0) (1000,0,100) (0,1000,0): cut 0.5 m2 * 100/3 mm; the other by hand: net 0, halves cut by the zero line
    ground = triangulate([(0.0, 0.0, 0.0), (1000.0, 0.0, 100.0), (1000.0, 1000.0, -100.0), (0.0, 1000.0, 0.0)])
    volumes = prism_volumes(ground, Plane(0.0, (0.0, 0.0), 0.0, 0.0), SQUARE)
    assert volumes.cut_m3 == pytest.approx(0.5 * 0.1 / 3 + 0.25 * 0.1 / 3)
    assert volumes.fill_m3 == pytest.approx(0.25 * 0.1 / 3)
    assert volumes.area_m2 == pytest.approx(1.0)


def test_lowering_the_plane_adds_area_times_depth():
    ground = triangulate([(0.0, 0.0, 30.0), (1000.0, 0.0, 100.0), (1000.0, 1000.0, -80.0), (0.0, 1000.0, 0.0)])
    plane = Plane(0.0, (0.0, 0.0), 0.01, -0.02)
    before, after = prism_volumes(ground, plane, SQUARE), prism_volumes(ground, plane.lowered(250.0), SQUARE)
    assert after.net_m3 - before.net_m3 == pytest.approx(0.25)


def test_ground_is_run_on_beyond_the_outermost_triangle():
    ground = triangulate([(0.0, 0.0, 0.0), (1000.0, 0.0, 10.0), (0.0, 1000.0, 0.0)])
    assert ground.level_at((2000.0, 0.0)) is None
    assert ground.level_beyond((2000.0, 0.0)) == pytest.approx(20.0)


def test_a_place_far_from_a_shape_is_decided_by_its_box_alone(monkeypatch):
    assert SQUARE.contains((1000.0, 500.0))
    assert not SQUARE.contains((1000.1, 500.0))
    assert SQUARE.contains((1000.1, 500.0), slack_mm=0.2)
    monkeypatch.setattr("shapely.Point", lambda *_: pytest.fail("no distance is wanted here"))
    assert not SQUARE.contains((9000.0, 500.0))
    assert not SQUARE.contains((500.0, -0.1))
