"""Pegs, strings and tapes of a 6 × 3 m terrace on a house wall, worked out by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest
from shapely.geometry import LineString, Point, box

from pavewright import rulebook
from pavewright.buildup import AreaBuildUp, BuildUps, Layer, LayerKey, LayerMaterial
from pavewright.job import parse
from pavewright.levels import finished_levels
from pavewright.setting_out import AtHand, PegRole, Stands, set_out
from pavewright.survey import survey

RULES = rulebook.load("england")


def document() -> dict[str, Any]:
    corners = {"A": (0.0, 0.0), "B": (6000.0, 0.0), "C": (6000.0, 3000.0), "D": (0.0, 3000.0)}
    return {
        "format": "pavewright.job",
        "version": 1,
        "identity": {"job": "T3", "title": "Test", "date": "2027-05-04", "locality": "england", "invented": True},
        "measurements": {"points": [{"name": n, "x_mm": x, "y_mm": y} for n, (x, y) in corners.items()]},
        "site": {"walls": [{"name": "House", "start": "A", "end": "B", "dpc_level_mm": 10000.0}]},
        "areas": [
            {
                "name": "Terrace",
                "outline": [{"point": point} for point in "ABCD"],
                "fall": {"away_from": "House", "one_in": 60.0},
                "laying": {"unit": "Slab"},
            }
        ],
        "units": [
            {
                "name": "Slab",
                "length_mm": 600.0,
                "width_mm": 600.0,
                "thickness_mm": 40.0,
                "kg_each": 33.0,
                "per_pack": 20,
                "pack_price_minor": 30000,
            }
        ],
        "rates": {"labour_minor_per_hour": 3000},
        "crew": {"people": 2},
        "calendar": {"start": "2027-06-01"},
    }


def set_out_job(entered: dict[str, Any]):
    job = parse(entered)
    measured = survey(job, RULES)
    levels = finished_levels(job, measured, RULES)
    ups = BuildUps(
        tuple(
            AreaBuildUp(
                area=area.name,
                layers=(
                    Layer(LayerKey.UNIT, "slab", 40.0, LayerMaterial.UNIT, 0.0, (), ""),
                    Layer(LayerKey.BED, "mortar bed", 35.0, LayerMaterial.MORTAR, 0.0, (), ""),
                    Layer(LayerKey.BASE, "concrete base", 75.0, LayerMaterial.CONCRETE, 100.0, (), ""),
                ),
                total_mm=150.0,
                formation=levels.area(area.name).surface.lowered(150.0),
                base_shape=area.gross,
                dig_shape=area.gross,
                strip_shape=area.gross,
                cbr_percent=None,
                workings=(),
            )
            for area in measured.site.areas
        ),
        (),
    )
    return set_out(measured, levels, ups, RULES, AtHand(job.tools, job.strings_set, job.set_ups))


def test_every_corner_has_a_peg_with_every_layer_below_its_string():
    sheet = set_out_job(document())
    peg = next(each for each in sheet.pegs if each.at == (0.0, 0.0))
    assert peg.string_level_mm == pytest.approx(10000.0)
    assert [(each.layer, each.down_from_string_mm) for each in peg.heights] == [
        ("finished", 150.0),
        ("top of bed", 190.0),
        ("top of base", 225.0),
        ("formation", 300.0),
    ]
    assert [each.level_mm for each in peg.heights] == pytest.approx([9850.0, 9810.0, 9775.0, 9700.0])


def test_the_base_line_runs_along_the_house_off_the_wall_with_both_pegs_outside_the_dig():
    sheet = set_out_job(document())
    (line,) = sheet.base_lines
    assert (line.side, line.off_mm, line.length_mm) == ("A–B", pytest.approx(300.0), pytest.approx(7200.0))
    ends = [each for each in sheet.pegs if each.role == "base"]
    assert [each.name for each in ends] == [line.start, line.end] == ["Peg 1", "Peg 2"]
    assert [each.at for each in ends] == [pytest.approx((-600.0, 300.0)), pytest.approx((6600.0, 300.0))]
    peg = next(each for each in sheet.pegs if each.role == "corner" and each.at == (6000.0, 3000.0))
    assert (peg.along_mm, peg.offset_mm) == pytest.approx((6600.0, 2700.0))
    assert "6.600 m along from Peg 1, 2.700 m square left" in peg.from_corner


def test_only_pins_stand_outside_the_dig_and_places_at_the_wall_are_marks():
    sheet = set_out_job(document())
    pins = {each.role for each in sheet.pegs if each.stands is Stands.PIN}
    assert pins == {"base", "profile"}
    marks = {each.at for each in sheet.pegs if each.stands is Stands.MARK}
    assert marks == {(0.0, 0.0), (6000.0, 0.0), (3000.0, 0.0)}


def test_no_two_pegs_along_a_side_stand_further_apart_than_the_rule():
    sheet = set_out_job(document())
    edge = [each.at for each in sheet.pegs if each.role == "edge"]
    assert sorted(edge) == [(3000.0, 0.0), (3000.0, 3000.0)]


def test_profile_pegs_stand_outside_but_never_behind_the_wall():
    sheet = set_out_job(document())
    outside = {each.at for each in sheet.pegs if each.role == "profile"}
    # 600 out and 100 of base past the edge; the sides that end on the wall have no peg behind it
    assert {(round(x), round(y)) for x, y in outside} == {
        (6700, 3000),
        (-700, 3000),
        (6000, 3700),
        (0, 3700),
        (-700, 0),
        (6700, 0),
    }


def test_strings_carry_the_fall_along_it_and_none_across():
    sheet = set_out_job(document())
    carrying = [each for each in sheet.strings if each.carries_fall]
    assert len(carrying) == 2
    assert all(abs(each.fall_mm) == pytest.approx(each.length_mm / 60.0) for each in carrying)
    assert all(each.fall_mm == pytest.approx(0.0) for each in sheet.strings if not each.carries_fall)


def test_tapes_are_sides_diagonals_and_a_right_angle():
    sheet = set_out_job(document())
    taped = {each.name: each for each in sheet.checks}
    assert taped["C–A"].expected_mm == pytest.approx(math.hypot(6000.0, 3000.0))
    assert taped["C–A"].kind == taped["B–D"].kind == "diagonal"
    # the far edge is 2.7 m off the base line: 4 parts of 600 fit, so 1.8, 2.4 and 3 m
    assert taped["3-4-5 at Peg 1"].expected_mm == pytest.approx(3000.0)
    assert len([each for each in sheet.checks if each.kind == "side"]) == 4
    # two tapes from the base line to each far corner; to A and B they would cross too flat
    assert taped["Peg 1–C"].expected_mm == pytest.approx(math.hypot(6600.0, 2700.0))
    assert taped["Peg 2–C"].expected_mm == pytest.approx(math.hypot(600.0, 2700.0))


def test_an_arc_is_set_out_by_offsets_from_its_chord():
    entered = document()
    entered["areas"][0]["outline"][2]["rise_mm"] = 600.0
    offsets = {each.name: each for each in set_out_job(entered).checks if each.kind == "offset"}
    assert len(offsets) == 11
    # chord 6 m, rise 0.6 m: radius 7.8 m; the middle offset is the rise, the others symmetric
    assert offsets["arc C–D 6"].expected_mm == pytest.approx(600.0)
    assert offsets["arc C–D 1"].expected_mm == pytest.approx(offsets["arc C–D 11"].expected_mm)
    assert offsets["arc C–D 3"].expected_mm == pytest.approx(math.sqrt(7800.0**2 - 1500.0**2) - 7200.0)
    assert "out of the area" in offsets["arc C–D 6"].words


def served(**service: Any) -> dict[str, Any]:
    entered = document()
    entered["measurements"]["points"] += [
        {"name": "P", "x_mm": 4500.0, "y_mm": -50.0},
        {"name": "Q", "x_mm": 4500.0, "y_mm": 3000.0},
    ]
    entered["site"]["services"] = [{"name": "Lamp", "kind": "electricity", "points": ["P", "Q"]} | service]
    return entered


def test_a_peg_in_the_band_of_a_service_says_no_pin_and_gives_another_place():
    entered = document()
    entered["site"]["services"] = [{"name": "Main", "kind": "gas", "points": ["C", "D"]}]
    sheet = set_out_job(entered)
    corner = next(each for each in sheet.pegs if each.role == "corner" and each.at == (6000.0, 3000.0))
    assert corner.no_pin is not None
    assert corner.no_pin.services == ("Main",)
    assert corner.no_pin.words.startswith("no pin here: Main (gas, depth not known) right under it; pin instead at ")
    assert corner.no_pin.elsewhere is not None
    band = RULES.value("earthworks.hand_dig_mm")
    for peg in sheet.pegs:
        away = LineString([(6000.0, 3000.0), (0.0, 3000.0)]).distance(Point(peg.at))
        assert (peg.no_pin is not None) == (away <= band)
        if peg.no_pin is not None and peg.no_pin.elsewhere is not None:
            assert LineString([(6000.0, 3000.0), (0.0, 3000.0)]).distance(Point(peg.no_pin.elsewhere)) > band
    finding = next(each for each in sheet.findings if each.code == "setting_out.peg_near_service")
    assert "Do not drive a pin there" in finding.message
    assert finding.figure is not None
    assert finding.figure.key == "earthworks.hand_dig_mm"


def test_a_profile_moves_along_its_line_out_of_the_band_of_a_service():
    entered = document()
    entered["measurements"]["points"] += [
        {"name": "P", "x_mm": -1000.0, "y_mm": 3700.0},
        {"name": "Q", "x_mm": 7000.0, "y_mm": 3700.0},
    ]
    entered["site"]["services"] = [{"name": "Main", "kind": "gas", "points": ["P", "Q"], "depth_mm": 600.0}]
    sheet = set_out_job(entered)
    assert all(each.no_pin is None for each in sheet.pegs if each.stands is Stands.PIN)
    assert {round(each.at[1]) for each in sheet.pegs if each.role == "profile" and each.at[0] in {0.0, 6000.0}} == {
        4300
    }


def test_services_are_listed_with_kind_depth_and_band():
    sheet = set_out_job(served(depth_mm=450.0))
    (band,) = sheet.services
    assert (band.kind, band.depth_mm, band.band_mm) == ("electricity", 450.0, RULES.value("earthworks.hand_dig_mm"))
    assert "said to lie 450 mm down" in band.words
    assert "no pin and no machine within 500 mm" in band.words
    assert "depth not known" in set_out_job(served()).services[0].words


def test_no_service_entered_does_not_mean_none():
    sheet = set_out_job(document())
    assert sheet.services == ()
    assert "none entered; that does not mean none" in sheet.services_words


def round_the_house() -> dict[str, Any]:
    """Return a terrace about the corner of a house: 8.4 m long, its shortest wall 2.3 m."""
    corners = {
        "A": (0.0, 0.0),
        "B": (8400.0, 0.0),
        "C": (8400.0, 6000.0),
        "D": (6100.0, 6000.0),
        "E": (6100.0, 2500.0),
        "F": (0.0, 2500.0),
    }
    entered = document()
    entered["measurements"]["points"] = [{"name": n, "x_mm": x, "y_mm": y} for n, (x, y) in corners.items()]
    entered["site"]["walls"] = [
        {"name": "Side", "start": "D", "end": "E", "dpc_level_mm": 10000.0},
        {"name": "Back", "start": "E", "end": "F", "dpc_level_mm": 10000.0},
    ]
    entered["areas"][0]["outline"] = [{"point": point} for point in "ABCDEF"]
    entered["areas"][0]["fall"] = {"away_from": "Back", "one_in": 60.0}
    return entered


def test_no_tape_runs_through_the_house():
    sheet = set_out_job(round_the_house())
    house = box(0.0, 2520.0, 6080.0, 9000.0)
    assert sheet.checks
    assert [each.name for each in sheet.checks if LineString([each.start_at, each.end_at]).intersects(house)] == []
    (line,) = sheet.base_lines
    assert line.length_mm >= 8400.0
    assert not LineString([line.start_at, line.end_at]).intersects(house)
    pins = [each.at for each in sheet.pegs if each.stands is Stands.PIN]
    assert pins
    assert not any(house.intersects(Point(at)) for at in pins)
    assert [each.code for each in sheet.findings] == []


def test_what_is_taken_for_house_is_said_where_a_tape_is_refused_for_it():
    sheet = set_out_job(round_the_house())
    assert sheet.houses
    deep = RULES.value("setting_out.behind_wall_mm")
    for each in sheet.houses:
        assert each.refused > 0 and each.deep_mm == deep
        assert f"behind wall {each.wall}" in each.words and "3 m deep" in each.words
    # a terrace before one straight wall: no tape runs behind it
    assert set_out_job(document()).houses == ()


def test_a_tape_goes_round_a_post_and_a_hole_is_not_crossed():
    entered = document()
    entered["measurements"]["points"] += [
        {"name": name, "x_mm": x, "y_mm": y}
        for name, (x, y) in {
            "p": (2500.0, 1200.0),
            "q": (3500.0, 1200.0),
            "r": (3500.0, 1900.0),
            "s": (2500.0, 1900.0),
        }.items()
    ]
    entered["areas"][0]["holes"] = [[{"point": point} for point in "pqrs"]]
    sheet = set_out_job(entered)
    hole = box(2520.0, 1220.0, 3480.0, 1880.0)
    assert [each.name for each in sheet.checks if LineString([each.start_at, each.end_at]).intersects(hole)] == []
    assert {each.name for each in sheet.checks}.isdisjoint({"A–C", "B–D", "C–A", "D–B"})


def test_corners_that_no_two_tapes_reach_are_reported():
    entered = document()
    entered["measurements"]["points"] += [
        {"name": "P", "x_mm": 4500.0, "y_mm": -100.0},
        {"name": "Q", "x_mm": 4500.0, "y_mm": 6000.0},
    ]
    entered["site"]["boundaries"] = [{"name": "Fence", "start": "P", "end": "Q", "neighbour": "neighbour"}]
    sheet = set_out_job(entered)
    finding = next(each for each in sheet.findings if each.code == "setting_out.corner_not_taped")
    assert "fix B, C of Terrace" in finding.message
    fence = LineString([(4500.0, -100.0), (4500.0, 6000.0)])
    assert not any(LineString([each.start_at, each.end_at]).crosses(fence) for each in sheet.checks)


def test_the_base_line_stands_where_the_corners_can_be_taped_from_it():
    corners = {
        "a": (0.0, 0.0),
        "b": (8400.0, 0.0),
        "c": (8400.0, 5200.0),
        "d": (6100.0, 5200.0),
        "e": (6100.0, 2600.0),
        "f": (4200.0, 2600.0),
        "g": (4200.0, 1900.0),
        "h": (2300.0, 1900.0),
        "i": (2300.0, 2600.0),
        "j": (0.0, 2600.0),
    }
    entered = document()
    entered["measurements"]["points"] = [{"name": n, "x_mm": x, "y_mm": y} for n, (x, y) in corners.items()]
    entered["site"]["walls"] = [
        {"name": f"Wall {start}", "start": start, "end": end, "dpc_level_mm": 10000.0}
        for start, end in ("de", "ef", "fg", "gh", "hi", "ij")
    ]
    entered["areas"][0]["outline"] = [{"point": point} for point in "abcdefghij"]
    entered["areas"][0]["fall"] = {"away_from": "Wall i", "one_in": 60.0}
    sheet = set_out_job(entered)
    (line,) = sheet.base_lines
    # in front of the house, not beyond it, where a line just as long sees no corner
    assert max(line.start_at[1], line.end_at[1]) < 1900.0
    assert line.length_mm >= 8400.0
    assert "setting_out.corner_not_taped" not in {each.code for each in sheet.findings}
    house = box(0.0, 2620.0, 6080.0, 9000.0).union(box(2320.0, 1920.0, 4180.0, 9000.0))
    assert [each.name for each in sheet.checks if LineString([each.start_at, each.end_at]).intersects(house)] == []


def test_a_door_called_like_a_fold_gets_no_peg_of_a_fold():
    # what a user calls a thing decides nothing
    entered = document()
    entered["site"]["walls"][0]["openings"] = [
        {"name": "fold away", "along_mm": 2000.0, "width_mm": 900.0, "threshold_level_mm": 10000.0}
    ]
    assert {peg.role for peg in set_out_job(entered).pegs}.isdisjoint({PegRole.FOLD})


def test_pegs_are_numbered_through_the_job_as_they_are_named():
    pegs = set_out_job(document()).pegs
    assert [peg.number for peg in pegs] == list(range(1, len(pegs) + 1))
    assert all(peg.name == f"Peg {peg.number}" for peg in pegs)
