"""Priced lines: labour, plant, material, disposal, in whole minor units."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.cost._hire import hire_days
from pavewright.cost._types import CostLine
from pavewright.quantities import sold_packs
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.cost._types import LabourTask
    from pavewright.earthworks import Earthworks
    from pavewright.job import Job
    from pavewright.laying import LayingPlan
    from pavewright.quantities import Item, Quantities


def to_minor(amount: float) -> int:
    """Return an amount in whole minor units, halves up: the one place where money is rounded.

    >>> to_minor(2.5), to_minor(2.4)
    (3, 2)
    """
    return math.floor(amount + 0.5)


def labour_lines(job: Job, tasks: tuple[LabourTask, ...]) -> list[CostLine]:
    """Return a line for each task."""
    rate = job.rates.labour_minor_per_hour
    return [
        CostLine(
            key=task.key,
            group="labour",
            description=task.description,
            quantity=task.person_hours,
            unit="h",
            rate_minor=rate,
            amount_minor=to_minor(task.person_hours * rate),
            low_minor=to_minor(task.low_hours * rate),
            high_minor=to_minor(task.high_hours * rate),
            working=task.working,
        )
        for task in tasks
    ]


def plant_lines(job: Job, tasks: tuple[LabourTask, ...]) -> list[CostLine]:
    """Return a line for each machine on hire."""
    found = []
    for number, hire in enumerate(job.rates.plant):
        days, working = hire_days(hire, tasks, job.crew)
        amount = to_minor(days * hire.day_price_minor)
        found.append(
            CostLine(
                key=f"plant.{number}.{hire.key}",
                group="plant",
                description=hire.name or hire.key.capitalize(),
                quantity=days,
                unit="days",
                rate_minor=hire.day_price_minor,
                amount_minor=amount,
                low_minor=amount,
                high_minor=amount,
                working=working,
            )
        )
    return found


def disposal_lines(job: Job, earthworks: Earthworks) -> list[CostLine]:
    """Return the line for what leaves."""
    disposal, loads = job.rates.disposal, earthworks.loads
    if disposal is None or loads is None or not earthworks.areas:
        return []
    price = disposal.load_price_minor
    return [
        CostLine(
            key="disposal",
            group="disposal",
            description=f"Spoil away, {disposal.kind} of {disposal.volume_m3:g} m³",
            quantity=loads.likely,
            unit="loads",
            rate_minor=price,
            amount_minor=to_minor(loads.likely * price),
            low_minor=to_minor(loads.low * price),
            high_minor=to_minor(loads.high * price),
            working=next(working for working in earthworks.workings if working.unit == "loads"),
        )
    ]


def material_lines(job: Job, laying: LayingPlan, quantities: Quantities) -> tuple[list[CostLine], list[str]]:
    """Return a line for each bought item that has a price, and the names of those that have none."""
    found, unpriced = [], []
    prices = {material.key: material.pack_price_minor for material in job.rates.materials}
    for unit in job.units:
        each = to_minor(unit.pack_price_minor / unit.per_pack)
        prices[unit.name] = each if unit.part_packs else unit.pack_price_minor
    packs = sold_packs(job, laying)
    prices |= {key: pack.pack_price_minor for key, (pack, _) in packs.items() if pack.pack_price_minor is not None}
    for item in quantities.items:
        if not item.material or item.material == "disposal":
            continue
        if item.material not in prices:
            unpriced.append(f"{item.description}: {item.gross:.1f} {item.unit}")
            continue
        found.append(_material(item, prices[item.material]))
    if job.rates.disposal is None and any(item.key == "spoil" for item in quantities.items):
        unpriced.append("Spoil to leave the site")
    return found, unpriced


def _material(item: Item, price: int) -> CostLine:
    amount = to_minor(item.ordered * price)
    return CostLine(
        key=item.key,
        group="material",
        description=item.description,
        quantity=item.ordered,
        unit=item.order_unit,
        rate_minor=price,
        amount_minor=amount,
        low_minor=amount,
        high_minor=amount,
        working=Working(
            f"{item.ordered:g} × {price}", float(amount), "minor units", (), "what is ordered times the price of one"
        ),
    )
