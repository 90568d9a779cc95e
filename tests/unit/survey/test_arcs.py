"""Arcs of an outline by their rise, by three points, by their centre: the same arc however it is given."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from pavewright.job import JobInvalid
from pavewright.survey.edges._arcs import rise_about, rise_through


def at(degrees, radius=2000.0, centre=(3000.0, 1000.0)):
    return centre[0] + radius * math.cos(math.radians(degrees)), centre[1] + radius * math.sin(math.radians(degrees))


@given(st.floats(0.0, 359.0), st.floats(5.0, 355.0), st.floats(0.1, 0.9), st.booleans())
def test_three_points_of_a_circle_give_its_rise(start, turn, share, back):
    turn = -turn if back else turn
    assume(abs(abs(turn) - 180.0) > 0.5 or share != 0.5)
    rise = rise_through(at(start), at(start + turn), at(start + share * turn))
    # run against the clock an arc bulges to the right of its chord
    expected = 2000.0 * (1.0 - math.cos(math.radians(turn) / 2.0)) * (1.0 if turn > 0.0 else -1.0)
    assert rise == pytest.approx(expected, rel=1e-6, abs=1e-3)


@given(st.floats(0.0, 359.0), st.floats(5.0, 175.0), st.booleans())
def test_a_centre_gives_the_shorter_arc(start, turn, back):
    turn = -turn if back else turn
    rise = rise_about(at(start), at(start + turn), (3000.0, 1000.0))
    expected = 2000.0 * (1.0 - math.cos(math.radians(turn) / 2.0)) * (1.0 if turn > 0.0 else -1.0)
    assert rise == pytest.approx(expected, rel=1e-6, abs=1e-3)


def test_what_makes_no_arc_is_refused():
    with pytest.raises(ValueError, match="on one line"):
        rise_through((0.0, 0.0), (1000.0, 0.0), (500.0, 0.0))
    with pytest.raises(ValueError, match="1000 and 2000 mm from it"):
        rise_about((1000.0, 0.0), (0.0, 2000.0), (0.0, 0.0))
    with pytest.raises(ValueError, match="both ways round"):
        rise_about((1000.0, 0.0), (-1000.0, 0.0), (0.0, 0.0))


def area_of(small, outline, extra=()):
    points = [*small.square, *({"name": n, "x_mm": x, "y_mm": y} for n, x, y in extra)]
    found = small.survey({"points": points}, [{"name": "Patio", "outline": outline, "laying": {"unit": "Slab"}}])
    return found.site.areas[0].shape.area_m2


def walked(*names, **arcs):
    return [{"point": name, **arcs.get(name, {})} for name in names]


@pytest.mark.parametrize("names", ["ABCD", "DCBA"])
@pytest.mark.parametrize("rise", [600.0, -600.0, 2500.0])
def test_an_outline_is_the_same_by_rise_by_a_point_and_by_its_centre(small, names, rise):
    # the square of 6 by 4 m; the side from B to C is an arc, out to the east or in
    first = "B" if names == "ABCD" else "C"
    by_rise = area_of(small, walked(*names, **{first: {"rise_mm": rise}}))
    through = ("T", 6000.0 + rise, 2000.0)
    by_point = area_of(small, walked(*names, **{first: {"through": "T"}}), [through])
    assert by_point == pytest.approx(by_rise, abs=1e-6)
    if abs(rise) < 2000.0:
        radius = (2000.0**2 + rise**2) / (2.0 * abs(rise))
        centre = 6000.0 + rise - math.copysign(radius, rise)
        by_centre = area_of(small, walked(*names, **{first: {"centre": "M"}}), [("M", centre, 2000.0)])
        assert by_centre == pytest.approx(by_rise, abs=1e-6)


def test_two_arcs_between_two_corners_keep_their_sides(small):
    # a lens of unequal arcs about the line A to B: 500 to the south, 1500 to the north
    extra = [("S", 3000.0, -500.0), ("N", 3000.0, 1500.0)]
    area = area_of(small, [{"point": "A", "through": "S"}, {"point": "B", "through": "N"}], extra)
    other = area_of(small, [{"point": "A", "through": "N"}, {"point": "B", "through": "S"}], extra)

    def segment(rise):
        radius = (3000.0**2 + rise**2) / (2.0 * rise)
        half = math.asin(3000.0 / radius) if rise <= 3000.0 else math.pi - math.asin(3000.0 / radius)
        return radius * radius * (half - math.sin(2.0 * half) / 2.0) / 1e6

    assert area == pytest.approx(segment(500.0) + segment(1500.0), rel=2e-3)
    assert other == pytest.approx(area)


def test_arcs_that_cannot_be_are_told_by_name(small):
    with pytest.raises(JobInvalid, match="the arc from B to C cannot be drawn: the three points stand on one line"):
        area_of(small, walked("A", "B", "C", "D", B={"through": "T"}), [("T", 6000.0, 1000.0)])
    with pytest.raises(JobInvalid, match="in two ways"):
        area_of(small, walked("A", "B", "C", "D", B={"through": "T", "rise_mm": 5.0}), [("T", 6500.0, 1000.0)])
    with pytest.raises(JobInvalid, match="names point T, which is not measured"):
        area_of(small, walked("A", "B", "C", "D", B={"through": "T"}))
