"""Which reading was taken at which place: by where it lies, since a plan that changes gives its labels anew."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from pavewright.as_laid import Verdict, together

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from pavewright.hold_points._types import HoldPlace, PlaceRead

SAME_PLACE_MM = 100.0
"""A reading within this of a planned place is a reading of it: a choice of ours, about the foot of a staff. [mm]"""


def readings_at(place: HoldPlace, read: Iterable[PlaceRead]) -> Iterator[PlaceRead]:
    """Give what was read at a place, whatever it was called when it was read."""
    for each in read:
        if hypot(each.at[0] - place.at[0], each.at[1] - place.at[1]) <= SAME_PLACE_MM:
            yield each


def over_all(places: Iterable[HoldPlace], read: Sequence[PlaceRead]) -> Verdict | None:
    """Return the verdict over all places: a pass only where every planned place was read."""
    decided = [each for each in read if each.verdict is not None]
    if not decided:
        return None
    found = together([each.verdict for each in decided if each.verdict is not None])
    left = [place for place in places if not any(readings_at(place, decided))]
    return Verdict.INCONCLUSIVE if found is Verdict.PASSES and left else found
