"""Every pattern has its row, and its way of being laid."""

from __future__ import annotations

import pytest

from pavewright.job import Pattern, Taken
from pavewright.laying.patterns._layout import PATTERNS


@pytest.mark.parametrize("pattern", Pattern)
def test_every_pattern_has_its_row_and_its_generator(pattern):
    assert pattern.traits.words
    # mixed sizes are laid by their pack, all others by a generator
    assert (pattern in PATTERNS) is (pattern is not Pattern.MIXED)


def test_a_pattern_that_weaves_lies_square_both_ways_and_takes_one_unit():
    for pattern in Pattern:
        if pattern.traits.woven:
            assert pattern.traits.turned_same_deg == 90.0
            assert pattern.traits.taken is Taken.ONE
