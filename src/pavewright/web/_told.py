"""What answers say of a job: its document, and what nobody settled yet."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any

from pavewright.desk import job_without_money, usual_writing
from pavewright.store import read_back
from pavewright.web._door import DEVICE
from pavewright.web._money_hidden import hides_money, shown_clashes
from pavewright.web._signed_in import names_of, store_of
from pavewright.web._who_asks import SIGNED_IN

if TYPE_CHECKING:
    from starlette.requests import Request

    from pavewright.store import Store

_BY_MAX = 200
"""Revisions of which it is looked who made them. [revisions]"""


def told_of(document: str) -> dict[str, Any]:
    """Return a kept document for an answer; with its fault, and what can be read of it, where it cannot be read."""
    read = read_back(document)
    if hides_money() and read.document is not None:
        return {"document": job_without_money(read.document)} | ({"fault": read.fault} if read.fault else {})
    return {"document": read.document} | ({"fault": read.fault} if read.fault else {})


def writing_of_the_firm(store: Store) -> dict[str, str]:
    """Return how the firm writes numbers, dates and measures where a job does not say."""
    return dict(_said(store.firm.book().document))


@lru_cache(maxsize=4)
def _said(book: str) -> tuple[tuple[str, str], ...]:
    return tuple(usual_writing(book).items())


def clashes_of(store: Store, job_id: str) -> list[dict[str, Any]]:
    """Return the clashes of a job that a person has to settle."""
    found = [
        {"id": one.id, "at": one.at, "rev": one.rev, "note": one.note} | one.body
        for one in store.operations.clashes(job_id)
    ]
    return shown_clashes(found)


def by_whom(request: Request, job_id: str, after: int, until: int) -> list[dict[str, Any]]:
    """Return who made the revisions between two, each once; without a name where nobody was signed in.

    Args:
        request: The request of who asks: what he made himself is his own.
        job_id: The job.
        after: The revision that he has.
        until: The last one that is asked about.
    """
    if not max(0, until - _BY_MAX) <= after < until:
        return []
    asks, device = SIGNED_IN.get(), DEVICE.get()
    own = asks.person_id if asks is not None else f"device {device.id}" if device is not None else ""
    made = [one.who for one in store_of(request).revisions(job_id) if after < one.rev <= until]
    named = names_of(request, made)
    return [{"name": named.get(each, ""), "own": bool(each) and each == own} for each in dict.fromkeys(made)]
