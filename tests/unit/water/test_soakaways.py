"""Soakaways checked against the storms of the place: the worked pit of the infiltration guidance, and what is told."""

from __future__ import annotations

import pytest

from pavewright import rulebook
from pavewright.findings import Severity
from pavewright.job import JobInvalid, Rain
from pavewright.levels import finished_levels
from pavewright.water import PitVerdict, drain
from pavewright.water.rain import storm_tables, storms

RAIN = {"five_year_hour_mm": 20.0, "hour_to_two_days": 0.35, "years": 10.0}
PIT = {"length_mm": 2000.0, "width_mm": 1500.0, "depth_mm": 1500.0, "infiltration_m_per_s": 4.461e-5}


def drained(small, rain, **pit):
    entered = small.rectangle(10000.0, 7500.0)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 60.0, "level_at": "P0", "level_mm": 1000.0}
    small.site["outfalls"] = [{"name": "Pit", "kind": "soakaway", "confirmed": True, "soakaway": PIT | pit}]
    small.site["channels"] = [
        {"name": "Slot", "start": "P3", "end": "P2", "width_mm": 100.0, "invert_level_mm": 700.0, "outfall": "Pit"}
    ]
    if rain:
        small.site["rain"] = rain
    job, measured = small.surveyed()
    return drain(job, measured, finished_levels(job, measured, small.rules), small.rules)


def codes(water):
    return {
        finding.code: finding.severity
        for finding in water.findings
        if "soak" in finding.code or "rain" in finding.code or "tight" in finding.code
    }


def test_the_worked_pit_of_75_square_metres_is_reproduced(small):
    # Source: bucks_suds worked pit, 75 m² of paving: about 1.04 m³ wanted at 30 minutes, 1.35 m³ held, 37 minutes
    water = drained(small, RAIN)
    (check,) = water.soakaways
    assert check.area_m2 == pytest.approx(75.0, rel=0.02)
    assert (check.governing_min, check.available_m3) == (30.0, pytest.approx(1.35))
    assert check.required_m3 == pytest.approx(1.04, rel=0.03)
    assert check.half_empty_hours * 60.0 == pytest.approx(37.0, rel=0.05)
    assert set(codes(water)) == {"water.soakaway"}


def test_a_pit_that_is_too_small_says_stop_with_ways_out(small):
    water = drained(small, RAIN, length_mm=1000.0)
    (finding,) = [each for each in water.findings if each.code == "water.soakaway_too_small"]
    assert finding.severity is Severity.STOP
    assert finding.limit > finding.value == pytest.approx(0.675)
    assert len(finding.option_words) >= 2


def test_clay_takes_no_soakaway(small):
    reported = codes(drained(small, RAIN, infiltration_m_per_s=1e-7))
    assert reported["water.ground_too_tight"] is Severity.STOP
    assert reported["water.soakaway_slow"] is Severity.CHECK


def test_without_the_rain_of_the_place_nothing_is_claimed(small):
    water = drained(small, None)
    assert water.soakaways == ()
    assert codes(water)["water.rain_not_given"] is Severity.CHECK


def test_climate_is_added_only_when_asked():
    rules = rulebook.load("england")
    plain = storms(Rain(**RAIN), storm_tables(rules))
    more = storms(Rain(**RAIN, climate_percent=40.0), storm_tables(rules))
    assert [depth for _, depth in more] == pytest.approx([1.4 * depth for _, depth in plain])


def test_longer_storms_are_deeper_and_rarer_ones_too():
    rules = rulebook.load("england")
    depths = [depth for _, depth in storms(Rain(**RAIN), storm_tables(rules))]
    assert depths == sorted(depths)
    rare = [depth for _, depth in storms(Rain(**(RAIN | {"years": 100.0})), storm_tables(rules))]
    assert all(one > other for one, other in zip(rare, depths, strict=True))


def test_a_trial_pit_gives_the_rate_of_its_slowest_fill(small):
    # Source: calculation sheet after BRE Digest 365: 1.000 × 0.750 × 1.000 m, 56, 55 and 56 min: 44.6e-6 m/s
    pit = {"length_mm": 1000.0, "width_mm": 750.0, "depth_mm": 1000.0, "times_min": [56.0, 55.0, 56.0]}
    (check,) = drained(small, RAIN, infiltration_m_per_s=None, pit_test=pit).soakaways
    assert min(check.test.rates_m_per_s) == pytest.approx(44.6e-6, rel=1e-3)
    assert check.required_m3 == pytest.approx(1.04, rel=0.03)


def test_a_pit_filled_twice_is_told(small):
    pit = {"length_mm": 1000.0, "width_mm": 750.0, "depth_mm": 1000.0, "times_min": [56.0, 55.0]}
    water = drained(small, RAIN, infiltration_m_per_s=None, pit_test=pit)
    assert "water.pit_filled_too_seldom" in [finding.code for finding in water.findings]


def test_a_soakaway_without_rate_or_test_is_a_fault(small):
    with pytest.raises(JobInvalid) as caught:
        drained(small, RAIN, infiltration_m_per_s=None)
    assert "trial pit" in caught.value.faults[0].message


def test_a_pit_without_a_size_gets_the_shortest_that_holds_and_says_so(small):
    water = drained(small, RAIN, length_mm=None, width_mm=None, depth_mm=None)
    (check,), (parts,) = water.soakaways, water.pits
    assert check.size.proposed
    assert parts.size == check.size
    assert check.verdict is PitVerdict.ENOUGH
    assert codes(water)["water.soakaway_proposed"] is Severity.NOTE
    shorter = {"length_mm": check.size.length_mm - 50.0, "width_mm": 1000.0, "depth_mm": 1000.0}
    small.document["areas"], small.document["measurements"]["points"] = [], []
    (again,) = drained(small, RAIN, **shorter).soakaways
    assert not again.size.proposed
    assert again.verdict is PitVerdict.TOO_SMALL


def test_a_size_that_is_entered_in_part_is_kept(small):
    (check,) = drained(small, RAIN, length_mm=3000.0, width_mm=None, depth_mm=1200.0).soakaways
    assert (check.size.length_mm, check.size.depth_mm) == (3000.0, 1200.0)
    assert check.verdict is PitVerdict.ENOUGH


def test_no_pit_is_proposed_where_the_ground_is_too_tight_or_the_rain_not_known(small):
    nothing = {"length_mm": None, "width_mm": None, "depth_mm": None}
    water = drained(small, RAIN, **nothing, infiltration_m_per_s=1e-7)
    assert water.pits == ()
    assert codes(water)["water.ground_too_tight"] is Severity.STOP
    small.document["areas"], small.document["measurements"]["points"] = [], []
    small.site.pop("rain")
    water = drained(small, None, **nothing)
    assert water.pits == ()
    assert codes(water)["water.rain_not_given"] is Severity.CHECK


def test_a_table_of_one_storm_proves_nothing(small):
    water = drained(small, {"depths": [{"duration_min": 10.0, "depth_mm": 12.0}]})
    assert water.soakaways[0].verdict is PitVerdict.FOR_THESE_STORMS
    assert codes(water)["water.soakaway_for_these_storms"] is Severity.CHECK
