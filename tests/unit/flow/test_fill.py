"""Filling and puddles: against a plain twin, against another library, and against closed forms."""

from __future__ import annotations

import heapq
import math
from collections import deque

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, box

from pavewright.flow import fill, rasterise, standing_l, stands, with_exit_line, with_exit_polygon
from tests.unit.flow.surfaces import grid_of, plane

STEPS = [(-1, 0), (0, -1), (0, 1), (1, 0), (-1, -1), (-1, 1), (1, -1), (1, 1)]


def plain_flood(levels, inside, exits, neighbours):
    """The flood in plain words: the reference that the kernel must equal."""
    rows, columns = levels.shape
    filled, receiver, label = np.full(levels.shape, np.inf), np.full(levels.shape, -1), np.full(levels.shape, -1)
    heap, pits, order, count = [], deque(), [], 0
    for row in range(rows):
        for column in range(columns):
            if exits[row, column] >= 0:
                filled[row, column], label[row, column] = levels[row, column], exits[row, column]
                heapq.heappush(heap, (levels[row, column], count, row, column))
                count += 1
    while heap or pits:
        row, column = pits.popleft() if pits else heapq.heappop(heap)[2:]
        order.append(row * columns + column)
        for down, along in STEPS[:neighbours]:
            near = (row + down, column + along)
            if not (0 <= near[0] < rows and 0 <= near[1] < columns) or not inside[near] or label[near] >= 0:
                continue
            label[near], receiver[near] = label[row, column], row * columns + column
            filled[near] = max(levels[near], filled[row, column])
            if levels[near] <= filled[row, column]:
                pits.append(near)
            else:
                heapq.heappush(heap, (levels[near], count, *near))
                count += 1
    filled[~inside] = np.nan
    return filled, receiver, np.array(order), label


@st.composite
def grids(draw, few_levels=st.booleans()):
    """Random surfaces with walls and up to three outlets; often with many equal levels."""
    rows, columns = draw(st.integers(1, 14)), draw(st.integers(1, 14))
    chance = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    levels = chance.integers(0, 5, (rows, columns)) * 1.0 if draw(few_levels) else chance.normal(0, 5, (rows, columns))
    inside = chance.random((rows, columns)) < draw(st.sampled_from([0.6, 0.9, 1.1]))
    exits = np.where(inside & (chance.random((rows, columns)) < draw(st.sampled_from([0.03, 0.2]))), 0, -1)
    exits = np.where(exits == 0, chance.integers(0, 3, (rows, columns)), -1)
    return grid_of(levels, exits, inside=inside, outlets=("a", "b", "c"))


@given(grids(), st.sampled_from([4, 8]))
@settings(max_examples=200, deadline=None)
def test_the_kernel_equals_its_plain_twin_bit_for_bit(grid, neighbours):
    filled = fill(grid, neighbours)
    levels, receivers, order, labels = plain_flood(grid.levels_mm, grid.inside, grid.exits, neighbours)
    assert np.array_equal(filled.levels_mm, levels, equal_nan=True)
    assert np.array_equal(filled.receivers, receivers)
    assert np.array_equal(filled.order, order)
    assert np.array_equal(filled.labels, labels)


@given(grids(), st.sampled_from([4, 8]))
@settings(max_examples=100, deadline=None)
def test_it_equals_reconstruction_by_erosion_bit_for_bit(grid, neighbours):
    from skimage.morphology import reconstruction  # noqa: PLC0415 - slow to load

    wall = 1e9
    surface = np.where(grid.inside, grid.levels_mm, wall)
    seed = np.where(grid.exits >= 0, surface, wall)
    cross = np.array([[0, 1, 0], [1, 1, 1], [0, 1, 0]]) if neighbours == 4 else np.ones((3, 3))
    other = reconstruction(seed, surface, method="erosion", footprint=cross)
    filled = fill(grid, neighbours)
    assert np.array_equal(np.where(filled.labels >= 0, filled.levels_mm, wall), other)


@given(grids(), st.sampled_from([4, 8]))
@settings(max_examples=100, deadline=None)
def test_filled_is_nowhere_below_the_surface_and_equals_it_at_exits(grid, neighbours):
    filled = fill(grid, neighbours)
    inside, leaving = grid.inside, grid.exits >= 0
    assert (filled.levels_mm[inside] >= grid.levels_mm[inside]).all()
    assert np.array_equal(filled.levels_mm[leaving], grid.levels_mm[leaving])
    assert np.isinf(filled.levels_mm[filled.unreached]).all()
    reached = filled.order
    assert (np.diff(filled.levels_mm.ravel()[reached]) >= 0.0).all()
    assert sorted(reached) == list(np.flatnonzero(filled.labels.ravel() >= 0))


@given(grids(), st.integers(0, 10**6))
@settings(max_examples=100, deadline=None)
def test_another_drain_never_adds_standing_water(grid, number):
    places = np.argwhere(grid.inside)
    if not len(places):
        return
    row, column = places[number % len(places)]
    exits = grid.exits.copy()
    exits[row, column] = 0
    more = fill(grid_of(grid.levels_mm, exits, inside=grid.inside, outlets=grid.outlets))
    assert (more.levels_mm[grid.inside] <= fill(grid).levels_mm[grid.inside]).all()
    assert more.unreached_m2 <= fill(grid).unreached_m2


@given(grids())
@settings(max_examples=50, deadline=None)
def test_puddles_hold_all_that_stands(grid):
    filled = fill(grid)
    puddles = stands(filled)
    assert sum(each.volume_l for each in puddles) == pytest.approx(standing_l(filled))
    depth = filled.depth_mm[~filled.unreached]
    assert sum(each.area_m2 for each in puddles) == pytest.approx(np.count_nonzero(depth > 0.0) * grid.cell_m2)
    assert [each.deepest_mm for each in puddles[:1]] == [depth.max(initial=0.0)] * bool((depth > 0.0).any())


def test_single_pit_with_three_closed_sides():
    """Source: landlab, documentation of SinkFillerBarnes; levels printed, volume worked out."""
    levels = [[2.1, 1.1, 0.6, 1.6, 0.0], [2.0, 1.0, 0.5, 1.5, 0.0], [2.2, 1.2, 0.7, 1.7, 0.0]]
    exits = [[-1, -1, -1, -1, 0]] * 3
    filled = fill(grid_of(levels, exits))
    assert filled.levels_mm[:, :4].tolist() == [[2.1, 1.5, 1.5, 1.6], [2.0, 1.5, 1.5, 1.5], [2.2, 1.5, 1.5, 1.7]]
    assert standing_l(filled) == pytest.approx(3.9)
    (puddle,) = stands(filled)
    assert (puddle.area_m2, puddle.deepest_mm, puddle.level_mm) == (6.0, 1.0, 1.5)
    assert puddle.at_mm == (2500.0, 1500.0)
    assert puddle.outlet == "outlet 0"


def test_a_corner_between_two_walls_leaks_over_corners_only():
    inside = [[True, False], [False, True]]
    grid = grid_of([[5.0, 0.0], [0.0, 1.0]], [[-1, -1], [-1, 0]], inside=inside)
    assert fill(grid, 8).unreached_m2 == 0.0
    assert fill(grid, 4).unreached_m2 == 1.0
    assert fill(grid, 4).depth_mm[0, 0] == math.inf


def test_neighbours_are_four_or_eight():
    with pytest.raises(ValueError, match="4 or to 8"):
        fill(grid_of([[1.0]], [[0]]), 6)


def test_water_stands_against_a_wall_without_an_exit():
    """A plane that falls to a wall: nothing leaves although the rim is low there."""
    wide = box(0.0, 0.0, 3000.0, 1000.0)
    grid = with_exit_line(rasterise(wide, 100.0, lambda x, y: -x / 60.0), "upper end", LineString([(0, 0), (0, 1000)]))
    (puddle,) = stands(fill(grid))
    # a wedge of 2 900 mm with its edge at the exit cell, level there: cells below it are full to that level
    assert puddle.deepest_mm == pytest.approx(2900.0 / 60.0)
    assert puddle.volume_l == pytest.approx(1.0 * 2.9 * (100.0 / 60.0 + 2900.0 / 60.0) / 2.0)


@pytest.mark.parametrize(("cell_mm", "tolerance"), [(20.0, 0.10), (10.0, 0.05), (5.0, 0.025)])
def test_dish_in_a_falling_surface_against_its_closed_form(cell_mm, tolerance):
    """Paraboloid cut by a tilted plane: 1 m radius, 6 mm deep, on 1 in 150: 1.185 mm, 0.3677 l; first order in cells.

    Source: definition, depth d(1−Sa/2d)², volume (π/2)a²d(1−Sa/2d)⁴
    """
    radius, deep, fall = 1000.0, 6.0, 1.0 / 150.0
    left = 1.0 - fall * radius / (2.0 * deep)
    depth, litres = deep * left**2, math.pi / 2.0 * radius**2 * deep * left**4 / 1e6
    assert (depth, litres) == (pytest.approx(1.185, abs=5e-4), pytest.approx(0.3677, abs=5e-5))

    def level(x, y):
        return -fall * x - np.maximum(deep * (1.0 - (x * x + y * y) / radius**2), 0.0)

    grid = rasterise(box(-1200.0, -1200.0, 1200.0, 1200.0), cell_mm, level)
    grid = with_exit_line(grid, "low edge", LineString([(1200.0, -1200.0), (1200.0, 1200.0)]))
    (puddle,) = stands(fill(grid), 0.1)
    assert depth * (1.0 - tolerance) < puddle.deepest_mm <= depth
    assert litres * (1.0 - tolerance) < puddle.volume_l <= litres


@pytest.mark.parametrize("cell_mm", [10.0, 5.0, 2.5])
def test_lip_across_the_fall_against_its_closed_form(cell_mm):
    """A lip of 2 mm at 1 in 60 backs up 120 mm and 0.12 l for each metre; one cell of error at most.

    Source: definition, wedge behind a step: δ/S and δ²/(2S)
    """
    grid = rasterise(
        box(0.0, 0.0, 1000.0, 200.0), cell_mm, lambda x, y: -x / 60.0 + np.where((x > 600.0) & (x < 650.0), 2.0, 0.0)
    )
    grid = with_exit_line(grid, "end", LineString([(1000.0, 0.0), (1000.0, 200.0)]))
    (puddle,) = stands(fill(grid))
    assert puddle.area_m2 / 0.2 == pytest.approx(0.120, abs=1.001 * cell_mm / 1000.0)
    assert puddle.volume_l / 0.2 == pytest.approx(0.12, abs=2.0 * cell_mm / 1000.0)
    assert puddle.deepest_mm == pytest.approx(2.0, abs=cell_mm / 60.0 + 1e-9)


def test_an_even_plane_with_a_free_low_edge_keeps_nothing():
    assert stands(fill(plane(30.0, cell_mm=50.0))) == ()


def test_holes_are_walls_and_exits_belong_to_their_names():
    yard = box(0.0, 0.0, 1000.0, 1000.0).difference(box(400.0, 400.0, 600.0, 600.0))
    grid = rasterise(yard, 100.0, lambda x, y: x)
    assert grid.area_m2 == pytest.approx(0.96)
    grid = with_exit_polygon(grid, "gully", box(100.0, 100.0, 300.0, 300.0))
    grid = with_exit_polygon(grid, "spout", Point(820.0, 810.0).buffer(10.0))  # smaller than a cell
    grid = with_exit_line(grid, "gully", LineString([(1000.0, 0.0), (1000.0, 1000.0)]))
    assert grid.outlets == ("gully", "spout")
    assert np.count_nonzero(grid.exits == 0) == 4 + 10
    assert np.argwhere(grid.exits == 1).tolist() == [[8, 8]]
    assert grid.centre(8, 8) == (850.0, 850.0)


def test_an_outlet_off_the_paving_is_refused():
    grid = rasterise(box(0.0, 0.0, 1000.0, 1000.0), 100.0, lambda x, y: x)
    with pytest.raises(ValueError, match="touches no cell"):
        with_exit_polygon(grid, "gully", box(2000.0, 0.0, 2100.0, 100.0))
    with pytest.raises(ValueError, match="touches no cell"):
        with_exit_line(grid, "edge", LineString([(2000.0, 0.0), (2000.0, 100.0)]))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"levels": [[1.0, np.nan]], "exits": [[0, -1]]}, "has a level"),
        ({"levels": [[1.0, 2.0]], "exits": [[0]]}, "one shape"),
        ({"levels": [[1.0, 2.0]], "exits": [[0, 5]], "outlets": ("a",)}, "named outlet"),
        ({"levels": [[1.0, 2.0]], "exits": [[0, 0]], "inside": [[True, False]]}, "lie inside"),
        ({"levels": [[1.0, 2.0]], "exits": [[0, -1]], "cell_mm": 0.0}, "more than zero"),
    ],
)
def test_a_grid_that_makes_no_sense_is_refused(changes, words):
    with pytest.raises(ValueError, match=words):
        grid_of(**changes)
