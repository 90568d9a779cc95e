"""The sheet of the cost, for the contractor's eyes only: from cost to price, cash, orders, and the sums behind them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import LineGroup
from pavewright.drawing import ChartStep, waterfall_chart
from pavewright.papers._blocks import (
    Block,
    SheetOfPaper,
    drawing,
    facts,
    heading,
    paragraph,
    points,
    rest,
    right,
    table,
)
from pavewright.papers._cost_words import COST as SAID
from pavewright.papers._price_words import margin_text, overhead_text, price_text, range_text, tax_rows
from pavewright.papers._sheets_cash import cash_blocks
from pavewright.papers._sheets_money import price_blocks
from pavewright.papers._sheets_orders import order_blocks
from pavewright.papers._sheets_supply import hires_moved
from pavewright.papers._words import day, money, one, source, sum_behind
from pavewright.pipeline import NotOffered
from pavewright.survey import assumed_name

if TYPE_CHECKING:
    from pavewright.cash import Cash
    from pavewright.cost import CostLine
    from pavewright.papers._customer_money import CustomerMoney
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan


_GROUPS = {
    LineGroup.LABOUR: "Labour",
    LineGroup.PLANT: "Plant",
    LineGroup.DISPOSAL: SAID.loads_taken_away,
    LineGroup.MATERIAL: "Materials",
    LineGroup.PROVISIONAL: "Provisional sums",
}


def cost_sheets(plan: Plan, figures: PaperFigures, told: CustomerMoney, cash: Cash | None) -> list[SheetOfPaper]:
    """Return the cost, for the contractor's eyes only.

    Args:
        plan: The plan.
        figures: Figures and sources of papers.
        told: The money as the customer reads it.
        cash: Payments and cash; None where they are not known.
    """
    cost, currency = plan.cost, plan.job.identity.currency
    sheet = SheetOfPaper(SAID.cost_sheet_not_customer, measured=False)
    sheet.add(
        *_quoted(plan),
        heading(SAID.from_cost_price),
        drawing(waterfall_chart("waterfall", SAID.from_cost_price, _steps(plan))),
        facts(
            [
                ("Prime cost", money(cost.prime_minor, currency)),
                (overhead_text(plan), money(cost.overhead_minor, currency)),
                (margin_text(plan), money(cost.margin_minor, currency)),
                (SAID.price_before_tax, money(cost.net_minor, currency)),
                *tax_rows(plan),
                ("Price", price_text(plan)),
                (SAID.if_all_goes_well, range_text(plan)),
            ]
        ),
        *_not_offered(plan),
        *([heading(SAID.not_price), points([gap.words for gap in cost.gaps])] if cost.gaps else []),
        heading("Priced lines"),
        _lines(plan),
    )
    behind = SheetOfPaper(SAID.what_customer_reads_money, measured=False, follows=True)
    behind.add(*price_blocks(told))
    paid = SheetOfPaper(SAID.cash_orders_not_customer, measured=False, follows=True)
    paid.add(*cash_blocks(plan, cash, figures), *order_blocks(plan))
    sums = SheetOfPaper(SAID.sums_behind_price, measured=False, follows=True)
    sums.add(
        heading(SAID.what_could_make_dearer),
        points([f"{words}: {money(more, currency)} more" for words, more in cost.reasons] or ("nothing",)),
        *_assumed(plan),
        heading("Sums"),
        points([sum_behind(working, figures) for working in cost.workings]),
        heading("Hours"),
        _hours(plan, figures),
    )
    return [sheet, behind, paid, sums]


def _not_offered(plan: Plan) -> list[Block]:
    """Return the options that the customer does not see, and why."""
    said = [f"{each.name}: {_WHY_NOT[each.refused]}." for each in plan.offered if each.refused is not None]
    return [heading(SAID.options_that_customer_does), points(said)] if said else []


_WHY_NOT = {
    NotOffered.NO_PLAN: SAID.what_changes_makes_no,
    NotOffered.NO_PRICE: SAID.something_has_no_price,
    NotOffered.STOPS: "it brings a stop",
}


def _quoted(plan: Plan) -> list[Block]:
    """Return on which day the job was quoted, and hires that moved since; nothing where it was not."""
    quoted = plan.job.quoted
    if quoted is None:
        return []
    moved = hires_moved(plan)
    return [
        paragraph(SAID.quoted_as_revision_prices(on=day(quoted.on), revision=quoted.revision)),
        *([points(moved)] if moved else []),
    ]


def _steps(plan: Plan) -> list[ChartStep]:
    """Return the steps from what is paid for to the price; what is not known stands there without a bar."""
    cost, rates, currency = plan.cost, plan.job.rates, plan.job.identity.currency
    sums: dict[LineGroup, int] = {}
    for line in cost.lines:
        sums[line.group] = sums.get(line.group, 0) + line.amount_minor

    def step(label: str, minor: int, *, known: bool = True, total: bool = False) -> ChartStep:
        return ChartStep(label, float(minor), money(minor, currency) if known else "not known", total)

    overhead = rates.overhead_percent is not None or rates.overhead_minor_per_hour is not None
    margin = rates.margin_percent is not None or rates.markup_percent is not None
    return [
        *(step(_GROUPS[group], sum_of) for group, sum_of in sums.items()),
        step("Cost", cost.prime_minor, total=True),
        step("Overhead", cost.overhead_minor, known=overhead),
        step("Margin" if rates.markup_percent is None else "Mark-up", cost.margin_minor, known=margin),
        step(SAID.price_before_tax, cost.net_minor, total=True),
        *(step(rates.tax_name, each.tax_minor, known=each.taxed.is_known) for each in cost.tax),
        step("Price", cost.total_minor, total=True),
    ]


def _assumed(plan: Plan) -> list[Block]:
    """Return what each assumed fact may do to the price, and which stand in no range."""
    currency = plan.job.identity.currency
    if not plan.cost.assumed:
        return []
    rows = [
        (
            assumed_name(share.fact),
            SAID.not_range if share.low_minor is None else money(share.low_minor, currency),
            "" if share.high_minor is None else money(share.high_minor, currency),
        )
        for share in plan.cost.assumed
    ]
    return [
        heading(SAID.assumed_not_measured_what),
        table((rest("assumed"), right(SAID.less_best), right(SAID.more_worst)), rows, type_size=8.0),
    ]


def aged_words(line: CostLine) -> str:
    """Return what a line is, and how old its price is where it is too old or has no date."""
    stale = line.stale
    if stale is None:
        return line.description
    if stale.age_days is None or stale.priced_on is None:
        return f"{line.description} – price without a date"
    return f"{line.description} – price {stale.age_days} days old, of {day(stale.priced_on)}"


def _lines(plan: Plan) -> Block:
    """Return every priced line."""
    cost, currency = plan.cost, plan.job.identity.currency
    rows = [
        (
            aged_words(line),
            line.quantity_words,
            money(line.rate_minor, currency),
            money(line.amount_minor, currency),
            ""
            if line.low_minor == line.high_minor
            else " – ".join(money(each, currency) for each in sorted((line.low_minor, line.high_minor))),
        )
        for line in cost.lines
    ]
    heads = (rest("line"), right("how much"), right(SAID.price_one), right("amount"), right("range"))
    return table(heads, rows, type_size=8.0)


def _hours(plan: Plan, figures: PaperFigures) -> Block:
    """Return the hours of every task with the output behind them."""
    rows = [
        (
            task.description,
            one(task.person_hours),
            one(task.low_hours),
            one(task.high_hours),
            task.working.expression,
            source(task.working.figures[0], figures) if task.working.figures else "",
        )
        for task in plan.cost.labour
    ]
    heads = (rest("task"), right("likely h"), right("low"), right("high"), rest("sum"), rest("source"))
    return table(heads, rows, type_size=8.0)
