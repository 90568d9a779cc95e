"""Hose tests beside what readings foretell, and paving above gratings."""

from __future__ import annotations

import numpy as np

from pavewright.as_laid.standing import (
    HoseOutcome,
    area_in_words,
    drains_found,
    hose_found,
    percent,
    standing,
)
from pavewright.levels import finished_levels


def dished(small, **parts):
    """A patio of 6 × 4 m with a deep dish in its middle that was read."""
    entered = small.rectangle(6000.0, 4000.0)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 100.0, "level_at": "P0", "level_mm": 1000.0}

    def off(x, y):
        return -25.0 * max(1.0 - ((x - 3000.0) ** 2 + (y - 2000.0) ** 2) / 1e6, 0.0)

    small.document["as_laid"] = {
        "date": "2027-07-01",
        "reading_sd_mm": 1.0,
        "readings": [
            {"x_mm": x, "y_mm": y, "level_mm": 1000.0 - y / 100.0 + off(x, y), "area": "Patio"}
            for y in np.arange(200.0, 4000.0, 500.0)
            for x in np.arange(200.0, 6000.0, 500.0)
        ],
    }
    small.document |= parts
    job, measured = small.surveyed()
    return job, standing(job, measured, finished_levels(job, measured, small.rules), small.rules)


def hose(*marks, **more):
    return {"name": "H", "area": "Patio", "date": "2027-07-02", "after_min": 30.0, "marks": list(marks)} | more


def mark(x, y, depth):
    return {"name": f"W{x:.0f}", "x_mm": x, "y_mm": y, "depth_mm": depth}


def test_each_place_is_set_beside_the_readings(small):
    marks = mark(3000.0, 2200.0, 14.0), mark(600.0, 600.0, 5.0), mark(5400.0, 3400.0, 0.0)
    job, areas = dished(small, hose_tests=[hose(*marks)])
    outcomes = {each.mark: each for each in hose_found(job, areas)}
    assert outcomes["W3000"].outcome is HoseOutcome.STOOD_AS_TOLD
    assert outcomes["W3000"].pond == 1
    assert outcomes["W3000"].chance > 0.9
    assert outcomes["W600"].outcome is HoseOutcome.STOOD_NOT_TOLD
    assert outcomes["W5400"].outcome is HoseOutcome.DRY_AS_TOLD


def test_a_pond_at_which_nobody_looked_is_not_called_dry(small):
    job, areas = dished(small, hose_tests=[hose()])
    (found,) = [each for each in hose_found(job, areas) if each.pond == 1]
    assert found.outcome is HoseOutcome.NOT_LOOKED_AT
    assert found.depth_mm is None


def test_a_pond_is_dry_where_all_was_wetted_and_looked_at(small):
    job, areas = dished(small, hose_tests=[hose(all_wet=True, all_seen=True)])
    assert hose_found(job, areas)[0].outcome is HoseOutcome.DRY_THOUGH_TOLD


def test_a_hose_test_needs_no_readings(small):
    small.rectangle(6000.0, 4000.0)
    small.document["hose_tests"] = [hose(mark(3000.0, 2200.0, 4.0))]
    (found,) = hose_found(small.job(), ())
    assert found.chance is None
    assert found.outcome is HoseOutcome.STOOD_NOT_TOLD


def test_paving_above_a_grating_passes_fails_or_is_not_decided(small):
    small.rectangle(6000.0, 4000.0)
    small.site["outfalls"] = [{"name": "Bed", "kind": "border", "confirmed": True}]
    small.site["channels"] = [{"name": "Lawn", "start": "P3", "end": "P2", "width_mm": 100.0, "outfall": "Bed"}]
    small.document["drain_marks"] = [
        {"name": f"D{above:g}", "drain": "Lawn", "date": "2027-07-01", "above_mm": above}
        for above in (4.0, 0.4, -2.0, 9.0)
    ]
    verdicts = [each.verdict.words for each in drains_found(small.job(), small.rules)]
    assert verdicts == ["pass", "inconclusive", "fail", "fail"]


def test_chances_are_told_no_more_exactly_than_they_are_known(small):
    _, (area,) = dished(small)
    assert "over 99 %" in area_in_words(area)
    assert percent(0.5) == "50 %"
