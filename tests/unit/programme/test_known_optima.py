"""Schedules under limits against published instances whose shortest length is known."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pavewright.programme._exact import holds, shortest_schedule, within
from pavewright.programme._limited import Activity, list_schedule

CASES = {
    case["id"]: case
    for case in json.loads((Path(__file__).parents[2] / "cases" / "schedule_optima.json").read_text("utf-8"))[
        "instances"
    ]
}
PROVEN = ("j301_1", "j301_2", "j301_3", "j3035_1")
LONG = ("j3017_1",)
OPEN = ("j3013_1", "j3021_1", "j3045_1")


def of_case(name):
    case = CASES[name]
    activities = [
        Activity(length, tuple(before - 1 for before in after), tuple(uses))
        for length, uses, after in case["activities"]
    ]
    return activities, tuple(case["room"]), case["optimum"]


def test_every_instance_is_held_to_its_optimum():
    assert set(CASES) == {*PROVEN, *LONG, *OPEN}
    assert all(len(case["activities"]) == 30 and len(case["room"]) == 4 for case in CASES.values())


@pytest.mark.parametrize("name", [*PROVEN, pytest.param(*LONG, marks=pytest.mark.slow)])
def test_the_known_optimum_is_found_and_proven(name):
    activities, room, optimum = of_case(name)
    found = shortest_schedule(activities, room)
    assert found.proven
    assert found.length == found.bound == optimum
    assert holds(activities, room, found.starts)
    assert within(activities, room, optimum - 1, 500) == (None, True)


@pytest.mark.parametrize("name", CASES)
def test_a_list_schedule_and_its_bound_hold_the_known_optimum_between_them(name):
    activities, room, optimum = of_case(name)
    listed = list_schedule(activities, room)
    assert holds(activities, room, listed.starts)
    assert listed.bound <= optimum <= listed.length
    assert listed.proven == (name == "j3035_1")


@pytest.mark.parametrize("name", [OPEN[0], *(pytest.param(name, marks=pytest.mark.slow) for name in OPEN[1:])])
def test_a_search_that_ends_early_shows_a_gap_that_holds_the_known_optimum(name):
    activities, room, optimum = of_case(name)
    listed = list_schedule(activities, room)
    found = shortest_schedule(activities, room, max_nodes=0)
    assert not found.proven
    assert listed.bound <= found.bound <= optimum <= found.length <= listed.length
    assert holds(activities, room, found.starts)
