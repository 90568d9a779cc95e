"""The curve of the cash of a job: what comes in by its stages against what goes out by the terms of those paid."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.cash._codes import Code
from pavewright.cash._events import event_dates, unseen
from pavewright.cash._figures import cash_figures
from pavewright.cash._out import Paying
from pavewright.cash._payments import payments
from pavewright.cash._purchase_tax import purchase_percent, with_purchase_tax
from pavewright.cash._types import Cash, CashDay, Flow, FlowKind
from pavewright.cost import shared_out
from pavewright.findings import Finding, Severity, worded
from pavewright.job import PaymentEvent
from pavewright.sums import Working
from pavewright.writing import day_text

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Iterator

    from pavewright.cash._figures import CashFigures
    from pavewright.cash._types import Payment
    from pavewright.cost import Cost
    from pavewright.job import Job
    from pavewright.programme import Programme
    from pavewright.rules import Rulebook


def cash(job: Job, cost: Cost, programme: Programme, rules: Rulebook) -> Cash:
    """Return the payments of a job and the curve of its cash; it ends at the margin, less tax that is not reclaimed."""
    figures = cash_figures(rules)
    brought = programme.deliveries
    paid = payments(cost.total_minor, job.terms, event_dates(job.terms, programme, brought, figures))
    moved: tuple[Flow, ...] = (*_in(paid, cost), *Paying(job, cost, programme, brought).out())
    percent = purchase_percent(job.terms, rules)
    if percent is not None:
        moved = tuple(with_purchase_tax(moved, percent, figures, reclaimed=bool(job.terms.reclaims_tax)))
    flows = sorted(moved, key=lambda flow: flow.on)
    days = tuple(_days(flows))
    low = min(days, key=lambda each: each.balance_minor, default=None)
    under = low if low is not None and low.balance_minor < 0 else None
    return Cash(
        payments=paid,
        flows=tuple(flows),
        days=days,
        lowest_minor=0 if under is None else under.balance_minor,
        lowest_on=None if under is None else under.on,
        findings=(
            *_unseen(unseen(job.terms, programme, brought)),
            *_findings(job, paid, under),
            *_not_reclaimed(job, flows),
        ),
        workings=tuple(_workings(job, figures, days)),
    )


def _in(paid: Iterable[Payment], cost: Cost) -> Iterator[Flow]:
    """Give what comes in, and the tax of it, which is set aside on the day."""
    paid = [each for each in paid if each.paid_on is not None]
    taxes = shared_out(cost.tax_minor, [max(each.due_minor, 0) for each in paid])
    for each, tax in zip(paid, taxes, strict=True):
        if each.paid_on is None:
            continue
        kind = FlowKind.RETENTION if each.freed_minor and not each.gross_minor else FlowKind.PAYMENT
        yield Flow(each.paid_on, kind, each.due_minor, each.event.value)
        if tax:
            yield Flow(each.paid_on, FlowKind.TAX, -tax, "tax set aside")


def _days(flows: Iterable[Flow]) -> Iterator[CashDay]:
    come: defaultdict[dt.date, int] = defaultdict(int)
    gone: defaultdict[dt.date, int] = defaultdict(int)
    for flow in flows:
        (come if flow.amount_minor > 0 else gone)[flow.on] += abs(flow.amount_minor)
    balance = 0
    for on in sorted({*come, *gone}):
        balance += come[on] - gone[on]
        yield CashDay(on, come[on], gone[on], balance)


_WAITS_FOR = {
    PaymentEvent.MATERIALS_ON_SITE: "materials on site, and no units or base are brought to this job",
    PaymentEvent.BASE_IN: "the base, and this job lays none",
    PaymentEvent.LAID: "what is laid, and this job lays nothing",
}


def _unseen(events: Iterable[PaymentEvent]) -> Iterator[Finding]:
    for event in events:
        said = f"A payment waits for {_WAITS_FOR[event]}: nobody can ever see that it is due."
        options = worded(("Tie it to something that this job has.", "Tie it to completion."))
        yield Finding(Code.UNSEEN, Severity.STOP, "price", said, options=options)


def _findings(job: Job, paid: tuple[Payment, ...], under: CashDay | None) -> Iterator[Finding]:
    if any(each.due_minor < 0 for each in paid):
        said = "The sums of the stages come to more than the price: one payment would be less than nothing."
        options = worded(("Make the sums smaller.", "Give parts of the price in place of sums."))
        yield Finding(Code.STAGES_TOO_MUCH, Severity.STOP, "price", said, options=options)
    if not job.terms.stages:
        said = "No stage payments are stated: all of the price is counted on completion."
        options = worded(("Enter stages: terms.stages.",))
        yield Finding(Code.NO_STAGES, Severity.NOTE, "price", said, options=options)
    if under is not None:
        said = f"More is paid out than has come in by {day_text(under.on)}: have that much at hand, or move a payment."
        value, unit = float(-under.balance_minor), "minor units"
        yield Finding(Code.UNDER_WATER, Severity.NOTE, "price", said, value, 0.0, unit)


def _not_reclaimed(job: Job, flows: Iterable[Flow]) -> Iterator[Finding]:
    """Say that tax on purchases is in no price, where the firm does not reclaim it: the job ends below its margin."""
    tax = -sum(flow.amount_minor for flow in flows if flow.kind is FlowKind.PURCHASE_TAX)
    if job.terms.reclaims_tax is not False or not tax:
        return
    said = (
        f"The firm does not reclaim tax on what it buys, and prices are counted as entered before tax: "
        f"{units.minor_to_text(tax, job.identity.currency)} of it are in no price, and come off the margin."
    )
    options = worded(
        ("Enter prices with tax, and say so: terms.purchase_tax_percent is zero.", "Say that the firm reclaims it.")
    )
    yield Finding(
        Code.TAX_NOT_RECLAIMED, Severity.CHECK, "price", said, float(tax), 0.0, "minor units", options=options
    )


def _workings(job: Job, figures: CashFigures, days: tuple[CashDay, ...]) -> Iterator[Working]:
    terms = job.terms
    if terms.deposit_days is None and any(each.event is PaymentEvent.DEPOSIT for each in terms.stages):
        words = f"deposit = {figures.deposit_days.value:g} days before the start"
        yield Working(words, figures.deposit_days.value, "days", (figures.deposit_days,))
    if terms.defects_days is None:
        words = f"snag free = {figures.defects_days.value:g} days after completion"
        yield Working(words, figures.defects_days.value, "days", (figures.defects_days,))
    come, gone = sum(day.in_minor for day in days), sum(day.out_minor for day in days)
    note = "labour and overhead are paid on the Friday of the week; tax is set aside when it comes in"
    said = " − ".join(units.minor_to_text(each, job.identity.currency) for each in (come, gone))
    yield Working(f"at the end = {said}", float(come - gone), "minor units", (), note)
