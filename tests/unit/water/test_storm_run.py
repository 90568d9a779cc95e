"""A storm on the finished paving: mass, flows and films against closed forms."""

from __future__ import annotations

import numpy as np
import pytest

from pavewright.levels import finished_levels
from pavewright.water import StormRefusedError, run_storm


def stormed(small, bearing=0.0, **more):
    entered = small.rectangle(2000.0, 4200.0)
    entered["fall"] = {"bearing_deg": bearing, "one_in": 60.0, "level_at": "P0", "level_mm": 1000.0}
    job, measured = small.surveyed()
    return run_storm(measured, finished_levels(job, measured, small.rules), small.rules, **more)[0]


def test_what_falls_leaves_or_stays(small):
    one = stormed(small, rain_mm_per_h=75.0, rain_min=5.0, cell_mm=100.0)
    assert abs(one.lost_share) < 1e-8
    fallen = 75.0 / 60.0 * 5.0 * 8.4
    assert sum(each.litres.high for each in one.outlets) == pytest.approx(fallen, rel=0.03)


def test_flow_and_film_come_to_those_of_a_plane(small):
    # closed form of a plane 4.2 m long at 1 in 60, 75 mm/h, n 0.02: 1.20 mm deep, and all the rain leaves
    one = stormed(small, rain_mm_per_h=75.0, rain_min=5.0, cell_mm=100.0)
    (edge,) = [each for each in one.outlets if each.outlet == "edge P2–P3"]
    assert edge.peak_l_s.high == pytest.approx(8.4 * 75.0 / 3600.0, rel=0.02)
    film = np.nanmax(one.depth_mm[:-2])
    # at n 0.03 the film is 0.6 times the power of 1.5 deeper than at 0.02
    assert film == pytest.approx(1.20 * 1.5**0.6, rel=0.08)
    assert one.deepest_mm.low < one.deepest_mm.high
    assert one.clears_s.low < one.clears_s.high
    assert "from memory" in one.cautions[0]


def test_a_storm_that_cannot_be_is_refused_with_a_sentence(small):
    for wrong in ({"rain_mm_per_h": 0.0}, {"rain_min": 0.0}, {"cell_mm": 5.0}, {"rain_mm_per_h": 9000.0}):
        small.document["areas"], small.document["measurements"]["points"] = [], []
        with pytest.raises(StormRefusedError, match=r"[A-Z].*\."):
            stormed(small, **wrong)


def test_progress_is_told_and_may_stop_the_work(small):
    class StopError(Exception):
        pass

    said = []

    def report(words):
        said.append(words)
        raise StopError

    with pytest.raises(StopError):
        stormed(small, rain_min=1.0, report=report)
    assert said == ["storm on Patio, n 0.012"]
