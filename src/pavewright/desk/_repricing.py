"""Quoting a job, and what re-pricing a quoted one changes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright import firm
from pavewright.desk._read import read_firm, read_job
from pavewright.job import Fault, JobInvalid, load_document
from pavewright.job.operations import apply
from pavewright.pipeline import Room, plan_rooms, reprice

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable

    from pavewright.cost import CostLine, Repriced
    from pavewright.job.operations import Operation


def quote_operations(document: str | bytes, book: str | bytes | None, on: dt.date) -> list[Operation]:
    """Return the operations that put into a job what it is quoted with on a day.

    Raises:
        JobInvalid: the job or the book cannot be read, or the job has no price that could be quoted.
    """
    job, rules = read_job(document)
    known = read_firm(book)
    made = plan_rooms(firm.unquoted(job), rules, (Room.COST, Room.PROGRAMME), known)
    if made.cost is None:
        missing = tuple(Fault(each.path, each.words) for each in made.why_not((Room.COST,)))
        raise JobInvalid(made.faults or missing or (Fault("rates", "There is no price to quote yet."),))
    items = made.quantities.items if made.quantities is not None else ()
    used = frozenset(item.key.catalogue for item in items if item.key.catalogue)
    return firm.quoted(load_document(document), known, on, rules, used)


def quoted_document(document: str | bytes, book: str | bytes | None, on: dt.date) -> dict[str, Any]:
    """Return a job document with what it is quoted with on a day.

    Raises:
        JobInvalid: as ``quote_operations`` does.
    """
    found: dict[str, Any] = apply(load_document(document), quote_operations(document, book, on)).document
    return found


def find_repricing(
    document: str | bytes, book: str | bytes | None, report: Callable[[str], None] | None = None
) -> Repriced:
    """Return what the prices of today would change in a quoted job.

    Raises:
        JobInvalid: the job or the book cannot be read, the job was not quoted, or either of the two has no price.
    """
    job, rules = read_job(document)
    if job.quoted is None:
        message = "This job was not quoted yet: it has the prices of today."
        raise JobInvalid((Fault("quoted", message),))
    found = reprice(job, rules, read_firm(book), report)
    if found is None:
        message = "There is no price to compare: with the quoted prices or with those of today something is missing."
        raise JobInvalid((Fault("rates", message),))
    return found


def repricing_told(found: Repriced) -> dict[str, Any]:
    """Return a re-pricing as plain values: lines with both sides, steps, and what is in neither."""
    return {
        "lines": [
            {
                "key": line.key.text,
                "kind": line.kind.value,
                "description": _line_of(line.new, line.old).description,
                "unit": _line_of(line.new, line.old).unit,
                "old": _side(line.old),
                "new": _side(line.new),
                "extra_minor": line.extra_minor,
            }
            for line in found.lines
        ],
        "steps": [
            {"step": each.step.value, "old_minor": each.old_minor, "new_minor": each.new_minor} for each in found.steps
        ],
        "gaps_old": found.gaps_old,
        "gaps_new": found.gaps_new,
    }


def _line_of(new: CostLine | None, old: CostLine | None) -> CostLine:
    line = new or old
    assert line is not None  # noqa: S101 - a change has one side at least
    return line


def _side(line: CostLine | None) -> dict[str, Any] | None:
    if line is None:
        return None
    return {"quantity": line.quantity, "rate_minor": line.rate_minor, "amount_minor": line.amount_minor}
