"""Tax that suppliers charge: it goes out with what is bought; reclaimed, it comes off the tax that is set aside."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from fractions import Fraction
from typing import TYPE_CHECKING

from pavewright.cash._types import Flow, FlowKind

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.cash._figures import CashFigures
    from pavewright.job import Terms
    from pavewright.rules import Rulebook

_BOUGHT = frozenset({FlowKind.MATERIAL, FlowKind.PLANT, FlowKind.DISPOSAL})
"""What suppliers charge tax on; what is provisional is not known yet."""
_WHOLE, _HALF = 100, Fraction(1, 2)
_STANDARD = "cost.tax_standard_percent"


def purchase_percent(terms: Terms, rules: Rulebook) -> float | None:
    """Return the tax that suppliers put on prices; None where nobody knows it, or whether it is reclaimed. [%]."""
    if terms.reclaims_tax is None:
        return None
    if terms.purchase_tax_percent is not None:
        return terms.purchase_tax_percent
    return rules.value(_STANDARD) if rules.has(_STANDARD) else None


def with_purchase_tax(
    flows: Iterable[Flow], percent: float, figures: CashFigures, *, reclaimed: bool
) -> Iterator[Flow]:
    """Give flows with the tax on what is bought.

    Where it is reclaimed, what is set aside is the tax that came in less the tax that went out, never less than zero;
    what is more comes back with a return.

    Args:
        flows: Money in and out, purchases before tax.
        percent: Tax that suppliers put on them. [%]
        figures: Figures of cash.
        reclaimed: Whether it is reclaimed.
    """
    flows = tuple(flows)
    rate = Fraction(repr(percent)) / _WHOLE
    taxed = [
        Flow(flow.on, FlowKind.PURCHASE_TAX, -_rounded(-flow.amount_minor * rate), "tax on purchases")
        for flow in flows
        if flow.kind in _BOUGHT
    ]
    taxed = [flow for flow in taxed if flow.amount_minor]
    if not reclaimed:
        yield from (*flows, *taxed)
        return
    yield from (flow for flow in flows if flow.kind is not FlowKind.TAX)
    yield from taxed
    yield from _set_aside((*(flow for flow in flows if flow.kind is FlowKind.TAX), *taxed), figures)


def _set_aside(taxes: tuple[Flow, ...], figures: CashFigures) -> Iterator[Flow]:
    """Give what is set aside day by day, and what comes back in the end."""
    owed: defaultdict[dt.date, int] = defaultdict(int)
    for flow in taxes:
        owed[flow.on] += flow.amount_minor if flow.kind is FlowKind.PURCHASE_TAX else -flow.amount_minor
    due = aside = 0
    for on in sorted(owed):
        due += owed[on]
        more = max(due, 0) - aside
        aside += more
        if more:
            yield Flow(on, FlowKind.TAX, -more, "tax set aside")
    if due < 0:
        back = max(owed) + dt.timedelta(days=int(figures.tax_refund_days.value))
        yield Flow(back, FlowKind.TAX, -due, "tax on purchases comes back")


def _rounded(amount: Fraction) -> int:
    return (amount + _HALF).__floor__()
