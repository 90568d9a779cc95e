"""Activities under limited people and plant: a list schedule, and lengths below which none can go."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.programme._cpm import critical_path, in_order

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, slots=True)
class Activity:
    """Work that takes whole units of time and a share of what is limited.

    Attributes:
        length: How long it takes. [whole units of time]
        after: Places of those that it waits for, from 0.
        uses: How much of each limited thing it takes while it lasts.
        release: It does not begin before. [whole units of time]
        ready_at: For each start the time from which what waits for it may begin, where that is not its end: a wait that
            runs on through nights. Empty where it is its end. [whole units of time]
    """

    length: int
    after: tuple[int, ...]
    uses: tuple[int, ...]
    release: int = 0
    ready_at: tuple[int, ...] = ()

    def ready(self, start: int) -> int:
        """Return from when what waits for it may begin."""
        return self.ready_at[min(start, len(self.ready_at) - 1)] if self.ready_at else start + self.length


@dataclass(frozen=True, slots=True)
class LimitedSchedule:
    """Starts under limits, and how good they are.

    Attributes:
        starts: Start of each activity. [whole units of time]
        length: From the first start to the last finish.
        bound: No schedule is shorter than this.
    """

    starts: tuple[int, ...]
    length: int
    bound: int

    @property
    def proven(self) -> bool:
        """Whether no schedule is shorter."""
        return self.length == self.bound


def path_bound(activities: Sequence[Activity]) -> int:
    """Return the length of the longest chain: no schedule is shorter, whatever is at hand."""
    timed = critical_path([float(each.length) for each in activities], [each.after for each in activities])
    return round(max((each.early_finish for each in timed), default=0.0))


def work_bound(activities: Sequence[Activity], room: Sequence[int]) -> int:
    """Return the work on the scarcest thing over how much of it there is, rounded up: no schedule is shorter."""
    return max(
        (
            -(-sum(each.length * each.uses[place] for each in activities) // limit)
            for place, limit in enumerate(room)
            if limit
        ),
        default=0,
    )


def list_schedule(activities: Sequence[Activity], room: Sequence[int]) -> LimitedSchedule:
    """Return the shortest of three list schedules: most work behind it first, latest start first, as listed.

    Args:
        activities: What is to be done; none takes more of anything than there is.
        room: How much there is of each limited thing.

    Source: definition, serial schedule of a list
    """
    timed = critical_path([float(each.length) for each in activities], [each.after for each in activities])
    lists = (
        sorted(range(len(activities)), key=lambda number: (timed[number].late_start, number)),
        sorted(range(len(activities)), key=lambda number: (timed[number].late_finish, number)),
        list(in_order([each.after for each in activities])),
    )
    tried = [placed_by_list(activities, room, each) for each in lists]
    lengths = [_length(activities, starts) for starts in tried]
    best = min(range(len(tried)), key=lambda number: (lengths[number], number))
    bound = max(path_bound(activities), work_bound(activities, room))
    return LimitedSchedule(tried[best], lengths[best], bound)


def _length(activities: Sequence[Activity], starts: Sequence[int]) -> int:
    return max((start + each.length for start, each in zip(starts, activities, strict=True)), default=0)


def placed_by_list(activities: Sequence[Activity], room: Sequence[int], order: Sequence[int]) -> tuple[int, ...]:
    """Return starts: the first activity of the list that may be placed goes to its earliest place, and so on."""
    taken: list[list[int]] = []
    starts: dict[int, int] = {}
    waiting = list(order)
    while waiting:
        number = next(each for each in waiting if all(before in starts for before in activities[each].after))
        waiting.remove(number)
        one = activities[number]
        start = max((starts[before] + activities[before].length for before in one.after), default=0)
        while not _fits(one, start, taken, room):
            start += 1
        starts[number] = start
        while len(taken) < start + one.length:
            taken.append([0] * len(room))
        for slot in range(start, start + one.length):
            taken[slot] = [had + more for had, more in zip(taken[slot], one.uses, strict=True)]
    return tuple(starts[number] for number in range(len(activities)))


def _fits(one: Activity, start: int, taken: Sequence[Sequence[int]], room: Sequence[int]) -> bool:
    return all(
        had + more <= limit
        for slot in range(start, min(start + one.length, len(taken)))
        for had, more, limit in zip(taken[slot], one.uses, room, strict=True)
    )
