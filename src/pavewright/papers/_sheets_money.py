"""Sheets of materials, of the price for the customer, and of the cost that stays inside."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.drawing import laying_plan, levels_plan, section_at_wall
from pavewright.papers._blocks import (
    Block,
    SheetOfPaper,
    drawing_sheet,
    facts,
    heading,
    lines,
    paragraph,
    points,
    small,
    table,
)
from pavewright.papers._words import amount, day, money, one, source, sum_behind, two

if TYPE_CHECKING:
    from pavewright.laying import LaidArea
    from pavewright.pipeline import Plan
    from pavewright.quantities import Item
    from pavewright.rules import Rulebook


def order_sheets(plan: Plan, rules: Rulebook) -> list[SheetOfPaper]:
    """Return the order list, and the sum behind every item."""
    sheet = SheetOfPaper("Materials and order")
    bought = [item for item in plan.quantities.items if item.material]
    measured = [item for item in plan.quantities.items if not item.material]
    sheet.add(
        table(
            ("*item", ">net", ">+ %", ">with it", ">range", ">order", "of", ">kg"),
            [_order_row(item) for item in bought],
            type_size=8.0,
        ),
        heading("Measured work"),
        table(
            ("*work", ">net", "unit", ">+ %", ">with it"),
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
            points(_drawn_from(several, rules)),
            table(("*batch numbers of", ">packs", "_", "_", "_"), rows, pad=5.0),
        )
    if plan.cost.unpriced:
        sheet.add(heading("Without a price"), points(plan.cost.unpriced))
    behind = SheetOfPaper("The sum behind each item")
    for item in plan.quantities.items:
        behind.add(
            heading(f"{item.description}: {amount(item.gross)} {item.unit}"),
            points([sum_behind(working, rules) for working in item.workings]),
        )
    return [sheet, behind]


def _holding(item: Item) -> Block:
    """Return what mixed packs hold of each size, and what is left of it."""
    return table(
        ("*size", ">in one pack", ">needed", ">with spares", ">ordered", ">over"),
        [
            (each.unit, *(str(n) for n in (each.per_pack, each.needed, each.with_spares, each.ordered, each.left)))
            for each in item.holds
        ],
        type_size=8.0,
    )


def _several_packs(plan: Plan) -> list[tuple[str, int]]:
    """Return the units and mixed packs of which more than one pack comes, with how many."""
    ordered = {item.key: item.ordered_amount for item in plan.quantities.items}
    packs = [(unit.name, math.ceil(ordered.get(f"units.{unit.name}", 0.0) / unit.per_pack)) for unit in plan.job.units]
    packs += [(item.order_unit.capitalize(), math.ceil(item.ordered)) for item in plan.quantities.items if item.holds]
    return [(name, many) for name, many in packs if many > 1]


def _drawn_from(several: list[tuple[str, int]], rules: Rulebook) -> list[str]:
    """Return how to draw from packs so that shades blend."""
    at_once = rules.figure("quantities.packs_at_once")
    said = [
        f"{name}: take units from {min(many, int(at_once.value))} of the {many} packs in turn, never one pack "
        "after another."
        for name, many in several
    ]
    return [
        *said,
        f"Several packs in turn, so that shades blend: {source(at_once, rules)}.",
        "Order one batch, and write down the batch number of every pack before it is opened: common practice.",
    ]


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
        "" if item.kg is None else f"{item.kg:,.0f}",
    )


def price_sheet(plan: Plan, rules: Rulebook) -> SheetOfPaper:
    """Return the price for the customer: what is done, for how much, on what assumptions."""
    cost, who = plan.cost, plan.job.identity
    sheet = SheetOfPaper("Price")
    sheet.add(heading("What is done"), points(_scope(plan)))
    sheet.add(
        heading("Price"),
        facts(
            [
                ("Before tax", money(cost.net_minor, who.currency)),
                (f"{plan.job.rates.tax_name} {plan.job.rates.tax_percent:g} %", money(cost.tax_minor, who.currency)),
                ("To pay", money(cost.total_minor, who.currency)),
            ]
        ),
    )
    if who.invented:
        sheet.add(paragraph("This is an invented example: names and prices are invented."))
    programme = plan.programme
    sheet.add(
        heading("When"),
        points(
            [
                f"{day(programme.start)} to {day(programme.finish)}; weather may move it.",
                f"Keep off until {day(programme.foot_ready)}.",
                *([f"No car until {day(programme.car_ready)}."] if programme.car_ready is not None else []),
            ]
        ),
        heading("Assumed"),
        points(plan.survey.assumptions or ("Nothing was left open on the visit.",)),
        heading("Not in the price"),
        points(
            [
                "Anything not listed above; soft ground, buried concrete or services found in the dig.",
                "Permissions and fees, unless they are listed.",
                *plan.cost.unpriced,
                "A change is priced, written down and agreed before it is done.",
            ]
        ),
        heading("What is promised"),
        points(_promise(plan, rules)),
        small(
            "Where this is agreed at your home or at a distance you may have a right to cancel; the notice and the "
            "form come with this price, in the words of the regulations of the place."
        ),
        lines(("Agreed (customer)", "Date", "For the contractor", "Date")),
    )
    return sheet


_PATTERN_WORDS = {
    "stack": "stack bond",
    "running": "running bond",
    "coursed": "courses of mixed widths",
    "mixed": "mixed sizes at random",
}


def _border_words(laid: LaidArea) -> str:
    """Return the border of an area in words; nothing where there is none."""
    if not laid.border_courses:
        return ""
    named = sorted({piece.unit for piece in laid.pieces if piece.border})
    many = "" if laid.border_courses == 1 else f" of {laid.border_courses} courses"
    return f" inside a border{many} of {', '.join(named)}"


def _units_words(laid: LaidArea) -> str:
    """Return the units of an area in words: all sizes of a mixed pack."""
    return laid.unit if laid.mixed is None else ", ".join(laid.mixed.units)


def _scope(plan: Plan) -> list[str]:
    found = []
    for area in plan.levels.areas:
        laid = plan.laying.area(area.area)
        layers = [layer.name for layer in plan.build_ups.area(area.area).layers[1:]]
        found.append(
            f"{area.area}: {one(laid.paved_m2 + laid.joint_m2)} m² of {_units_words(laid)} in "
            f"{_PATTERN_WORDS.get(laid.pattern, laid.pattern)}{_border_words(laid)} on {', '.join(layers)}; falls "
            f"{units.fall_text(area.main_fall)}."
        )
    found += [f"{steps.name}: {steps.risers} steps." for steps in plan.levels.steps]
    found += [
        f"Drainage: {channel.name} to {channel.outfall or 'no outfall'}." for channel in plan.survey.site.channels
    ]
    if plan.earthworks.areas:
        found.append("Dig, and spoil taken away.")
    return found


def _promise(plan: Plan, rules: Rulebook) -> list[str]:
    straight = rules.value(f"as_laid.straightedge_{plan.job.tolerance.value}_mm")
    step = rules.value("as_laid.step_between_units_mm")
    found = [
        f"Gap under a 3 m straight edge no more than {straight:g} mm; step between units no more than {step:g} mm."
    ]
    found += [
        f"Paving at wall {clearance.wall} {clearance.least_mm:.0f} mm or more below the damp-proof course."
        for area in plan.levels.areas
        for clearance in area.clearances
    ]
    return found


def customer_sheets(plan: Plan, rules: Rulebook) -> list[SheetOfPaper]:
    """Return what the customer gets: the price, the levels, the section and the laying plan."""
    found = [price_sheet(plan, rules), drawing_sheet(levels_plan(plan))]
    section = section_at_wall(plan)
    if section is not None:
        found.append(drawing_sheet(section))
    found.append(drawing_sheet(laying_plan(plan)))
    return found


def cost_sheets(plan: Plan, rules: Rulebook) -> list[SheetOfPaper]:
    """Return the cost, for the contractor's eyes only."""
    cost, currency = plan.cost, plan.job.identity.currency
    sheet = SheetOfPaper("Cost sheet: not for the customer")
    rows = [
        (
            line.description,
            f"{amount(line.quantity)} {line.unit}",
            money(line.rate_minor, currency),
            money(line.amount_minor, currency),
            ""
            if line.low_minor == line.high_minor
            else f"{money(line.low_minor, currency)} – {money(line.high_minor, currency)}",
        )
        for line in cost.lines
    ]
    sheet.add(
        table(("*line", ">how much", ">price of one", ">amount", ">range"), rows, type_size=8.0),
        heading("From cost to price"),
        facts(
            [
                ("Prime cost", money(cost.prime_minor, currency)),
                (f"Overhead {plan.job.rates.overhead_percent:g} %", money(cost.overhead_minor, currency)),
                (f"Margin {plan.job.rates.margin_percent:g} % of the price", money(cost.margin_minor, currency)),
                ("Price before tax", money(cost.net_minor, currency)),
                (plan.job.rates.tax_name, money(cost.tax_minor, currency)),
                ("Price", money(cost.total_minor, currency)),
                (
                    "If all goes well or badly",
                    f"{money(cost.low_minor, currency)} to {money(cost.high_minor, currency)}",
                ),
            ]
        ),
        heading("What could make it dearer"),
        points([f"{words}: {money(more, currency)} more" for words, more in cost.reasons] or ("nothing",)),
        heading("Sums"),
        points([sum_behind(working, rules) for working in cost.workings]),
        heading("Hours"),
        table(
            ("*task", ">likely h", ">low", ">high", "*sum", "*source"),
            [
                (
                    task.description,
                    one(task.person_hours),
                    one(task.low_hours),
                    one(task.high_hours),
                    task.working.expression,
                    source(task.working.figures[0], rules) if task.working.figures else "",
                )
                for task in cost.labour
            ],
            type_size=7.5,
        ),
    )
    return [sheet]
