"""Who is where: the pages that said so within the last minute, by job. It is held by this server alone."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable

GONE_S = 60.0
"""A page that said nothing for so long is gone. [s]"""
_PAGES_MAX = 2_000
"""Pages of everybody that are known at once: beyond it the one that said nothing for longest is forgotten."""
_SHOWN = 30
"""Pages of a job that are told of at once."""


@dataclass(frozen=True, slots=True)
class Page:
    """A page that somebody has open.

    Attributes:
        person: Whose it is, as streams name him.
        name: What he is called; of a paired device its name, and nothing where this machine asks.
        stage: The key of the stage that is shown; empty where there is none.
        said_s: When it last said so. [s]
    """

    person: str
    name: str
    stage: str
    said_s: float


class Presence:
    """The open pages of every firm."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        """Begin without anybody."""
        self._clock = clock
        self._pages: dict[tuple[str, str, str, str], Page] = {}

    def say(self, firm: str, job: str, page: str, who: tuple[str, str], stage: str) -> bool:
        """Note that a page is open at a stage; return whether others should be told.

        Args:
            firm: The firm.
            job: The job.
            page: The name that the page gave itself.
            who: Whose it is, and what he is called.
            stage: What is shown.
        """
        key = (firm, job, who[0], page)
        before = self._pages.pop(key, None)
        if len(self._pages) >= _PAGES_MAX:
            del self._pages[next(iter(self._pages))]
        self._pages[key] = Page(who[0], who[1], stage, self._clock())
        return before is None or (before.stage, before.name) != (stage, who[1])

    def leave(self, firm: str, job: str, page: str, person: str) -> bool:
        """Note that a page was closed; return whether it was known."""
        return self._pages.pop((firm, job, person, page), None) is not None

    def others(self, firm: str, job: str, page: str, person: str) -> list[dict[str, Any]]:
        """Return who else has a job open: his name, the stage, and whether it is another page of the same person."""
        now = self._clock()
        found = [
            each
            for key, each in self._pages.items()
            if key[:2] == (firm, job) and key[2:] != (person, page) and now - each.said_s <= GONE_S
        ]
        found.sort(key=lambda each: (each.person == person, each.name.casefold(), each.stage))
        return [{"name": each.name, "stage": each.stage, "own": each.person == person} for each in found[:_SHOWN]]

    def sweep(self) -> set[tuple[str, str]]:
        """Forget the pages that are gone; return firm and job of each."""
        now = self._clock()
        gone = [key for key, each in self._pages.items() if now - each.said_s > GONE_S]
        for key in gone:
            del self._pages[key]
        return {key[:2] for key in gone}
