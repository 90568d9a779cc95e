"""Cars on slopes: where one grounds, what it meets at the road and at a garage, and which folds are accepted for it."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pavewright.findings import Severity
from pavewright.levels import finished_levels
from pavewright.levels.cars import Car, crest_change, crest_curve_mm, half_strip_mm, over_profile, sag_change

CAR = Car(2700.0, 120.0, 30.0, 900.0, 180.0)
LONG = 9000.0


def crest(change, *between):
    """Return the profile of a crest: so much up, strips, so much down."""
    slopes = [change / 2.0, *(slope for _, slope in between), -change / 2.0]
    along, level = [0.0], [0.0]
    for run, slope in zip([LONG, *(run for run, _ in between), LONG], slopes, strict=True):
        along.append(along[-1] + run)
        level.append(level[-1] + run * slope)
    return over_profile(tuple(along), tuple(level), CAR)


def test_a_sharp_crest_at_its_limit_takes_all_the_room():
    assert crest(crest_change(90.0, 2700.0)).between_mm == pytest.approx(90.0, abs=0.05)
    assert crest(0.25).between_mm == pytest.approx(0.25 * 2700.0 / 4.0, abs=0.05)
    assert crest(0.25).between_at_mm == pytest.approx(LONG)


@given(change=st.floats(0.14, 0.26))
def test_a_strip_as_long_as_the_formula_says_takes_all_the_room(change):
    strip = half_strip_mm(change, CAR.room_mm, CAR.wheelbase_mm)
    assert crest(change, (strip, 0.0)).between_mm == pytest.approx(CAR.room_mm, abs=0.5)
    assert crest(change, (strip - 50.0, 0.0)).between_mm > CAR.room_mm


def test_no_single_strip_is_enough_for_a_very_sharp_crest():
    assert math.isinf(half_strip_mm(0.30, CAR.room_mm, CAR.wheelbase_mm))
    assert crest(0.30, (5000.0, 0.0)).between_mm > CAR.room_mm


@pytest.mark.parametrize("change", [0.18, 0.25, 0.33])
def test_a_crest_rounded_over_the_length_of_the_formula_takes_all_the_room(change):
    curve, parts = crest_curve_mm(change, CAR.room_mm, CAR.wheelbase_mm), 40
    slopes = [(curve / parts, change / 2.0 - change * (number + 0.5) / parts) for number in range(parts)]
    assert crest(change, *slopes).between_mm == pytest.approx(CAR.room_mm, abs=1.5)


def test_a_sag_at_its_limit_touches_with_nose_and_tail():
    limit = sag_change(180.0, 900.0)
    along, level = (0.0, LONG, 2.0 * LONG), (limit * LONG, 0.0, 0.0)
    assert over_profile(along, level, CAR).ends_mm == pytest.approx(180.0, abs=0.05)
    assert over_profile(along, level[::-1], CAR).ends_mm == pytest.approx(180.0, abs=0.05)


def test_a_level_way_takes_no_room():
    met = over_profile((0.0, 9000.0), (0.0, 900.0), CAR)
    assert met.between_mm == pytest.approx(0.0, abs=1e-6)
    assert met.ends_mm == pytest.approx(0.0, abs=1e-6)


def drive(small, footway_mm, sill_mm=10000.0, deep_mm=9000.0, **fall):
    """Enter a drive from a garage to a footway."""
    area = small.rectangle(5000.0, deep_mm, "Drive")
    area["use"] = "car"
    area["fall"] = {"away_from": "Garage", **fall}
    door = {"name": "Big door", "along_mm": 1200.0, "width_mm": 2400.0, "threshold_level_mm": sill_mm}
    small.site["walls"] = [
        {"name": "Garage", "start": "D0", "end": "D1", "dpc_level_mm": sill_mm + 150.0, "openings": [door]}
    ]
    small.site["tie_ins"] = [
        {"name": "Footway", "start": "D3", "end": "D2", "start_level_mm": footway_mm, "end_level_mm": footway_mm}
    ]
    small.site["boundaries"] = [{"name": "Road", "start": "D3", "end": "D2", "neighbour": "highway"}]
    return area


def found(small):
    job, surveyed = small.surveyed()
    return {each.code: each for each in finished_levels(job, surveyed, small.rules).findings}


def test_a_hump_between_footway_and_garage_grounds_a_car_and_is_not_accepted(small):
    drive(small, 9950.0, folding="ridge", one_in=7.6)
    reported = found(small)
    assert reported["levels.car_grounds"].severity is Severity.STOP
    assert reported["levels.car_grounds"].value > 2.0 / 7.6 * 2700.0 / 4.0 - 8.0
    job, surveyed = small.surveyed()
    (study,) = finished_levels(job, surveyed, small.rules).studies
    assert not study.options[study.chosen].accepted


def test_a_hump_is_no_option_of_a_drive_that_clashes(small):
    drive(small, 9950.0)
    reported = found(small)["levels.tie_in_clash"]
    assert not any("ridge" in words or "step between" in words for words in reported.option_words)


def test_a_fold_that_sends_water_onto_the_footway_is_not_accepted(small):
    area = drive(small, 9850.0)
    area["use"] = "foot"
    area["fall"] = {"away_from": "Garage", "folding": "cheapest", "one_in": 60.0}
    reported = found(small)["levels.runs_to_others"]
    assert reported.severity is Severity.STOP
    assert reported.value == pytest.approx(45.0, abs=1.0)


def test_a_steep_drive_up_to_a_level_garage_leaves_too_little_room(small):
    drive(small, 10000.0 - LONG / 6.4, one_in=6.4)
    reported = found(small)
    assert reported["levels.car_grounds"].severity is Severity.CHECK
    assert reported["levels.car_grounds"].value == pytest.approx(2700.0 / 4.0 / 6.4, abs=1.0)
    assert reported["levels.steep_at_road"].severity is Severity.CHECK
    assert reported["levels.footway_crossing"].severity is Severity.NOTE


def test_a_steep_drive_down_from_the_footway_grounds_at_its_top(small):
    area = drive(small, 10000.0 + LONG / 6.1)
    area["fall"] = {"bearing_deg": 180.0, "one_in": 6.1}
    grounds = found(small)["levels.car_grounds"]
    assert grounds.severity is Severity.STOP
    assert grounds.value == pytest.approx((1.0 / 6.1 + 0.025) * 2700.0 / 4.0, abs=1.0)
    assert "assumed" in " ".join(grounds.chain_words)


def test_a_garage_that_stands_high_over_its_drive_stops_and_the_fall_up_to_it_is_offered(small):
    drive(small, 9200.0)
    reported = found(small)["levels.garage_step"]
    assert reported.severity is Severity.STOP
    assert reported.value == pytest.approx(10000.0 - 9350.0)
    ((change,), _) = (option.changes for option in reported.options)
    assert change.path == "areas.0.fall.one_in"
    small.document["areas"][0]["fall"]["one_in"] = change.value
    assert "levels.garage_step" not in found(small)


def test_a_gentle_drive_is_not_told_of_anything_but_its_crossing(small):
    drive(small, 9990.0 - LONG / 40.0, one_in=40.0)
    cars = {code for code in found(small) if "car" in code or "garage" in code or "transition" in code}
    assert cars == set()


def test_feet_are_not_judged_as_cars(small):
    drive(small, 9950.0, folding="ridge", one_in=7.6)["use"] = "foot"
    assert "levels.car_grounds" not in found(small)


def test_a_step_across_a_drive_stops_a_car(small):
    drive(small, 9700.0, folding="stepped", one_in=60.0)
    assert found(small)["levels.car_meets_step"].severity is Severity.STOP


def test_an_edge_of_which_is_said_that_the_footway_lies_beyond_needs_no_boundary(small):
    drive(small, 10000.0 - LONG / 6.4, one_in=6.4)
    small.site["boundaries"] = []
    small.site["tie_ins"][0]["beyond"] = "highway"
    reported = found(small)
    assert {"levels.car_grounds", "levels.steep_at_road", "levels.footway_crossing"} <= set(reported)
    small.site["tie_ins"][0]["beyond"] = "not_known"
    assert "levels.footway_crossing" not in found(small)


def test_a_car_grounds_between_two_areas_that_fall_away_from_each_other(small):
    for name, low, bearing in (("Upper", 0.0, 180.0), ("Lower", 6000.0, 0.0)):
        area = small.area([(0, low), (4000, low), (4000, low + 6000), (0, low + 6000)], name)
        point = f"{name[0]}{3 if low == 0.0 else 0}"
        area |= {"use": "car", "fall": {"bearing_deg": bearing, "one_in": 8.0, "level_at": point, "level_mm": 1000.0}}
    (reported,) = [each for each in finished_levels(*small.surveyed(), small.rules).findings if "grounds" in each.code]
    assert reported.severity is Severity.STOP
    assert reported.value == pytest.approx(2.0 / 8.0 * 2700.0 / 4.0, abs=1.0)
    assert reported.place == "area Upper, area Lower"
