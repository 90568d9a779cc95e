"""Litres before and after, own tables of rain, and drains checked against their flow."""

from __future__ import annotations

import json

import pytest

from pavewright import rulebook
from pavewright.findings import Severity
from pavewright.job import JobInvalid, Rain
from pavewright.levels import finished_levels
from pavewright.water import drain
from pavewright.water.rain import storm_tables, storms

RULES = rulebook.load("england")
OWN = {"depths": [{"duration_min": 60.0, "depth_mm": 30.0}, {"duration_min": 10.0, "depth_mm": 12.0}], "years": 30.0}


def drained(small):
    job, measured = small.surveyed()
    return drain(job, measured, finished_levels(job, measured, small.rules), small.rules)


def sloping(small, bearing=0.0, ground_per_m=0.0):
    entered = small.rectangle(6000.0, 4000.0)
    entered["fall"] = {"bearing_deg": bearing, "one_in": 60.0, "level_at": "P0", "level_mm": 1000.0}
    small.site["outfalls"] = [{"name": "Lawn", "kind": "lawn", "confirmed": True}]
    names = [
        small.point(f"G{number}", x, y, 800.0 + ground_per_m * y / 1000.0)
        for number, (x, y) in enumerate(((-9000, -9000), (9000, -9000), (9000, 9000), (-9000, 9000)))
    ]
    small.document["measurements"]["ground_points"] = names
    return entered


def shares(water):
    return {share.to: share for share in water.storm.shares}


def test_without_rain_of_the_place_the_flat_rate_is_told_as_such(small):
    sloping(small, ground_per_m=-20.0)
    storm = drained(small).storm
    assert storm.depth_mm == pytest.approx(RULES.value("water.rain_mm_per_h") / 2.0)
    assert "no rain of the place" in storm.reported


def test_after_the_job_all_the_rain_runs_where_the_paving_falls(small):
    sloping(small, ground_per_m=-20.0)
    water = drained(small)
    assert shares(water)["P2–P3"].after_l == pytest.approx(24.0 * water.storm.depth_mm)


def test_before_the_job_a_garden_sheds_a_quarter_where_the_ground_falls(small):
    # the ground falls to the near edge, the paving will fall to the far one
    sloping(small, ground_per_m=20.0)
    water = drained(small)
    near = shares(water)["P0–P1"]
    assert near.before_l == pytest.approx(0.25 * 24.0 * water.storm.depth_mm, rel=0.05)
    assert near.after_l == 0.0
    total = sum(share.before_l for share in water.storm.shares)
    assert total == pytest.approx(0.25 * 24.0 * water.storm.depth_mm, rel=0.05)


def test_old_paving_sheds_more_than_a_garden(small):
    entered = sloping(small, ground_per_m=20.0)
    garden = shares(drained(small))["P0–P1"].before_l
    entered["before"] = "paving"
    assert shares(drained(small))["P0–P1"].before_l == pytest.approx(garden * 0.9 / 0.25)


def test_without_spot_levels_nothing_is_claimed_of_before(small):
    sloping(small)
    del small.document["measurements"]["ground_points"]
    assert all(share.before_l is None for share in drained(small).storm.shares)


def test_more_water_over_a_boundary_than_before_is_told(small):
    sloping(small, ground_per_m=20.0)
    small.site["boundaries"] = [{"name": "Fence", "start": "P3", "end": "P2", "neighbour": "neighbour"}]
    (finding,) = [each for each in drained(small).findings if each.code == "water.more_over_boundary"]
    assert finding.severity is Severity.CHECK
    assert finding.value > finding.limit


def test_a_table_of_rain_goes_before_the_tables_of_the_rulebook(small):
    assert storms(Rain.model_validate_json(json.dumps(OWN | {"climate_percent": 10.0})), storm_tables(RULES)) == (
        (10.0, pytest.approx(13.2)),
        (60.0, pytest.approx(33.0)),
    )
    sloping(small, ground_per_m=-20.0)
    small.site["rain"] = OWN
    storm = drained(small).storm
    # 30 min lies between 10 and 60
    assert storm.depth_mm == pytest.approx(12.0 + (30.0 - 12.0) * 20.0 / 50.0)
    assert "own table" in storm.reported


@pytest.mark.parametrize(
    ("rain", "words"),
    [
        ({"five_year_hour_mm": 20.0}, "hour_to_two_days"),
        ({}, "table of depths"),
        ({"depths": [{"duration_min": 5.0, "depth_mm": 4.0}] * 2}, "stands twice"),
    ],
)
def test_half_told_rain_is_a_fault(small, rain, words):
    sloping(small)
    small.site["rain"] = rain
    with pytest.raises(JobInvalid) as caught:
        small.job()
    assert words in caught.value.faults[0].message


def channelled(small, **inside):
    sloping(small, ground_per_m=-20.0)
    small.site["channels"] = [
        {"name": "Slot", "start": "P3", "end": "P2", "width_mm": 130.0, "outfall": "Lawn", "inside_mm": 100.0, **inside}
    ]
    return drained(small)


def test_a_channel_is_held_against_its_flow(small):
    water = channelled(small, depth_mm=60.0)
    (check,) = water.drains
    assert check.flow_l_s == pytest.approx(24.0 * 0.014, rel=0.03)
    assert check.takes_l_s > check.flow_l_s
    assert "water.drain_too_small" not in [finding.code for finding in water.findings]


def test_a_level_channel_without_friction_runs_full_at_its_closed_form(small):
    # brim full at the closed end: depth √3 times critical at the free outlet; friction only takes from it
    water = channelled(small, depth_mm=60.0)
    critical_m = 0.060 / 3.0**0.5
    most = 1000.0 * 0.1 * (9.81 * critical_m**3) ** 0.5
    assert 0.6 * most < water.drains[0].takes_l_s < most


def test_a_fall_in_the_bottom_helps_and_a_shallow_channel_is_told(small):
    level = channelled(small, depth_mm=12.0)
    (finding,) = [each for each in level.findings if each.code == "water.drain_too_small"]
    assert finding.value < finding.limit
    small.site["channels"][0]["bottom_one_in"] = 50.0
    assert drained(small).drains[0].takes_l_s > level.drains[0].takes_l_s


def test_a_channel_whose_inside_is_not_known_is_not_judged(small):
    assert channelled(small).drains == ()
