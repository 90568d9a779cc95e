"""Pegs, strings and tapes of a 6 × 3 m terrace on a house wall, worked out by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest

from pavewright import rulebook
from pavewright.buildup import AreaBuildUp, BuildUps, Layer
from pavewright.job import parse
from pavewright.levels import finished_levels
from pavewright.setting_out import set_out
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
                    Layer("unit", "slab", 40.0, "Slab", 0.0, (), ""),
                    Layer("bed", "mortar bed", 35.0, "mortar_1_6", 0.0, (), ""),
                    Layer("base", "concrete base", 75.0, "concrete_ballast_1_6", 100.0, (), ""),
                ),
                total_mm=150.0,
                formation=levels.area(area.name).plane.lowered(150.0),
                dig_shape=area.gross,
                cbr_percent=None,
                workings=(),
            )
            for area in measured.site.areas
        ),
        (),
    )
    return set_out(job, measured, levels, ups, RULES)


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


def test_the_base_line_is_the_side_on_the_house_and_pegs_are_told_from_it():
    sheet = set_out_job(document())
    assert sheet.base_lines == (("Terrace", "A", "B"),)
    peg = next(each for each in sheet.pegs if each.role == "corner" and each.at == (6000.0, 3000.0))
    assert (peg.along_mm, peg.offset_mm) == pytest.approx((6000.0, 3000.0))
    assert "6.000 along from A, 3.000 square left" in peg.from_corner


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
    assert taped["A–C"].expected_mm == pytest.approx(math.hypot(6000.0, 3000.0))
    assert taped["A–C"].kind == taped["B–D"].kind == "diagonal"
    # 3 m deep: 4 parts of 700 fit, so 2.1, 2.8 and 3.5 m
    assert taped["3-4-5 at A"].expected_mm == pytest.approx(3500.0)
    assert len([each for each in sheet.checks if each.kind == "side"]) == 4


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


def test_pegs_near_a_known_service_are_told():
    entered = document()
    entered["site"]["services"] = [{"name": "Cable", "kind": "electricity", "points": ["C", "D"]}]
    (finding,) = set_out_job(entered).findings
    assert finding.code == "setting_out.peg_near_service"
    assert "Do not drive a pin there" in finding.message
