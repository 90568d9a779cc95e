"""Numbers, dates, measures and words as where the job is; the scripts say the same."""

from __future__ import annotations

import datetime as dt
import re
import tomllib
from pathlib import Path

import pytest

from pavewright import units, writing
from pavewright.writing import Measure, Writing, beside, day_text, hour_text, number_text, terms_of, written_as
from pavewright.writing._manner import _HOMES, _REGIONS

ROOT = Path(__file__).parents[3]
STATIC = ROOT / "src" / "pavewright" / "web" / "static" / "lib"
SCRIPT = (STATIC / "writing.js").read_text("utf-8")
WORDS = (STATIC / "words.js").read_text("utf-8")
DAY = dt.date(2027, 5, 10)
US = Writing.of("usa", "USD")


def test_a_british_job_is_written_as_ever():
    with written_as(Writing.of("england", "GBP")):
        assert day_text(DAY) == "Mon 10 May 2027"
        assert hour_text(dt.datetime(2027, 5, 10, 8, 5)) == "Mon 10 May, 08:05"
        assert number_text(1234.5, 1) == "1\u202f234.5"
    assert units.minor_to_text(123456, "GBP") == "£1\u202f234.56"


def test_an_american_job_is_written_as_there():
    with written_as(US):
        assert day_text(DAY) == "Mon, May 10, 2027"
        assert hour_text(dt.datetime(2027, 5, 10, 13, 5)) == "Mon, May 10, 1:05\u00a0PM"
        assert number_text(1234.5, 1) == "1,234.5"
    assert units.minor_to_text(123456, "USD") == "$1,234.56"


def test_a_region_by_its_marks():
    with written_as(Writing("DE")):
        assert number_text(1234.5, 1) == "1.234,5"


def test_a_region_that_is_not_known_is_written_neutrally():
    with written_as(Writing("QQ")):
        assert number_text(1234.5, 1) == "1\u202f234.5"
        assert "2027" in day_text(DAY)


def test_what_the_job_says_goes_before_its_place():
    assert Writing.of("usa", "USD", measure="metric").measure is Measure.METRIC
    assert Writing.of("england", "GBP", region="US").imperial
    assert Writing.of("elsewhere", "NZD").region == "NZ"


@pytest.mark.parametrize(
    ("currency", "minor", "text"),
    [
        ("JPY", 1200, "JPY 1\u202f200"),
        ("KWD", 1234567, "KWD 1\u202f234.567"),
        ("KWD", -5, "-KWD 0.005"),
        ("EUR", 5, "€0.05"),
    ],
)
def test_money_has_the_decimals_of_its_currency(currency, minor, text):
    assert units.minor_to_text(minor, currency) == text


@pytest.mark.parametrize(
    ("metric", "both"),
    [
        ("150 mm", "150 mm (5 7/8 in)"),
        ("200 × 100 × 50 mm", "200 × 100 × 50 mm (7 7/8 in × 3 7/8 in × 2 in)"),
        ("24 to 72 mm", "24 to 72 mm (15/16 in to 2 7/8 in)"),
        ("3 m", "3 m (9 ft 10 1/8 in)"),
        ("1\u202f234 m²", "1\u202f234 m² (13,283 sq ft)"),
        ("5 °C", "5 °C (41 °F)"),
        ("−9 mm", "−9 mm (−3/8 in)"),
        ("2 500 kg/m³", "2 500 kg/m³"),
        ("class M2 mortar, A3, 1 in 60", "class M2 mortar, A3, 1 in 60"),
        ("20 mm/h", "20 mm/h (0.79 in/h)"),
    ],
)
def test_imperial_stands_beside(metric, both):
    assert beside(metric) == both
    assert beside(both) == both


def test_what_is_typed_is_not_put_in_other_words():
    assert terms_of("Yard gully by Soakaway 1", "US", ["Soakaway 1"]) == "Area drain by Soakaway 1"


def test_the_glossary_lists_the_words_of_each_region():
    glossary = tomllib.loads((ROOT / "docs" / "glossary.toml").read_text("utf-8"))
    assert {region.upper(): words for region, words in glossary["regions"].items()} == writing.terms()


def pairs(name):
    block = SCRIPT[SCRIPT.index(f"export const {name} =") :].partition("({")[2].partition("})")[0]
    return dict(re.findall(r'(\w+): "(\w+)"', block))


def test_the_scripts_know_the_same_regions():
    assert pairs("REGIONS") == _REGIONS
    assert pairs("HOMES") == _HOMES


def test_the_scripts_know_the_same_currencies():
    found = {
        name: int(places)
        for names, places in re.findall(r'\.\.\.of\("([A-Z ]+)", (\d)\)', WORDS)
        for name in names.split()
    }
    assert found == units._PLACES
    commas = re.search(r"WITH_COMMAS = new Set\(\[(.*?)\]\)", WORDS)[1]
    assert set(re.findall(r"[A-Z]{3}", commas)) == units._WITH_COMMAS
