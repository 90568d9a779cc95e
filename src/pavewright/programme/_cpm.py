"""The critical path of a network: earliest and latest times, total and free float."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

TINY = 1e-9
"""Times that differ by less are the same."""


class LoopError(ValueError):
    """Activities wait for each other in a ring."""


@dataclass(frozen=True, slots=True)
class Timed:
    """One activity of a network with its times.

    Attributes:
        early_start: Earliest start. [unit of the lengths]
        early_finish: Earliest finish. [unit of the lengths]
        late_start: Latest start that keeps the end. [unit of the lengths]
        late_finish: Latest finish that keeps the end. [unit of the lengths]
        total_float: How much later it may start and the end is kept. [unit of the lengths]
        free_float: How much later it may finish and nothing after it starts later. [unit of the lengths]
    """

    early_start: float
    early_finish: float
    late_start: float
    late_finish: float
    total_float: float
    free_float: float

    @property
    def critical(self) -> bool:
        """Whether a delay of it delays the end."""
        return self.total_float <= TINY * max(1.0, self.late_finish)


def in_order(after: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """Return activities so that each stands behind those that it waits for, else in their own order.

    Args:
        after: For each activity the places of those that it waits for, from 0.

    Raises:
        LoopError: some wait for each other in a ring.
    """
    left = [len(set(each)) for each in after]
    followers: list[list[int]] = [[] for _ in after]
    for number, each in enumerate(after):
        for before in set(each):
            followers[before].append(number)
    found = [number for number, open_links in enumerate(left) if open_links == 0]
    for number in found:
        for follower in followers[number]:
            left[follower] -= 1
            if left[follower] == 0:
                found.append(follower)
    if len(found) < len(after):
        message = "activities wait for each other in a ring"
        raise LoopError(message)
    return tuple(found)


def critical_path(lengths: Sequence[float], after: Sequence[Sequence[int]]) -> tuple[Timed, ...]:
    """Return the earliest and latest times of every activity, with as much at hand as is wanted of everything.

    Args:
        lengths: How long each activity takes. [any unit of time]
        after: For each activity the places of those that it waits for, from 0.

    Raises:
        LoopError: activities wait for each other in a ring.

    Source: definition, forward and backward pass

    >>> [each.total_float for each in critical_path((12.0, 10.0, 10.0, 5.0, 3.0), ((), (), (0, 1), (2,), (2,)))]
    [0.0, 2.0, 0.0, 0.0, 2.0]
    """
    order = in_order(after)
    early = [0.0] * len(lengths)
    for number in order:
        early[number] = max((early[each] + lengths[each] for each in after[number]), default=0.0)
    end = max((begin + length for begin, length in zip(early, lengths, strict=True)), default=0.0)
    late_finish = [end] * len(lengths)
    next_early = [end] * len(lengths)
    for number in reversed(order):
        for before in after[number]:
            late_finish[before] = min(late_finish[before], late_finish[number] - lengths[number])
            next_early[before] = min(next_early[before], early[number])
    return tuple(
        Timed(
            begin,
            begin + length,
            latest - length,
            latest,
            max(latest - length - begin, 0.0),
            max(following - begin - length, 0.0),
        )
        for begin, length, latest, following in zip(early, lengths, late_finish, next_early, strict=True)
    )
