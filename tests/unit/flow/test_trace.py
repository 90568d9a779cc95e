"""The path of a drop."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from pavewright.flow import fill, rasterise, trace, with_exit_polygon
from tests.unit.flow.surfaces import grid_of, plane
from tests.unit.flow.test_fill import grids


@pytest.mark.parametrize("bearing_deg", [0.0, 10.0, 22.5, 45.0, 60.0])
def test_a_drop_runs_straight_down_a_plane(bearing_deg):
    path = trace(fill(plane(bearing_deg, cell_mm=50.0)), (500.0, 400.0))
    assert path.end == "exit"
    turn = math.radians(bearing_deg)
    for x, y in path.points[:-1]:  # the last may be the middle of an exit cell
        assert (x - 500.0) * math.sin(turn) == pytest.approx((y - 400.0) * math.cos(turn), abs=1e-6)
    assert path.outlet == ("upper" if math.tan(turn) * 4900.0 > 3800.0 else "right")


def test_a_drop_runs_along_a_wall_that_it_meets():
    """The plane falls towards a wall at a slant; the drop turns along the wall to the exit at its end."""
    grid = rasterise(box(0.0, 0.0, 3000.0, 1000.0), 50.0, lambda x, y: -(x + 2.0 * y) / 60.0)
    grid = with_exit_polygon(grid, "end", box(2950.0, 0.0, 3000.0, 1000.0))
    path = trace(fill(grid), (100.0, 100.0))
    assert (path.end, path.outlet) == ("exit", "end")
    assert path.points[-1][1] == pytest.approx(975.0, abs=26.0)


def test_a_puddle_stops_a_drop_unless_it_is_shallow():
    grid = grid_of([[3.0, 2.0, 1.0, 1.5, 0.5]], [[-1, -1, -1, -1, 0]])
    filled = fill(grid)
    assert trace(filled, (500.0, 500.0)).end == "puddle"
    through = trace(filled, (500.0, 500.0), min_depth_mm=0.5)
    assert (through.end, through.outlet) == ("exit", "outlet 0")


def test_where_no_exit_can_be_reached_a_drop_goes_nowhere():
    assert trace(fill(grid_of([[3.0, 2.0]], [[-1, -1]])), (500.0, 500.0)).end == "nowhere"


def test_a_drop_has_to_fall_on_the_paving():
    with pytest.raises(ValueError, match="fall on the paving"):
        trace(fill(grid_of([[3.0]], [[0]])), (5000.0, 0.0))


@given(grids(), st.integers(0, 10**6), st.sampled_from([4, 8]))
@settings(max_examples=200, deadline=None)
def test_every_path_ends_and_never_climbs_out_of_what_it_may_cross(grid, number, neighbours):
    places = np.argwhere(grid.inside)
    if not len(places):
        return
    row, column = places[number % len(places)]
    filled = fill(grid, neighbours)
    path = trace(filled, grid.centre(row, column), min_depth_mm=math.inf)
    assert path.end == ("exit" if filled.labels[row, column] >= 0 else "nowhere")
    assert all(grid.cell_at(point) is not None for point in path.points)
