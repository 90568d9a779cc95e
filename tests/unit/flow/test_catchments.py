"""What drains where: against exact geometry, a published split and the laws of plain bookkeeping."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.flow import Grid, catchments, fill
from tests.unit.flow.surfaces import grid_of, plane
from tests.unit.flow.test_fill import grids


def exact_share_of_upper(bearing_deg, wide=5400.0, deep=4200.0):
    """Share of a rectangle whose flow lines at an angle to the x axis meet the upper side."""
    rise = math.tan(math.radians(bearing_deg))
    caught = wide * wide * rise / 2.0 if wide * rise <= deep else wide * deep - deep * deep / (2.0 * rise)
    return caught / (wide * deep)


@pytest.mark.parametrize("bearing_deg", [10.0, 22.5, 30.0, 60.0])
def test_an_exact_plane_is_shared_between_two_edges_as_geometry_says(bearing_deg):
    caught = catchments(fill(plane(bearing_deg)))
    assert caught.area_of("upper") / 22.68 == pytest.approx(exact_share_of_upper(bearing_deg), abs=0.003)


def test_shares_by_angle_turn_the_flow_on_the_same_plane():
    """The reason for sharing by tangent: by angle the same plane is some five parts in a hundred off."""
    caught = catchments(fill(plane(22.5)), by="angle")
    assert 0.04 < caught.area_of("upper") / 22.68 - exact_share_of_upper(22.5) < 0.07


def test_split_of_water_between_two_neighbours():
    """Source: landlab, documentation of flow directions by D-infinity: 0.40966553 and 0.59033447 on z = 2x + y."""
    levels = [[2.0 * x + y for x in range(3)] for y in range(3)]
    exits = np.arange(9).reshape(3, 3)
    exits[1, 1] = -1
    exits[exits > 4] -= 1
    filled = fill(grid_of(levels, exits))
    by_angle, by_tangent = (catchments(filled, by).shares[:, 1, 1] for by in ("angle", "tangent"))
    assert by_angle[[3, 0]] == pytest.approx([0.40966553, 0.59033447], abs=5e-9)
    assert by_tangent[[3, 0]] == pytest.approx([0.5, 0.5])


def test_flow_down_a_ramp_grows_by_a_cell_at_a_time():
    """Source: landlab, test of its kinematic wave: ten by ten nodes of 2 m, 0.001 m/s: 0, 0.004, … 0.028 m³/s."""
    levels = [[200.0 * (row + 1) for _ in range(8)] for row in range(8)]
    exits = np.full((8, 8), -1)
    exits[0] = 0
    caught = catchments(fill(grid_of(levels, exits, cell_mm=2000.0)))
    inflow = (caught.passing_m2[:, 3] - 4.0) * 0.001
    assert inflow[::-1] == pytest.approx([0.0, 0.004, 0.008, 0.012, 0.016, 0.020, 0.024, 0.028])


@given(grids(), st.sampled_from([4, 8]), st.sampled_from(["tangent", "angle"]))
@settings(max_examples=150, deadline=None)
def test_every_drop_is_counted_once(grid, neighbours, by):
    caught = catchments(fill(grid, neighbours), by)
    total = sum(caught.areas_m2) + caught.unreached_m2
    assert total == pytest.approx(grid.area_m2, rel=1e-9)
    assert (caught.shares >= 0.0).all()
    for number, area in enumerate(caught.areas_m2):  # upstream and downstream sweep agree
        assert caught.passing_m2[grid.exits == number].sum() == pytest.approx(area, rel=1e-9, abs=1e-12)


@given(grids(few_levels=st.just(False)), st.sampled_from([4, 8]))
@settings(max_examples=100, deadline=None)
def test_turning_the_grid_by_a_right_angle_gives_the_same_catchments(grid, neighbours):
    turned = Grid(
        0.0,
        0.0,
        grid.cell_mm,
        np.rot90(grid.levels_mm).copy(),
        np.rot90(grid.inside).copy(),
        np.rot90(grid.exits).copy(),
        grid.outlets,
    )
    ours, theirs = catchments(fill(grid, neighbours)), catchments(fill(turned, neighbours))
    assert np.rot90(ours.shares, axes=(1, 2)) == pytest.approx(theirs.shares, abs=1e-12)


@given(grids(), st.floats(-1e4, 1e4))
@settings(max_examples=50, deadline=None)
def test_the_level_of_the_datum_does_not_matter(grid, up):
    lifted = grid_of(grid.levels_mm * 4.0 + round(up), grid.exits, inside=grid.inside, outlets=grid.outlets)
    scaled = grid_of(grid.levels_mm * 4.0, grid.exits, inside=grid.inside, outlets=grid.outlets)
    if np.array_equal(lifted.levels_mm - round(up), scaled.levels_mm):  # no digit lost
        assert catchments(fill(lifted)).areas_m2 == pytest.approx(catchments(fill(scaled)).areas_m2)


def test_a_full_hollow_drains_to_where_it_spills():
    levels = [[1.0, 3.0, 0.0, 2.0, 1.0]]
    caught = catchments(fill(grid_of(levels, [[0, -1, -1, -1, 1]])))
    assert caught.shares[:, 0].tolist() == [[1, 1, 0, 0, 0], [0, 0, 1, 1, 1]]


def test_water_is_not_shared_in_any_other_way():
    with pytest.raises(ValueError, match="tangent or by angle"):
        catchments(fill(grid_of([[1.0]], [[0]])), by="luck")
