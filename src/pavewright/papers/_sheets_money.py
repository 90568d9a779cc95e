"""Sheets of materials, of the price for the customer, and of the cost that stays inside."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.drawing import A3_FRAME, laying_plan, levels_plan, step_sections, wall_sections
from pavewright.papers._blocks import (
    PACK_FRAME,
    Block,
    SheetOfPaper,
    SheetSize,
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
from pavewright.papers._words import amount, one, source, sum_behind, two, whole
from pavewright.quantities import of_unit

if TYPE_CHECKING:
    from pavewright.papers._customer_money import CustomerMoney
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
            sheet.add(heading(f"What {item.ordered_words} hold{'s' if item.ordered == 1.0 else ''}"), _holding(item))
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
    packs += [(item.sold_as.one.capitalize(), math.ceil(item.ordered)) for item in plan.quantities.items if item.holds]
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
        item.sold_as.one if item.ordered == 1.0 else item.sold_as.several,
        "" if item.kg is None else whole(item.kg),
    )


def price_sheet(plan: Plan, reported: CustomerWords) -> SheetOfPaper:
    """Return the price for the customer: what is done, for how much, on what assumptions."""
    who = plan.job.identity
    sheet = SheetOfPaper("Price", mark=reported.not_ready, measured=False)
    sheet.add(heading("What is done"), points(reported.scope), *price_blocks(reported.money))
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


def price_blocks(told: CustomerMoney) -> list[Block]:
    """Return the price with its tax, how it is paid, what is settled later and how long it holds."""
    found = [heading("Price"), facts(told.price), points([*told.statements, told.holds]), heading("How it is paid")]
    if told.payments:
        heads = (rest("falls due when"), "by the programme", right("part"), right("held, freed"), right("to pay"))
        found.append(table(heads, told.payments, type_size=9.0))
    found.append(points(told.paying))
    if told.goods or told.provisional:
        found.append(heading("What is settled later"))
    if told.goods:
        goods = (rest("goods to be chosen"), right("for supplying"), right("in the price"), right("settled at"))
        found.append(table(goods, told.goods, type_size=9.0))
    if told.provisional:
        work = (rest("provisional work"), right("in the price"), right("settled at"))
        found.append(table(work, told.provisional, type_size=9.0))
    found += [points(told.settling)] if told.settling else []
    if told.options:
        offers = (rest("option"), right("more or less, with tax"), right("days"), "wanted: tick")
        rows = [(*each, "[    ]") for each in told.options]
        found += [heading("Options"), table(offers, rows, type_size=9.0), points(told.choosing)]
    return found


def customer_sheets(plan: Plan, reported: CustomerWords, size: SheetSize = SheetSize.A4) -> list[SheetOfPaper]:
    """Return the drawings that the customer gets, on one size: the levels, the sections and the laying plan."""
    frame_mm = A3_FRAME if size is SheetSize.A3 else PACK_FRAME
    found = [drawing_sheet(levels_plan(plan, frame_mm), size=size)]
    found += [drawing_sheet(scene, size=size) for scene in (*wall_sections(plan), *step_sections(plan))]
    found.append(drawing_sheet(laying_plan(plan, frame_mm, for_customer=True), size=size))
    for sheet in found:
        sheet.mark = reported.not_ready
    return found
