"""Strings as they hang, set-ups of an instrument, strings across an area, and arcs."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import LineString, Point
from tests.unit.setting_out.test_errors import l_shaped, with_tools
from tests.unit.setting_out.test_setting_out import document, set_out_job

from pavewright.setting_out.hanging import HungBy


def peg_of(sheet, at):
    return next(each for each in sheet.pegs if each.at == pytest.approx(at) and each.role == "corner")


def crossings_at(sheet, peg):
    return [each for each in sheet.work.crossings if each.peg == peg.name]


def layers(crossing):
    return {each.layer.value: each.down_from_string_mm for each in crossing.heights}


def test_a_string_sags_by_its_span_and_every_layer_is_so_much_less_below_it():
    sheet = set_out_job(document())
    far = next(each for each in sheet.work.hung if {each.start_at[1], each.end_at[1]} == {3000.0})
    assert far.span_mm == pytest.approx(7400.0)
    assert far.sag_mm == pytest.approx(1.2e-3 * 7.4**2 / (8 * 2.0) * 1000)
    middle = next(each for each in sheet.pegs if each.at == pytest.approx((3000.0, 3000.0)))
    (crossing,) = [each for each in crossings_at(sheet, middle) if each.string == far.name]
    assert crossing.sag_mm == pytest.approx(far.sag_mm, rel=1e-3)
    assert layers(crossing)["formation"] == pytest.approx(300.0 - crossing.sag_mm)
    assert crossing.hung_by is HungBy.PLANNED


def test_heights_typed_back_from_site_move_what_lies_below_the_string():
    entered = document()
    plain = set_out_job(entered)
    far = next(each for each in plain.work.hung if {each.start_at[1], each.end_at[1]} == {3000.0})
    ends = [next(peg for peg in plain.pegs if peg.name == name) for name in (far.start, far.end)]
    entered["strings_set"] = [
        {"peg": peg.name, "x_mm": peg.at[0], "y_mm": peg.at[1], "level_mm": peg.string_level_mm + up}
        for peg, up in zip(ends, (20.0, -10.0), strict=True)
    ]
    sheet = set_out_job(entered)
    middle = next(each for each in sheet.pegs if each.at == pytest.approx((3000.0, 3000.0)))
    (crossing,) = [each for each in crossings_at(sheet, middle) if each.string == far.name]
    assert crossing.hung_by is HungBy.READ
    assert layers(crossing)["finished"] == pytest.approx(150.0 + 5.0 - crossing.sag_mm)
    one_end = {**entered, "strings_set": entered["strings_set"][:1]}
    crossed = crossings_at(set_out_job(one_end), middle)
    assert {each.hung_by for each in crossed if each.string == far.name} == {HungBy.ONE_END}


def test_a_height_read_at_the_peg_itself_counts_before_the_ends_of_the_string():
    entered = document()
    middle = next(peg for peg in set_out_job(entered).pegs if peg.at == pytest.approx((3000.0, 3000.0)))
    entered["strings_set"] = [
        {"peg": middle.name, "x_mm": 3000.0, "y_mm": 3000.0, "level_mm": middle.string_level_mm - 12.0}
    ]
    sheet = set_out_job(entered)
    assert {round(layers(each)["finished"], 6) for each in crossings_at(sheet, middle)} == {138.0}


def test_a_height_read_where_no_peg_of_that_name_stands_any_more_is_not_used_and_is_said():
    entered = document()
    entered["strings_set"] = [
        {"peg": "Peg 3", "x_mm": 90_000.0, "y_mm": 0.0, "level_mm": 5.0},
        {"peg": "Peg 99", "x_mm": 0.0, "y_mm": 0.0, "level_mm": 5.0},
    ]
    sheet = set_out_job(entered)
    assert [(each.peg, each.away_mm is None) for each in sheet.work.stray] == [("Peg 3", False), ("Peg 99", True)]
    assert {each.hung_by for each in sheet.work.crossings} == {HungBy.PLANNED}


def test_a_harder_pull_takes_the_sag_out_of_a_string():
    slack = set_out_job(with_tools(document(), string_pull_kg=1.0)).work.hung
    tight = set_out_job(with_tools(document(), string_pull_kg=4.0)).work.hung
    assert [each.sag_mm for each in slack] == pytest.approx([4.0 * each.sag_mm for each in tight])
    assert any(each.prop for each in slack)
    assert not any(each.prop for each in tight)


def test_an_instrument_sees_from_the_level_of_its_point_and_its_backsight():
    entered = document()
    entered["measurements"]["points"][0]["level_mm"] = 10_000.0
    entered["set_ups"] = [
        {"name": "Morning", "point": "A", "backsight_mm": 1250.0},
        {"name": "Noon", "point": "B", "backsight_mm": 900.0},
    ]
    morning, noon = set_out_job(entered).work.sights
    assert morning.level_mm == pytest.approx(11_250.0)
    assert morning.sd_mm == pytest.approx(2.0 * math.sqrt(2.0))
    assert noon.level_mm is None


def test_every_place_inside_a_large_area_lies_under_strings_both_ways():
    sheet = set_out_job(l_shaped())
    grid = [peg for peg in sheet.pegs if peg.role == "grid" and peg.from_corner.startswith("inside")]
    assert grid
    assert all(len(crossings_at(sheet, peg)) >= 2 for peg in grid)
    across = [each for each in sheet.strings if each.name not in {s.name for s in sheet.strings[:6]}]
    assert {each.carries_fall for each in across} == {True, False}


def test_a_small_area_has_strings_along_its_sides_alone():
    assert len(set_out_job(document()).strings) == 4


def test_strings_across_run_at_the_planned_height_from_end_to_end():
    sheet = set_out_job(l_shaped())
    for crossing in sheet.work.crossings:
        assert layers(crossing)["finished"] + crossing.sag_mm == pytest.approx(150.0, abs=1e-6)


def test_two_strings_carry_a_round_area_and_one_of_them_the_fall():
    entered = document()
    entered["areas"][0]["outline"] = [{"point": "C", "rise_mm": 3000.0}, {"point": "D", "rise_mm": 3000.0}]
    sheet = set_out_job(entered)
    assert sorted(each.carries_fall for each in sheet.strings) == [False, True]
    assert len(sheet.work.curves) == 2


def test_an_arc_is_swung_about_its_centre_or_set_off_a_string():
    entered = document()
    entered["areas"][0]["outline"] = [
        {"point": "A"},
        {"point": "B"},
        {"point": "C", "rise_mm": 1000.0},
        {"point": "D"},
    ]
    sheet = set_out_job(entered)
    (curve,) = sheet.work.curves
    assert curve.radius_mm == pytest.approx((3000.0**2 + 1000.0**2) / 2000.0)
    assert curve.centre_at == pytest.approx((3000.0, 3000.0 - (curve.radius_mm - 1000.0)))
    (offsets,) = curve.offsets
    for along, off in zip(offsets.along_mm, offsets.off_mm, strict=True):
        at = (offsets.start_at[0] - along, offsets.start_at[1] + off)
        assert math.hypot(at[0] - curve.centre_at[0], at[1] - curve.centre_at[1]) == pytest.approx(curve.radius_mm)
    # the centre lies behind the house wall: no tape is swung through it
    assert curve.hindrance in {"wall", "house"}
    assert not curve.is_swung


def test_more_than_half_a_circle_is_set_off_two_strings():
    entered = document()
    entered["areas"][0]["outline"] = [
        {"point": "A"},
        {"point": "B"},
        {"point": "C", "rise_mm": 3500.0},
        {"point": "D"},
    ]
    (curve,) = set_out_job(entered).work.curves
    assert len(curve.offsets) == 2
    for string in curve.offsets:
        line = LineString([string.start_at, string.end_at])
        for along, off in zip(string.along_mm, string.off_mm, strict=True):
            foot = line.interpolate(along)
            outward = math.hypot(foot.x - curve.centre_at[0], foot.y - curve.centre_at[1])
            assert off >= 0.0
            middle = Point(curve.centre_at).distance(line)
            assert math.hypot(middle + off, math.sqrt(max(0.0, outward**2 - middle**2))) == pytest.approx(
                curve.radius_mm
            )
