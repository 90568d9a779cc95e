"""A job may know nothing: what is left out is not known, never zero; what is assumed says by whom."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pavewright.desk import starter_document
from pavewright.job import Assumed, AssumedLevel, JobInvalid, parse

PATIO = json.loads((Path(__file__).parents[2] / "patio.json").read_text("utf-8"))


def patio(**changes):
    return json.loads(json.dumps(PATIO)) | {"version": 3} | changes


def test_a_new_job_holds_no_reading_price_soil_or_person_that_nobody_gave():
    job = parse(json.loads(starter_document("Path")))
    measured, site = job.measurements, job.site
    assert not any(
        (measured.points, measured.level_books, measured.benchmarks, measured.tape_plan, job.areas, job.units)
    )
    assert not any((site.walls, site.outfalls, site.gullies, site.covers, site.services, job.rates.materials))
    assert not site.ground.is_known
    assert job.rates.labour_minor_per_hour is job.crew.people is job.calendar.start is job.rates.tax_percent is None
    assert job.identity.invented is False


@pytest.mark.parametrize("group", ["rates", "crew", "calendar"])
def test_a_group_of_which_nothing_is_known_may_be_left_out_or_null(group):
    given = patio()
    del given[group]
    assert parse(given) == parse(patio(**{group: None})) == parse(patio(**{group: {}}))


def test_an_assumed_level_says_by_whom():
    given = patio()
    given["site"]["walls"][0]["dpc_level_mm"] = {
        "assumed_mm": 10150.0,
        "by": "JF",
        "why": "two courses above the drive",
    }
    level = parse(given).site.walls[0].dpc_level_mm
    assert level == AssumedLevel(assumed_mm=10150.0, by="JF", why="two courses above the drive")
    given["site"]["walls"][0]["dpc_level_mm"] = {"assumed_mm": 10150.0}
    with pytest.raises(JobInvalid):
        parse(given)


def test_an_assumed_level_in_metres_is_found_among_others_in_millimetres():
    given = patio()
    for point in given["measurements"]["points"]:
        point["level_mm"] = 10_000.0
    given["site"]["walls"][0]["dpc_level_mm"] = {"assumed_mm": 10.15, "by": "JF"}
    with pytest.raises(JobInvalid, match="looks like metres"):
        parse(given)


def test_what_the_second_version_left_to_the_program_is_written_down():
    old = json.loads(json.dumps(PATIO))
    assert old["version"] == 2
    assert "ground" not in old["site"]
    del old["rates"]["tax_percent"]
    job = parse(old)
    assert job.rates.tax_percent == 0.0
    assert isinstance(job.site.ground.assumed, Assumed)
    assert job.site.ground.is_known
    assert "ground" not in old["site"], "the old document is left alone"


@pytest.mark.parametrize("known", [{"soil": "sand"}, {"cbr_percent": 4.0}, {"strata": [{"soil": "sand"}]}])
def test_ground_of_the_second_version_that_was_seen_is_not_assumed(known):
    old = json.loads(json.dumps(PATIO))
    old["site"]["ground"] = known
    assert parse(old).site.ground.assumed is None


def test_a_wall_of_which_nobody_said_whose_it_is_may_be_a_house():
    old = json.loads(json.dumps(PATIO))
    del old["site"]["walls"][0]["kind"]
    assert parse(old).site.walls[0].kind == "garden", "that is what the second version took it for"
    assert parse(old | {"version": 3}).site.walls[0].is_house
