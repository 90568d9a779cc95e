"""The search for the best start: the kernel against overlays, and starts against a fine grid of shifts."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from pavewright.job import Pattern
from pavewright.laying import best_starts, lay
from pavewright.laying.patterns import Bond, Layout, Size
from pavewright.laying.search import Limits, best_shifts, field_of

LIMITS = Limits(3.0, ((60.0, 50.0), (40.0, 40.0)))
PATTERNS = [Pattern.STACK, Pattern.RUNNING, Pattern.HERRINGBONE, Pattern.BASKETWEAVE, Pattern.COURSED]


def counted_by_overlays(field, parts, shift):
    """Return the counts of the kernel by clipping every unit with shapely."""
    whole = cut = slivers = notched = 0
    smallest, sawn = math.inf, 0.0
    region = shapely.union_all(parts)
    for x1, y1, x2, y2, min_x, min_y in field.units:
        unit = shapely.box(x1 + shift[0], y1 + shift[1], x2 + shift[0], y2 + shift[1])
        part = shapely.intersection(unit, region)
        if part.area <= 1.0:
            continue
        a, b, c, d = part.bounds
        wide, deep = c - a, d - b
        if min(wide, deep) < LIMITS.absorbed_mm:
            continue
        as_its_box = part.area >= wide * deep - 1.0
        if as_its_box and wide >= x2 - x1 - LIMITS.absorbed_mm and deep >= y2 - y1 - LIMITS.absorbed_mm:
            whole += 1
            continue
        cut += 1
        slivers += wide < min_x or deep < min_y
        smallest = min(smallest, wide, deep)
        sawn += shapely.intersection(region.boundary, unit).length
        sawn -= shapely.intersection(region.boundary, unit.boundary).length
        notched += any(unit.contains(shapely.Point(corner)) for corner in field.inner_corners)
    return whole, cut, slivers, notched, smallest, sawn


def outlines():
    def ring(entry):
        radii, hole = entry
        outer = [
            (2000.0 + r * math.cos(2 * math.pi * k / len(radii)), 2000.0 + r * math.sin(2 * math.pi * k / len(radii)))
            for k, r in enumerate(radii)
        ]
        x, y, size = hole
        return Polygon(outer, [[(x, y), (x + size, y), (x + size, y + size), (x, y + size)]])

    holes = st.tuples(st.floats(1800.0, 2100.0), st.floats(1800.0, 2100.0), st.floats(40.0, 150.0))
    return st.tuples(st.lists(st.floats(800.0, 1900.0), min_size=4, max_size=9), holes).map(ring)


def layout_of(pattern, joint, stagger):
    sizes = (Size(2 * 140.0 + joint, 140.0),) + ((Size(220.0, 180.0),) if pattern is Pattern.COURSED else ())
    return Layout(pattern, Bond(sizes, joint, stagger if pattern is Pattern.RUNNING else 0.0, 3), (130.0, -70.0))


@settings(max_examples=40, deadline=None)
@given(
    outlines(), st.sampled_from(PATTERNS), st.floats(0.0, 12.0), st.floats(0.0, 0.9), st.randoms(use_true_random=False)
)
def test_the_kernel_counts_what_overlays_count(outline, pattern, joint, stagger, chance):
    layout = layout_of(pattern, joint, stagger)
    field = field_of([outline], layout, LIMITS)
    wide, deep = layout.period_mm
    shifts = np.array([(chance.uniform(0.0, wide), chance.uniform(0.0, deep)) for _ in range(8)])
    for shift, row in zip(shifts, field.count(shifts), strict=True):
        expected = counted_by_overlays(field, [outline], shift)
        assert row[:4].tolist() == list(expected[:4])
        assert row[4] == pytest.approx(expected[4], abs=1e-6)
        assert row[5] == pytest.approx(expected[5], abs=1e-3)


@pytest.mark.parametrize("pattern", PATTERNS[:4])
def test_no_shift_of_a_fine_grid_beats_the_shifts_that_were_chosen(pattern):
    outline = Polygon([(0, 0), (3170, 0), (3170, 1410), (1930, 1410), (1930, 2290), (0, 2290)])
    layout = layout_of(pattern, 5.0, 0.5)
    field = field_of([outline], layout, LIMITS)
    best = best_shifts(field, layout.period_mm, LIMITS, 60_000, 5)
    wide, deep = layout.period_mm
    grid = np.stack(np.meshgrid(np.arange(0.0, wide, 4.0), np.arange(0.0, deep, 4.0)), axis=-1).reshape(-1, 2)
    counts = field.count(grid)
    score = counts[:, 1] + 5.0 * counts[:, 2] + counts[:, 3]
    mine = best.counts[0]
    assert mine[1] + 5.0 * mine[2] + mine[3] <= score.min()


def test_shifts_tried_in_turn_come_near_to_all_of_them():
    outline = Polygon([(0, 0), (3170, 0), (3170, 1410), (1930, 1410), (1930, 2290), (0, 2290)])
    layout = layout_of(Pattern.RUNNING, 5.0, 0.5)
    field = field_of([outline], layout, LIMITS)
    few = best_shifts(field, layout.period_mm, LIMITS, 900, 1)
    every = best_shifts(field, layout.period_mm, LIMITS, 10**6, 1)
    assert few.tried < every.tried / 5
    assert few.counts[0, 1] + 5.0 * few.counts[0, 2] <= 1.25 * (every.counts[0, 1] + 5.0 * every.counts[0, 2])
    again = best_shifts(field, layout.period_mm, LIMITS, 900, 1)
    assert np.array_equal(again.shifts, few.shifts)


def starts(small):
    job, measured = small.surveyed()
    return best_starts(job, measured, small.rules)


def test_a_start_is_found_that_leaves_no_sliver_and_its_fields_bring_it_about(small):
    small.unit.update({"joint_min_mm": 8.0, "joint_max_mm": 12.0})
    entered = small.rectangle(4300.0, 3100.0)
    plain = entered["laying"]
    (area,) = starts(small)
    assert area.now.slivers == 13
    best = area.choices[0]
    assert "fewest slivers" in best.best_at
    assert best.slivers == 0
    assert f"{area.starts_tried} starts" in area.words
    for choice in area.choices:
        changed = {**plain, **dict(choice.fields)}
        small.document["areas"][0]["laying"] = changed
        job, measured = small.surveyed()
        laid = lay(job, measured, small.rules).areas[0]
        assert (laid.cut, laid.slivers, laid.units_with_offcuts) == (
            choice.cut,
            choice.slivers,
            choice.units_with_offcuts,
        )
        small.document["areas"][0]["laying"] = plain
    assert starts(small) == (area,)


def test_an_area_that_fits_keeps_its_start(small):
    small.rectangle(5 * 610.0 - 10.0, 3 * 610.0 - 10.0)
    (area,) = starts(small)
    assert area.choices[0].fields == ()
    assert area.choices[0].cut == 0
    assert area.choices[0].smallest_mm is None
    assert "saves more than 0 slivers, 0 cut pieces or 0 units" in area.words


def test_the_search_keeps_a_border_and_starts_the_field_inside_it(small):
    small.rectangle(4300.0, 3100.0, border={"kind": "stretcher"})
    (area,) = starts(small)
    assert area.choices[0].slivers <= area.now.slivers
    assert {name for choice in area.choices for name, _ in choice.fields} <= {
        "turn_deg",
        "joint_mm",
        "start_corner",
        "shift_along_mm",
        "shift_across_mm",
        "border.courses",
        "border.stretch_joints",
    }


def test_joints_that_would_open_in_a_woven_pattern_are_not_tried(small):
    small.document["units"].append(
        {**small.unit, "name": "Block", "kind": "block", "length_mm": 200.0, "width_mm": 100.0, "kg_each": 1.85}
        | {"joint_min_mm": 2.0, "joint_max_mm": 5.0}
    )
    small.rectangle(1730.0, 1210.0, unit="Block", pattern="herringbone", joint_mm=2.5)
    (area,) = starts(small)
    # three millimetres would open joints of six at the ends
    assert area.joints_tried == 2
    for choice in area.choices:
        assert dict(choice.fields).get("joint_mm", 2.5) in {2.0, 2.5}
