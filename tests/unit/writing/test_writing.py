"""Numbers, dates, measures and words as where the job is; the scripts say the same."""

from __future__ import annotations

import datetime as dt
import json
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from babel.core import Locale, UnknownLocaleError, get_global
from babel.numbers import get_decimal_symbol, get_group_symbol

from pavewright import units, writing
from pavewright.writing import (
    Measure,
    WordStatus,
    Writing,
    beside,
    day_text,
    hour_text,
    marked,
    marks_of,
    number_text,
    told,
    worded,
    written_as,
)
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
        assert told(number_text(1234.5, 1)) == "1,234.5"
    assert units.minor_to_text(123456, "USD") == "$1,234.56"


def test_a_region_by_its_marks():
    with written_as(Writing("DE")):
        assert told(number_text(1234.5, 1)) == "1.234,5"


def test_a_region_that_is_not_known_is_written_neutrally():
    with written_as(Writing("QQ")):
        assert told(number_text(1234.5, 1)) == "1,234.5"
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
        ("3.7 m", "3.7 m (12.1 ft)"),
        ("3.678 m", "3.678 m (12 ft 3/4 in)"),
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
    with written_as(US, frozenset({"Soakaway 1", "Gully 1.5 m"})):
        assert told("Yard gully by Soakaway 1") == "Area drain by Soakaway 1"
        assert told("Gully 1.5 m is a gully") == "Gully 1.5 m is an area drain"
    with written_as(Writing("DE"), frozenset({"Gully 1.5 m"})):
        assert told("Gully 1.5 m at 9.982") == "Gully 1.5 m at 9,982"


@pytest.mark.parametrize(
    ("text", "german"),
    [
        ("10.000 m", "10,000 m"),
        ("1\u202f234.50", "1.234,50"),
        ("$1,234.56", "$1.234,56"),
        ("€1\u202f234.50", "€1.234,50"),
        ("(9.982; -1.0, +2.5)", "(9,982; -1,0, +2,5)"),
        ("14.8 to 18.2 m³", "14,8 to 18,2 m³"),
        ("25.5%", "25,5%"),
        ("6.90e-05", "6,90e-05"),
        ("clause 5.3.2 and table 4.1", "clause 5.3.2 and table 4.1"),
        ("BS 7533-101:2021, AS 3727.1", "BS 7533-101:2021, AS 3727.1"),
        ("08:05, 2027-05-10, L1.5a", "08:05, 2027-05-10, L1.5a"),
    ],
)
def test_numbers_have_the_marks_of_the_region(text, german):
    with written_as(Writing("DE")):
        assert told(text) == german
    with written_as(Writing("GB")):
        assert told(text) == text


def test_words_and_measures_may_be_put_in_twice_and_marks_once_after():
    with written_as(US):
        once = worded("A kerb of 1\u202f500 mm by a gully on the sub-base")
        assert worded(once) == once
        assert marked(once) == told("A kerb of 1\u202f500 mm by a gully on the sub-base")


def test_marks_are_those_of_the_cldr_for_the_main_language_of_a_region():
    differs = []
    for region in get_global("territory_languages"):
        if len(region) != 2 or region in {"GB", "IE"}:
            continue
        try:
            locale = Locale.parse(f"und_{region}")
        except UnknownLocaleError:
            continue
        of = {"numbering_system": "latn"}
        marks = get_group_symbol(locale, **of), get_decimal_symbol(locale, **of)
        plain = {"\xa0": "\u202f", "'": "\u2019"}.get(marks[0], marks[0]), marks[1]
        if marks_of(region) != plain:
            differs.append((region, marks_of(region), plain))
    assert [each for each in differs if each[0] != "TO"] == []


def test_every_word_of_a_region_says_how_well_it_is_known():
    for words in writing.COUNTRY_WORDS.values():
        assert len({each.here for each in words}) == len(words)
        for each in words:
            assert each.status in set(WordStatus)
            assert each.source
            assert each.here != each.there


def test_the_glossary_lists_the_words_of_each_region():
    glossary = tomllib.loads((ROOT / "docs" / "glossary.toml").read_text("utf-8"))
    assert {region.upper(): words for region, words in glossary["regions"].items()} == writing.terms()


TEXTS = [
    "A kerb of 1\u202f500 mm by a gully on the sub-base; the Yard gully of Soakaway 1 stays.",
    "Gully 1.5 m is a gully, 9.982 m over datum, 1 in 60, −9 mm",
    "€1\u202f234.50, $1,234.56, -CHF 0.05, KWD 1\u202f234.567, JPY 1\u202f200",
    "3.7 m, −1.5 m, 2.40 m, 200 × 100 × 50 mm, 24 to 72 mm, 14.8 to 18.2 m³, 5 °C, 20 mm/h, 0.25 l/s, 2.5 t, 600 kg",
    "clause 5.3.2 and table 4.1 of BS 7533-101:2021, 6.90e-05, 08:05, 2027-05-10, L1.5a",
    "A slab on a concrete slab; the programme, its colours and the soakaways",
    "WF-2701 at Kerb 1-2 (A/B) [x] {y} ^$ a\\b c.d*e+f?g|h #1 & £5, 2 m beside the kerb, 1.5 m of it",
]
KEPT = ["Gully 1.5 m", "Soakaway 1", "WF-2701", "Kerb 1-2 (A/B) [x] {y} ^$ a\\b c.d*e+f?g|h #1 & £5, 2 m"]
MANNERS = [
    ("GB", "metric"),
    ("GB", "imperial"),
    ("US", "imperial"),
    ("US", "metric"),
    ("DE", "metric"),
    ("FR", "metric"),
    ("CH", "metric"),
    ("AU", "metric"),
    ("CA", "imperial"),
    ("QQ", "metric"),
]


def test_the_scripts_show_every_text_as_the_papers_do():
    node = shutil.which("node")
    if node is None:
        pytest.skip("no node: the scripts of the pages are not run")
    asked = json.dumps({"texts": TEXTS, "kept": KEPT, "manners": MANNERS})
    program = f"""
        import {{ setWriting, told }} from {json.dumps((STATIC / "writing.js").as_uri())};
        const {{ texts, kept, manners }} = {asked};
        const all = manners.map(([region, measure]) => {{
          setWriting({{ region, measure }}, {{ names: kept }});
          return texts.map(told);
        }});
        console.log(JSON.stringify(all));
    """
    done = subprocess.run(
        [node, "--input-type=module", "-e", program], capture_output=True, text=True, timeout=60, check=False
    )
    assert done.returncode == 0, done.stderr
    for (region, measure), shown in zip(MANNERS, json.loads(done.stdout), strict=True):
        with written_as(Writing(region, Measure(measure)), frozenset(KEPT)):
            assert shown == [told(text) for text in TEXTS], (region, measure)


def test_what_is_made_from_the_table_of_the_country_is_as_the_table():
    done = subprocess.run(
        [sys.executable, "tools/make_country.py", "--check"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr


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
