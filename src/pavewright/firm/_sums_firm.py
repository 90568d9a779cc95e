"""Sums of the firm: overhead, mark-up and margin."""

from __future__ import annotations

from pavewright import units
from pavewright.firm._overhead import overhead_on_cost, overhead_per_hour
from pavewright.firm._percents import margin_of_markup, markup_of_margin, stacked
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def overhead_hour(yearly: float, hours_sold: float) -> dict[str, Value]:
    """Return what overhead an hour of labour has to bring in.

    Source: definition
    """
    if yearly < 0.0 or hours_sold <= 0.0:
        message = "Yearly costs are not less than zero; hours sold are more than zero."
        raise SumRefusedError(message)
    return {"per_hour": overhead_per_hour(yearly, hours_sold)}


def overhead_parts(yearly: float, direct: float, sales: float) -> dict[str, Value]:
    """Return overhead as a part of the direct cost, and as a part of the sales: never the same number.

    Source: definition
    """
    if yearly < 0.0 or min(direct, sales) <= 0.0:
        message = "Yearly costs are not less than zero; direct cost and sales are more than zero."
        raise SumRefusedError(message)
    return {
        "on_cost_percent": overhead_on_cost(yearly, direct),
        "on_sales_percent": overhead_on_cost(yearly, sales),
    }


def markup_to_margin(mark_up_percent: float) -> dict[str, Value]:
    """Return the margin that a mark-up leaves.

    Source: definition
    """
    if mark_up_percent < 0.0:
        message = "A mark-up is not less than zero."
        raise SumRefusedError(message)
    return {"margin_percent": margin_of_markup(mark_up_percent)}


def margin_to_markup(margin_percent: float) -> dict[str, Value]:
    """Return the mark-up that a margin needs.

    Source: definition
    """
    if not 0.0 <= margin_percent < units.ALL_PERCENT:
        message = "A margin is a part of the price: less than 100 per cent, and not less than zero."
        raise SumRefusedError(message)
    return {"mark_up_percent": markup_of_margin(margin_percent)}


def cost_with_markups(cost: float, overhead_percent: float, mark_up_percent: float) -> dict[str, Value]:
    """Return the price from a cost, overhead on it, and a mark-up on both.

    Source: definition
    """
    if min(cost, overhead_percent, mark_up_percent) < 0.0:
        message = "Cost and percentages are not less than zero."
        raise SumRefusedError(message)
    together = stacked(overhead_percent, mark_up_percent)
    return {
        "with_overhead": cost * (1.0 + overhead_percent / units.ALL_PERCENT),
        "price": cost * (1.0 + together / units.ALL_PERCENT),
        "together_percent": together,
        "margin_percent": margin_of_markup(mark_up_percent),
    }


SUMS: tuple[Sum, ...] = (
    Sum(
        "overhead-per-hour",
        "Find what overhead an hour of labour brings in",
        (
            Quantity("yearly", "", "what the firm costs in a year, whatever it builds"),
            Quantity("hours_sold", "h", "hours of labour sold in a year"),
        ),
        (Quantity("per_hour", "", "overhead for an hour"),),
        "overhead = yearly costs / hours sold",
        "definition",
        overhead_hour,
    ),
    Sum(
        "overhead-percent",
        "Find overhead as a part of cost and of sales",
        (
            Quantity("yearly", "", "what the firm costs in a year, whatever it builds"),
            Quantity("direct", "", "direct cost of all jobs of a year"),
            Quantity("sales", "", "sales of a year"),
        ),
        (
            Quantity("on_cost_percent", "%", "overhead as a part of the direct cost"),
            Quantity("on_sales_percent", "%", "overhead as a part of the sales"),
        ),
        "overhead = yearly costs / direct cost",
        "definition",
        overhead_parts,
    ),
    Sum(
        "margin-of-mark-up",
        "Find the margin that a mark-up leaves",
        (Quantity("mark_up_percent", "%", "mark-up, a part of the cost"),),
        (Quantity("margin_percent", "%", "margin, a part of the price"),),
        "margin = mark-up / (1 + mark-up)",
        "definition",
        markup_to_margin,
    ),
    Sum(
        "mark-up-of-margin",
        "Find the mark-up that a margin needs",
        (Quantity("margin_percent", "%", "margin, a part of the price"),),
        (Quantity("mark_up_percent", "%", "mark-up, a part of the cost"),),
        "mark-up = margin / (1 − margin)",
        "definition",
        margin_to_markup,
    ),
    Sum(
        "price-by-mark-up",
        "Find the price from cost, overhead and mark-up",
        (
            Quantity("cost", "", "cost, any currency"),
            Quantity("overhead_percent", "%", "overhead on the cost", default=0.0),
            Quantity("mark_up_percent", "%", "mark-up on cost and overhead", default=0.0),
        ),
        (
            Quantity("with_overhead", "", "cost with overhead"),
            Quantity("price", "", "price before tax"),
            Quantity("together_percent", "%", "overhead and mark-up together, on the cost"),
            Quantity("margin_percent", "%", "what the mark-up is of the price"),
        ),
        "price = cost · (1 + overhead) · (1 + mark-up)",
        "definition",
        cost_with_markups,
    ),
)
