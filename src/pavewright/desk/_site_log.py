"""The log of a job in plain values: its days, how its tasks go, its bays, and what the firm's book may learn."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.desk._plain import plain
from pavewright.firm import learnt_outputs
from pavewright.papers import in_writing
from pavewright.site_log import bays_seen, done_by_log, own_hours, site_log

if TYPE_CHECKING:
    from pavewright.firm import FirmBook
    from pavewright.pipeline import PlanSoFar
    from pavewright.rules import Rulebook
    from pavewright.site_log import OwnHours


@in_writing
def log_told(made: PlanSoFar, book: FirmBook | None) -> dict[str, Any]:
    """Return the log of a plan.

    ``days`` with what stands in each, ``tasks`` on which hours are booked, ``bays``, ``own`` hours by kind of work with
    what the book would hold with them, ``done`` as the programme takes it, ``person_h`` and ``findings``.
    """
    rules = rulebook.load(made.edition)
    log = site_log(made.job, made.labour, made.programme, rules)
    past = () if book is None else book.past
    own = own_hours(made.job, made.labour or (), log, past)
    areas = () if made.levels is None else made.levels.areas
    return {
        "days": [
            plain({name: getattr(day, name) for name in _DAY})
            | {"logs": [each.model_dump(mode="json") for each in day.logs]}
            for day in log.days
        ],
        "tasks": [plain(each) for each in log.tasks if each.logged_h > 0.0],
        "bays": plain(bays_seen(made.job, areas)),
        "own": [_own(each, book, made, rules) for each in own],
        "done": [each.model_dump(mode="json") for each in done_by_log(made.job)],
        "person_h": log.person_h,
        "findings": plain(log.findings),
    }


_DAY = ("on", "people", "hours", "person_h", "there_h", "lost_h")


def _own(own: OwnHours, book: FirmBook | None, made: PlanSoFar, rules: Rulebook) -> dict[str, Any]:
    """Return own hours with what the book would say of that kind of work once it holds them."""
    told: dict[str, Any] = plain({name: getattr(own, name) for name in _OWN})
    told["entry"] = None if own.entry is None else own.entry.model_dump(mode="json", exclude_none=True)
    if own.entry is None:
        return told | {"learnt": None}
    past = (*(() if book is None else book.past), own.entry)
    found = next(
        each
        for each in learnt_outputs(past, rules, made.job.crew.pace)
        if (each.kind, each.pattern) == (own.kind, own.pattern)
    )
    return told | {"learnt": plain({name: getattr(found, name) for name in _LEARNT})}


_OWN = ("kind", "pattern", "words", "amount", "unit", "person_h", "hours_each", "planned_each", "why_not")
_LEARNT = ("jobs", "book_hours", "weight", "hours_each", "sd_hours")
