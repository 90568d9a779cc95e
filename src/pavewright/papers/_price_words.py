"""What a price is made of, in words: its tax by regime, overhead, margin or mark-up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import RangeKind
from pavewright.job import TaxRegime
from pavewright.papers._words import money
from pavewright.writing import Sentence

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.cost import TaxShare
    from pavewright.pipeline import Plan
    from pavewright.rules import Rulebook


ACCEPTED = Sentence("Accepted on {on}: what was agreed holds, and changes are agreed in writing.")


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


def tax_rows(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Return what each way of taxing a part of the price comes to, in words; one row where all is taxed in one way."""
    currency, shares = plan.job.identity.currency, plan.cost.tax
    if len(shares) <= 1 or not _is_tax_known(plan):
        name, minor = tax_row(plan)
        return ((name, "not known, and not in the price" if minor is None else money(minor, currency)),)
    return tuple((_share_name(plan, each), money(each.tax_minor, currency)) for each in shares)


def _share_name(plan: Plan, share: TaxShare) -> str:
    name, on = plan.job.rates.tax_name, money(share.net_minor, plan.job.identity.currency)
    regime = share.taxed.regime
    if regime is TaxRegime.NONE:
        return f"No {name} is charged on {on}"
    if regime is TaxRegime.REVERSE_CHARGE:
        return f"{name}, reverse charge on {on}"
    return f"{name} {share.taxed.charged_percent:g} % on {on}"


def tax_statements(plan: Plan, rules: Rulebook) -> tuple[str, ...]:
    """Return what a paper says of the tax that the customer accounts for, in the words of the place.

    Args:
        plan: The plan.
        rules: The rulebook of the place, with its words where it has some.
    """
    mine = [share for share in plan.cost.tax if share.taxed.regime is TaxRegime.REVERSE_CHARGE]
    return reverse_statement(mine, plan.job.rates.tax_name, plan.job.identity.currency, rules)


def reverse_statement(mine: Sequence[TaxShare], name: str, currency: str, rules: Rulebook) -> tuple[str, ...]:
    """Return what a paper says of sums under a reverse charge, in the words of the place; nothing where there are none.

    Args:
        mine: The sums.
        name: What the tax is called.
        currency: Their money.
        rules: The rulebook of the place, with its words where it has some.
    """
    if not mine:
        return ()
    if "cost.tax_words" not in rules.tables:
        return (f"Reverse charge: the customer accounts for the {name}. The words of this place are not known: ask.",)
    row = rules.table("cost.tax_words").row("reverse_charge")
    said = [row.label]
    for share in mine if row.value("amount_shown") else ():
        if share.accounted_minor is not None:
            rate = f"{name} {share.taxed.percent:g} % on {money(share.net_minor, currency)}"
            said.append(f"{rate}: {money(share.accounted_minor, currency)}, not in what is to pay")
    return (f"{'; '.join(said)}.",)


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
