"""What a customer reads of the money: the price, its tax, when it is paid, what is settled later, how long it holds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.cash import holds_until
from pavewright.cost import RangeKind
from pavewright.findings import Severity
from pavewright.job import PaymentEvent, RoundingKind
from pavewright.papers._price_words import ACCEPTED, price_text, tax_rows, tax_statements
from pavewright.papers._words import amount, day, money
from pavewright.pipeline import cash_of, days_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.cash import Cash, Payment
    from pavewright.cost import SettlingRate
    from pavewright.pipeline import Plan
    from pavewright.rules import Rulebook

Row = tuple[str, ...]
_SEEN = {
    PaymentEvent.DEPOSIT: "Deposit, before the work begins",
    PaymentEvent.MATERIALS_ON_SITE: "Paving and base are on the site",
    PaymentEvent.BASE_IN: "The base is in, before anything is laid on it",
    PaymentEvent.LAID: "All paving is laid",
    PaymentEvent.COMPLETE: "The work is complete",
    PaymentEvent.SNAG_FREE: "Everything on the list of snags is put right",
}
"""What everybody can see when a payment falls due."""


@dataclass(frozen=True, slots=True)
class CustomerMoney:
    """Money as a customer reads it, the same on paper and on a screen; amounts are written, none is worked out here.

    Attributes:
        price: The way from before tax to what is to pay.
        statements: What is said of the tax where none is charged.
        payments: When each part falls due, the day by the programme, the part, what is held or freed, what is paid.
        paying: Sentences on how it is paid.
        goods: Goods that the customer still chooses: what stands in the price, and what settles it.
        provisional: Work that is settled by what is found: how much stands in the price, and its rate.
        settling: Sentences on what is settled later.
        options: Options that the customer may tick: name, how much more or less with tax, days.
        choosing: Sentences on how they are chosen.
        holds: How long the price holds.
        stops: How many findings of the payments say stop.
    """

    price: tuple[tuple[str, str], ...]
    statements: tuple[str, ...]
    payments: tuple[Row, ...]
    paying: tuple[str, ...]
    goods: tuple[Row, ...]
    provisional: tuple[Row, ...]
    settling: tuple[str, ...]
    options: tuple[Row, ...]
    choosing: tuple[str, ...]
    holds: str
    stops: int


def customer_money(plan: Plan, rules: Rulebook) -> CustomerMoney:
    """Return the money of a plan as a customer reads it."""
    cost, currency = plan.cost, plan.job.identity.currency
    cash = known_cash(plan, rules)
    paid = () if cash is None else cash.payments
    to_pay = money(cost.total_minor, currency) if cost.prime_minor else price_text(plan)
    return CustomerMoney(
        price=(("Before tax", money(cost.net_minor, currency)), *tax_rows(plan), ("To pay", to_pay)),
        statements=tax_statements(plan, rules),
        payments=tuple(_payment_rows(paid, cost.total_minor, currency)) if paid else (),
        paying=tuple(_paying(plan, paid)),
        goods=tuple(
            (each.name, money(each.supply_minor, currency), money(each.price_minor, currency), _settles(plan, number))
            for number, each in enumerate(cost.prime_costs)
        ),
        provisional=tuple(_provisional_rows(plan)),
        settling=tuple(_settling(plan)),
        options=tuple(_option_rows(plan)),
        choosing=_CHOOSING if any(each.refused is None for each in plan.offered) else (),
        holds=_holds(plan),
        stops=0 if cash is None else sum(each.severity is Severity.STOP for each in cash.findings),
    )


def event_words(event: PaymentEvent) -> str:
    """Return what everybody can see when a payment falls due."""
    return _SEEN[event]


def known_cash(plan: Plan, rules: Rulebook) -> Cash | None:
    """Return payments and cash; None where no stages are stated, or the price is none to pay: it would look too good.

    Args:
        plan: The plan.
        rules: Its rulebook.
    """
    if not plan.job.terms.stages or plan.cost.range_kind is RangeKind.NOT_KNOWN:
        return None
    return cash_of(plan, rules)


def _payment_rows(paid: tuple[Payment, ...], total_minor: int, currency: str) -> Iterator[Row]:
    for each in paid:
        held = [f"held {money(each.held_minor, currency)}"] if each.held_minor else []
        freed = [f"freed {money(each.freed_minor, currency)}"] if each.freed_minor else []
        yield (
            _SEEN[each.event],
            "not known yet" if each.on is None else day(each.on),
            money(each.gross_minor, currency),
            ", ".join((*held, *freed)),
            money(each.due_minor, currency),
        )
    yield ("Together", "", money(total_minor, currency), "", money(sum(each.due_minor for each in paid), currency))


def _paying(plan: Plan, paid: tuple[Payment, ...]) -> Iterator[str]:
    terms = plan.job.terms
    if not paid:
        yield "How this is paid is not stated here: agree it in writing before the work begins."
        return
    yield "Each payment falls due when what stands beside it can be seen; the days are those of the programme."
    if terms.days_to_pay is None:
        yield "How long there is to pay after that is not stated."
    else:
        yield f"It is to be paid within {terms.days_to_pay} days." if terms.days_to_pay else "It is to be paid at once."
    held = sum(each.held_minor for each in paid)
    if not terms.retention_percent or not held:
        yield "Nothing is held back."
        return
    currency = plan.job.identity.currency
    freed = sum(each.freed_minor for each in paid if each.event is not PaymentEvent.SNAG_FREE)
    last = next((each for each in reversed(paid) if each.event is PaymentEvent.SNAG_FREE), None)
    on = "" if last is None or last.on is None else f", by the programme on {day(last.on)}"
    yield (
        f"{terms.retention_percent:g} % of each payment is held back, {money(held, currency)} in all: "
        f"{money(freed, currency)} of it is freed when the work is complete, {money(held - freed, currency)} when "
        f"everything on the list of snags is put right{on}."
    )


def _settles(plan: Plan, number: int) -> str:
    each, currency = plan.cost.prime_costs[number], plan.job.identity.currency
    return f"{money(each.settles_minor, currency)} for each {money(each.of_minor, currency)}"


def _provisional_rows(plan: Plan) -> Iterator[Row]:
    rates = () if plan.cost.provisional is None else plan.cost.provisional.rates
    for rate in rates:
        each = f"{money(rate.rate_minor, plan.job.identity.currency)} {_EACH.get(rate.unit, f'a {rate.unit}')}"
        yield (rate.description, _in_price(rate), each)


_EACH = {"each": "each", "m³": "per m³", "m²": "per m²", "m": "per m", "t": "per t", "h": "per h"}


def _in_price(rate: SettlingRate) -> str:
    return f"{amount(rate.amount)} {rate.unit}" if rate.amount else "none"


def _settling(plan: Plan) -> Iterator[str]:
    cost, currency = plan.cost, plan.job.identity.currency
    if cost.prime_costs:
        yield (
            "Goods that are still to be chosen: what they cost in the end takes the place of the sum for supplying "
            "them, and the price before tax changes by the rate beside it."
        )
    share = cost.provisional
    if share is None:
        return
    yield "Provisional work is measured when it is found and settled at the rate beside it, before tax."
    if share.likely_minor or share.high_minor:
        low, likely, high = (money(each, currency) for each in (share.low_minor, share.likely_minor, share.high_minor))
        yield f"Of what is to pay {likely} are provisional, at these rates with tax; it may turn out {low} to {high}."
        if share.rounding_minor and _is_rounded(plan):
            less, rounding = (
                money(each, currency) for each in (share.likely_minor + share.rounding_minor, abs(share.rounding_minor))
            )
            sign = "more" if share.rounding_minor > 0 else "less"
            yield (
                f"The price is rounded: without this work it would be {less} less, {rounding} {sign} than that, "
                "by rounding alone."
            )


def _option_rows(plan: Plan) -> Iterator[Row]:
    """Give the options that plan and have a price, each as a difference."""
    for each in plan.offered:
        if each.refused is not None or each.extra_minor is None:
            continue
        sign = "+" if each.extra_minor > 0 else "−" if each.extra_minor < 0 else "±"
        later = each.extra_days
        days = "days not known" if later is None else days_words(later) if later else "no more days"
        yield (each.name, f"{sign}{money(abs(each.extra_minor), plan.job.identity.currency)}", days)


_CHOOSING = (
    "Tick what is wanted before signing. Each stands by itself, with tax, beside the price above.",
    "Several together may cost more or less than their sum: ask for the price of them.",
)


def _is_rounded(plan: Plan) -> bool:
    rounding = plan.job.rates.rounding
    return rounding is not None and rounding.kind is not RoundingKind.NONE


def _holds(plan: Plan) -> str:
    given = plan.job.accepted
    if given is not None:
        return ACCEPTED(on=day(given.at.date()))
    quoted, until = plan.job.quoted, holds_until(plan.job)
    on = "" if quoted is None else f"Quoted on {day(quoted.on)}. "
    return (
        f"{on}How long this price holds is not stated here."
        if until is None
        else f"{on}The price holds until {day(until)}."
    )
