"""Which reading was taken at which place: by where it lies, since a plan that changes gives its labels anew."""

from __future__ import annotations

from dataclasses import replace
from math import hypot
from typing import TYPE_CHECKING

from pavewright.as_laid import Verdict, together

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from pavewright.hold_points._types import HoldPlace, PlaceRead


def placed(read: Iterable[PlaceRead], places: Sequence[HoldPlace], near_mm: float) -> tuple[PlaceRead, ...]:
    """Return readings with the planned place that each is one of: the nearest, where one is near enough.

    Args:
        read: The readings, whatever their places were called when they were read.
        places: The places that are planned.
        near_mm: How near to a place a reading is one of it. [mm]
    """
    found = []
    for each in read:
        away = [(hypot(each.at[0] - one.at[0], each.at[1] - one.at[1]), number) for number, one in enumerate(places)]
        nearest = min(away, default=(near_mm + 1.0, 0))
        found.append(replace(each, place=nearest[1] if nearest[0] <= near_mm else None))
    return tuple(found)


def over_all(places: Sequence[HoldPlace], read: Iterable[PlaceRead]) -> Verdict | None:
    """Return the verdict over all places: a pass only where every planned place was read."""
    decided = [(each.verdict, each.place) for each in read if each.verdict is not None]
    if not decided:
        return None
    found = together([verdict for verdict, _ in decided])
    left = set(range(len(places))) - {place for _, place in decided}
    return Verdict.INCONCLUSIVE if found is Verdict.PASSES and left else found
