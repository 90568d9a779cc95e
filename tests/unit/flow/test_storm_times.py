"""Depths of a storm at even times."""

from __future__ import annotations

import base64

import numpy as np
import pytest
from shapely.geometry import box

from pavewright.desk._frames import OUTSIDE, frames, storm_told
from pavewright.flow import rasterise, storm, with_exit_polygon
from pavewright.levels import finished_levels
from pavewright.water import run_storm


def strip():
    grid = rasterise(box(0.0, 0.0, 3000.0, 200.0), 100.0, lambda x, y: 1000.0 - x / 60.0)
    return with_exit_polygon(grid, "end", box(2900.0, 0.0, 3000.0, 200.0))


def test_depths_are_kept_at_even_times_and_end_as_the_storm_ends():
    done = storm(strip(), 75.0, 5.0, 10.0, times=30)
    assert done.depths_mm.shape == (30, *done.depth_mm.shape)
    assert np.array_equal(done.depths_mm[-1], done.depth_mm, equal_nan=True)
    held = np.nansum(done.depths_mm, axis=(1, 2)) * 0.01
    assert held == pytest.approx(done.held_l[1::2])
    assert (np.nanmax(done.depths_mm, axis=0) <= done.greatest_depth_mm + 1e-12).all()


def test_a_time_is_that_of_a_storm_that_ends_there():
    long = storm(strip(), 75.0, 5.0, 10.0, times=10)
    short = storm(strip(), 75.0, 3.0, 3.0, times=1)
    assert long.depths_mm[2] == pytest.approx(short.depth_mm, rel=1e-12)


def test_no_more_times_than_intervals_and_none_unless_asked():
    assert storm(strip(), 75.0, 1.0, 1.0, times=50).depths_mm.shape[0] == 6
    assert storm(strip(), 75.0, 1.0, 1.0).depths_mm.shape[0] == 0
    # 42 intervals: 30 times would not be even, 21 are
    assert storm(strip(), 75.0, 1.0, 7.0, times=30).depths_mm.shape[0] == 21


def test_frames_are_packed_in_tenths_row_by_row_from_the_south(small):
    area = small.area([(0, 0), (2000, 0), (2000, 1000), (1000, 1000), (1000, 1800), (0, 1800)])
    area["fall"] = {"bearing_deg": 90.0, "one_in": 60.0, "level_at": "P0", "level_mm": 1000.0}
    job, measured = small.surveyed()
    (ran,) = run_storm(measured, finished_levels(job, measured, small.rules), small.rules, 75.0, 2.0)
    reported = frames(ran)
    cells = np.frombuffer(base64.b64decode(reported["depths"]), "<u2").reshape(
        reported["count"], reported["rows"], reported["columns"]
    )
    outside = np.isnan(ran.depths_mm)
    assert outside.any()
    assert (cells[outside] == OUTSIDE).all()
    assert cells[~outside] / 10.0 == pytest.approx(ran.depths_mm[~outside], abs=0.0501)
    assert reported["every_s"] * reported["count"] == pytest.approx(240.0)
    assert "depths_mm" not in storm_told(ran)
    assert storm_told(ran)["outlets"] == ran.outlets
