"""A straight edge rolled along a profile, against one laid by hand at every place."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.as_laid.flatness import curvatures, floor_numbers, rolled_edge, rolled_rows, rows_of
from pavewright.as_laid.flatness._sums_flatness import flatness
from pavewright.sums import SumRefusedError


def by_hand(along, levels, edge):
    """The largest gap of an edge that lies on two readings which carry it about its middle, at any place."""
    worst, count = 0.0, len(along)
    shorter = along[-1] - along[0] <= edge
    for i in range(count):
        for j in range(i + 1, count):
            slope = (levels[j] - levels[i]) / (along[j] - along[i])

            def over(k, i=i, slope=slope):
                return levels[i] + slope * (along[k] - along[i]) - levels[k]

            gap = max((over(k) for k in range(i + 1, j)), default=0.0)
            if gap <= worst:
                continue
            # where the edge may begin: on the profile, both contacts under it, its middle between them
            low = max(along[j] - edge, along[i] - edge / 2.0)
            high = min(along[i], along[j] - edge / 2.0)
            if shorter:
                if all(over(k) >= -1e-9 for k in range(count)):
                    worst = gap
                continue
            low, high = max(low, along[0]), min(high, along[-1] - edge)
            if low > high + 1e-9:
                continue
            starts = sorted({low, high, *(each for a in along for each in (a, a - edge) if low <= each <= high)})
            tried = [*starts, *((a + b) / 2.0 for a, b in zip(starts, starts[1:], strict=False))]
            for start in tried:
                under = [k for k in range(count) if start - 1e-9 <= along[k] <= start + edge + 1e-9]
                if all(over(k) >= -1e-9 for k in under):
                    worst = gap
                    break
    return worst


@settings(max_examples=120, deadline=None)
@given(
    st.lists(st.tuples(st.integers(50, 400), st.integers(-12, 12)), min_size=3, max_size=12),
    st.sampled_from([600.0, 1000.0, 2000.0, 5000.0]),
)
def test_the_gap_is_that_of_an_edge_laid_by_hand_everywhere(steps, edge):
    along = np.cumsum([float(step) for step, _ in steps])
    levels = np.array([float(level) for _, level in steps])
    found = rolled_edge(along, levels, edge)
    assert found.gap_mm == pytest.approx(by_hand(along.tolist(), levels.tolist(), edge), abs=1e-6)
    if found.contacts is not None:
        a, b = found.contacts
        part = (along[found.lowest] - along[a]) / (along[b] - along[a])
        line = levels[a] + part * (levels[b] - levels[a])
        assert found.gap_mm == pytest.approx(line - levels[found.lowest])


def test_a_circle_has_the_sagitta_of_its_chord():
    along = np.arange(0.0, 2001.0, 10.0)
    hollow = 100_000.0 - np.sqrt(100_000.0**2 - (along - 1000.0) ** 2)
    assert rolled_edge(along, hollow, 2000.0).gap_mm == pytest.approx(5.0, abs=0.001)
    assert rolled_edge(along, -hollow, 2000.0).gap_mm == 0.0, "on a crest the edge rocks, and nothing lies between"


def test_a_fall_takes_nothing_from_a_gap():
    wavy = [2.0 * math.sin(k) for k in range(14)]
    sloped = [each - 5.0 * k for k, each in enumerate(wavy)]
    one, other = (flatness(tuple(each), 300.0, 2000.0)["largest_gap_mm"] for each in (sloped, wavy))
    assert one == pytest.approx(other)
    with pytest.raises(SumRefusedError, match="two spaces"):
        flatness((1.0, 2.0, 3.0), 300.0, 500.0)


def test_readings_wide_apart_do_not_see_between():
    along = np.arange(0.0, 4001.0, 200.0)
    assert not rolled_edge(along, np.zeros(21), 3000.0).sees_between
    assert rolled_edge(along / 2.0, np.zeros(21), 2000.0).sees_between
    assert rolled_edge(along[:2], np.zeros(2), 2000.0) is None


def test_rows_rolled_together_show_what_each_shows_by_itself():
    dice = np.random.default_rng(2)
    rows = [dice.normal(0.0, 2.0, many) for many in (40, 3, 90, 61)]
    places = [np.arange(len(row)) * 50.0 for row in rows]
    ends = np.cumsum([len(row) for row in rows]).astype(np.int64)
    together = rolled_rows(np.concatenate(places), np.concatenate(rows), ends, 2000.0, 50.0)
    single = [rolled_edge(along, row, 2000.0).gap_mm for along, row in zip(places, rows, strict=True)]
    assert together.gap_mm == pytest.approx(max(single))
    assert together.widest_mm == 50.0
    assert rolled_rows(np.zeros(0), np.zeros(0), np.zeros(0, np.int64), 2000.0, 50.0) is None


def test_rows_are_found_both_ways_and_a_stray_reading_stands_in_none():
    places = np.array([(x, y) for y in (0.0, 2000.0) for x in (0.0, 1000.0, 2000.0)] + [(500.0, 900.0)])
    assert rows_of(places, 100.0) == ((0, 1, 2), (3, 4, 5))
    grid = np.array([(x, y) for y in (0.0, 10.0, 2000.0) for x in (0.0, 1500.0)])
    assert rows_of(grid[:, ::-1], 100.0) == ((0, 2, 4), (1, 3, 5)) or rows_of(grid, 5.0)


def test_bends_and_floor_numbers():
    assert curvatures((0.0, 1.0, 0.0)).tolist() == [-2.0]
    with pytest.raises(ValueError, match="12 readings"):
        floor_numbers((1.0,) * 11, 115.8, 317.5)
    with pytest.raises(ValueError, match="no scatter"):
        floor_numbers((1.0,) * 12, 115.8, 317.5)
