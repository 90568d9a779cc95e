"""The range of the cement in mortar reaches to what printed tables want for the same mix."""

from __future__ import annotations

import pytest

from pavewright import rulebook
from pavewright.quantities._mixes import by_dry_volume
from pavewright.quantities._printed_mixes import cement_spread
from pavewright.rules import Status

RULES = rulebook.load("elsewhere")
FACTOR = RULES.figure("quantities.mortar_dry_factor")
CEMENT = RULES.value("quantities.cement_kg_per_m3")


@pytest.mark.parametrize(
    ("parts", "printed_kg"),
    [(3.0, (505.0, 510.0)), (4.0, (380.0, 395.0)), (5.0, (310.0,)), (6.0, (250.0, 285.0)), (8.0, (220.0,))],
)
def test_printed_cement_lies_in_the_range(parts, printed_kg):
    ours = by_dry_volume(1.0, parts, 0.0, FACTOR.value, CEMENT).cement_kg
    (low, high), cells = cement_spread(parts, ours, FACTOR, RULES.table("quantities.mortar_cement"))
    assert all(low * ours - 1e-9 <= each <= high * ours + 1e-9 for each in printed_kg)
    assert low <= 1.0 <= high
    assert cells
    assert all(each.status is Status.READ for each in cells)


def test_past_the_printed_mixes_only_the_factor_speaks():
    (low, high), cells = cement_spread(10.0, 150.0, FACTOR, RULES.table("quantities.mortar_cement"))
    assert (low, high) == (FACTOR.low / FACTOR.value, FACTOR.high / FACTOR.value)
    assert cells == ()
