"""Packs of mixed sizes: filled bays by a check apart from the search, and refusals that name the rule in the way."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright import rulebook
from pavewright.laying._figures import mix_figures
from pavewright.laying.mixed import (
    MixedLayout,
    MixedRefusal,
    MixedUnit,
    MixRule,
    MixRules,
    Pack,
    PackSize,
    SoldSize,
    fill_bay,
    mix_faults,
    mix_rules,
    pack_of,
)
from pavewright.laying.mixed._bays import bays_of
from pavewright.laying.mixed._check import longest_joint
from pavewright.laying.mixed._search import Task, every_way

RULES = mix_figures(rulebook.load("england"))
SIZES = (
    SoldSize("large", 890.0, 590.0, 12),
    SoldSize("square", 590.0, 590.0, 12),
    SoldSize("oblong", 590.0, 290.0, 16),
    SoldSize("small", 290.0, 290.0, 16),
)
PACK = pack_of(SIZES, 300.0, 10.0, 15.12, RULES)
assert isinstance(PACK, Pack)
SPREAD = mix_rules(PACK, RULES).even_spread
LOOSE = MixRules(0, oblongs_apart=False, smallest_apart=False, no_four_way=False)


def full(rows, columns):
    return np.ones((rows, columns), dtype=bool)


def faults(bay, layout, rules=None, had=None, pack=PACK):
    had = had or tuple(a + b for a, b in zip(layout.used, layout.left, strict=True))
    return mix_faults(bay, pack, rules or mix_rules(pack, RULES), layout.placed, had)


def test_sixty_square_metres_take_every_unit_of_four_packs():
    layout = fill_bay(full(28, 24), PACK, mix_rules(PACK, RULES), mix=0)
    assert isinstance(layout, MixedLayout)
    assert layout.used == (48, 48, 64, 64)
    assert layout.left == (0, 0, 0, 0)
    assert layout.longest_joint_cells <= 10
    assert faults(full(28, 24), layout) == ()


def test_the_same_mix_gives_the_same_layout_and_another_mix_another():
    bay, rules = full(14, 12), mix_rules(PACK, RULES)
    assert fill_bay(bay, PACK, rules, mix=3) == fill_bay(bay, PACK, rules, mix=3)
    assert fill_bay(bay, PACK, rules, mix=3).placed != fill_bay(bay, PACK, rules, mix=4).placed


@settings(max_examples=25, deadline=None)
@given(st.integers(6, 24), st.integers(6, 24), st.integers(0, 9999), st.integers(5, 12), st.integers(0, 5))
def test_a_layout_keeps_every_rule_and_a_refusal_says_what_to_relax(rows, columns, mix, longest, hole):
    bay = full(rows, columns)
    bay[2 : 2 + min(hole, rows - 4), 2 : 2 + min(hole, columns - 4)] = False
    rules = replace(mix_rules(PACK, RULES), longest_joint_cells=longest)
    found = fill_bay(bay, PACK, rules, mix=mix)
    if isinstance(found, MixedLayout):
        assert faults(bay, found, rules) == ()
        assert found.longest_joint_cells <= longest
        assert all(count >= 0 for count in found.left)
    else:
        assert found.words.endswith(".")
        assert found.relax is None or found.relax in MixRule


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 9999), st.integers(5, 40))
def test_what_is_down_stays_and_the_rest_comes_from_the_yard(mix, many):
    bay, rules = full(14, 12), mix_rules(PACK, RULES)
    before = fill_bay(bay, PACK, rules, mix=mix)
    down = before.placed[:many]
    laid = Counter(unit.size for unit in down)
    yard = tuple(count - laid[size] for size, count in enumerate(before.used))
    after = fill_bay(bay, PACK, rules, mix=mix + 1, yard=yard, down=down)
    assert isinstance(after, MixedLayout)
    assert set(down) <= set(after.placed)
    assert after.used == yard
    assert faults(bay, after, rules, had=before.used) == ()


def test_a_broken_unit_is_made_good_from_what_is_left():
    bay, rules = full(14, 12), mix_rules(PACK, RULES)
    before = fill_bay(bay, PACK, rules, mix=0)
    down = before.placed[:30]
    laid = Counter(unit.size for unit in down)
    rest = [count - laid[size] for size, count in enumerate(PACK.counts)]
    after = fill_bay(bay, PACK, rules, mix=0, yard=(rest[0] - 1, rest[1] + 3, rest[2], rest[3]), down=down)
    assert isinstance(after, MixedLayout)
    assert after.left != (0, 0, 0, 0)


def test_a_large_area_is_filled_in_bays():
    bay = full(42, 48)
    layout = fill_bay(bay, PACK, mix_rules(PACK, RULES), mix=0)
    assert isinstance(layout, MixedLayout)
    assert layout.bays == 2
    assert layout.used == tuple(12 * count for count in PACK.counts)
    assert sum(unit.deep_cells * unit.wide_cells for unit in layout.placed) == 42 * 48
    for part in bays_of(bay, 1111):
        inside = tuple(unit for unit in layout.placed if part[unit.row, unit.column])
        rules = replace(mix_rules(PACK, RULES), even_spread=None)
        assert mix_faults(part, PACK, rules, inside, layout.used) == ()


def test_a_joint_that_runs_on_through_a_movement_joint_counts_in_full():
    four = tuple(MixedUnit(row, column, 0, 2, 3) for row in (0, 2) for column in (0, 3))
    assert longest_joint(four) == 6
    # the movement joint runs upright between the third and the fourth column: it is no joint of the pattern
    assert longest_joint(four, ((0, 3, 4, 3),)) == 6
    assert longest_joint(four[:2], ((0, 3, 2, 3),)) == 0


@pytest.mark.parametrize("mix", range(3))
def test_no_joint_runs_on_too_far_through_a_movement_joint(mix):
    layout = fill_bay(full(28, 48), PACK, mix_rules(PACK, RULES), mix=mix)
    assert isinstance(layout, MixedLayout)
    assert layout.bays == 2
    assert layout.longest_joint_cells == longest_joint(layout.placed, layout.bay_joints) <= 10


def test_bays_share_an_area_out():
    area = full(50, 30)
    area[10:20, 5:] = False
    parts = bays_of(area, 300)
    assert np.array_equal(sum(part.astype(int) for part in parts), area.astype(int))
    assert max(part.sum() for part in parts) <= 300 + 30


def test_a_yard_that_is_short_is_refused_with_its_area():
    found = fill_bay(full(14, 12), PACK, mix_rules(PACK, RULES), mix=0, yard=(12, 12, 16, 10))
    assert found == MixedRefusal(
        "The units in the yard cover 0.54 m² less than is left to lay: fetch more.", MixRule.UNITS, True
    )


@pytest.mark.parametrize(
    ("rules", "rule"),
    [
        (MixRules(2, None, False, False, False), MixRule.LONGEST_JOINT),
        (MixRules(0, None, False, True, False), MixRule.SMALLEST_APART),
        (MixRules(0, None, False, False, True), MixRule.FOUR_WAY),
    ],
)
def test_a_refusal_names_the_rule_and_is_proved_where_all_ways_were_tried(rules, rule):
    small = Pack((PackSize("small", 290.0, 290.0, 9, 1, 1),), 300.0, 10.0)
    found = fill_bay(full(3, 3), small, rules, mix=0)
    assert isinstance(found, MixedRefusal)
    assert found.relax is rule
    assert found.proved
    assert found.words.startswith("There is no layout")


def test_a_refusal_names_equal_oblongs():
    oblong = Pack((PackSize("oblong", 590.0, 290.0, 2, 2, 1),), 300.0, 10.0)
    found = fill_bay(full(2, 2), oblong, replace(LOOSE, oblongs_apart=True), mix=0)
    assert isinstance(found, MixedRefusal)
    assert found.relax is MixRule.OBLONGS_APART


def test_a_bay_that_no_unit_fits_is_refused_for_good():
    square = Pack((PackSize("square", 590.0, 590.0, 12, 2, 2),), 300.0, 10.0)
    found = fill_bay(full(5, 4), square, LOOSE, mix=0, yard=(12,))
    assert isinstance(found, MixedRefusal)
    assert found.relax is None
    assert "change the bay or the pack" in found.words


def test_units_that_are_down_wrongly_are_refused():
    rules = mix_rules(PACK, RULES)
    beyond = MixedUnit(13, 0, 1, 2, 2)
    assert "row 14" in fill_bay(full(14, 12), PACK, rules, mix=0, down=(beyond,)).words
    twice = (MixedUnit(0, 0, 1, 2, 2), MixedUnit(1, 1, 1, 2, 2))
    assert "same cells" in fill_bay(full(14, 12), PACK, rules, mix=0, down=twice).words
    assert "Give a bay" in fill_bay(full(14, 12), PACK, rules, mix=0, yard=(1, 2)).words


def exists(bay, pack, rules, yard):
    """Return whether any layout keeps the rules, by trying all of them."""
    cells = [(int(r), int(c)) for r, c in np.argwhere(bay)]

    def tried(taken, placed, left):
        free = next((cell for cell in cells if cell not in taken), None)
        if free is None:
            return mix_faults(bay, pack, rules, placed, yard) == ()
        for number, size in enumerate(pack.sizes):
            if not left[number]:
                continue
            sides = {(size.length_cells, size.width_cells), (size.width_cells, size.length_cells)}
            for deep, wide in sorted(sides):
                block = set(product(range(free[0], free[0] + deep), range(free[1], free[1] + wide)))
                if block <= set(cells) - taken:
                    less = tuple(n - (k == number) for k, n in enumerate(left))
                    if tried(taken | block, [*placed, MixedUnit(*free, number, deep, wide)], less):
                        return True
        return False

    return tried(frozenset(), [], yard)


@settings(max_examples=60, deadline=None)
@given(
    st.integers(2, 4),
    st.integers(2, 4),
    st.tuples(*[st.integers(0, 5)] * 3),
    st.builds(MixRules, st.integers(0, 4), st.sampled_from((None, SPREAD)), *[st.booleans()] * 3),
    st.integers(0, 15),
)
def test_the_search_of_every_way_finds_a_layout_just_where_there_is_one(rows, columns, yard, rules, gone):
    pack = Pack(
        (
            PackSize("oblong", 590.0, 290.0, 1, 2, 1),
            PackSize("small", 290.0, 290.0, 1, 1, 1),
            PackSize("long", 890.0, 290.0, 1, 3, 1),
        ),
        300.0,
        10.0,
    )
    bay = full(rows, columns)
    bay[gone % rows, gone % columns] = False
    if not any(yard):
        return
    found = every_way(Task(bay, bay, pack, rules, (), yard, yard, 0))
    assert (found.placed is not None) == exists(bay, pack, rules, yard)
    assert found.proved == (found.placed is None)


def broken(unit, **changes):
    return replace(unit, **changes)


def test_the_check_finds_what_is_wrong():
    bay, rules = full(14, 12), mix_rules(PACK, RULES)
    layout = fill_bay(bay, PACK, rules, mix=0)
    one = layout.placed[0]

    def reported(placed, rules=rules, had=PACK.counts):
        return {fault.rule for fault in mix_faults(bay, PACK, rules, placed, had)}

    assert reported(layout.placed) == set()
    assert MixRule.COVER in reported(layout.placed[1:])
    assert MixRule.COVER in reported((*layout.placed, one))
    assert MixRule.COVER in reported((replace(one, row=-1), *layout.placed[1:]))
    assert MixRule.UNITS in reported((replace(one, size=(one.size + 1) % 4), *layout.placed[1:]))
    assert MixRule.UNITS in reported(layout.placed, had=(11, 12, 16, 16))
    assert MixRule.LONGEST_JOINT in reported(layout.placed, replace(rules, longest_joint_cells=2))
    grid = tuple(MixedUnit(r, c, 3, 1, 1) for r in range(14) for c in range(12))
    assert reported(grid) == {
        MixRule.UNITS,
        MixRule.LONGEST_JOINT,
        MixRule.FOUR_WAY,
        MixRule.SMALLEST_APART,
        MixRule.EVEN_SPREAD,
    }
    twins = (MixedUnit(0, 0, 2, 1, 2), MixedUnit(1, 0, 2, 1, 2))
    assert MixRule.OBLONGS_APART in reported(twins)
    assert MixRule.OBLONGS_APART in reported((MixedUnit(0, 0, 2, 2, 1), MixedUnit(0, 1, 2, 2, 1)))


def test_a_pack_that_does_not_add_up_is_refused():
    found = pack_of(SIZES, 300.0, 10.0, 16.0, RULES)
    assert isinstance(found, MixedRefusal)
    assert "15.12 m²" in found.words
    off = pack_of((SoldSize("odd", 450.0, 290.0, 4),), 300.0, 10.0, 0.0, RULES)
    assert isinstance(off, MixedRefusal)
    assert "whole number of modules" in off.words
    assert isinstance(pack_of((), 300.0, 10.0, 0.0, RULES), MixedRefusal)


def test_a_pack_on_a_module_of_150_mm_fills_its_area():
    sizes = (SoldSize("long", 740.0, 440.0, 8), SoldSize("square", 440.0, 440.0, 8), SoldSize("small", 290.0, 290.0, 6))
    pack = pack_of(sizes, 150.0, 10.0, 0.0, RULES)
    assert [(size.length_cells, size.width_cells) for size in pack.sizes] == [(5, 3), (3, 3), (2, 2)]
    assert mix_rules(pack, RULES).longest_joint_cells == 20
    assert pack.coverage_m2 == pytest.approx((8 * 15 + 8 * 9 + 6 * 4) * 0.0225)
