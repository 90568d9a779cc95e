"""What a soakaway, a gully and a channel consist of."""

from __future__ import annotations

import math

import pytest

from pavewright import rulebook
from pavewright.job import PitFill
from pavewright.levels import finished_levels
from pavewright.water import DrainKind, DrainState, PipeRun, PitSize, drain, soakaway_parts, water_figures

RULES = rulebook.load("england")


def size(**changed):
    entered = {
        "outfall": "Pit",
        "length_mm": 2000.0,
        "width_mm": 1500.0,
        "depth_mm": 1000.0,
        "cover_mm": 600.0,
        "fill": PitFill.STONE,
        "void_percent": 30.0,
        "proposed": False,
        "cover_assumed": False,
    }
    return PitSize(**(entered | changed))


def test_a_stone_pit_by_hand():
    run = PipeRun(DrainKind.CHANNEL, "Slot", "Pit", 6.0)
    parts = soakaway_parts(size(), (run,), water_figures(RULES))
    pipe = math.pi * 0.1**2 / 4.0
    assert parts.stone_m3 == pytest.approx(3.0 - 2.0 * pipe)
    assert parts.stone_t == pytest.approx(1.6 * parts.stone_m3)
    assert parts.geotextile_m2 == pytest.approx(2.0 * (3.0 + 2.0 + 0.3) + 2.0 * 1.5)
    assert parts.dig_m3 == pytest.approx(2.0 * 1.5 * 1.6)
    assert (parts.perforated_pipe_m, parts.solid_pipe_m, parts.silt_traps) == (2.0, 6.0, 1)
    assert parts.pipe_bed_m3 == pytest.approx(6.0 * (0.3 * 0.3 - pipe))


def test_crates_take_no_stone_and_no_perforated_pipe():
    parts = soakaway_parts(size(fill=PitFill.CRATES), (), water_figures(RULES))
    assert (parts.stone_m3, parts.crates_m3, parts.perforated_pipe_m) == (0.0, pytest.approx(3.0), 0.0)


def test_a_run_whose_place_is_not_known_is_no_number():
    runs = (PipeRun(DrainKind.GULLY, "G", "Pit", 4.0), PipeRun(DrainKind.CHANNEL, "Slot", "Pit", None))
    parts = soakaway_parts(size(), runs, water_figures(RULES))
    assert (parts.solid_pipe_m, parts.pipe_bed_m3) == (None, None)


def test_the_plan_carries_the_parts_of_its_pit_and_its_inlets(small):
    small.rectangle(6000.0, 4000.0)["fall"] |= {"one_in": 60.0}
    small.point("Middle", 3000.0, 10000.0)
    pit = {"length_mm": 2000.0, "width_mm": 1000.0, "depth_mm": 1000.0, "infiltration_m_per_s": 4e-5}
    small.site["outfalls"] = [
        {"name": "Pit", "kind": "soakaway", "confirmed": True, "soakaway": pit | {"point": "Middle"}}
    ]
    small.site["channels"] = [{"name": "Slot", "start": "P3", "end": "P2", "outfall": "Pit", "state": "new"}]
    small.point("In", 3000.0, 2000.0, 980.0)
    small.site["gullies"] = [{"name": "Old", "point": "In", "grating_level_mm": 980.0}]
    job, measured = small.surveyed()
    water = drain(job, measured, finished_levels(job, measured, small.rules), small.rules)
    (parts,) = water.pits
    assert parts.solid_pipe_m == pytest.approx(math.hypot(3.0, 6.0))
    assert parts.size.cover_assumed
    by_name = {each.name: each for each in water.inlets}
    assert by_name["Slot"].channel_m == pytest.approx(6.0)
    assert by_name["Slot"].state is DrainState.NEW
    assert by_name["Old"].state is DrainState.EXISTING
    assert by_name["Old"].run.length_m is None
