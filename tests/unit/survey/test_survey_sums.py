"""Sums of the survey that no published case reaches."""

from __future__ import annotations

import math
from typing import Any

import pytest

from pavewright.desk import answer_sum
from pavewright.sums import SumRefusedError
from pavewright.survey import SUMS

BY_NAME = {each.name: each for each in SUMS}


def run(name: str, **given: Any) -> dict[str, Any]:
    return dict(answer_sum(name, given).answers)


def test_names_are_words_joined_by_hyphens_and_stand_once() -> None:
    assert len(BY_NAME) == len(SUMS)
    assert all(each.name.replace("-", "").isalpha() and each.name.islower() for each in SUMS)


def test_every_answer_is_described() -> None:
    answers = run(
        "level-book",
        backsights_mm=("1", "-"),
        intermediates_mm=("-", "-"),
        foresights_mm=("-", "2"),
        first_level_mm=0.0,
    )
    assert set(answers) == {quantity.name for quantity in BY_NAME["level-book"].outputs}
    assert answers["misclosure_mm"] == ()
    assert answers["verdict"] == "closes on nothing"


def test_an_even_number_of_offsets_ends_in_a_trapezium() -> None:
    answers = run("area-by-offsets", offsets_mm=(0.0, 1000.0, 4000.0, 6000.0), interval_mm=1000.0)
    assert answers["simpson_area_m2"] == pytest.approx(8.0 / 3.0 + 5.0)
    assert answers["last_strip"] == "trapezium"


def test_a_half_circle_by_chord_and_radius_or_rise() -> None:
    by_radius = run("arc-by-chord", chord_mm=2000.0, radius_mm=1000.0, at_mm=(600.0,))
    by_rise = run("arc-by-chord", chord_mm=2000.0, rise_mm=1000.0, at_mm=(600.0,))
    assert by_radius["rise_mm"] == pytest.approx(1000.0)
    assert by_rise["radius_mm"] == pytest.approx(1000.0)
    assert by_radius["arc_length_mm"] == pytest.approx(1000.0 * math.pi)
    assert by_rise["offsets_mm"] == pytest.approx((800.0,))
    assert by_rise["angle_deg"] == pytest.approx(180.0)


@pytest.mark.parametrize(
    ("name", "given", "words"),
    [
        ("arc-by-chord", {"chord_mm": 2000.0}, "either the rise"),
        ("arc-by-chord", {"chord_mm": 2000.0, "radius_mm": 900.0}, "less than half the chord"),
        ("arc-by-chord", {"chord_mm": 2000.0, "rise_mm": 100.0, "at_mm": (1001.0,)}, "past the end"),
        ("right-angle-from-tapes", {"side_a_mm": 3.0, "side_b_mm": 4.0, "across_mm": 8.0}, "no triangle"),
        ("area-by-coordinates", {"eastings_mm": (0.0, 1.0), "northings_mm": (0.0, 1.0)}, "three corners"),
        ("level-run", {"readings_mm": (1.0, 2.0, 3.0), "moved_after": (1.0,), "first_level_mm": 0.0}, "moved_after"),
        (
            "level-book",
            {
                "backsights_mm": ("1", "-"),
                "intermediates_mm": ("-",),
                "foresights_mm": ("-", "2"),
                "first_level_mm": 0.0,
            },
            "as many rows",
        ),
        (
            "level-book",
            {
                "backsights_mm": ("one", "-"),
                "intermediates_mm": ("-", "-"),
                "foresights_mm": ("-", "2"),
                "first_level_mm": 0.0,
            },
            "is no reading",
        ),
        (
            "rectangle-diagonal-check",
            {"side_a_mm": 3000.0, "side_b_mm": 1000.0, "diagonal_1_mm": 4100.0, "diagonal_2_mm": 3000.0},
            "belong to no figure",
        ),
        (
            "tape-network",
            {
                "points": ("A", "P"),
                "x_mm": (0.0, 1.0),
                "y_mm": (0.0, 1.0),
                "fixed": ("A",),
                "starts": ("A",),
                "ends": ("P",),
                "lengths_mm": (2.0,),
                "sds_mm": (1.0,),
            },
            "Nothing holds P",
        ),
        (
            "two-bearing-intersection",
            {
                "a_x_mm": 0.0,
                "a_y_mm": 0.0,
                "b_x_mm": 10.0,
                "b_y_mm": 0.0,
                "bearing_a_deg": 10.0,
                "bearing_b_deg": 190.0,
            },
            "run alike",
        ),
    ],
)
def test_inputs_that_make_no_sum_are_refused_with_a_sentence(name: str, given: dict[str, Any], words: str) -> None:
    with pytest.raises(SumRefusedError, match=words):
        run(name, **given)


def test_a_corner_opened_by_ten_millimetres() -> None:
    answers = run("right-angle-from-tapes", side_a_mm=3000.0, side_b_mm=4000.0, across_mm=5010.0)
    assert answers["out_of_square_mm"] == pytest.approx((5010.0**2 - 5000.0**2) / 6000.0)
