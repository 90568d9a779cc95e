"""The facts of a quotation, gathered from the plan; none is worked out here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cash import holds_until
from pavewright.firm import TextKey
from pavewright.papers._customer_money import event_words, known_cash
from pavewright.papers._customer_words import customer_words, likely_finish
from pavewright.papers._price_words import tax_row
from pavewright.papers._words import day
from pavewright.papers._writing import in_writing
from pavewright.papers.cancelling import cancelling, right_words
from pavewright.papers.quotation._types import (
    QuotationFacts,
    QuotedArea,
    QuotedGoods,
    QuotedJob,
    QuotedLayer,
    QuotedOption,
    QuotedPayment,
    QuotedProvisional,
    QuotedRate,
    QuotedWindow,
)
from pavewright.papers.quotation._words import CAUTIONS, SAID

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.firm import FirmBook
    from pavewright.papers.cancelling import Cancelling
    from pavewright.pipeline import Plan
    from pavewright.rules import Rulebook


@in_writing
def quotation_facts(plan: Plan, rules: Rulebook, firm: FirmBook | None = None) -> QuotationFacts:
    """Return all that a quotation says, typed and in words.

    Args:
        plan: The plan; whole, so that everything in it is known or named as not known.
        rules: Its rulebook.
        firm: The book of the firm, for its own words; None where there is none.
    """
    cost, terms = plan.cost, plan.job.terms
    words, who = customer_words(plan, rules), _who(plan)
    tax, tax_minor = tax_row(plan)
    right = cancelling(plan, rules)
    own = tuple((each.key, each.words) for each in (() if firm is None else firm.texts) if each.words.strip())
    return QuotationFacts(
        who=who,
        not_ready=words.not_ready,
        net_minor=cost.net_minor,
        tax_minor=tax_minor,
        total_minor=cost.total_minor,
        tax=tax,
        money=words.money,
        included=words.scope,
        not_included=words.not_included,
        assumed=words.assumed,
        areas=tuple(_areas(plan)),
        options=tuple(_options(plan)),
        goods=tuple(_goods(plan)),
        provisional=_provisional(plan),
        payments=tuple(_payments(plan, rules)),
        holds_until=holds_until(plan.job),
        window=_window(plan),
        when=words.when,
        cautions=CAUTIONS,
        tolerances=(*words.promised, *((SAID.dpc,) if plan.job.site.walls else ())),
        warranty_months=terms.warranty_months,
        warranty=tuple(_warranty(plan, own=TextKey.GUARANTEE in {key for key, _ in own})),
        care=tuple(_care(plan)),
        changes=(SAID.changes_slip, SAID.changes_sign, SAID.changes_found, SAID.changes_danger),
        complaints=tuple(_complaints(plan)),
        cancelling=right,
        right_to_cancel=right_words(right),
        accepting=tuple(_accepting(plan, who, right)),
        own_words=own,
    )


def _who(plan: Plan) -> QuotedJob:
    who, quoted = plan.job.identity, plan.job.quoted
    return QuotedJob(
        job=who.job,
        title=who.title,
        client=who.client,
        address=who.address,
        contractor=who.contractor,
        invented=who.invented,
        on=who.date if quoted is None else quoted.on,
        revision=who.revision,
        currency=who.currency,
    )


def _areas(plan: Plan) -> Iterator[QuotedArea]:
    for area in plan.survey.site.areas:
        finished, built = plan.levels.area(area.name), plan.build_ups.area(area.name)
        yield QuotedArea(
            name=area.name,
            area_m2=area.laid_m2,
            falls=finished.falls_text,
            layers=tuple(QuotedLayer(each.name, each.thickness_mm) for each in built.layers),
            doors=tuple((door.opening, door.text) for door in finished.doors),
        )


def _options(plan: Plan) -> Iterator[QuotedOption]:
    """Give the options that plan and have a price; each keeps its place among those of the terms."""
    for number, each in enumerate(plan.offered, start=1):
        if each.refused is None and each.extra_minor is not None:
            yield QuotedOption(f"option-{number}", each.name, each.extra_minor, each.extra_days)


def _goods(plan: Plan) -> Iterator[QuotedGoods]:
    for each in plan.cost.prime_costs:
        yield QuotedGoods(each.name, each.supply_minor, each.price_minor, each.settles_minor, each.of_minor)


def _provisional(plan: Plan) -> QuotedProvisional | None:
    share = plan.cost.provisional
    if share is None:
        return None
    rates = tuple(QuotedRate(each.description, each.amount, each.unit, each.rate_minor) for each in share.rates)
    return QuotedProvisional(rates, share.low_minor, share.likely_minor, share.high_minor)


def _payments(plan: Plan, rules: Rulebook) -> Iterator[QuotedPayment]:
    cash = known_cash(plan, rules)
    for each in () if cash is None else cash.payments:
        yield QuotedPayment(
            each.event,
            event_words(each.event),
            each.on,
            each.gross_minor,
            each.held_minor,
            each.freed_minor,
            each.due_minor,
        )


def _window(plan: Plan) -> QuotedWindow:
    programme = plan.programme
    likely = likely_finish(plan)
    return QuotedWindow(
        start=programme.start,
        finish=programme.finish,
        likely_finish=None if likely is None else likely[0],
        likely_percent=None if likely is None else likely[1],
        foot_ready=programme.foot_ready,
        car_ready=programme.car_ready,
        dig_known=bool(plan.earthworks.areas),
    )


def _warranty(plan: Plan, *, own: bool) -> Iterator[str]:
    """Give what is promised; where only the firm's own words say it, nothing here says that it is not stated."""
    months = plan.job.terms.warranty_months
    if months is None:
        yield from () if own else (SAID.warranty_open,)
    elif months:
        yield SAID.warranty(months=str(months))
        yield SAID.warranty_not
    else:
        yield SAID.warranty_none
    yield SAID.warranty_law


def _care(plan: Plan) -> Iterator[str]:
    programme = plan.programme
    yield SAID.care_walk(foot=day(programme.foot_ready))
    yield SAID.care_no_car if programme.car_ready is None else SAID.care_car(car=day(programme.car_ready))
    yield SAID.care_sheet
    yield SAID.care_salt


def _complaints(plan: Plan) -> Iterator[str]:
    terms = plan.job.terms
    yield SAID.complain_to(to=terms.complaint_to) if terms.complaint_to else SAID.complain_open
    yield (
        SAID.complain_days_open if terms.complaint_days is None else SAID.complain_days(days=str(terms.complaint_days))
    )
    yield SAID.complain_other


def _accepting(plan: Plan, who: QuotedJob, right: Cancelling) -> Iterator[str]:
    yield SAID.accept_this(on=day(who.on), revision=str(who.revision))
    if any(_options(plan)):
        yield SAID.accept_options
    yield SAID.accept_read
    yield SAID.accept_drawings
    if any(area.doors for area in plan.levels.areas):
        yield SAID.accept_doors
    if right.rule is not None:
        yield SAID.accept_cancel
