"""A job with a table of weather: its waits, its findings, its finish with chances; and a job without one."""

from __future__ import annotations

import copy
import datetime as dt
import json
from pathlib import Path

import pytest

from pavewright import job, rulebook
from pavewright.findings import Severity
from pavewright.job import JobInvalid
from pavewright.pipeline import plan

ROOT = Path(__file__).parents[3]
TERRACE = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
DRIVE = json.loads((ROOT / "examples" / "front_drive.json").read_text("utf-8"))
COLD = {"month": 5, "wet_days": 9, "frost_days": 2, "hot_days": 0, "mean_c": 4.0}
JUNE = {"month": 6, "wet_days": 8, "frost_days": 0, "hot_days": 0, "mean_c": 14.0}


def made(document, **calendar):
    changed = copy.deepcopy(document)
    changed["calendar"] |= calendar
    return plan(job.parse(changed), rulebook.load(changed["identity"]["locality"])).programme


@pytest.fixture(scope="module")
def bare():
    return made(TERRACE)


@pytest.fixture(scope="module")
def cold():
    return made(TERRACE, weather=[COLD, JUNE])


def codes(programme):
    return {found.code.value: found for found in programme.findings}


def test_without_a_table_the_dates_and_the_findings_are_as_they_were(bare):
    assert bare.chance is None
    assert bare.foot_ready == dt.date(2027, 5, 24)
    assert all(cure.time.hours == cure.time.rule.value for cure in bare.cures)
    assert not {"programme.weather_gate", "programme.frost_days", "programme.no_hardening"} & set(codes(bare))


def test_cold_makes_waits_longer_and_the_end_later(bare, cold):
    assert cold.foot_ready > bare.foot_ready
    base = next(cure for cure in cold.cures if cure.key is not None and cure.key.kind.value == "cure_base")
    assert base.time.hours == pytest.approx(24 * 20 / 4, rel=1e-6)
    assert base.time.deciding.key == "programme.maturity_datum.zero.datum_c"
    task = next(task for task in cold.tasks if task.key == base.key)
    assert task.finish - task.start == pytest.approx(dt.timedelta(hours=base.time.hours), abs=dt.timedelta(minutes=1))
    assert "Portland" in task.working.note


def test_every_source_of_a_gate_is_shown_and_the_strictest_decides(cold):
    found = codes(cold)["programme.weather_gate"]
    assert found.severity is Severity.CHECK
    for words in ("5 °C", "3 °C", "Ontario", "The strictest decides", "mean of its month"):
        assert any(words in each.message for each in cold.findings if each.code.value == "programme.weather_gate")


def test_frost_is_noticed_while_mortar_is_fresh(cold):
    assert codes(cold)["programme.frost_days"].value == 2


def test_a_typed_temperature_of_a_bay_goes_before_the_month():
    warm = made(TERRACE, weather=[COLD, JUNE], bay_temperatures=[{"area": "Terrace", "temperature_c": 20.0}])
    assert all(cure.time.hours == cure.time.rule.value for cure in warm.cures)
    assert all(cure.time.known for cure in warm.cures)


def test_a_typed_temperature_that_no_source_allows_stops():
    frozen = made(TERRACE, bay_temperatures=[{"area": "Terrace", "temperature_c": 1.0}])
    assert codes(frozen)["programme.weather_gate"].severity is Severity.STOP


def test_a_bay_that_does_not_harden_stops():
    frozen = made(TERRACE, bay_temperatures=[{"area": "Terrace", "temperature_c": -1.0}])
    assert codes(frozen)["programme.no_hardening"].severity is Severity.STOP


def test_a_car_waits_by_the_temperature_too():
    laid = made(DRIVE)
    if laid.car_ready is None or not [cure for cure in laid.cures if cure.key is None]:
        changed = copy.deepcopy(TERRACE)
        changed["areas"][0]["use"] = "car"
        document = changed
    else:
        document = DRIVE
    name = document["areas"][0]["name"]
    warm, chilly = (made(document, bay_temperatures=[{"area": name, "temperature_c": each}]) for each in (20.0, 6.0))
    assert chilly.car_ready - warm.car_ready > dt.timedelta(days=7)


def test_finish_dates_have_their_chance(cold):
    found = cold.chance
    assert [each.chance for each in found.ends] == [0.5, 0.8, 0.9]
    assert found.ends[0].on <= found.ends[1].on <= found.ends[2].on
    assert found.planned.on == cold.finish
    assert 0.0 < found.planned.chance < 1.0
    assert found.by(found.ends[2].on) >= 0.9
    assert 5 not in found.unknown_months


@pytest.mark.parametrize(
    "calendar",
    [
        {"weather": [COLD, COLD]},
        {"weather": [{"month": 2, "wet_days": 30}]},
        {"bay_temperatures": [{"area": "Nowhere", "temperature_c": 3.0}]},
    ],
)
def test_weather_that_makes_no_sense_is_refused(calendar):
    with pytest.raises(JobInvalid):
        made(TERRACE, **calendar)
