"""A quoted job, planned with the prices that it was quoted with and with those of today."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import repriced
from pavewright.firm import unquoted
from pavewright.pipeline._plan import plan_rooms
from pavewright.pipeline._types import Room

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.cost import Repriced
    from pavewright.firm import FirmBook
    from pavewright.job import Job
    from pavewright.rules import Rulebook

_ROOMS = (Room.COST, Room.PROGRAMME)


def reprice(
    job: Job, rules: Rulebook, book: FirmBook | None = None, report: Callable[[str], None] | None = None
) -> Repriced | None:
    """Return what the prices of today would change in a quoted job; None where either of the two makes no price.

    Args:
        job: A job that was quoted, as its document says it.
        rules: The rulebook: the edition that it keeps, for both.
        book: The firm's book of today.
        report: Takes a word before each of the two plans; may raise to stop the work.
    """
    tell = report or (lambda _: None)
    tell("the price as quoted")
    then = plan_rooms(job, rules, _ROOMS, book).cost
    tell("the price of today")
    now = plan_rooms(unquoted(job), rules, _ROOMS, book).cost
    return None if then is None or now is None else repriced(then, now)
