"""Which items of two lists are the same ones, and a list that stands as it is after each operation."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright.job.operations._items import key_of, selector_of, similar, with_nth
from pavewright.job.operations._values import same

if TYPE_CHECKING:
    from collections.abc import Hashable, Sequence

_LOOK_AHEAD = 8
"""So many items are looked at for one that was changed."""


@dataclass(frozen=True, slots=True)
class Matched:
    """Items of the earlier list that are still there.

    Attributes:
        place_of: Place in the later list by place in the earlier one.
    """

    place_of: dict[int, int]


def matched(name: str, before: list[Any], after: list[Any]) -> Matched:
    """Match what stands alike at both ends, then by what makes items known, and what is left by likeness."""
    first, last = _alike_at_both_ends(before, after)
    found = {index: index for index in range(first)}
    found |= {len(before) - back: len(after) - back for back in range(1, last + 1)}
    places: dict[Hashable, list[int]] = {}
    for index in range(len(before) - last - 1, first - 1, -1):
        places.setdefault(key_of(name, before[index]), []).append(index)
    fresh: list[int] = []
    for place in range(first, len(after) - last):
        equal = places.get(key_of(name, after[place]))
        if equal:
            found[equal.pop()] = place
        else:
            fresh.append(place)
    gone = [index for index in range(len(before)) if index not in found]
    for place in fresh:
        for ahead in range(min(_LOOK_AHEAD, len(gone))):
            if similar(before[gone[ahead]], after[place]):
                found[gone.pop(ahead)] = place
                break
    return Matched(found)


def _alike_at_both_ends(before: list[Any], after: list[Any]) -> tuple[int, int]:
    """Return how many items at the front and at the end of two lists are the same."""
    most = min(len(before), len(after))
    first = next((place for place in range(most) if not same(before[place], after[place])), most)
    most -= first
    last = next((back for back in range(most) if not same(before[-1 - back], after[-1 - back])), most)
    return first, last


def staying(order: Sequence[int]) -> set[int]:
    """Return the longest run of values that rise, which can stay where they are while the others move."""
    ends: list[int] = []
    upto: list[int] = []
    for value in order:
        rank = bisect_left(ends, value)
        ends[rank : rank + 1] = [value]
        upto.append(rank)
    found: set[int] = set()
    rank = len(ends) - 1
    for value, here in zip(reversed(order), reversed(upto), strict=True):
        if here == rank:
            found.add(value)
            rank -= 1
    return found


class Standing:
    """A list of items as it stands after the operations so far, with how many are known by the same."""

    def __init__(self, name: str, items: list[Any], elsewhere: frozenset[str]) -> None:
        """Copy the list; ``elsewhere`` are names that another list gives to the same kind of thing."""
        self.name, self._elsewhere = name, elsewhere
        self.items = list(items)
        self._keys = [key_of(name, item) for item in items]
        self._counts = Counter(self._keys)

    def nth(self, place: int) -> int:
        """Return how many items before this one are known by the same."""
        key = self._keys[place]
        return self._keys[:place].count(key) if self._counts[key] > 1 else 0

    def among_equals(self, place: int) -> dict[str, Any]:
        """Return what an operation says of an item that stands beside others known by the same; nothing of any other."""
        item = self.items[place]
        named_twice = bool(self._elsewhere) and isinstance(item, dict) and item.get("name") in self._elsewhere
        if self._counts[self._keys[place]] == 1 and not named_twice:
            return {}
        return with_nth({"beside": True}, self.nth(place))

    def selector(self, place: int) -> dict[str, Any]:
        """Return what makes the item at a place known."""
        return with_nth(selector_of(self.name, self.items[place]), self.nth(place))

    def selector_before(self, place: int) -> dict[str, Any] | None:
        """Return what makes the item before a place known; None at the front."""
        return self.selector(place - 1) if place else None

    def put(self, place: int, item: Any) -> None:  # noqa: ANN401 - any JSON value
        """Let another item stand at a place."""
        self._counts[self._keys[place]] -= 1
        self.items[place] = item
        self._keys[place] = key_of(self.name, item)
        self._counts[self._keys[place]] += 1

    def remove(self, place: int) -> Any:  # noqa: ANN401 - any JSON value
        """Take the item at a place out and return it."""
        self._counts[self._keys.pop(place)] -= 1
        return self.items.pop(place)

    def insert(self, place: int, item: Any) -> int:  # noqa: ANN401 - any JSON value
        """Put an item at a place and return how many before it are known by the same."""
        key = key_of(self.name, item)
        self.items.insert(place, item)
        self._keys.insert(place, key)
        self._counts[key] += 1
        return self.nth(place)
