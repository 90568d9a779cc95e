"""Movement: seldom where there is none, named where there is, and not told where nobody can tell."""

from __future__ import annotations

import numpy as np
import pytest

from pavewright.as_laid.movement import (
    DatumState,
    LevelledLine,
    datum_between,
    lines_moved,
    moved_since,
    two_visits,
)


def visits(dice, places, marks, sd, move=None):
    """The rises of places and marks between two visits, each read once with its scatter."""
    true = np.zeros(places) if move is None else move
    first, second = dice.normal(0.0, sd, (2, places))
    names = [f"M{n}" for n in range(marks)]
    one, two = (dict(zip(names, dice.normal(0.0, sd, marks), strict=True)) for _ in range(2))
    return second + true - first, datum_between(one, two, sd * 2.0**0.5)


@pytest.mark.parametrize("marks", [0, 1, 3])
def test_chance_alone_is_seldom_taken_for_movement(marks):
    dice = np.random.default_rng(7)
    alarms = single = 0
    for _ in range(3000):
        rises, datum = visits(dice, 12, marks, 1.5)
        found = moved_since(rises, 1.5 * 2.0**0.5, datum)
        alarms += found.is_more_than_scatter
        single += any(abs(t) > found.each_limit for t in found.t)
    assert 0.03 < alarms / 3000 < 0.07
    assert single / 3000 < 0.075


def test_what_would_be_seen_is_seen_as_often_as_is_said():
    dice = np.random.default_rng(8)
    seen = 0
    for _ in range(1000):
        probe, datum = visits(dice, 12, 2, 1.5)
        found = moved_since(probe, 1.5 * 2.0**0.5, datum)
        probe[3] += found.seen_from_mm
        seen += abs(moved_since(probe, 1.5 * 2.0**0.5, datum).t[3]) > found.each_limit
    assert 0.42 < seen / 1000 < 0.58, "at the limit itself, every second time"


def test_of_three_marks_the_one_that_moved_is_put_aside():
    found = datum_between({"a": 0.0, "b": 10.0, "c": 5.0}, {"a": 0.5, "b": 10.3, "c": -4.0}, 2.1)
    assert (found.state, found.marks, found.apart) == (DatumState.HELD, ("a", "b"), ("c",))
    assert found.shift_mm == pytest.approx(0.4)


def test_of_two_marks_that_disagree_nobody_can_tell():
    assert datum_between({"a": 0.0, "b": 0.0}, {"a": 0.0, "b": 12.0}, 2.1).state is DatumState.UNSURE


def test_without_marks_only_what_moves_against_the_rest_is_told():
    datum = datum_between({"a": 0.0}, {"b": 0.0}, 2.0)
    assert datum.state is DatumState.NONE
    all_sunk = moved_since(np.full(9, -20.0), 2.0, datum)
    assert max(abs(each) for each in all_sunk.moved_mm) == 0.0
    one = moved_since(np.array([0.0] * 8 + [-20.0]), 2.0, datum)
    assert one.moved_mm[-1] == pytest.approx(-20.0)
    assert abs(one.t[-1]) > one.each_limit


def test_nothing_read_again_tells_nothing():
    found = moved_since(np.zeros(0), 2.0, datum_between({}, {}, 2.0))
    assert found.joint_f is None
    assert not found.is_more_than_scatter


def test_the_mark_that_was_lowered_is_found_whichever_is_held():
    lines = [
        LevelledLine(*each)
        for each in (
            ("10", "11", -327.4, -325.0, 211.0), ("10", "12", -188.7, -186.1, 60.0), ("10", "13", -418.7, -416.3, 216.0),
            ("11", "12", 139.2, 139.4, 169.0), ("11", "13", -91.5, -91.6, 205.0), ("12", "13", -230.4, -230.6, 68.0),
        )
    ]  # fmt: skip
    for held in ("10", "11", "12", "13"):
        assert lines_moved(lines, held, 0.8).suspects == ("10",)
    still = [LevelledLine(each.start, each.end, each.first_mm, each.first_mm + 0.1, each.length_m) for each in lines]
    assert lines_moved(still, "10", 0.8).suspects == ()
    with pytest.raises(ValueError, match="hold a mark"):
        lines_moved(lines, "99", 0.8)
    with pytest.raises(ValueError, match="do not join"):
        lines_moved([lines[0], LevelledLine("12", "13", 0.0, 0.0, 10.0)], "10", 0.8)


def test_one_reading_a_visit_does_not_show_its_scatter():
    with pytest.raises(ValueError, match="twice or more"):
        two_visits((1.0,), (2.0, 3.0))
    with pytest.raises(ValueError, match="do not scatter"):
        two_visits((1.0, 1.0), (2.0, 2.0))
    assert two_visits((412.0, 413.0), (412.0, 414.0)).is_more_than_scatter is False
