"""Orders round up once, keep the supplier's minimum, and cost no less for more."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from pavewright.cost._money import to_minor
from pavewright.quantities._amounts import packs_ordered, whole

amounts = st.floats(0.0, 1e5, allow_nan=False)
packs = st.floats(0.01, 1000.0, allow_nan=False)
fewest = st.none() | st.integers(1, 500)
SLACK = 1e-8
"""A need this little over whole packs is whole packs: the sum before it is not exact."""


@given(amounts, packs, fewest)
def test_an_order_holds_what_is_needed_and_keeps_the_minimum(need, pack, least):
    ordered = packs_ordered(need, pack, least)
    assert ordered * pack >= need - SLACK * max(pack, need)
    if need > 0.0:
        assert ordered >= (least or 0)
    else:
        assert ordered == 0


@given(amounts, packs)
def test_an_order_without_a_minimum_is_less_than_a_pack_over_the_need(need, pack):
    ordered = packs_ordered(need, pack)
    assert ordered * pack - need < pack * (1.0 + SLACK) or (ordered == 1 and need <= pack)


@given(amounts, amounts, packs, fewest, st.integers(0, 1_000_000))
def test_more_is_needed_and_no_less_is_paid(one, other, pack, least, price):
    low, high = sorted((one, other))
    assert to_minor(packs_ordered(low, pack, least) * price) <= to_minor(packs_ordered(high, pack, least) * price)


@given(st.lists(amounts, min_size=1, max_size=8), packs)
def test_the_whole_is_rounded_up_once(needs, pack):
    """Example 3e: 2.4 and 3.4 packs are 6, not 3 and 4: rounded once, an order is never more than use by use."""
    together = packs_ordered(sum(needs), pack)
    assert together <= sum(packs_ordered(need, pack) for need in needs) + (1 if sum(needs) == 0.0 else 0)
    assert packs_ordered(2.4 + 3.4, 1.0) == 6 < whole(2.4) + whole(3.4)
