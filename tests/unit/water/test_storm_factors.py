"""Factors of storms from the rulebook's tables, as a sum takes them and shows them."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import pytest

from pavewright import rulebook
from pavewright.desk import answer_sum
from pavewright.job import Rain
from pavewright.rules import UnknownFigureError
from pavewright.sums import SumRefusedError
from pavewright.water.rain import storm_tables, storms

GIVEN = {"m5_60_mm": 20.0, "r": 0.4, "durations_min": (10.0, 60.0, 1440.0), "years": 10.0}
TABLES = ["rows_r", "z1_low", "z1_high", "z2_m5_mm", "z2"]


def test_the_rulebooks_factors_give_the_storms_of_a_published_report():
    """Soakaway report of 2017, M5-60 of 20 mm, r 0.40, ten years: 12.69, 24.80 and 52.86 mm; Z1 rounded there."""
    answered = answer_sum("storm-depths", GIVEN)
    assert answered.answers["depth_mm"] == pytest.approx((12.69, 24.80, 52.86), rel=0.008)
    assert [each.quantity.name for each in answered.taken] == TABLES
    assert all("from memory" in each.words for each in answered.taken)
    assert dict(zip(TABLES, (each.value for each in answered.taken), strict=True))["rows_r"] == (0.39, 0.42)


def test_a_job_reads_the_same_factors_as_the_sum():
    rain = Rain(five_year_hour_mm=20.0, hour_to_two_days=0.4, years=30.0, climate_percent=40.0)
    of_job = storms(rain, storm_tables(rulebook.load("elsewhere")))
    given = GIVEN | {"durations_min": tuple(minutes for minutes, _ in of_job), "years": 30.0, "climate_percent": 40.0}
    assert answer_sum("storm-depths", given).answers["depth_mm"] == tuple(depth for _, depth in of_job)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"durations_min": (20.0,)}, "not for 20"),
        ({"r": 0.6}, "0.6 is outside"),
        ({"years": 0.5}, "not for 0.5"),
        ({"z1_low": (0.5, 1.0, 2.0)}, "together, or none of them"),
        ({"z2_m5_mm": (5.0, 20.0)}, "together, or none of them"),
    ],
)
def test_what_the_tables_do_not_hold_is_refused_and_no_table_is_mixed(change, words):
    with pytest.raises(SumRefusedError, match=words):
        answer_sum("storm-depths", GIVEN | change)


def test_years_are_asked_for_only_where_tables_are_read():
    with pytest.raises(SumRefusedError, match="Give years"):
        answer_sum("storm-depths", {name: value for name, value in GIVEN.items() if name != "years"})
    own = {
        "rows_r": (0.39, 0.42),
        "z1_low": (1.0,),
        "z1_high": (1.0,),
        "z2_m5_mm": (20.0,),
        "z2": (1.24,),
        "durations_min": (60.0,),
    }
    with pytest.raises(SumRefusedError, match="Leave it out"):
        answer_sum("storm-depths", GIVEN | own)
    left = {name: value for name, value in (GIVEN | own).items() if name != "years"}
    assert answer_sum("storm-depths", left).answers["depth_mm"] == pytest.approx((24.8,))
    assert answer_sum("storm-depths", left).taken == ()


def test_five_years_are_one_by_definition():
    taken = {each.quantity.name: each for each in answer_sum("storm-depths", GIVEN | {"years": 5.0}).taken}
    assert set(taken["z2"].value) == {1.0}
    assert taken["z2"].words == "one by definition"


@pytest.mark.parametrize(
    ("durations", "rain", "verdict"),
    [
        ((10.0, 15.0), (12.79, 15.66), "enough for these storms only"),
        ((5.0, 10.0, 15.0), (8.54, 12.69, 15.5), "enough for these storms only"),
        ((15.0, 30.0, 60.0, 120.0, 240.0), (15.5, 19.84, 24.8, 30.01, 35.38), "enough"),
    ],
)
def test_stone_under_permeable_paving_says_for_which_storms(durations, rain, verdict):
    rate = 1e-5 if verdict != "enough" else 4e-6
    given = {"ratio": 1.0, "infiltration_m_per_s": rate, "durations_min": durations, "rain_mm": rain}
    found = answer_sum("permeable-storage", given).answers
    assert found["verdict"] == verdict, found["governing_min"]


def test_the_columns_of_the_tables_say_for_which_numbers_they_stand_whatever_they_are_called():
    rules = rulebook.load("elsewhere")
    z1 = rules.tables["water.z1"]
    names = {name: f"column {chr(97 + number)}" for number, (name, _) in enumerate(z1.columns)}
    renamed = replace(
        z1,
        columns=tuple((names[name], unit) for name, unit in z1.columns),
        rows=tuple(replace(row, values=tuple((names[name], each) for name, each in row.values)) for row in z1.rows),
        numbers=tuple((names[name], number) for name, number in z1.numbers),
    )
    rain = Rain(five_year_hour_mm=20.0, hour_to_two_days=0.4, years=10.0)
    other = replace(rules, tables=MappingProxyType({**rules.tables, "water.z1": renamed}))
    assert storms(rain, storm_tables(other)) == storms(rain, storm_tables(rules))
    bare = replace(rules, tables=MappingProxyType({**rules.tables, "water.z1": replace(z1, numbers=())}))
    with pytest.raises(UnknownFigureError, match="for which numbers its columns stand"):
        storm_tables(bare)
