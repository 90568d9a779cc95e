"""What answers say of a job: its document, and what nobody settled yet."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any

from pavewright.desk import job_without_money, usual_writing
from pavewright.store import read_back
from pavewright.web._money_hidden import hides_money, shown_clashes

if TYPE_CHECKING:
    from pavewright.store import Store


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
