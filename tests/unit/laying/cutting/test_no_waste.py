"""Jobs whose parts leave no room for waste: how near a plan comes to the slabs that were cut up for them."""

from __future__ import annotations

import json
import random
from pathlib import Path

import pytest

from pavewright.laying.cutting import FAR, Part, Stock, check_saw_plan, saw_plan
from pavewright.laying.cutting._bound import min_cost
from pavewright.laying.cutting._grid import task_of
from pavewright.laying.cutting._no_waste import leaves_no_waste, slabs_without_waste

KERF_MM = 3
MIN_SIDE_MM = 60
OPTIMA = json.loads((Path(__file__).parents[3] / "cases" / "cutting_optima.json").read_text("utf-8"))["instances"]
SETS = {case["id"]: case for case in OPTIMA if case["id"].startswith("KERF")}


def cut_in_two(dice, wide, high):
    """A piece cut in two at random, the saw cut between."""
    along = dice.random() * (wide + high) < wide
    at = dice.randint(MIN_SIDE_MM, (wide if along else high) - KERF_MM - MIN_SIDE_MM)
    rest = (wide if along else high) - KERF_MM - at
    return [(at, high), (rest, high)] if along else [(wide, at), (wide, rest)]


def slabs_cut_up(slabs, each, size, seed):
    """The pieces of so many slabs, the largest piece cut again and again."""
    dice, found = random.Random(seed), []
    for _ in range(slabs):
        pieces = [size]
        while len(pieces) < each:
            pieces.sort(key=lambda piece: piece[0] * piece[1])
            pieces += cut_in_two(dice, *pieces.pop())
        found += pieces
    dice.shuffle(found)
    return [Part(number, float(wide), float(high)) for number, (wide, high) in enumerate(found)]


@pytest.mark.parametrize(
    ("name", "per_cent"),
    [("KERF-K1", 0.0), ("KERF-K3", 0.0), ("KERF-M1", 0.0), pytest.param("KERF-M3", 1.0, marks=pytest.mark.slow)],
)
def test_sets_cut_up_without_waste_come_out_at_or_close_to_their_slabs(name, per_cent):
    case = SETS[name]
    boxes = [(wide, high) for wide, high, number in case["items"] for _ in range(number)]
    parts = [Part(number, float(wide), float(high)) for number, (wide, high) in enumerate(boxes)]
    stock = [Stock(float(wide), float(high), cost) for wide, high, cost in case["bins"]]
    plan = saw_plan(parts, stock, float(KERF_MM), may_turn=True)
    assert check_saw_plan(plan.sawn, parts, stock, float(KERF_MM), may_turn=True) == ()
    assert plan.min_cost == case["optimum"]
    assert case["optimum"] <= plan.cost <= case["optimum"] * (1.0 + per_cent / 100.0)


@pytest.mark.parametrize(
    ("slabs", "each", "size", "turn"),
    [(20, 4, (600, 600), True), (15, 6, (900, 600), True), (20, 6, (600, 600), False), (12, 9, (900, 600), True)],
)
def test_slabs_cut_up_at_random_come_out_in_full(slabs, each, size, turn):
    parts = slabs_cut_up(slabs, each, size, 100 * slabs + each)
    stock = [Stock(float(size[0]), float(size[1]))]
    plan = saw_plan(parts, stock, float(KERF_MM), may_turn=turn)
    assert check_saw_plan(plan.sawn, parts, stock, float(KERF_MM), may_turn=turn) == ()
    assert plan.cost == plan.min_cost == slabs


def test_every_slab_without_waste_is_filled_and_holds_no_part_too_often():
    task = task_of(slabs_cut_up(15, 6, (900, 600), 7), [Stock(900.0, 600.0)], float(KERF_MM), may_turn=True)
    found = slabs_without_waste(task)
    assert found
    area = int(task.stock[0, 0] * task.stock[0, 1])
    wanted = [int((task.rows[:, 4] == kind).sum()) for kind in range(task.kinds)]
    for _, lines in found:
        rows = task.rows[lines[:, 0]]
        assert int((rows[:, 0] * rows[:, 1]).sum()) == area
        assert all(int((rows[:, 4] == kind).sum()) <= wanted[kind] for kind in set(rows[:, 4].tolist()))


def test_jobs_with_room_for_waste_or_factory_edges_are_left_to_the_search():
    whole = [Part(0, 298.5, 600.0), Part(1, 298.5, 600.0)]
    edged = [Part(each.piece, each.along_mm, each.across_mm, FAR) for each in whole]
    for parts, tight in ((whole, True), (whole[:1], False), (edged, False)):
        task = task_of(parts, [Stock(600.0, 600.0)], float(KERF_MM), may_turn=True)
        assert leaves_no_waste(task, min_cost(task)) is tight
