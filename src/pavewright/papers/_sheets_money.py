"""Sheets of materials, of the price for the customer, and of the cost that stays inside."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.drawing import laying_plan, levels_plan, section_at_wall, step_sections
from pavewright.papers._blocks import (
    PACK_FRAME,
    Block,
    SheetOfPaper,
    drawing_sheet,
    facts,
    heading,
    lines,
    paragraph,
    pencil,
    points,
    rest,
    right,
    small,
    table,
)
from pavewright.papers._price_words import margin_text, overhead_text, price_text, range_text, tax_row
from pavewright.papers._readiness import readiness
from pavewright.papers._words import amount, counted, money, one, source, sum_behind, two, whole
from pavewright.quantities import of_unit
from pavewright.survey import assumed_name

if TYPE_CHECKING:
    from pavewright.papers._customer_words import CustomerWords
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan
    from pavewright.quantities import Item


def order_sheets(plan: Plan, figures: PaperFigures) -> list[SheetOfPaper]:
    """Return the order list, and the sum behind every item."""
    sheet = SheetOfPaper("Materials and order")
    bought = [item for item in plan.quantities.items if item.key.bought]
    measured = [item for item in plan.quantities.items if not item.key.bought]
    sheet.add(
        table(_ORDER, [_order_row(item) for item in bought], type_size=8.0),
        heading("Measured work"),
        table(
            (rest("work"), right("net"), "unit", right("+ %"), right("with it")),
            [
                (item.description, two(item.net), item.unit, one(item.allowance_percent), two(item.gross))
                for item in measured
            ],
            type_size=8.0,
        ),
    )
    for item in bought:
        if item.holds:
            sheet.add(
                heading(f"{item.order_unit.capitalize()}: what {amount(item.ordered)} of it hold"), _holding(item)
            )
    several = _several_packs(plan)
    if several:
        rows = [(name, str(packs), "", "", "") for name, packs in several]
        sheet.add(
            heading("Packs"),
            points(_drawn_from(several, figures)),
            table((rest("batch numbers of"), right("packs"), pencil(""), pencil(""), pencil("")), rows, pad=5.0),
        )
    if plan.cost.gaps:
        sheet.add(heading("Not in the price"), points([gap.words for gap in plan.cost.gaps]))
    behind = SheetOfPaper("The sum behind each item", follows=True)
    for item in plan.quantities.items:
        behind.add(
            heading(f"{item.description}: {amount(item.gross)} {item.unit}"),
            points([sum_behind(working, figures) for working in item.workings]),
        )
    return [sheet, behind]


def _holding(item: Item) -> Block:
    """Return what mixed packs hold of each size, and what is left of it."""
    return table(
        (rest("size"), right("in one pack"), right("needed"), right("with spares"), right("ordered"), right("over")),
        [
            (each.unit, *(str(n) for n in (each.per_pack, each.needed, each.with_spares, each.ordered, each.left)))
            for each in item.holds
        ],
        type_size=8.0,
    )


def _several_packs(plan: Plan) -> list[tuple[str, int]]:
    """Return the units and mixed packs of which more than one pack comes, with how many."""
    ordered = {item.key: item.ordered_amount for item in plan.quantities.items}
    packs = [
        (unit.name, math.ceil(ordered.get(of_unit(number), 0.0) / unit.per_pack))
        for number, unit in enumerate(plan.job.units)
    ]
    packs += [(item.order_unit.capitalize(), math.ceil(item.ordered)) for item in plan.quantities.items if item.holds]
    return [(name, many) for name, many in packs if many > 1]


def _drawn_from(several: list[tuple[str, int]], figures: PaperFigures) -> list[str]:
    """Return how to draw from packs so that shades blend."""
    at_once = figures.packs_at_once
    said = [
        f"{name}: take units from {min(many, int(at_once.value))} of the {many} packs in turn, never one pack "
        "after another."
        for name, many in several
    ]
    return [
        *said,
        f"Several packs in turn, so that shades blend: {source(at_once, figures)}.",
        "Order one batch, and write down the batch number of every pack before it is opened: common practice.",
    ]


_ORDER = (
    rest("item"),
    right("net"),
    right("+ %"),
    right("with it"),
    right("range"),
    right("order"),
    "of",
    right("kg", "kg"),
)


def _order_row(item: Item) -> tuple[str, ...]:
    span = "" if item.low is None or item.high is None else f"{amount(item.low)}–{amount(item.high)}"
    return (
        item.description,
        f"{amount(item.net)} {item.unit}",
        one(item.allowance_percent),
        amount(item.gross),
        span,
        amount(item.ordered),
        item.order_unit,
        "" if item.kg is None else whole(item.kg),
    )


def price_sheet(plan: Plan, reported: CustomerWords) -> SheetOfPaper:
    """Return the price for the customer: what is done, for how much, on what assumptions."""
    cost, who = plan.cost, plan.job.identity
    sheet = SheetOfPaper("Price", mark=reported.not_ready, measured=False)
    sheet.add(heading("What is done"), points(reported.scope))
    sheet.add(
        heading("Price"),
        facts(
            [
                ("Before tax", money(cost.net_minor, who.currency)),
                _tax(plan),
                ("To pay", money(cost.total_minor, who.currency) if cost.prime_minor else price_text(plan)),
            ]
        ),
    )
    if who.invented:
        sheet.add(paragraph("This is an invented example: names and prices are invented."))
    sheet.add(
        heading("When"),
        points(reported.when),
        heading("Assumed"),
        points(reported.assumed),
        heading("Not in the price"),
        points(reported.not_included),
        heading("What is promised"),
        points(reported.promised),
        small(reported.right_to_cancel),
        lines(("Agreed (customer)", "Date", "For the contractor", "Date")),
    )
    return sheet


def customer_sheets(plan: Plan, reported: CustomerWords) -> list[SheetOfPaper]:
    """Return what the customer gets: the price, the levels, the sections and the laying plan."""
    found = [price_sheet(plan, reported), drawing_sheet(levels_plan(plan, PACK_FRAME))]
    section = section_at_wall(plan)
    if section is not None:
        found.append(drawing_sheet(section))
    found += [drawing_sheet(scene) for scene in step_sections(plan)]
    found.append(drawing_sheet(laying_plan(plan, PACK_FRAME, for_customer=True)))
    for sheet in found:
        sheet.mark = readiness(plan).words
    return found


def _tax(plan: Plan) -> tuple[str, str]:
    """Return the tax and what it comes to; that it is not known, where nobody has said."""
    name, minor = tax_row(plan)
    return name, "not known, and not in the price" if minor is None else money(minor, plan.job.identity.currency)


def cost_sheets(plan: Plan, figures: PaperFigures) -> list[SheetOfPaper]:
    """Return the cost, for the contractor's eyes only."""
    cost, currency = plan.cost, plan.job.identity.currency
    sheet = SheetOfPaper("Cost sheet: not for the customer", measured=False)
    sheet.add(
        _lines(plan),
        heading("From cost to price"),
        facts(
            [
                ("Prime cost", money(cost.prime_minor, currency)),
                (overhead_text(plan), money(cost.overhead_minor, currency)),
                (margin_text(plan), money(cost.margin_minor, currency)),
                ("Price before tax", money(cost.net_minor, currency)),
                _tax(plan),
                ("Price", price_text(plan)),
                ("If all goes well or badly", range_text(plan)),
            ]
        ),
        heading("What could make it dearer"),
        points([f"{words}: {money(more, currency)} more" for words, more in cost.reasons] or ("nothing",)),
        *_assumed(plan),
        heading("Sums"),
        points([sum_behind(working, figures) for working in cost.workings]),
        heading("Hours"),
        _hours(plan, figures),
    )
    return [sheet]


def _assumed(plan: Plan) -> list[Block]:
    """Return what each assumed fact may do to the price, and which stand in no range."""
    currency = plan.job.identity.currency
    if not plan.cost.assumed:
        return []
    rows = [
        (
            assumed_name(share.fact),
            "not in the range" if share.low_minor is None else money(share.low_minor, currency),
            "" if share.high_minor is None else money(share.high_minor, currency),
        )
        for share in plan.cost.assumed
    ]
    return [
        heading("Assumed, not measured: what it may do to the price"),
        table((rest("assumed"), right("less, at best"), right("more, at worst")), rows, type_size=8.0),
    ]


def _lines(plan: Plan) -> Block:
    """Return every priced line."""
    cost, currency = plan.cost, plan.job.identity.currency
    rows = [
        (
            line.description,
            counted(line.quantity, line.unit),
            money(line.rate_minor, currency),
            money(line.amount_minor, currency),
            ""
            if line.low_minor == line.high_minor
            else f"{money(line.low_minor, currency)} – {money(line.high_minor, currency)}",
        )
        for line in cost.lines
    ]
    heads = (rest("line"), right("how much"), right("price of one"), right("amount"), right("range"))
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
