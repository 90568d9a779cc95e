"""The cash of a plan in plain values: payments, money out, the curve and its lowest point, or why it is not known."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.cost import TaskKey
from pavewright.desk._money_rows import money_rows
from pavewright.desk._plain import plain
from pavewright.findings import Severity
from pavewright.papers import customer_money, in_writing
from pavewright.pipeline import FOR_CASH, cash_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.pipeline import PlanSoFar


@in_writing
def cash_told(made: PlanSoFar) -> dict[str, Any]:
    """Return the cash of a plan, what it counts though nobody said so, what it leaves out, and what the customer reads.

    ``cash`` is None where the price, the programme or the terms are not known; ``first`` says what to say first.
    ``money`` is None where there is no price with dates.
    """
    priced = made.with_rooms(FOR_CASH)
    money = None if priced is None else money_rows(customer_money(priced, rulebook.load(made.edition)))
    return _cash_told(made) | {"money": money}


def _cash_told(made: PlanSoFar) -> dict[str, Any]:
    first = tuple(_missing(made))
    found = None if first else cash_of(made, rulebook.load(made.edition))
    if found is None:
        return {"cash": None, "first": first or ("Nothing has a price yet: enter prices.",), "counted": (), "gaps": 0}
    gaps = 0 if made.cost is None else len(made.cost.gaps)
    told: dict[str, Any] = plain({"cash": found, "first": (), "counted": tuple(_counted(made)), "gaps": gaps})
    del told["cash"]["workings"]
    return told


def _missing(made: PlanSoFar) -> Iterator[str]:
    """Give what is to be said before there is a curve: less than a whole price would show too good a one."""
    yield from dict.fromkeys(each.words for each in made.why_not(FOR_CASH))
    if made.cost is not None:
        yield from (each.message for each in made.cost.findings if each.severity is Severity.STOP)
        if made.cost.lines and not any(isinstance(each.key, TaskKey) for each in made.cost.lines):
            yield "Say what an hour of labour costs: nothing of the work is in the price."
    if not made.job.terms.stages:
        yield "Say when the customer pays: enter stage payments under Terms."


def _counted(made: PlanSoFar) -> Iterator[str]:
    """Give what is counted though nobody said so."""
    terms = made.job.terms
    if terms.days_to_pay is None:
        yield "How long the customer takes to pay is not stated: payments are counted as paid when they fall due."
    if terms.supplier_days is None:
        yield "How soon suppliers are paid is not stated: they are counted as paid on the day of the delivery."
    if terms.retention_percent is None:
        yield "No retention is stated: none is counted."
    if terms.reclaims_tax is None:
        yield (
            "Whether the firm reclaims tax on what it buys is not stated: that tax is not counted, and the lowest "
            "point may be deeper."
        )
