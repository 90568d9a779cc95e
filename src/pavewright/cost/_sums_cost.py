"""Sums of cost."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.cost import _hours
from pavewright.cost._money import ALL_PERCENT, Percents, chain, exact, labour_cost
from pavewright.cost._tax import tax_on
from pavewright.job import TaxRounding
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def price_from_cost(
    cost: float, margin_percent: float, tax_percent: float, overhead_percent: float, on_cost_percent: float = 0.0
) -> dict[str, Value]:
    """Return the price that carries overhead and leaves a margin, a part of the price, or adds a mark-up to the cost.

    Source: definition
    """
    if min(cost, tax_percent, overhead_percent) < 0.0 or not 0.0 <= margin_percent < ALL_PERCENT:
        message = "Cost, overhead and tax are not less than zero; a margin is less than 100 per cent of the price."
        raise SumRefusedError(message)
    if on_cost_percent < 0.0 or (on_cost_percent and margin_percent):
        message = "Give a margin or a mark-up, not both; a mark-up is not less than zero."
        raise SumRefusedError(message)
    found = chain(cost, Percents(overhead_percent, margin_percent, tax_percent, on_cost_percent), float)
    return {
        "net": found.net,
        "total": found.total,
        "mark_up_percent": ALL_PERCENT * (found.net / cost - 1.0) if cost else 0.0,
        "overhead": found.overhead,
        "margin": found.margin,
        "margin_of_price_percent": ALL_PERCENT * found.margin / found.net if found.net else 0.0,
        "tax": found.tax,
    }


def tax_by_line(lines: tuple[float, ...], tax_percent: float, way: str) -> dict[str, Value]:
    """Return the tax on lines of one rate, rounded in the way that is chosen.

    Source: hmrc_vatrec
    """
    nets = [exact(each) * units.PENCE_PER_POUND for each in lines]
    if not nets or min(nets) < 0 or tax_percent < 0.0 or any(each.denominator != 1 for each in nets):
        message = "Lines are not less than zero and in whole pence or cents; the rate is not less than zero."
        raise SumRefusedError(message)
    whole = [int(each) for each in nets]
    tax = sum(tax_on(whole, [tax_percent] * len(whole), TaxRounding(way))) / units.PENCE_PER_POUND
    return {"tax": tax, "total": sum(whole) / units.PENCE_PER_POUND + tax}


def unit_rate(hours: float, labour_rate: float, plant: float, material: float) -> dict[str, Value]:
    """Return a rate built up from labour, plant and material.

    Source: definition
    """
    if min(hours, labour_rate, plant, material) < 0.0:
        message = "Hours and prices are not less than zero."
        raise SumRefusedError(message)
    labour = labour_cost(hours, labour_rate)
    return {"labour": labour, "rate": labour + plant + material}


def crew_time(amount: float, output_per_hour: float, people: float, hours_per_day: float) -> dict[str, Value]:
    """Return how long a crew takes.

    Source: definition
    """
    if amount < 0.0 or min(output_per_hour, people, hours_per_day) <= 0.0:
        message = "The amount is not less than zero; output, people and hours are more than zero."
        raise SumRefusedError(message)
    person_hours = _hours.person_hours(amount, 1.0 / output_per_hour)
    hours = _hours.crew_hours(person_hours, people)
    return {
        "person_hours": person_hours,
        "crew_hours": hours,
        "days": hours / hours_per_day,
        "minutes_per_unit": units.MINUTES_PER_HOUR / (output_per_hour * people),
        "whole_days": float(math.ceil(hours / hours_per_day - 1e-9)),
    }


def excavator_output(
    bucket_m3: float, cycles_per_min: float, efficiency: float, fill: float = 1.0, swell_percent: float = 0.0
) -> dict[str, Value]:
    """Return what an excavator digs in an hour, as it lies in the bucket, or in the ground where its swell is given.

    Source: definition
    """
    if min(bucket_m3, cycles_per_min, fill) <= 0.0 or swell_percent < 0.0 or not 0.0 < efficiency <= 1.0:
        message = (
            "Bucket, its filling and cycles are more than zero, swell is not less than zero; efficiency lies between "
            "zero and one."
        )
        raise SumRefusedError(message)
    loose_m3_per_h = bucket_m3 * fill * cycles_per_min * units.MINUTES_PER_HOUR * efficiency
    return {"m3_per_h": loose_m3_per_h / (1.0 + swell_percent / ALL_PERCENT)}


SUMS: tuple[Sum, ...] = (
    Sum(
        "price-from-cost",
        "Find the price that leaves a margin",
        (
            Quantity("cost", "", "cost, any currency"),
            Quantity("margin_percent", "%", "margin, a part of the price"),
            Quantity("tax_percent", "%", "tax on the price", default=0.0),
            Quantity("overhead_percent", "%", "overhead on the cost", default=0.0),
            Quantity("on_cost_percent", "%", "mark-up on cost and overhead, in place of a margin", default=0.0),
        ),
        (
            Quantity("net", "", "price before tax"),
            Quantity("total", "", "price with tax"),
            Quantity("mark_up_percent", "%", "overhead and margin as a part of the cost"),
            Quantity("overhead", "", "overhead"),
            Quantity("margin", "", "what the margin leaves"),
            Quantity("margin_of_price_percent", "%", "the margin as a part of the price"),
            Quantity("tax", "", "tax"),
        ),
        "price = (cost + overhead) / (1 − margin), or (cost + overhead) · (1 + mark-up)",
        "definition",
        price_from_cost,
    ),
    Sum(
        "tax-rounding",
        "Find the tax on lines of one rate, by the way in which it is rounded",
        (
            Quantity("lines", "", "lines before tax, any currency", "numbers"),
            Quantity("tax_percent", "%", "tax on them"),
            Quantity(
                "way",
                "",
                "together, each line by itself, down, or lines down to a tenth; ask the tax office which are open",
                "word",
                "invoice",
                ("invoice", "line", "down", "tenth"),
            ),
        ),
        (Quantity("tax", "", "tax"), Quantity("total", "", "lines with tax")),
        "tax = Σ line · rate, rounded to whole pence or cents",
        "hmrc_vatrec",
        tax_by_line,
    ),
    Sum(
        "unit-rate",
        "Build up a rate from labour, plant and material",
        (
            Quantity("hours", "h", "hours of labour for one unit"),
            Quantity("labour_rate", "", "price of an hour"),
            Quantity("plant", "", "plant for one unit", default=0.0),
            Quantity("material", "", "material for one unit", default=0.0),
        ),
        (Quantity("labour", "", "labour for one unit"), Quantity("rate", "", "rate for one unit")),
        "rate = hours · rate + plant + material",
        "definition",
        unit_rate,
    ),
    Sum(
        "crew-time",
        "Find how long a crew takes",
        (
            Quantity("amount", "", "amount of work"),
            Quantity("output_per_hour", "", "what one person does in an hour"),
            Quantity("people", "", "people", default=1.0),
            Quantity("hours_per_day", "h", "hours in a day", default=8.0),
        ),
        (
            Quantity("person_hours", "h", "person-hours"),
            Quantity("crew_hours", "h", "hours on the clock"),
            Quantity("days", "", "days"),
            Quantity("minutes_per_unit", "min", "minutes for one unit by the crew"),
            Quantity("whole_days", "", "whole days"),
        ),
        "hours = amount / (output · people)",
        "definition",
        crew_time,
    ),
    Sum(
        "excavator-output",
        "Find what an excavator digs in an hour",
        (
            Quantity("bucket_m3", "m3", "bucket"),
            Quantity("cycles_per_min", "", "cycles in a minute", default=4.0),
            Quantity("efficiency", "", "part of the hired hour that is worked", default=1.0),
            Quantity("fill", "", "what the bucket holds over its size", default=1.0),
            Quantity("swell_percent", "%", "gain in volume when dug; 0 gives the output loose", default=0.0),
        ),
        (Quantity("m3_per_h", "m³/h", "output"),),
        "output = bucket · fill · cycles · 60 · efficiency / (1 + swell)",
        "definition",
        excavator_output,
    ),
)
