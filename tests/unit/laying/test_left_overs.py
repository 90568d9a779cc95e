"""Left-overs: what stays of sawn units, used again in later areas, zones and from the yard."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.laying import lay
from pavewright.laying.cutting import Part, Stock, left_overs_of, saw_plan


def plan(small):
    job, measured = small.surveyed()
    return lay(job, measured, small.rules)


def test_what_is_left_of_a_slab_by_hand():
    # 200 by 600 off a slab of 600: a cut of 4 across leaves 396 by 600; 200 by 300 of it leaves 200 by 296 as well
    (unit,) = saw_plan([Part(1, 200.0, 600.0)], (Stock(600.0, 600.0),), 4.0, may_turn=True).sawn
    ((x1, y1, x2, y2),) = left_overs_of(unit, 4.0, 150.0)
    assert sorted((x2 - x1, y2 - y1)) == pytest.approx([396.0, 600.0])
    (unit,) = saw_plan([Part(1, 200.0, 300.0)], (Stock(600.0, 600.0),), 4.0, may_turn=True).sawn
    boxes = left_overs_of(unit, 4.0, 150.0)
    area = sum((x2 - x1) * (y2 - y1) for x1, y1, x2, y2 in boxes)
    assert round(area) in {600 * 396 + 200 * 296, 600 * 296 + 300 * 396}
    assert left_overs_of(unit, 4.0, 400.0) == ()


@settings(max_examples=60, deadline=None)
@given(sides=st.lists(st.tuples(st.integers(40, 580), st.integers(40, 580)), min_size=1, max_size=9))
def test_left_overs_overlap_nothing_and_lie_in_their_unit(sides):
    parts = [Part(number, float(a), float(b)) for number, (a, b) in enumerate(sides, start=1)]
    for unit in saw_plan(parts, (Stock(600.0, 600.0),), 4.0, may_turn=True, rounds=20).sawn:
        kept = left_overs_of(unit, 4.0, 50.0)
        taken = [(p.x_mm, p.y_mm, p.x_mm + p.along_mm, p.y_mm + p.across_mm) for p in unit.parts]
        for box in kept:
            assert min(box) >= -1e-6
            assert max(box[2], box[3]) <= 600.0 + 1e-6
        for one, other in itertools.combinations([*kept, *taken], 2):
            over = min(one[2], other[2]) - max(one[0], other[0]), min(one[3], other[3]) - max(one[1], other[1])
            assert min(over) < 0.2


def two_areas(small):
    # three slabs in a row and a strip of 200 by 600; then two slabs and a strip of 190 by 600
    small.rectangle(3 * 610.0 + 200.0, 600.0)
    small.area([(0, 3000), (2 * 610 + 190, 3000), (2 * 610 + 190, 3600), (0, 3600)], "Walk")


def test_a_later_area_cuts_from_what_the_first_left_over(small):
    two_areas(small)
    first, second = plan(small).areas
    assert (first.units_with_offcuts, second.units_with_offcuts) == (4, 2)
    (unit,) = second.sawn
    assert unit.left_over_of == "Patio"
    assert second.by_unit[0].units_with_offcuts == second.by_unit[0].units_bound == 2
    assert first.left_overs == ()
    (left,) = second.left_overs
    assert sorted((left.along_mm, left.across_mm)) == pytest.approx([600 - 200 - 3 - 190 - 3, 600.0], abs=0.3)


def test_another_unit_is_no_left_over_of_this_one(small):
    two_areas(small)
    small.document["units"].append({**small.unit, "name": "Other"})
    small.document["areas"][1]["laying"]["unit"] = "Other"
    first, second = plan(small).areas
    assert (first.units_with_offcuts, second.units_with_offcuts) == (4, 3)
    assert len(first.left_overs) == len(second.left_overs) == 1


def test_what_lies_in_the_yard_is_used_first_where_it_saves_a_unit(small):
    small.rectangle(3 * 610.0 + 200.0, 600.0)
    assert plan(small).areas[0].units_with_offcuts == 4
    small.unit["in_yard"] = [{"along_mm": 250.0, "across_mm": 610.0, "count": 2}]
    laid = plan(small).areas[0]
    assert laid.units_with_offcuts == 3
    assert laid.sawn[0].left_over_of == "the yard"
    small.unit["in_yard"] = [{"along_mm": 150.0, "across_mm": 610.0, "count": 2}]
    assert plan(small).areas[0].units_with_offcuts == 4


def test_pieces_that_keep_factory_edges_are_cut_from_new_units(small):
    small.rectangle(3 * 610.0 + 200.0, 600.0, factory_edges=True)
    small.unit["in_yard"] = [{"along_mm": 250.0, "across_mm": 610.0}]
    assert plan(small).areas[0].units_with_offcuts == 4


def test_a_left_over_that_saves_nothing_stays_in_the_yard(small):
    # two strips come out of one slab anyway: the yard has room for one of them only
    small.area([(0, 0), (610 + 200, 0), (610 + 200, 1210), (0, 1210)])
    small.unit["in_yard"] = [{"along_mm": 205.0, "across_mm": 605.0}]
    laid = plan(small).areas[0]
    assert laid.cut == 2
    assert not any(unit.left_over_of for unit in laid.sawn)


def test_no_bound_is_claimed_that_a_better_use_of_the_yard_could_beat(small):
    # a single left-over of the yard holds both strips, the greedy way puts one into it
    small.area([(0, 0), (610 + 400, 0), (610 + 400, 1210), (0, 1210)])
    without = plan(small).areas[0]
    assert without.units_with_offcuts == without.units_bound == 4
    small.unit["in_yard"] = [{"along_mm": 600.0, "across_mm": 600.0}]
    laid = plan(small).areas[0]
    assert laid.units_with_offcuts == 3
    assert laid.units_bound <= 3
    small.unit["in_yard"] = [{"along_mm": 600.0, "across_mm": 600.0, "count": 3}]
    laid = plan(small).areas[0]
    assert laid.units_with_offcuts == laid.units_bound == laid.whole == 2


def test_what_factory_edges_cost_is_told_without_left_overs(small):
    small.rectangle(3 * 610.0 + 200.0, 2 * 610.0 + 250.0, factory_edges=True)
    cost = plan(small).areas[0].by_unit[0].units_more_edges
    small.unit["in_yard"] = [{"along_mm": 600.0, "across_mm": 600.0, "count": 9}]
    assert plan(small).areas[0].by_unit[0].units_more_edges == cost


def test_the_sum_says_what_came_from_left_overs(small):
    two_areas(small)
    workings = plan(small).areas[1].workings
    assert "0 pieces are cut from 0 units, 1 out of left-overs" in [working.note for working in workings]
    # two slabs of 0.36 and a strip of 0.114, a left-over of 0.397 by 0.6
    assert any(w.expression == "units at least = (0.834 − 0.238 of left-overs) / area of one" for w in workings)
