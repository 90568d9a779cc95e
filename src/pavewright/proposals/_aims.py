"""What matters, and which plan is at least as good as another in it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.proposals._aim import Aim
from pavewright.proposals._figures import Amount, ClearanceKind

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Sequence

    from pavewright.proposals._figures import Figures


CARBON_STEP_KG = 10.0
"""Carbon is compared in steps of so much: less vanishes in what the factors do not know. [kg]"""


def at_least_as_good(aim: Aim, one: Figures, other: Figures) -> bool:
    """Return whether a plan is certainly at least as good as another in an aim.

    What is not known is a class of its own: it is at least as good as what is not known either, and as nothing else.
    What a price or a carbon leaves out has to be no more of the same things; only then is the smaller figure the
    smaller price, whatever the missing ones turn out to be.

    Args:
        aim: What matters.
        one: What the plan comes to.
        other: What the other one comes to.
    """
    return _ORDERS[aim](one, other)


def beats(one: Figures, other: Figures, aims: Collection[Aim]) -> bool:
    """Return whether a plan is at least as good as another in all of some aims and in stops, and better in one.

    Args:
        one: What the plan comes to.
        other: What the other one comes to.
        aims: What matters.
    """
    return _level(one, other, aims) and not _level(other, one, aims)


def is_level(one: Figures, other: Figures, aims: Collection[Aim]) -> bool:
    """Return whether two plans are as good as each other in all of some aims and in stops."""
    return _level(one, other, aims) and _level(other, one, aims)


def front_of(found: Sequence[Figures], aims: Collection[Aim]) -> tuple[int, ...]:
    """Return the places of the plans that no other one beats; of plans that are level, the first.

    Args:
        found: What the plans come to, in the order in which they are preferred where they are level.
        aims: What matters.
    """
    kept: list[int] = []
    for place, one in enumerate(found):
        if any(_level(found[other], one, aims) for other in kept):
            continue  # an earlier one is at least as good in everything
        kept = [other for other in kept if not _level(one, found[other], aims)]
        kept.append(place)
    return tuple(kept)


def no_more_stops(one: Figures, other: Figures) -> bool:
    """Return whether a plan has no kind of stop more often than another."""
    return one.stops_by_code <= other.stops_by_code


def _level(one: Figures, other: Figures, aims: Iterable[Aim]) -> bool:
    if not no_more_stops(one, other) or one.unlayable > other.unlayable:
        return False
    return all(at_least_as_good(aim, one, other) for aim in aims)


def _price(one: Figures, other: Figures) -> bool:
    return _no_more(one.price_minor, other.price_minor) and _leaves_out_no_more(one.price_gaps, other.price_gaps)


def _cuts(one: Figures, other: Figures) -> bool:
    return _no_more(one.cut, other.cut)


def _days(one: Figures, other: Figures) -> bool:
    return _no_more(one.days, other.days)


def _carbon(one: Figures, other: Figures) -> bool:
    if one.carbon is None or other.carbon is None:
        return one.carbon is other.carbon
    every = (
        (one.carbon.low, other.carbon.low),
        (one.carbon.likely, other.carbon.likely),
        (one.carbon.high, other.carbon.high),
    )
    no_more = all(round(mine / CARBON_STEP_KG) <= round(theirs / CARBON_STEP_KG) for mine, theirs in every)
    mine, theirs = _in_steps(one.carbon_gaps), _in_steps(other.carbon_gaps)
    return no_more and _leaves_out_no_more(mine, theirs)


def _in_steps(found: Iterable[Amount]) -> list[Amount]:
    """Return amounts without a factor in steps of a tenth: nobody knows their carbon anything like as well."""
    return [
        Amount(each.key, float(round(math.log(each.net) / math.log(_TENTH))) + _OFF if each.net else each.net)
        for each in found
    ]


_TENTH = 1.1
_OFF = 1e3
"""Steps of amounts below one count down from here, so that they stay above nothing."""


def _clearance(one: Figures, other: Figures) -> bool:
    mine, theirs = one.clearance, other.clearance
    if mine.kind is not theirs.kind:
        return False
    return mine.kind is not ClearanceKind.KNOWN or (mine.mm or 0.0) >= (theirs.mm or 0.0)


def _no_more(mine: int | None, theirs: int | None) -> bool:
    return mine is theirs if mine is None or theirs is None else mine <= theirs


def _leaves_out_no_more(mine: Iterable[Amount], theirs: Iterable[Amount]) -> bool:
    """Return whether all that one figure leaves out is left out of the other too, in no smaller amount."""
    left = _amounts(theirs)
    for key, (known, open_ones) in _amounts(mine).items():
        if key not in left or known > left[key][0] or open_ones > left[key][1]:
            return False
    return True


def _amounts(found: Iterable[Amount]) -> dict[str, tuple[float, int]]:
    """Return by key how much is left out, and how often nobody knows how much."""
    sums: dict[str, tuple[float, int]] = {}
    for each in found:
        known, open_ones = sums.get(each.key, (0.0, 0))
        sums[each.key] = (known, open_ones + 1) if each.net is None else (known + each.net, open_ones)
    return sums


_ORDERS: dict[Aim, Callable[[Figures, Figures], bool]] = {
    Aim.PRICE: _price,
    Aim.CUTS: _cuts,
    Aim.DAYS: _days,
    Aim.CARBON: _carbon,
    Aim.CLEARANCE: _clearance,
}
