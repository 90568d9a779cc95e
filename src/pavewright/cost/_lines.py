"""Priced lines: labour, plant, material, disposal, in whole minor units."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, assert_never

from pavewright import units
from pavewright.cost._hour_price import hour_price, unpriced_skills
from pavewright.cost._keys import LineGroup, TaskKind
from pavewright.cost._money import labour_cost, to_minor
from pavewright.cost._scope import scope_of
from pavewright.cost._types import CostLine
from pavewright.cost._words import labour_without
from pavewright.job import MaterialKind, PackUnit
from pavewright.quantities import Gap, GapReason, ItemKey, ItemKind, Measure, in_reading_order, pack_fits, sold_packs
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.cost._hour_price import HourPrice
    from pavewright.cost._types import LabourTask
    from pavewright.earthworks import Earthworks, Spread
    from pavewright.job import Job, Material, Skill
    from pavewright.laying import LayingPlan
    from pavewright.quantities import Item, Quantities, SoldPack


def labour_lines(job: Job, tasks: tuple[LabourTask, ...]) -> list[CostLine]:
    """Return a line for each task whose hour has a price."""
    priced = [(task, hour_price(job, task.key.kind)) for task in tasks]
    return [
        CostLine(
            key=task.key,
            group=LineGroup.PROVISIONAL if task.key.kind is TaskKind.TOPSOIL_PROVISIONAL else LineGroup.LABOUR,
            description=task.description,
            quantity=task.person_hours,
            unit="h",
            rate_minor=rate.minor,
            amount_minor=to_minor(labour_cost(task.person_hours, rate.minor)),
            low_minor=to_minor(labour_cost(task.low_hours, rate.minor)),
            high_minor=to_minor(labour_cost(task.high_hours, rate.minor)),
            working=_with_hour(task.working, rate),
        )
        for task, rate in priced
        if rate is not None
    ]


def _with_hour(working: Working, rate: HourPrice) -> Working:
    """Return the sum behind hours with what an hour of them costs."""
    return (
        replace(working, note="; ".join(part for part in (working.note, rate.words) if part)) if rate.words else working
    )


def labour_gaps(job: Job, tasks: tuple[LabourTask, ...]) -> list[Gap]:
    """Return labour as not in the price, by the skills whose hour has no price: nobody works for nothing unsaid."""
    free: dict[tuple[Skill, ...], list[LabourTask]] = {}
    for task in tasks:
        if not _has_hour_price(job, task):
            free.setdefault(unpriced_skills(job, task.key.kind), []).append(task)
    return [_labour_gap(skills, mine) for skills, mine in free.items()]


def _labour_gap(skills: tuple[Skill, ...], tasks: list[LabourTask]) -> Gap:
    hours = sum(task.person_hours for task in tasks)
    scope = in_reading_order(frozenset(scope_of(task.key) for task in tasks))
    return Gap(scope, GapReason.NO_PRICE, labour_without(hours, skills))


def _has_hour_price(job: Job, task: LabourTask) -> bool:
    priced = hour_price(job, task.key.kind)
    return priced is not None and priced.minor > 0


def disposal_lines(job: Job, earthworks: Earthworks, quantities: Quantities) -> list[CostLine]:
    """Return the lines for what leaves: of the dig, and of soakaways and drain trenches."""
    found = []
    if earthworks.areas and earthworks.loads is not None and earthworks.loads_working is not None:
        found.append(_away(job, ItemKey(ItemKind.SPOIL), "Spoil away", earthworks.loads, earthworks.loads_working))
    pit = quantities.pit_spoil
    if pit is not None and pit.loads is not None:
        words = "Spoil of soakaways and trenches away"
        found.append(_away(job, ItemKey(ItemKind.PIT_SPOIL), words, pit.loads, pit.workings[-1]))
    return [line for line in found if line is not None]


def _away(job: Job, key: ItemKey, words: str, loads: Spread, working: Working) -> CostLine | None:
    """Return the line of loads that leave; nothing where no load has a price."""
    disposal = job.rates.disposal
    if disposal is None or disposal.load_price_minor is None:
        return None
    price = disposal.load_price_minor
    return CostLine(
        key=key,
        group=LineGroup.DISPOSAL,
        description=f"{words}, {disposal.kind} of {disposal.volume_m3:g} m³",
        quantity=loads.likely,
        unit="loads",
        rate_minor=price,
        amount_minor=to_minor(loads.likely * price),
        low_minor=to_minor(loads.low * price),
        high_minor=to_minor(loads.high * price),
        working=working,
    )


def material_lines(job: Job, laying: LayingPlan, quantities: Quantities) -> tuple[list[CostLine], list[Gap]]:
    """Return a line for each bought item that has a price, and what has none; a price of zero is none."""
    found: list[CostLine] = []
    gaps: list[Gap] = []
    packs = sold_packs(job, laying)
    for item in quantities.items:
        price = _price_of(item, job, packs)
        if item.key.kind in _LEAVING:
            if job.rates.disposal is None or job.rates.disposal.load_price_minor is None:
                gaps.append(Gap(item.scope, GapReason.NO_PRICE, item.description, item.key))
        elif price:
            found.append(_material(item, price, job.identity.currency))
        elif item.key.bought:
            gaps.append(_not_priced(item, job))
    return found, gaps


def _not_priced(item: Item, job: Job) -> Gap:
    """Return a bought item as not in the price: nothing says what it costs, or how much of it a pack holds."""
    words, sold = f"{item.description}: {_how_much(item)}", _sold_as(item.key, job)
    if sold is not None and sold.pack_price_minor and not pack_fits(sold, item.unit):
        piece = sold.pack_unit is PackUnit.EACH
        holds = "the length of one piece" if piece and item.unit is Measure.METRE else f"how many {item.unit} one holds"
        words = f"{words}; sold by {'the piece' if piece else sold.pack_unit.value}, and {holds} is not said"
        return Gap(item.scope, GapReason.NOT_KNOWN, words, item.key)
    return Gap(item.scope, GapReason.NO_PRICE, words, item.key, ours=item.key.kind is ItemKind.CATALOGUE)


def _sold_as(key: ItemKey, job: Job) -> Material | None:
    """Return the material that an item is bought as; None where it is none, or is in no list."""
    if key.kind not in {ItemKind.MATERIAL, ItemKind.PROVISIONAL_STONE}:
        return None
    wanted = _FILL if key.material is None else key.material
    return next((each for each in job.rates.materials if each.key is wanted), None)


def _how_much(item: Item) -> str:
    """Return how much of an item is taken, as one would say it.

    Pieces are whole ones and a thousand kilograms are a tonne; what is small keeps the decimals that it needs.
    """
    if item.unit in _COUNTED:
        return f"{math.ceil(item.gross - _WHOLE)} {'' if item.unit is Measure.EACH else item.unit}".strip()
    if item.unit is Measure.KG and item.gross >= units.KG_PER_TONNE:
        return f"{item.gross / units.KG_PER_TONNE:.1f} t"
    return f"{item.gross:.{1 if item.gross >= _SMALL else 2}f} {item.unit}"


_COUNTED = frozenset({Measure.EACH, Measure.UNITS})
_WHOLE = 1e-6
"""A number of pieces this near to a whole one is a whole one."""
_SMALL = 0.1
"""What is less than this takes two decimals."""
_LEAVING = frozenset({ItemKind.SPOIL, ItemKind.PIT_SPOIL})


_FILL = MaterialKind.SUB_BASE
"""What fills under formation."""


def _price_of(item: Item, job: Job, packs: tuple[SoldPack, ...]) -> int | None:
    """Return the price of one of what is ordered; None where it has none or nothing is bought by itself.

    A price of a pack is none where nobody knows how much of the need a pack holds.
    """
    key = item.key
    match key.kind:
        case ItemKind.MATERIAL | ItemKind.PROVISIONAL_STONE:
            sold = _sold_as(key, job)
            return sold.pack_price_minor if sold is not None and pack_fits(sold, item.unit) else None
        case ItemKind.PROVISIONAL_SPOIL:
            return job.rates.disposal.load_price_minor if job.rates.disposal is not None else None
        case ItemKind.UNITS:
            unit = job.units[key.number]
            pack = unit.pack_price_minor
            return to_minor(pack / unit.per_pack) if unit.part_packs and pack is not None else pack
        case ItemKind.CATALOGUE:
            return next((each.pack_price_minor for each in job.rates.catalogue if each.key == key.catalogue), None)
        case ItemKind.MIXED_PACK:
            return next(sold.pack.pack_price_minor for sold in packs if sold.key == key)
        case (
            ItemKind.DIG
            | ItemKind.SPOIL
            | ItemKind.FILL
            | ItemKind.WALL_TRENCH
            | ItemKind.WALL_FOOTING
            | ItemKind.EDGE_TRENCH
            | ItemKind.ENGINEERED_WALL
            | ItemKind.PIT_SPOIL
            | ItemKind.STEP_CONCRETE
            | ItemKind.CONCRETE_BASE
            | ItemKind.MORTAR_BED
            | ItemKind.EDGE_CONCRETE
            | ItemKind.POINTING
            | ItemKind.WATER
            | ItemKind.STEPS
        ):
            return None
        case _:
            assert_never(key.kind)


_PROVISIONAL = frozenset({ItemKind.PROVISIONAL_STONE, ItemKind.PROVISIONAL_SPOIL})


def _material(item: Item, price: int, currency: str) -> CostLine:
    """Return a bought item as a line; one that is provisional with the ends of its range."""
    amount = to_minor(item.ordered * price)
    provisional = item.key.kind in _PROVISIONAL and item.low is not None and item.high is not None
    each = price * item.ordered / item.gross if item.gross else 0.0
    return CostLine(
        key=item.key,
        group=LineGroup.PROVISIONAL if provisional else LineGroup.MATERIAL,
        description=item.description,
        quantity=item.ordered,
        unit=item.order_unit,
        sold_as=item.sold_as,
        rate_minor=price,
        amount_minor=amount,
        low_minor=to_minor((item.low or 0.0) * each) if provisional else amount,
        high_minor=to_minor((item.high or 0.0) * each) if provisional else amount,
        working=Working(
            f"{item.ordered:g} × {units.minor_to_text(price, currency)}",
            float(amount),
            "minor units",
            (),
            "what is ordered times the price of one",
        ),
    )
