"""Pipe runs with what is known at their ends: nothing that nobody took is filled in."""

from __future__ import annotations

import pytest

from pavewright.job import OutfallKind, parse
from pavewright.pipeline import plan
from pavewright.water import DrainKind, RunFall


@pytest.fixture
def drained(small):
    """A patio with a gully in its middle and a soakaway six metres off, both with inverts; a cable between them."""
    small.rectangle(3000.0, 3000.0)
    small.point("gully", 1500.0, 1500.0)
    small.point("pit", 1500.0, -4500.0)
    small.point("c1", 0.0, -2000.0)
    small.point("c2", 3000.0, -2000.0)
    small.site["gullies"] = [
        {"name": "Patio gully", "point": "gully", "outfall": "Pit", "invert_level_mm": 500.0, "state": "new"}
    ]
    small.site["outfalls"] = [
        {
            "name": "Pit",
            "kind": "soakaway",
            "confirmed": True,
            "state": "new",
            "invert_level_mm": 440.0,
            "soakaway": {
                "length_mm": 1000.0,
                "width_mm": 1000.0,
                "depth_mm": 1000.0,
                "infiltration_m_per_s": 1e-5,
                "point": "pit",
            },
        }
    ]
    small.site["services"] = [{"name": "Cable", "kind": "electricity", "points": ["c1", "c2"], "depth_mm": 450.0}]
    return small


def run_of(small):
    (run,) = plan(parse(small.document), small.rules).water.runs
    return run


def test_a_run_whose_ends_are_known_has_its_fall_by_hand(drained):
    run = run_of(drained)
    # 60 mm over 6 m: 1 in 100, the smallest gradient of a drain of 100 mm
    assert run.pipe.length_m == pytest.approx(6.0)
    assert (run.fall_mm, run.fall) == (60.0, pytest.approx(0.01))
    assert run.verdict is RunFall.ENOUGH
    assert (run.start.kind, run.end.kind) == (DrainKind.GULLY, OutfallKind.SOAKAWAY)
    assert run.silt_traps == 1 and run.line_known


def test_a_flat_one_and_one_that_runs_uphill_are_not_enough(drained):
    drained.site["outfalls"][0]["invert_level_mm"] = 441.0
    assert run_of(drained).verdict is RunFall.FLAT
    drained.site["outfalls"][0]["invert_level_mm"] = 500.0
    assert run_of(drained).verdict is RunFall.NONE


def test_an_invert_that_nobody_took_stays_not_known(drained):
    del drained.site["outfalls"][0]["invert_level_mm"]
    run = run_of(drained)
    assert run.end.invert_level_mm is None
    assert (run.fall_mm, run.fall, run.verdict) == (None, None, RunFall.NOT_KNOWN)


def test_one_that_runs_uphill_is_seen_without_its_length(drained):
    drained.site["outfalls"][0]["invert_level_mm"] = 520.0
    del drained.site["outfalls"][0]["soakaway"]["point"]
    run = run_of(drained)
    assert run.pipe.length_m is None and run.verdict is RunFall.NONE


def test_the_surface_over_a_soakaway_away_from_ground_that_was_read_is_not_known(drained):
    assert run_of(drained).end.cover_level_mm is None
    drained.flat_ground(800.0)
    assert run_of(drained).end.cover_level_mm == pytest.approx(800.0)


def test_the_gully_has_the_finished_level_over_it(drained):
    made = plan(parse(drained.document), drained.rules)
    surface = made.levels.areas[0].surface
    assert made.water.runs[0].start.cover_level_mm == pytest.approx(surface.level_at((1500.0, 1500.0)))


def test_a_service_that_the_pipe_crosses_is_named_where_it_does(drained):
    (crossing,) = run_of(drained).crossings
    # from y 1500 down to y -2000
    assert (crossing.name, crossing.along_mm, crossing.depth_mm) == ("Cable", pytest.approx(3500.0), 450.0)


def test_without_a_place_of_the_soakaway_nothing_is_said_of_what_the_pipe_crosses(drained):
    del drained.site["outfalls"][0]["soakaway"]["point"]
    run = run_of(drained)
    assert not run.line_known and run.crossings == ()


def test_an_existing_soakaway_has_no_silt_trap_that_nobody_saw(drained):
    drained.site["outfalls"][0]["state"] = "existing"
    assert run_of(drained).silt_traps == 0
