"""What is told, and a feed of it: numbered, so that whoever was cut off goes on where he was."""

from __future__ import annotations

import json
import secrets
from collections import deque
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from pavewright.store import Mark

_REMEMBERED = 512
"""Events that a feed remembers for whoever was cut off. [events]"""


class Kind(StrEnum):
    """What happened."""

    MADE = "made"
    CHANGED = "changed"
    MOVED = "moved"
    CLASHES = "clashes"
    GONE = "gone"
    HERE = "here"
    """Somebody came to a job or left it."""


@dataclass(frozen=True, slots=True)
class Told:
    """One event.

    Attributes:
        kind: What happened.
        job: The job.
        rev: Its revision after it; zero where the job is gone.
        number: Its number in the feed; zero where it has none and is not told again.
    """

    kind: Kind
    job: str
    rev: int
    number: int = 0


def differences(before: Mapping[str, Mark], after: Mapping[str, Mark]) -> Iterator[tuple[Kind, str, int]]:
    """Give what happened between two looks: what, to which job, and its revision now."""
    for job, mark in after.items():
        old = before.get(job)
        if old is None:
            yield Kind.MADE, job, mark.rev
            continue
        if mark == old:
            continue
        if mark.rev != old.rev:
            yield Kind.CHANGED, job, mark.rev
        if (mark.archived, mark.deleted) != (old.archived, old.deleted):
            yield Kind.MOVED, job, mark.rev
        if mark.clashes != old.clashes and mark.rev == old.rev:
            yield Kind.CLASHES, job, mark.rev
    yield from ((Kind.GONE, job, 0) for job in before.keys() - after.keys())


class Numbered:
    """The last events of one firm, each with a number."""

    def __init__(self) -> None:
        """Begin at zero; the name tells apart from numbers of another server, or of this one before it was stopped."""
        self.name = secrets.token_hex(4)
        self.last = 0
        self._events: deque[Told] = deque(maxlen=_REMEMBERED)

    def add(self, kind: Kind, job: str, rev: int) -> Told:
        """Keep an event under the next number."""
        self.last += 1
        told = Told(kind, job, rev, self.last)
        self._events.append(told)
        return told

    def id_of(self, number: int) -> str:
        """Return by what a number is named to whoever listens."""
        return f"{self.name}.{number}"

    def since(self, last_id: str) -> list[Told] | None:
        """Return what was told since an event; None where that is not known any more, and everything is to be read."""
        name, _, number = last_id.partition(".")
        if name != self.name or not (number.isascii() and number.isdecimal() and len(number) < 16):  # noqa: PLR2004
            return None
        after = int(number)
        first = self._events[0].number if self._events else self.last + 1
        if not first - 1 <= after <= self.last:
            return None
        return [each for each in self._events if each.number > after]


def written(event: str, data: dict[str, str | int], last_id: str = "") -> str:
    """Return an event as it goes over the line.

    >>> written("change", {"rev": 3}, "ab.7").splitlines()
    ['id: ab.7', 'event: change', 'data: {"rev":3}', '']
    """
    named = f"id: {last_id}\n" if last_id else ""
    return f"{named}event: {event}\ndata: {json.dumps(data, separators=(',', ':'))}\n\n"
