"""Storms: mass, closed forms of the kinematic wave, and a published catchment."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, box

from pavewright.flow import fill, rasterise, standing_l, storm, with_exit_polygon
from pavewright.flow._sums_flow import plane_depth_m
from tests.unit.flow.surfaces import grid_of, strip
from tests.unit.flow.test_fill import grids


@given(grids(), st.floats(1.0, 300.0), st.floats(0.1, 3.0))
@settings(max_examples=60, deadline=None)
def test_rain_is_what_left_and_what_is_stored(grid, rain_mm_per_h, rain_min):
    done = storm(grid, rain_mm_per_h, rain_min, 4.0, interval_s=20.0)
    assert abs(done.lost_share) < 1e-8
    assert done.fallen_l == pytest.approx(rain_mm_per_h * rain_min / 60.0 * grid.area_m2)
    assert sum(done.volume_l) == pytest.approx(done.drained_l)
    assert done.held_l[-1] == pytest.approx(done.stored_l)
    inside = grid.inside
    assert (done.depth_mm[inside] >= 0.0).all()
    assert (done.greatest_depth_mm[inside] >= done.depth_mm[inside]).all()
    assert np.isnan(done.depth_mm[~inside]).all()


def test_rain_on_a_closed_flat_stays_where_it_fell():
    """Source: landlab, test of its kinematic wave: 100 mm/h for 60 s give 1.66666667 mm."""
    done = storm(grid_of(np.zeros((5, 7)), np.full((5, 7), -1)), 100.0, 1.0, 2.0)
    assert done.depth_mm == pytest.approx(np.full((5, 7), 1.66666667), abs=5e-9)
    assert done.drained_l == 0.0
    assert math.isnan(done.clears_after_s)
    assert math.isnan(done.full_flow_after_s)
    assert done.cautions == ("There is no exit: all rain stays.",)


@pytest.mark.parametrize("cell_mm", [500.0, 1000.0, 2000.0])
def test_steady_film_on_a_long_plane(cell_mm):
    """Depths 2, 10 and 18 m down a plane of 20 m: 0.577, 1.516 and 2.157 mm.

    A third of a part in a hundred is left for the fall of the water itself, which the closed form takes as that of the
    bed, and for cells.

    Source: landlab tutorial, implicit kinematic wave, example 1: formula printed, depths worked out
    """
    grid = rasterise(box(0.0, 0.0, 20_000.0, cell_mm), cell_mm, lambda x, y: 1000.0 - x / 100.0)
    grid = with_exit_polygon(grid, "end", box(20_000.0 - cell_mm, 0.0, 20_000.0, cell_mm))
    done = storm(grid, 72.0, 8.0, 8.0, 0.01, falls_beyond={"end": 0.01})
    ends = grid.centres()[0][0] + cell_mm / 2.0  # a cell hands on what fell down to its lower side
    assert np.interp([10_000.0, 18_000.0], ends, done.depth_mm[0]) == pytest.approx([1.51572, 2.15666], rel=0.0035)
    assert np.interp(2000.0, ends, done.depth_mm[0]) == pytest.approx(0.57708, rel=0.006)
    assert done.peak_l_s[0] / cell_mm * 1000.0 == pytest.approx(0.4, rel=5e-4)
    assert done.froude > 0.9
    assert "faster than waves" in done.cautions[0]


@pytest.mark.parametrize("cell_mm", [100.0, 50.0, 25.0])
def test_a_patio_follows_the_kinematic_wave(cell_mm):
    """4.2 m at 1 in 60, n 0.02, 75 mm/h: steady after 57.61 s at 0.0875 l/s for each metre; then it falls off.

    Source: kinematic wave over a plane, worked out
    """
    run, rain = 4200.0, 75.0 / 3.6e6
    done = storm(strip(run, cell_mm, 60.0), 75.0, 3.0, 6.0, 0.02, interval_s=2.0)
    flow = done.flow_l_s[0] / cell_mm * 1000.0
    rate = 1.0 / math.sqrt(60.0) / 0.02
    times = np.arange(1.0, 360.0, 2.0)
    wave = np.array([1000.0 * rate * plane_depth_m(rate, 4.2, rain, 180.0, t) ** (5.0 / 3.0) for t in times])
    assert np.abs(flow - wave).max() < (0.06 + 0.0003 * cell_mm) * 0.0875
    assert flow[80] == pytest.approx(0.0875, rel=1e-3)
    assert done.full_flow_after_s == pytest.approx(57.61, abs=6.0)
    assert done.cautions == ()
    assert done.froude == pytest.approx(0.67, abs=0.06)


def test_a_quick_film_neither_swings_nor_piles_up():
    """Water that outruns its waves, down 20 m of smooth concrete: the film stays within its closed form throughout."""
    grid = strip(20_000.0, 100.0, 40.0)
    for minutes in (0.5, 1.0, 1.5, 2.0):
        done = storm(grid, 72.0, 8.0, minutes, 0.012)
        wave = 1000.0 * plane_depth_m(1.0 / math.sqrt(40.0) / 0.012, 20.0, 72.0 / 3.6e6, 480.0, 60.0 * minutes)
        assert done.deepest_mm <= wave * 1.01
        assert np.diff(done.depth_mm[0, :-3]).min() > -0.01


def test_a_tilted_valley():
    """Two planes of 800 by 1000 m and a channel: outflow after 90 minutes 4.859497719 m³/s, to be met within 0.001.

    Source: MODFLOW 6, test of overland flow in a V-shaped catchment, after Panday and Huyakorn 2004
    """
    wide, middle = 1_620_000.0, 810_000.0
    grid = rasterise(
        box(0.0, 0.0, wide, 1_000_000.0),
        20_000.0,
        lambda x, y: 0.02 * y + 0.05 * np.maximum(np.abs(x - middle) - 10_000.0, 0.0),
    )
    grid = with_exit_polygon(grid, "channel", box(middle - 1e4, 0.0, middle + 1e4, 20_000.0))
    n = np.where(np.abs(grid.centres()[0] - middle) < 10_000.0, 0.15, 0.015)
    done = storm(grid, 3.0e-6 * 3.6e6, 90.0, 90.0, n, interval_s=60.0, falls_beyond={"channel": 0.02})
    assert done.flow_l_s[0, -1] / 1000.0 == pytest.approx(4.859497719, abs=0.001)


def test_a_hollow_keeps_what_filling_says():
    """After the water has run off, a pool stands as filled, level, but for a film that still creeps over its brim."""

    def level(x, y):
        return -x / 150.0 - np.maximum(6.0 * (1.0 - ((x - 1500.0) ** 2 + (y - 1000.0) ** 2) / 1e6), 0.0)

    grid = rasterise(box(0.0, 0.0, 3000.0, 2000.0), 100.0, level)
    grid = with_exit_polygon(grid, "edge", box(2900.0, 0.0, 3000.0, 2000.0))
    filled = fill(grid, 4)  # a storm passes over sides only
    done = storm(grid, 75.0, 5.0, 240.0, interval_s=60.0)
    over = (done.depth_mm - filled.depth_mm)[filled.depth_mm > 0.0]
    assert 0.0 < over.min() <= over.max() < 0.03
    assert np.ptp(over) < 1e-3
    assert standing_l(filled) < done.stored_l < standing_l(filled) + 0.03 * grid.area_m2


def test_a_deep_pool_without_friction_to_speak_of_stays_still():
    """A bowl of 1 in 10 with a spill at a corner: no ripple grows, however many steps go by."""
    grid = rasterise(box(0.0, 0.0, 3000.0, 3000.0), 100.0, lambda x, y: np.hypot(x - 1500.0, y - 1500.0) / 10.0)
    grid = with_exit_polygon(grid, "corner", box(0.0, 0.0, 100.0, 100.0))
    done = storm(grid, 200.0, 60.0, 90.0, 0.012, interval_s=60.0)
    surface = (grid.levels_mm + done.depth_mm)[done.depth_mm > 20.0]
    assert done.steps > 50_000
    assert np.ptp(surface) < 0.2


def test_two_gullies_share_a_storm():
    """A yard with a ridge in the middle: each half goes to its own gully, and nothing crosses."""
    grid = rasterise(box(0.0, 0.0, 4000.0, 1000.0), 50.0, lambda x, y: -np.abs(x - 2000.0) / 60.0)
    grid = with_exit_polygon(grid, "west", box(0.0, 0.0, 50.0, 1000.0))
    grid = with_exit_polygon(grid, "east", box(3950.0, 0.0, 4000.0, 1000.0))
    done = storm(grid, 75.0, 5.0, 10.0)
    assert done.volume_l[0] == pytest.approx(done.volume_l[1], rel=1e-9)
    assert done.peak_l_s[0] == pytest.approx(75.0 * 2.0 / 3600.0, rel=1e-3)


def test_a_gully_takes_the_rain_of_the_yard_that_falls_to_it():
    grid = rasterise(box(0.0, 0.0, 3000.0, 3000.0), 50.0, lambda x, y: np.hypot(x - 1500.0, y - 1500.0) / 60.0)
    grid = with_exit_polygon(grid, "gully", box(1425.0, 1425.0, 1575.0, 1575.0))
    done = storm(grid, 75.0, 5.0, 15.0)
    assert done.peak_l_s[0] == pytest.approx(75.0 * 9.0 / 3600.0, rel=0.01)
    assert done.clears_after_s < 180.0
    assert done.deepest_mm < 10.0


def test_water_deeper_than_a_cell_is_wide_is_told():
    grid = grid_of(np.zeros((3, 3)), np.full((3, 3), -1), cell_mm=10.0)
    assert "deeper than a cell" in storm(grid, 1000.0, 1.0, 1.0).cautions[0]


@pytest.mark.parametrize(
    "wrong",
    [{"rain_mm_per_h": -1.0}, {"rain_min": -1.0}, {"watched_min": 0.0}, {"manning_n": 0.0}, {"interval_s": 0.0}],
)
def test_a_storm_that_makes_no_sense_is_refused(wrong):
    grid = strip(1000.0, 100.0, 60.0)
    with pytest.raises(ValueError, match="more than zero"):
        storm(**({"grid": grid, "rain_mm_per_h": 50.0, "rain_min": 1.0, "watched_min": 1.0} | wrong))


def test_a_grid_without_paving_stays_dry():
    empty = rasterise(Point(0.0, 0.0).buffer(1.0), 1000.0, lambda x, y: x)
    assert not empty.inside.any() or empty.area_m2 > 0.0
    nothing = grid_of(np.zeros((2, 2)), np.full((2, 2), -1), inside=np.zeros((2, 2), bool))
    done = storm(nothing, 50.0, 1.0, 1.0)
    assert (done.fallen_l, done.deepest_mm, done.lost_share) == (0.0, 0.0, 0.0)
