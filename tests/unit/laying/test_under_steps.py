"""No unit is laid, and none is counted, under a flight of steps."""

from __future__ import annotations

import pytest

from pavewright.laying import best_starts, lay, quick_counts
from pavewright.levels import finished_levels
from pavewright.pipeline import plan
from pavewright.quantities import layer_volumes


@pytest.fixture
def terraces(small):
    """Two areas that meet along 4 m, the upper one 450 mm higher; a flight as wide runs into the lower one."""
    upper = small.area([(0, 0), (4000, 0), (4000, 3000), (0, 3000)], "Upper")
    lower = small.area([(0, -3000), (4000, -3000), (4000, 0), (0, 0)], "Lower")
    upper["fall"]["level_mm"], lower["fall"]["level_mm"] = 1450.0, 1000.0
    for area in (upper, lower):
        area["fall"].update(bearing_deg=90.0, one_in=1000.0)
    small.document["steps"] = [
        {"name": "Steps", "upper_area": "Upper", "lower_area": "Lower", "corner": "U0", "risers": 3, "going_mm": 350.0}
    ]
    return small


def laid(small):
    job, measured = small.surveyed()
    levels = finished_levels(job, measured, small.rules)
    return lay(job, measured, small.rules, levels), lay(job, measured, small.rules), measured, levels


def test_units_begin_at_the_foot_of_the_flight(terraces):
    plan_, without_levels, _, _ = laid(terraces)
    lower, whole = plan_.area("Lower"), without_levels.area("Lower")
    # three risers: two goings of 350 over 4 m
    (under,) = lower.under_steps
    assert under.shape.area_m2 == pytest.approx(2 * 0.35 * 4.0)
    assert max(piece.shape.bounds_mm[3] for piece in lower.pieces) <= -700.0 + 1e-6
    assert lower.paved_m2 + lower.joint_m2 == pytest.approx(12.0 - 2.8)
    assert lower.units_with_offcuts < whole.units_with_offcuts
    assert plan_.area("Upper").under_steps == ()
    reported = next(each for each in plan_.findings if each.code == "laying.under_steps")
    assert reported.value == pytest.approx(2.8)


def test_the_number_of_risers_comes_from_the_levels(terraces):
    del terraces.document["steps"][0]["risers"]
    plan_, _, _, levels = laid(terraces)
    (under,) = plan_.area("Lower").under_steps
    assert levels.steps[0].risers > 1
    assert under.shape.area_m2 == pytest.approx((levels.steps[0].risers - 1) * 0.35 * 4.0)


def test_the_search_for_starts_lays_what_the_plan_lays(terraces):
    plan_, _, measured, levels = laid(terraces)
    found = {each.area: each for each in best_starts(terraces.job(), measured, terraces.rules, levels=levels)}
    assert found["Lower"].now.units_with_offcuts == plan_.area("Lower").units_with_offcuts


def test_a_flight_that_parts_an_area_says_so(terraces):
    # the flight runs through the whole depth of a narrow landing in its middle
    document = terraces.document
    upper, lower = document["areas"]
    lower["outline"] = [{"point": terraces.point(f"M{n}", x, y)} for n, (x, y) in enumerate(
        ((-2000, -500), (6000, -500), (6000, 0), (-2000, 0)))]  # fmt: skip
    lower["fall"].update(level_at="M0")
    plan_, _, _, _ = laid(terraces)
    assert any(each.code == "laying.units_under_steps" for each in plan_.findings)
    assert plan_.area("Lower").under_steps == ()


def test_the_bed_under_a_flight_is_not_ordered_and_the_base_is(terraces):
    made = plan(terraces.job(), terraces.rules)
    said = [working.expression for item in made.quantities.items for working in item.workings]
    # 12 m² less 2.8 under the flight; the concrete runs through, and past its edges
    assert any(words.startswith("Lower: 9.20 m² × 35") for words in said)
    base = next(each for each in layer_volumes(made.survey.site.area("Lower"), made.build_ups.area("Lower"), 2.8)
                if each.layer.key == "base")  # fmt: skip
    assert base.area_m2 >= 12.0


def test_the_counts_while_a_corner_is_dragged_leave_out_what_lies_under_steps(terraces):
    plan_, _, measured, levels = laid(terraces)
    lower = next(area for area in measured.site.areas if area.name == "Lower")
    counts = quick_counts(terraces.job(), lower, measured, terraces.rules, levels)
    assert (counts.whole, counts.cut) == (plan_.area("Lower").whole, plan_.area("Lower").cut)
