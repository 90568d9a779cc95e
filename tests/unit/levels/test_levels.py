"""Finished levels with numbers worked out by hand."""

from __future__ import annotations

import dataclasses

import pytest

from pavewright.findings import Owner, Severity
from pavewright.job import JobInvalid, parse
from pavewright.levels import SUMS
from pavewright.levels._figures import figures as read_figures
from pavewright.levels.design import RuleKind, bounds
from pavewright.survey import survey


def by_name(area):
    return {spot.label: spot.level_mm for spot in area.corners}


def codes(levels):
    return [finding.code for finding in levels.findings]


def test_paving_lies_150_below_the_dpc_and_falls_50_in_3_m(terrace):
    levels = terrace.levels()
    area = levels.area("Terrace")
    assert by_name(area) == pytest.approx({"A": 9850.0, "B": 9850.0, "C": 9800.0, "D": 9800.0})
    assert area.clearances[0].min_mm == pytest.approx(150.0)
    assert area.fixed_by == "150 mm below the damp-proof course of wall House rear"
    assert levels.findings == ()


def test_a_cross_fall_lowers_the_far_end_so_that_the_near_end_is_at_the_limit(terrace):
    terrace.area["fall"] |= {"cross_one_in": 80.0, "cross_to": "right"}
    area = terrace.levels().area("Terrace")
    # away from the wall is north; looking downhill, right is east: 6 m at 1 in 80 is 75
    assert by_name(area) == pytest.approx({"A": 9850.0, "B": 9775.0, "C": 9725.0, "D": 9800.0})
    assert area.plane.fall == pytest.approx(1.0 / 48.0)


def test_cross_fall_to_the_left_goes_the_other_way(terrace):
    terrace.area["fall"] |= {"cross_one_in": 80.0, "cross_to": "left"}
    assert by_name(terrace.levels().area("Terrace"))["A"] == pytest.approx(9775.0)


def test_an_air_brick_lower_than_the_dpc_decides(terrace):
    terrace.site["walls"][0]["air_bricks"] = [{"name": "V1", "along_mm": 2000.0, "underside_level_mm": 9900.0}]
    area = terrace.levels().area("Terrace")
    assert by_name(area)["A"] == pytest.approx(9825.0)
    assert area.fixed_by == "75 mm below air brick V1"


def test_a_door_with_a_min_step_decides_and_its_step_is_told(terrace):
    terrace.site["walls"][0]["openings"] = [
        {
            "name": "Kitchen door",
            "along_mm": 2000.0,
            "width_mm": 900.0,
            "threshold_level_mm": 9960.0,
            "min_step_mm": 130.0,
        }
    ]
    area = terrace.levels().area("Terrace")
    assert by_name(area)["A"] == pytest.approx(9830.0)
    assert area.doors[0].min_mm == pytest.approx(130.0)


def test_a_fixed_cover_that_is_too_high_is_told_as_a_chain_with_ways_out(terrace):
    # 2.9 m from the wall the paving is at 9850 − 48.3 = 9801.7; the cover is fixed at 9835, 5 either way: 28.3 short
    terrace.site["covers"] = [
        {"name": "IC1", "point": "M", "length_mm": 100.0, "width_mm": 100.0, "level_mm": 9835.0, "fixed": True}
    ]
    levels = terrace.levels()
    (finding,) = [each for each in levels.findings if each.code == "levels.cover_clash"]
    assert finding.severity is Severity.STOP
    assert finding.value == pytest.approx(9801.6667, abs=1e-3)
    assert finding.limit == pytest.approx(9830.0)
    assert "28.3 mm too low" in finding.message
    assert "9.850" in " ".join(finding.chain_words)
    frame = next(way for way in finding.options if way.words.startswith("Lower the frame of cover IC1 by 28.4 mm"))
    # nobody knows whose cover it is: it is asked for, and something of the customer's own comes first
    assert frame.facts.owner is Owner.NOT_KNOWN
    assert finding.options[0].facts.owner is Owner.OWN
    # 2.95 m to its far corners with only 20 mm to fall: 1 in 147
    assert any("1 in 147 instead of 1 in 60: flatter" in way for way in finding.option_words)
    assert finding.option_words[-1].startswith("Not offered")
    # the damp-proof course is never given up
    assert levels.area("Terrace").clearances[0].min_mm == pytest.approx(150.0)


def test_a_flatter_fall_within_the_rule_is_the_cheapest_way_out(terrace):
    terrace.site["covers"] = [
        {"name": "IC1", "point": "M", "length_mm": 100.0, "width_mm": 100.0, "level_mm": 9816.0, "fixed": True}
    ]
    (finding,) = [each for each in terrace.levels().findings if each.code == "levels.cover_clash"]
    # 9850 − 9811 = 39 over 2.95 m to its far corners: 1 in 76
    assert finding.option_words[0] == "Lay at 1 in 76 instead of 1 in 60."


def test_a_fixed_cover_within_reach_draws_the_paving_to_it(terrace):
    terrace.site["covers"] = [
        {"name": "IC1", "point": "M", "length_mm": 100.0, "width_mm": 100.0, "level_mm": 9780.0, "fixed": True}
    ]
    levels = terrace.levels()
    assert codes(levels) == []
    assert levels.area("Terrace").plane.level_at((3000.0, 2900.0)) == pytest.approx(9780.0)


def test_a_loose_cover_is_told_how_far_to_set_it(terrace):
    terrace.site["covers"] = [
        {"name": "IC1", "point": "M", "length_mm": 100.0, "width_mm": 100.0, "level_mm": 9790.0, "fixed": False}
    ]
    (finding,) = terrace.levels().findings
    assert finding.code == "levels.frame_to_set"
    assert finding.value == pytest.approx(11.6667, abs=1e-3)


def test_a_level_asked_for_that_is_too_high_says_stop(terrace):
    terrace.area["fall"] |= {"level_at": "A", "level_mm": 9900.0}
    levels = terrace.levels()
    (finding,) = levels.findings
    assert finding.code == "levels.too_near_dpc"
    assert finding.severity is Severity.STOP
    assert finding.option_words[0] == "Set Terrace 50 mm lower than asked."


def test_without_a_wish_it_falls_away_from_the_longest_wall_and_the_second(terrace):
    terrace.area["fall"] = {}
    terrace.site["walls"].append({"name": "Garage", "start": "A", "end": "D", "dpc_level_mm": 10050.0})
    levels = terrace.levels()
    area = levels.area("Terrace")
    assert area.main_direction == pytest.approx((0.0, 1.0))
    assert area.cross_fall == pytest.approx(1.0 / 80.0)
    assert "levels.direction_chosen" in codes(levels)
    assert min(clearance.min_mm for clearance in area.clearances) == pytest.approx(150.0)


def test_too_flat_and_too_steep_are_told(terrace):
    terrace.area["fall"]["one_in"] = 120.0
    assert codes(terrace.levels()) == ["levels.too_flat"]
    terrace.area["fall"]["one_in"] = 30.0
    assert codes(terrace.levels()) == ["levels.too_steep"]


def test_an_edge_to_meet_fixes_the_height_where_no_wall_does(terrace):
    terrace.site["walls"] = []
    terrace.area["fall"] = {}
    terrace.site["tie_ins"] = [
        {"name": "Old path", "start": "A", "end": "B", "start_level_mm": 500.0, "end_level_mm": 440.0}
    ]
    area = terrace.levels().area("Terrace")
    assert by_name(area) == pytest.approx({"A": 500.0, "B": 440.0, "C": 390.0, "D": 450.0})


def test_nothing_that_fixes_height_or_direction_is_a_fault_of_the_document(terrace):
    terrace.site["walls"] = []
    terrace.area["fall"] = {}
    with pytest.raises(JobInvalid, match="which way area Terrace falls"):
        terrace.levels()
    terrace.area["fall"] = {"bearing_deg": 0.0}
    with pytest.raises(JobInvalid, match="Nothing fixes the height"):
        terrace.levels()


def test_an_area_that_nothing_holds_lies_with_the_ground(terrace):
    terrace.site["walls"] = []
    terrace.area["fall"] = {"bearing_deg": 0.0}
    for name, x, y in (("G1", 0.0, 0.0), ("G2", 6000.0, 0.0), ("G3", 6000.0, 3000.0), ("G4", 0.0, 3000.0)):
        terrace.point(name, x, y, 1000.0)
    terrace.document["measurements"]["ground_points"] = ["G1", "G2", "G3", "G4"]
    area = terrace.levels().area("Terrace")
    assert area.plane.level_at((3000.0, 1500.0)) == pytest.approx(1000.0)
    assert by_name(area)["A"] == pytest.approx(1025.0)


def two_areas(terrace, **lower_fall):
    terrace.point("E", 6000.0, 5000.0)
    terrace.point("F", 0.0, 5000.0)
    terrace.document["areas"].append(
        {
            "name": "Lower",
            "outline": [{"point": point} for point in "DCEF"],
            "fall": {"bearing_deg": 0.0, "one_in": 60.0, **lower_fall},
            "laying": {"unit": "Slab"},
        }
    )


def test_a_neighbour_meets_the_area_before_it(terrace):
    two_areas(terrace)
    levels = terrace.levels()
    assert levels.area("Lower").plane.level_at((0.0, 3000.0)) == pytest.approx(9800.0)
    assert codes(levels) == []


def test_neighbours_that_slope_differently_along_their_edge_are_told(terrace):
    two_areas(terrace, cross_one_in=80.0)
    levels = terrace.levels()
    # 75 mm over the 6 m edge, shared out: 37.5 either way less 2 allowed
    (finding,) = [each for each in levels.findings if each.code == "levels.areas_do_not_meet"]
    assert "35.5 mm too" in finding.message


def test_steps_have_equal_risers_from_the_foot_up(terrace):
    two_areas(terrace, level_at="E", level_mm=9350.0)
    terrace.document["steps"] = [
        {"name": "Garden steps", "upper_area": "Terrace", "lower_area": "Lower", "corner": "C", "going_mm": 300.0}
    ]
    levels = terrace.levels()
    (steps,) = levels.steps
    # nosing at 9800; lower plane is 9350 at y 5000 and rises 1 in 60 towards the nosing
    assert steps.risers == 3
    foot = 9350.0 + (5000.0 - 3600.0) / 60.0
    assert steps.riser_mm == pytest.approx((9800.0 - foot) / 3)
    assert steps.rise_start_mm == pytest.approx(steps.rise_end_mm)


def test_steps_the_wrong_way_round_say_stop(terrace):
    two_areas(terrace, level_at="E", level_mm=9900.0)
    terrace.document["steps"] = [{"name": "S", "upper_area": "Terrace", "lower_area": "Lower", "corner": "C"}]
    assert "levels.steps_upside_down" in codes(terrace.levels())


def test_a_figure_of_the_edition_decides_and_no_copy_of_it_in_the_code(terrace):
    terrace.document["site"]["gullies"] = [{"name": "G", "point": "M", "fixed": True, "grating_level_mm": 9790.0}]
    terrace.document["site"]["walls"][0]["dpc_level_mm"] = None
    terrace.document["site"]["outfalls"] = [{"name": "Drain", "kind": "surface_water_sewer", "confirmed": True}]
    terrace.document["site"]["gullies"][0]["outfall"] = "Drain"
    figures = dict(terrace.rules.figures)
    figures["levels.gully_tolerance_mm"] = dataclasses.replace(figures["levels.gully_tolerance_mm"], value=12.0)
    loose = dataclasses.replace(terrace.rules, figures=figures)
    job = parse(terrace.document)
    measured = survey(job, terrace.rules)
    area = measured.site.areas[0]
    (tight,) = (each for each in bounds(area, measured, read_figures(terrace.rules)) if each.kind is RuleKind.GULLY)
    (wide,) = (each for each in bounds(area, measured, read_figures(loose)) if each.kind is RuleKind.GULLY)
    assert (tight.high_mm - tight.low_mm, wide.high_mm - wide.low_mm) == (10.0, 24.0)


def test_sums_of_levels_take_what_is_not_given_from_the_edition():
    """A default that is a figure of the trade stands in the rulebook only."""
    own = {entry.name: entry for entry in SUMS}
    for name, quantity in (
        ("level-below-dpc", "below_mm"),
        ("risers", "max_mm"),
        ("car-crest", "wheelbase_mm"),
        ("fall", "one_in"),
    ):
        (asked,) = (each for each in own[name].inputs if each.name == quantity)
        assert asked.default is None
        assert asked.figure.startswith("levels.")
