"""Designed surfaces filled from their drains: what stands, what runs past, what free edges do.

The patio is that of the folded cases; another program found on it, on cells of 10 mm, with the edges open: 4.11 m² past
the gully for the plain valley and 0.21 m² for the crossed one; with a kerb at the gully's edge: 0.2 l standing 4 mm deep
for the plain valley, nothing for the crossed one.
"""

from __future__ import annotations

import pytest

from pavewright.geometry import Plane, one_plane
from pavewright.levels import drained_surface
from pavewright.levels.design._design import design
from pavewright.survey import survey
from tests.unit.levels.test_folded_patio import FOLDED, task


def site(small, kerbs=()):
    entered = small.rectangle(5400.0, 4200.0)
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 0.0}]
    small.point("Inlet", 4900.0, 2600.0)
    small.site["gullies"] = [{"name": "Gully", "point": "Inlet", "fixed": False, "size_mm": 150.0}]
    entered["edges"] = [{"corner": corner, "restraint": "kerb"} for corner in kerbs]
    return survey(small.job(), small.rules)


def drained(small, surface, cell=25.0, kerbs=()):
    measured = site(small, kerbs)
    return drained_surface(measured.site.areas[0], measured, surface, small.rules, cell)


def test_a_plain_valley_runs_past_its_gully_over_an_open_edge(small):
    found = drained(small, design(task(FOLDED["valley"])).surface).draining(1.0)
    assert found.past_m2 == pytest.approx(4.11, abs=0.25)
    assert found.standing_l == 0.0


def test_a_plain_valley_stands_against_a_kerb(small):
    found = drained(small, design(task(FOLDED["valley"])).surface, kerbs=("P1",)).draining(1.0)
    assert found.deepest_mm == pytest.approx(4.0, abs=0.5)
    assert found.standing_l == pytest.approx(0.2, abs=0.1)


def test_a_crossed_valley_drains_to_its_gully(small):
    found = drained(small, design(task(FOLDED["crossed"])).surface).draining(1.0)
    # the other program let the cells of the edge themselves run off; here water along an edge stays
    assert found.past_m2 <= 0.21
    assert found.standing_l == 0.0


def test_areas_of_all_outlets_make_the_whole(small):
    found = drained(small, design(task(FOLDED["crossed"])).surface)
    assert sum(area for _, area in found.areas_m2) == pytest.approx(5.4 * 4.2)


def test_water_along_a_free_edge_stays_on_the_paving(small):
    # the fall is square to the house, so that nothing leaves over the two side edges
    plane = Plane(0.0, (0.0, 0.0), 0.0, -1 / 60)
    measured = site(small)
    found = drained_surface(
        measured.site.areas[0], measured, one_plane(measured.site.areas[0].gross, plane), small.rules
    )
    areas = {taker.words: area for taker, area in found.areas_m2}
    assert areas["edge P2–P3"] > 0.98 * 22.68
    assert areas["edge P1–P2"] == pytest.approx(0.0, abs=1e-6)


def test_more_kerbs_never_let_more_water_go(small):
    surface = design(task(FOLDED["valley"])).surface
    standing = []
    for kerbs in ((), ("P1",), ("P1", "P2"), ("P1", "P2", "P3")):
        small.document["areas"], small.document["measurements"]["points"] = [], []
        standing.append(drained(small, surface, 50.0, kerbs).draining(0.0).standing_l)
    assert standing == sorted(standing)
