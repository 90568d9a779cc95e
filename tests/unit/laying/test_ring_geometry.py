"""Rings about a centre: how many units close each, their joints, and that no unit lies on another."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.laying.patterns._placing import Placing
from pavewright.laying.patterns._rings import RingUnit, ring_courses, ring_joint_mm, ring_placing, units_in_ring


def boxes(placing: Placing) -> np.ndarray:
    """Corners from place, size and turn alone."""
    turn = np.radians(placing.turn_deg)
    forth = np.stack((np.cos(turn), np.sin(turn)), -1) * placing.along_mm[:, None]
    left = np.stack((-np.sin(turn), np.cos(turn)), -1) * placing.across_mm[:, None]
    corner = np.stack((placing.x_mm, placing.y_mm), -1)
    return np.asarray(shapely.polygons(np.stack((corner, corner + forth, corner + forth + left, corner + left), 1)))


def test_six_squares_stand_on_the_sides_of_a_hexagon() -> None:
    """By hand: sides of 100 about a centre are 50·√3 from it and touch; outer corners 100 out are 100 apart."""
    inner = 50.0 * math.sqrt(3.0)
    assert units_in_ring(inner, 100.0, 0.0) == 6
    assert ring_joint_mm(inner, 100.0, 6) == pytest.approx(0.0, abs=1e-9)
    assert ring_joint_mm(inner + 100.0, 100.0, 6) == pytest.approx(100.0)


def test_a_centre_too_small_for_three_units_takes_none() -> None:
    """Three sides of 100 need 28.9 to the centre."""
    assert units_in_ring(28.0, 100.0, 0.0) == 0
    assert units_in_ring(29.0, 100.0, 0.0) == 3


def test_rings_of_one_number_are_shifted_by_half_a_unit_and_places_run_clockwise() -> None:
    """Each joint lies as far from those of the ring before as the numbers let it."""
    courses = ring_courses(500.0, 1500.0, (RingUnit(0, 200.0, 100.0, False, 3.0, 99.0),), 5.0)
    for before, after in zip(courses, courses[1:], strict=False):
        one = (
            math.radians(before.first_deg)
            + math.pi / before.number
            + np.arange(before.number) * math.tau / before.number
        )
        two = math.radians(after.first_deg) + math.pi / after.number + np.arange(after.number) * math.tau / after.number
        apart = np.abs((one[:, None] - two[None, :] + math.pi) % math.tau - math.pi).min()
        assert apart == pytest.approx(math.pi / math.lcm(before.number, after.number))
    turns = ring_placing(courses[:1], 0.0, 0.0).turn_deg
    assert np.all(np.diff(turns) < 0.0)


@settings(max_examples=40, deadline=None)
@given(
    st.floats(150.0, 1500.0),
    st.floats(60.0, 200.0),
    st.floats(60.0, 200.0),
    st.floats(0.0, 8.0),
    st.floats(1.0, 10.0),
)
def test_units_lie_clear_of_each_other_and_joints_keep_to_the_min(
    centre: float, along: float, across: float, least: float, between: float
) -> None:
    """One unit more would not go in; joints measured between the boxes are those that are told."""
    courses = ring_courses(centre, centre + 700.0, (RingUnit(0, along, across, False, least, 99.0),), between)
    placing = ring_placing(courses, 1000.0, -500.0)
    polygons = boxes(placing)
    assert len(polygons) == sum(course.number for course in courses) > 0
    assert shapely.union_all(polygons).area == pytest.approx(len(polygons) * along * across, rel=1e-6)
    for ring, course in enumerate(courses):
        assert course.inner_joint_mm >= least - 1e-6
        assert ring_joint_mm(course.inner_mm, along, course.number + 1) < least + 1e-6
        assert course.outer_joint_mm > course.inner_joint_mm
        mine = polygons[placing.course == ring + 1]
        gap = shapely.distance(mine[0], mine[1])
        assert gap == pytest.approx(course.inner_joint_mm, abs=1e-5)
