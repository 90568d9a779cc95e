"""Measured sizes: growth of a run worked out by hand, marks of the first course, and what is noticed."""

from __future__ import annotations

import pytest

from pavewright.job import JobInvalid
from pavewright.laying import lay


def planned(small):
    job, measured = small.surveyed()
    return lay(job, measured, small.rules)


def reported(plan, code):
    return [each for each in plan.findings if each.code == code]


def test_nothing_is_said_where_nothing_was_measured(small):
    small.rectangle(5 * 610 - 10, 4 * 610 - 10)
    plan = planned(small)
    assert plan.areas[0].growth == ()
    assert {each.code for each in plan.findings} == {"laying.two_person_lift"}


def test_a_run_of_five_slabs_grows_by_five_times_the_mean_difference(small):
    small.rectangle(5 * 610 - 10, 4 * 610 - 10)
    small.unit["measured_lengths_mm"] = [601.0, 603.0] * 5
    small.unit["measured_widths_mm"] = [599.5] * 10
    along, across = planned(small).areas[0].growth
    assert (along.way, along.units_in_run, along.growth_mm) == ("along", 5, pytest.approx(10.0))
    # 5 slabs of 602 and 4 joints fill 3040: (3040 − 3010) / 4
    assert along.absorbing_joint_mm == pytest.approx(7.5)
    assert along.doubt_mm == pytest.approx(5 * 2 * (10 / 9) ** 0.5 / 10**0.5)
    assert (across.way, across.units_in_run, across.growth_mm) == ("across", 4, pytest.approx(-2.0))
    assert across.absorbing_joint_mm == pytest.approx(10.0 + 2.0 / 3.0)
    assert across.doubt_mm == 0.0


def test_a_cut_piece_at_the_end_does_not_grow_but_has_its_joint(small):
    small.rectangle(5 * 610 + 300, 4 * 610 - 10)
    small.unit["measured_lengths_mm"] = [602.0] * 10
    (along,) = planned(small).areas[0].growth
    assert (along.units_in_run, along.growth_mm) == (5, pytest.approx(10.0))
    assert along.absorbing_joint_mm == pytest.approx(10.0 - 10.0 / 5)


def test_growth_past_half_a_joint_is_told_with_ways_out(small):
    small.rectangle(5 * 610 - 10, 4 * 610 - 10)
    small.unit["measured_lengths_mm"] = [601.0] * 10
    assert reported(planned(small), "laying.run_grows") == []  # 5 mm, just half a joint
    small.unit["measured_lengths_mm"] = [601.2] * 10
    (finding,) = reported(planned(small), "laying.run_grows")
    assert (finding.value, finding.limit) == (pytest.approx(6.0), 5.0)
    assert "joints of 8.5 mm" in finding.option_words[0]


def test_a_joint_out_of_its_range_is_told_instead(small):
    small.rectangle(5 * 610 - 10, 4 * 610 - 10)
    small.unit.update({"measured_lengths_mm": [602.0] * 10, "joint_min_mm": 8.0, "joint_max_mm": 12.0})
    plan = planned(small)
    assert reported(plan, "laying.run_grows") == []
    (finding,) = reported(plan, "laying.growth_past_joints")
    assert (finding.value, finding.limit) == (pytest.approx(7.5), 8.0)
    assert not any("joints of" in way for way in finding.option_words)
    small.unit["measured_lengths_mm"] = [597.0] * 10
    (finding,) = reported(planned(small), "laying.growth_past_joints")
    assert (finding.value, finding.limit) == (pytest.approx(13.75), 12.0)


def test_units_outside_their_class_are_counted(small):
    small.rectangle(5 * 610 - 10, 4 * 610 - 10)
    small.unit.update({"measured_lengths_mm": [602.0, 603.0, 597.5, 600.0], "size_class": "flag_p"})
    plan = planned(small)
    (finding,) = reported(plan, "laying.size_out_of_class")
    assert (finding.value, finding.limit) == (3.0, 2.0)
    assert "2 of 4" in finding.message
    assert "from memory, not verified" in finding.message
    (few,) = reported(plan, "laying.few_measured")
    assert (few.value, few.limit) == (4.0, 10.0)
    small.unit["size_class"] = "flag_n"
    assert reported(planned(small), "laying.size_out_of_class") == []


def test_a_size_of_another_unit_is_a_fault_with_its_place(small):
    small.rectangle(5 * 610 - 10, 4 * 610 - 10)
    small.unit["measured_lengths_mm"] = [601.0, 450.0]
    with pytest.raises(JobInvalid) as refused:
        small.job()
    (fault,) = refused.value.faults
    assert fault.path == "units.0.measured_lengths_mm.1"


def test_woven_patterns_are_told_to_be_laid_dry(small):
    small.rectangle(3000.0, 3000.0, pattern="herringbone")
    small.unit.update({"length_mm": 200.0, "width_mm": 100.0, "kg_each": 2.0, "measured_lengths_mm": [201.0] * 10})
    plan = planned(small)
    assert plan.areas[0].growth == ()
    assert len(reported(plan, "laying.growth_not_worked_out")) == 1


@pytest.mark.parametrize("corner", ["near_left", "near_right", "far_left", "far_right"])
@pytest.mark.parametrize("bearing", [90.0, 35.0])
def test_the_gauge_runs_from_the_start_whatever_the_corner(small, corner, bearing):
    small.rectangle(4 * 610 + 240, 3 * 610 - 10, start_corner=corner, bearing_deg=bearing)
    area = planned(small).areas[0]
    marks = area.gauge
    assert marks[0].start_mm == 0.0
    assert [mark.piece for mark in marks] == [piece.number for piece in area.pieces if piece.course == 1]
    if bearing == 90.0:
        assert [mark.end_mm for mark in marks] == pytest.approx([600.0, 1210.0, 1820.0, 2430.0, 2680.0])
        assert [mark.start_mm for mark in marks] == pytest.approx([0.0, 610.0, 1220.0, 1830.0, 2440.0])
    for one, after in zip(marks, marks[1:], strict=False):
        assert after.start_mm == pytest.approx(one.end_mm + 10.0, abs=1e-6)


def test_the_gauge_leaves_a_border_out(small):
    small.rectangle(5000.0, 4000.0, border={"kind": "soldier"})
    area = planned(small).areas[0]
    border = {piece.number for piece in area.pieces if piece.border}
    assert border
    assert not border & {mark.piece for mark in area.gauge}
