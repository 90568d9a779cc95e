"""The order book's part of a summary: what is kept of a job beside its document."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.desk._plain import plain
from pavewright.desk._stages import STAGES
from pavewright.order_book import book_of, state_of

if TYPE_CHECKING:
    from pavewright.order_book import DueFact, JobFacts
    from pavewright.pipeline import PlanSoFar

_OF_LINKS = "seen_on"
"""What only the links of a quotation know."""


def book_told(plan: PlanSoFar, stage: str, stops: int) -> dict[str, Any]:
    """Return what the order book keeps of a plan, as plain values.

    Args:
        plan: The plan, as far as it goes.
        stage: The stage that it has reached.
        stops: How many findings say stop.
    """
    book = book_of(plan, rulebook.load(plan.edition))
    state, _ = state_of(book.facts)
    return {
        "state": state.value,
        "by_hand": book.facts.by_hand is not None,
        "facts": _told(book.facts),
        "place": book.place,
        "people": list(book.people),
        "holds_until": plain(book.holds_until),
        "owing_minor": book.owing_minor,
        "total_minor": None if plan.cost is None else plan.cost.total_minor,
        "currency": book.currency,
        "stage": next((number for number, each in enumerate(STAGES) if each.key == stage), -1),
        "stops": stops,
        "dues": [_due(fact) for fact in book.dues],
        "weeks": plain(book.weeks),
        "gaps": plain(book.gaps),
    }


def _told(facts: JobFacts) -> dict[str, Any]:
    told: dict[str, Any] = plain(facts)
    return {name: value for name, value in told.items() if value not in {None, False}}


def _due(fact: DueFact) -> dict[str, Any]:
    told: dict[str, Any] = plain(fact)
    return {name: value for name, value in told.items() if name != _OF_LINKS}
