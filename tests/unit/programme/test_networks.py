"""Critical paths against another library, and limited schedules against every order that there is."""

from __future__ import annotations

import itertools

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.programme._cpm import LoopError, critical_path
from pavewright.programme._exact import holds, shortest_schedule
from pavewright.programme._limited import Activity, list_schedule, placed_by_list
from pavewright.programme._sums_programme import critical_path_of, limited_schedule_of
from pavewright.sums import SumRefusedError


@st.composite
def networks(draw, most=9):
    count = draw(st.integers(1, most))
    lengths = draw(st.lists(st.integers(0, 9), min_size=count, max_size=count))
    after = tuple(
        tuple(draw(st.sets(st.integers(0, number - 1), max_size=3))) if number else () for number in range(count)
    )
    return tuple(map(float, lengths)), after


@settings(max_examples=150, deadline=None)
@given(networks())
def test_times_and_floats_are_those_of_longest_paths_in_another_library(network):
    lengths, after = network
    count = len(lengths)
    graph = nx.DiGraph()
    graph.add_nodes_from(range(-1, count + 1))
    for number in range(count):
        graph.add_edge(-1, number, weight=0.0)
        graph.add_edge(number, count, weight=lengths[number])
        for before in after[number]:
            graph.add_edge(before, number, weight=lengths[before])

    def longest(start, end):
        paths = nx.all_simple_paths(graph, start, end)
        return max(sum(graph[a][b]["weight"] for a, b in itertools.pairwise(path)) for path in paths)

    end = nx.dag_longest_path_length(graph)
    timed = critical_path(lengths, after)
    assert max(each.early_finish for each in timed) == end
    for number, each in enumerate(timed):
        assert each.early_start == longest(-1, number)
        assert each.late_start == end - longest(number, count)
        assert each.total_float == each.late_start - each.early_start
        following = [timed[next_].early_start for next_ in range(count) if number in after[next_]]
        assert each.free_float == min(following, default=end) - each.early_finish
        assert 0.0 <= each.free_float <= each.total_float


@st.composite
def limited(draw):
    lengths, after = draw(networks(6))
    room = tuple(draw(st.lists(st.integers(1, 4), min_size=1, max_size=2)))
    return [
        Activity(int(length), each, tuple(draw(st.integers(0, limit)) for limit in room))
        for length, each in zip(lengths, after, strict=True)
    ], room


@settings(max_examples=120, deadline=None)
@given(limited())
def test_the_exact_search_is_as_short_as_the_best_of_every_order(problem):
    activities, room = problem
    # one of the serial schedules of all orders is shortest
    shortest = min(
        max(start + each.length for start, each in zip(starts, activities, strict=True))
        for order in itertools.permutations(range(len(activities)))
        for starts in [placed_by_list(activities, room, order)]
    )
    found = shortest_schedule(activities, room)
    assert found.proven
    assert found.length == found.bound == shortest
    assert holds(activities, room, found.starts)
    listed = list_schedule(activities, room)
    assert listed.bound <= shortest <= listed.length
    assert holds(activities, room, listed.starts)


def test_a_search_that_may_not_look_shows_its_gap():
    lengths, hands = (3, 2, 3, 4, 4, 3, 4, 3), (2, 1, 2, 2, 1, 1, 2, 1)
    after = ((), (), (1,), (1, 4), (0,), (0, 2, 3), (2,), (4,))
    crew = [Activity(length, each, (two,)) for length, each, two in zip(lengths, after, hands, strict=True)]
    # two crews of it side by side with one and a half crews' people, and no branch allowed
    twice = crew + [Activity(each.length, tuple(number + 8 for number in each.after), each.uses) for each in crew]
    found = shortest_schedule(twice, (4,), max_nodes=0)
    assert holds(twice, (4,), found.starts)
    assert found.bound <= found.length
    assert found.proven == (found.bound == found.length)


def test_what_makes_no_network_is_refused():
    with pytest.raises(LoopError):
        critical_path((1.0, 1.0), ((1,), (0,)))
    with pytest.raises(SumRefusedError, match="in a ring"):
        critical_path_of((1.0, 1.0), ("2", "1"))
    with pytest.raises(SumRefusedError, match="write numbers from 1 to 2"):
        critical_path_of((1.0, 1.0), ("-", "3"))
    with pytest.raises(SumRefusedError, match="whole numbers"):
        limited_schedule_of((1.5,), ("-",), (1.0,), 2.0)
    with pytest.raises(SumRefusedError, match="can never be done"):
        limited_schedule_of((1.0,), ("-",), (3.0,), 2.0)
