"""What a customer is shown behind his link, and the PDF that he is handed: made once and frozen.

It is built up field by field from what a customer may read, all of it in words; no cost, margin, supplier or note of
the contractor is there to slip in.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from pavewright import drawing, rulebook
from pavewright.cost import RangeKind
from pavewright.desk._money_rows import money_rows
from pavewright.job import writing_of
from pavewright.papers import CustomerPapers, customer_papers, in_words_of, in_writing
from pavewright.papers.quotation import CAUTIONS, quotation_facts
from pavewright.pipeline import NotTogether, days_words, taken_together
from pavewright.units import minor_to_text
from pavewright.writing import day_text

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Iterator

    from pavewright.firm import FirmBook
    from pavewright.papers.quotation import QuotationFacts, QuotedArea, QuotedLayer
    from pavewright.pipeline import Offered, Plan, PlanSoFar, Together


class NoQuotation(StrEnum):
    """Why no quotation can be opened to the customer."""

    NOT_WHOLE = "not_whole"
    NOT_READY = "not_ready"
    NO_PRICE = "no_price"
    TAX_NOT_KNOWN = "tax_not_known"
    NO_LAST_DAY = "no_last_day"
    OVER = "over"
    TOO_LATE = "too_late"
    ACCEPTED = "accepted"


class NoQuotationError(Exception):
    """No quotation can be opened to the customer; carries the reason and what to do, in a sentence."""

    def __init__(self, reason: NoQuotation, words: str) -> None:
        """Keep both."""
        super().__init__(words)
        self.reason = reason


@dataclass(frozen=True, slots=True)
class QuotationShown:
    """What a link opens.

    Attributes:
        expires: Last day on which it can be accepted.
        shown: What the customer reads, as plain data.
        papers: What he is handed as files.
    """

    expires: dt.date
    shown: dict[str, Any]
    papers: CustomerPapers


_DAYS_MAX = 366


@in_writing
def quotation_shown(
    made: PlanSoFar,
    today: dt.date,
    last: dt.date | None,
    firm: FirmBook | None = None,
    report: Callable[[str], None] | None = None,
) -> QuotationShown:
    """Return what a link to the quotation of a job opens.

    Args:
        made: The plan of the job.
        today: The day on which the link is made.
        last: Last day on which it can be accepted; the last day of the price where it is left out.
        firm: The book of the firm.
        report: Takes how far it is; may raise to stop the work.

    Raises:
        NoQuotationError: there is none that a customer could accept.
    """
    plan = made.whole
    if plan is None:
        raise NoQuotationError(NoQuotation.NOT_WHOLE, "This job is still being measured and has no price yet.")
    if plan.job.accepted is not None:
        said = "This job was accepted already: what changes now is agreed as a variation."
        raise NoQuotationError(NoQuotation.ACCEPTED, said)
    rules = rulebook.load(plan.edition)
    facts = quotation_facts(plan, rules, firm)
    _must_be_ready(plan, facts)
    expires = _last_day(facts, today, last)
    tell = report or (lambda _: None)
    together = taken_together(plan, rules, tell)
    tell("PDF")
    papers, shown = customer_papers(plan, rules, firm), _shown(plan, facts, together, expires, firm)
    return QuotationShown(expires, shown | {"has_notice": papers.notice is not None}, papers)


def _must_be_ready(plan: Plan, facts: QuotationFacts) -> None:
    if facts.not_ready:
        raise NoQuotationError(NoQuotation.NOT_READY, facts.not_ready)
    if not plan.cost.prime_minor or plan.cost.range_kind is RangeKind.NOT_KNOWN:
        said = "Nothing is to be accepted yet: work has no price, or nobody said what goes on the cost."
        raise NoQuotationError(NoQuotation.NO_PRICE, said)
    if facts.tax_minor is None:
        said = f"Say first what {facts.tax} is charged: a customer accepts what he has to pay."
        raise NoQuotationError(NoQuotation.TAX_NOT_KNOWN, said)


def _last_day(facts: QuotationFacts, today: dt.date, last: dt.date | None) -> dt.date:
    """Return the last day on which a quotation can be accepted: never after the price has ended."""
    holds = facts.holds_until
    found = last or holds
    if found is None:
        said = "The quotation does not say how long its price holds: pick the last day on which it can be accepted."
        raise NoQuotationError(NoQuotation.NO_LAST_DAY, said)
    if holds is not None and found > holds:
        said = f"The price holds until {day_text(holds)}: the link cannot be open for longer."
        raise NoQuotationError(NoQuotation.TOO_LATE, said)
    if found < today:
        said = f"The price held until {day_text(found)}: quote the job again with the prices of today."
        raise NoQuotationError(NoQuotation.OVER, said)
    if (found - today).days > _DAYS_MAX:
        raise NoQuotationError(NoQuotation.TOO_LATE, "Pick a last day within a year.")
    return found


def _shown(
    plan: Plan, facts: QuotationFacts, together: tuple[Together, ...], expires: dt.date, firm: FirmBook | None
) -> dict[str, Any]:
    who = facts.who
    own = [part for _, words in facts.own_words for part in words.split("\n\n") if part.strip()]
    found = {
        "title": who.title,
        "job": who.job,
        "client": who.client,
        "address": who.address,
        "contractor": who.contractor or ("" if firm is None else firm.firm.name),
        "firm_lines": [] if firm is None else list(firm.firm.lines),
        "date": day_text(who.on),
        "revision": who.revision,
        "last_day": day_text(expires),
        "invented": who.invented,
        "scope": list(facts.included),
        "areas": [_area(area) for area in facts.areas],
        "when": list(facts.when),
        "assumed": list(facts.assumed),
        "not_included": list(facts.not_included),
        "promised": list(facts.tolerances),
        "warranty": list(facts.warranty),
        "care": list(facts.care),
        "changes": list(facts.changes),
        "complaints": list(facts.complaints),
        "right_to_cancel": list(facts.right_to_cancel),
        "accepting": list(facts.accepting),
        "cautions": list(CAUTIONS),
        "money": money_rows(facts.money),
    }
    written: dict[str, Any] = in_words_of(found, frozenset(own))
    return written | {
        "own_words": own,
        "currency": who.currency,
        "region": writing_of(plan.job).region,
        "offers": [_offer(plan, number, each) for number, each in enumerate(plan.offered) if each.refused is None],
        "totals": [_total(plan, each) for each in together],
        "pictures": [{"words": said, "svg": svg} for said, svg in _pictures(plan)],
    }


def _offer(plan: Plan, number: int, each: Offered) -> dict[str, Any]:
    """Return an option that is offered, with its number in the terms: its name is never a key."""
    more = _more(plan, each.extra_minor or 0)
    return {"number": number, "name": each.name, "more": more, "days": _days(each.extra_days)}


def _days(extra: int | None) -> str:
    """Return how much longer or shorter the work takes, in words; that it is not known, where it is not."""
    return "days not known" if extra is None else days_words(extra) if extra else "no more days"


def _more(plan: Plan, extra_minor: int) -> str:
    sign = "+" if extra_minor > 0 else "−" if extra_minor < 0 else "±"
    return f"{sign}{minor_to_text(abs(extra_minor), plan.job.identity.currency)}"


def _total(plan: Plan, each: Together) -> dict[str, Any]:
    known = each.total_minor is not None
    return {
        "options": list(each.options),
        "total_minor": each.total_minor,
        "total": minor_to_text(each.total_minor or 0, plan.job.identity.currency) if known else "",
        "days": _days(each.extra_days) if each.options and known else "",
        "why_not": "" if each.refused is None else _WHY_NOT[each.refused],
    }


_NOT_SO = "These options do not go together as they stand: ask for the price of them."
_WHY_NOT = {
    NotTogether.SAME_THING: "These options are about the same thing: tick one of them.",
    NotTogether.NO_PLAN: _NOT_SO,
    NotTogether.NO_PRICE: _NOT_SO,
    NotTogether.STOPS: _NOT_SO,
}


def _pictures(plan: Plan) -> Iterator[tuple[str, str]]:
    """Give the drawings that a customer sees, with what each is."""
    yield "The paving as it will lie", drawing.to_svg(drawing.laying_plan(plan, for_customer=True))
    levels = "Finished levels, in metres above the job's own mark; arrows show which way water runs"
    yield levels, drawing.to_svg(drawing.levels_plan(plan))
    for scene in (*drawing.wall_sections(plan), *drawing.step_sections(plan)):
        yield scene.title, drawing.to_svg(scene)


def _area(area: QuotedArea) -> dict[str, Any]:
    return {
        "name": area.name,
        "size": f"{area.area_m2:.1f} m²",
        "falls": area.falls,
        "layers": [_layer(each) for each in area.layers],
        "doors": [f"{door}: step down to the paving {step}." for door, step in area.doors],
    }


def _layer(layer: QuotedLayer) -> str:
    return f"{layer.name}, {layer.thickness_mm:.0f} mm" if layer.thickness_mm else layer.name
