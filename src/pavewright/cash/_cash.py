"""The curve of the cash of a job: what comes in by its stages against what goes out by the terms of those paid."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.cash._codes import Code
from pavewright.cash._events import event_dates, unseen
from pavewright.cash._figures import cash_figures
from pavewright.cash._out import Paying
from pavewright.cash._payments import accepted_minor, payments, terms_of
from pavewright.cash._purchase_tax import purchase_percent, with_purchase_tax
from pavewright.cash._types import Cash, CashDay, Flow, FlowKind
from pavewright.cash._words import CASH as SAID
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
    terms = terms_of(job)
    dates = event_dates(terms, programme, brought, figures)
    paid = payments(cost.total_minor, terms, dates, accepted_minor(job))
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
            *_unseen(unseen(terms, programme, brought)),
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
            yield Flow(each.paid_on, FlowKind.TAX, -tax, SAID.tax_set_aside)


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
    PaymentEvent.MATERIALS_ON_SITE: SAID.materials_site_no_units,
    PaymentEvent.BASE_IN: SAID.base_this_job_lays,
    PaymentEvent.LAID: SAID.what_laid_this_job,
}


def _unseen(events: Iterable[PaymentEvent]) -> Iterator[Finding]:
    for event in events:
        said = SAID.payment_waits_nobody_can(what=_WAITS_FOR[event])
        options = worded((SAID.tie_something_that_this, SAID.tie_completion))
        yield Finding(Code.UNSEEN, Severity.STOP, "price", said, options=options)


def _findings(job: Job, paid: tuple[Payment, ...], under: CashDay | None) -> Iterator[Finding]:
    if any(each.due_minor < 0 for each in paid):
        said = SAID.sums_stages_come_more
        options = worded((SAID.make_sums_smaller, SAID.give_parts_price_place))
        yield Finding(Code.STAGES_TOO_MUCH, Severity.STOP, "price", said, options=options)
    if not job.terms.stages:
        said = SAID.no_stage_payments_are
        options = worded(("Enter stages: terms.stages.",))
        yield Finding(Code.NO_STAGES, Severity.NOTE, "price", said, options=options)
    if under is not None:
        said = SAID.more_paid_out_than(on=day_text(under.on))
        value, unit = float(-under.balance_minor), "minor units"
        yield Finding(Code.UNDER_WATER, Severity.NOTE, "price", said, value, 0.0, unit)


def _not_reclaimed(job: Job, flows: Iterable[Flow]) -> Iterator[Finding]:
    """Say that tax on purchases is in no price, where the firm does not reclaim it: the job ends below its margin."""
    tax = -sum(flow.amount_minor for flow in flows if flow.kind is FlowKind.PURCHASE_TAX)
    if job.terms.reclaims_tax is not False or not tax:
        return
    said = SAID.firm_does_not_reclaim(minor_to_text=units.minor_to_text(tax, job.identity.currency))
    options = worded((SAID.enter_prices_with_tax, SAID.say_that_firm_reclaims))
    yield Finding(
        Code.TAX_NOT_RECLAIMED, Severity.CHECK, "price", said, float(tax), 0.0, "minor units", options=options
    )


def _workings(job: Job, figures: CashFigures, days: tuple[CashDay, ...]) -> Iterator[Working]:
    terms = job.terms
    if terms.deposit_days is None and any(each.event is PaymentEvent.DEPOSIT for each in terms.stages):
        words = SAID.deposit_days_before_start(deposit_days=f"{figures.deposit_days.value:g}")
        yield Working(words, figures.deposit_days.value, "days", (figures.deposit_days,))
    if terms.defects_days is None:
        words = SAID.snag_free_days_after(defects_days=f"{figures.defects_days.value:g}")
        yield Working(words, figures.defects_days.value, "days", (figures.defects_days,))
    come, gone = sum(day.in_minor for day in days), sum(day.out_minor for day in days)
    note = SAID.labour_overhead_are_paid
    said = " − ".join(units.minor_to_text(each, job.identity.currency) for each in (come, gone))
    yield Working(SAID.end(said=said), float(come - gone), "minor units", (), note)
