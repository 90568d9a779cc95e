"""What a price is made of, in words: its tax by regime, overhead, margin or mark-up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import RangeKind
from pavewright.job import TaxRegime
from pavewright.papers._words import money

if TYPE_CHECKING:
    from pavewright.pipeline import Plan


def price_text(plan: Plan) -> str:
    """Return the price with its tax; that it is not known, where nothing in it has a price."""
    if not plan.cost.prime_minor:
        return "not known: nothing in it has a price"
    name, amount = plan.job.rates.tax_name, money(plan.cost.total_minor, plan.job.identity.currency)
    if not _is_tax_known(plan):
        return f"{amount}, {name} not known and not in it"
    free = _free(plan)
    if plan.cost.tax_minor or free is None:
        return f"{amount} with {name}"
    return f"{amount}, {_FREE[free].format(name=name)}"


def range_text(plan: Plan) -> str:
    """Return the range of a price: both ends where they hold, else that they are lower ends, or are not known."""
    cost, currency = plan.cost, plan.job.identity.currency
    if cost.range_kind is RangeKind.NOT_KNOWN:
        return "not known: work has no price, or nobody said what goes on the cost"
    ends = f"{money(cost.low_minor, currency)} to {money(cost.high_minor, currency)}"
    if cost.range_kind is RangeKind.LOWER:
        ends = f"at least {ends}: {_counted(len(cost.gaps), 'thing is', 'things are')} not in it"
    left = sum(each.low_minor is None for each in cost.assumed)
    return f"{ends}; {_counted(left, 'assumed fact is', 'assumed facts are')} not in the range" if left else ends


def _counted(many: int, one: str, more: str) -> str:
    return f"{many} {one if many == 1 else more}"


_FREE = {
    TaxRegime.NONE: "no {name} is charged",
    TaxRegime.REVERSE_CHARGE: "without {name}, for which the customer accounts (reverse charge)",
}
"""What is said of a regime under which nothing is charged."""


def tax_row(plan: Plan) -> tuple[str, int | None]:
    """Return the tax with its rates, and what it comes to; None where nobody knows it. [minor units]."""
    name = plan.job.rates.tax_name
    if not _is_tax_known(plan):
        return name, None
    free = _free(plan)
    if free is not None:
        return (f"No {name} is charged" if free is TaxRegime.NONE else f"{name}, reverse charge"), 0
    shares = [each.taxed.charged_percent for each in plan.cost.tax] or [plan.job.rates.tax_percent or 0.0]
    rates = dict.fromkeys(f"{each:g} %" for each in shares)
    return f"{name} {' and '.join(rates)}", plan.cost.tax_minor


def _is_tax_known(plan: Plan) -> bool:
    """Return whether it is known what tax is charged on all of it."""
    if not plan.cost.tax:
        return plan.job.rates.tax_percent is not None
    return all(each.taxed.is_known for each in plan.cost.tax)


def _free(plan: Plan) -> TaxRegime | None:
    """Return the regime under which nothing of a price is taxed; None where something is, or at a rate of zero."""
    regimes = {each.taxed.regime for each in plan.cost.tax}
    only = regimes.pop() if len(regimes) == 1 else None
    return only if only in _FREE else None


def overhead_text(plan: Plan) -> str:
    """Return how overhead is put on: by the hundred or by the hour; that it is not known, where nobody said."""
    rates = plan.job.rates
    if rates.overhead_minor_per_hour is not None:
        return f"Overhead, {money(rates.overhead_minor_per_hour, plan.job.identity.currency)} an hour of labour"
    return f"Overhead {_percent(rates.overhead_percent)}"


def margin_text(plan: Plan) -> str:
    """Return margin or mark-up, told apart; that it is not known, where nobody said."""
    rates = plan.job.rates
    if rates.markup_percent is not None:
        return f"Mark-up {_percent(rates.markup_percent)} on cost and overhead"
    return f"Margin {_percent(rates.margin_percent)} of the price"


def _percent(percent: float | None) -> str:
    return "not known, left out" if percent is None else f"{percent:g} %"
