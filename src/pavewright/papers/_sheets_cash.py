"""Cash on the cost sheet: how far the firm is under water, when, and what goes out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cash import FlowKind
from pavewright.drawing import ChartPoint, curve_chart
from pavewright.findings import Severity
from pavewright.papers._blocks import Block, drawing, heading, lead, paragraph, points, rest, right, table
from pavewright.papers._cost_words import CASH as SAID
from pavewright.papers._words import day, money, sum_behind

if TYPE_CHECKING:
    from pavewright.cash import Cash, Flow
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan

_OUT = {
    FlowKind.LABOUR: "labour",
    FlowKind.PLANT: "plant",
    FlowKind.MATERIAL: "materials",
    FlowKind.DISPOSAL: SAID.loads_taken_away,
    FlowKind.PROVISIONAL: "provisional work",
    FlowKind.OVERHEAD: "overhead",
    FlowKind.TAX: SAID.tax_set_aside,
    FlowKind.PURCHASE_TAX: SAID.tax_purchases,
    FlowKind.PAYMENT: "payment",
    FlowKind.RETENTION: "retention freed",
}


def cash_blocks(plan: Plan, cash: Cash | None, figures: PaperFigures) -> list[Block]:
    """Return the curve of cash with its lowest point, and what goes out; why it is not known, where it is not."""
    found: list[Block] = [heading("Cash")]
    if cash is None or not cash.days:
        return [*found, paragraph(_NOT_KNOWN)]
    currency = plan.job.identity.currency
    gaps = len(plan.cost.gaps)
    deeper = SAID.things_have_no_price(gaps=gaps) if gaps else ""
    found.append(lead(f"{lowest_words(cash, currency)}{deeper}"))
    marked = {cash.lowest_on, cash.days[-1].on}
    first = cash.days[0].on.toordinal()
    curve = [ChartPoint(float(first - 1), 0.0)]
    curve += [
        ChartPoint(
            float(each.on.toordinal()),
            float(each.balance_minor),
            f"{money(each.balance_minor, currency)}, {day(each.on)}" if each.on in marked else "",
        )
        for each in cash.days
    ]
    found.append(drawing(curve_chart("cash", SAID.cash_job_day_day, curve, lowest_words(cash, currency))))
    heads = ("on", rest("for"), right("in"), right("out"), right("there is"))
    balance = {each.on: each.balance_minor for each in cash.days}
    last = {flow.on: number for number, flow in enumerate(cash.flows)}
    rows = [
        (
            day(flow.on),
            _back(flow),
            money(flow.amount_minor, currency) if flow.amount_minor > 0 else "",
            money(-flow.amount_minor, currency) if flow.amount_minor < 0 else "",
            money(balance[flow.on], currency) if last[flow.on] == number else "",
        )
        for number, flow in enumerate(cash.flows)
    ]
    found.append(table(heads, rows, type_size=8.0))
    # the lowest point stands above, with its amount
    said = [each.message for each in cash.findings if each.severity is not Severity.NOTE or not each.value]
    return [*found, points([*said, *(sum_behind(each, figures) for each in cash.workings)])]


def _back(flow: Flow) -> str:
    """Return what money is for; tax that comes in was set aside before, or comes back."""
    return SAID.tax_that_free_again if flow.kind is FlowKind.TAX and flow.amount_minor > 0 else _OUT[flow.kind]


_NOT_KNOWN = SAID.not_known_enter_stage


def lowest_words(cash: Cash, currency: str) -> str:
    """Return the lowest point of the cash, and its day."""
    if cash.lowest_on is None:
        return SAID.never_more_paid_out
    lowest = SAID.more_paid_out_than(currency=money(-cash.lowest_minor, currency), lowest_on=day(cash.lowest_on))
    return f"Lowest point: {lowest}."
