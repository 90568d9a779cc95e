"""What takes up a surface that is off, by the rates of the plan itself: goods, hours, money and days."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup import Layer, LayerKey, LayerMaterial
from pavewright.cost import TaskKey, TaskKind
from pavewright.earthworks import Spread
from pavewright.hold_points._types import Consequence, GoodsNeeded, GoodsRate, TakeUp, TakeUpRate
from pavewright.quantities import ItemKey, ItemKind, layer_needs, layer_volumes, of_material
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Collection

    from pavewright.buildup import AreaBuildUp
    from pavewright.cost import Cost, LabourTask
    from pavewright.earthworks import Earthworks
    from pavewright.hold_points._volumes import OffVolumes
    from pavewright.job import Job
    from pavewright.quantities import LayerNeed, Quantities
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea

_STONE = frozenset({LayerMaterial.STONE, LayerMaterial.CAPPING, LayerMaterial.OPEN_STONE})
_DUG = frozenset({TaskKind.DIG, TaskKind.LOAD, TaskKind.CART})
_WORK = {TakeUp.STONE: frozenset({TaskKind.SUB_BASE}), TakeUp.CONCRETE: frozenset({TaskKind.BASE})}
"""The work by whose hours more of a layer is judged; a bed is laid with the units, and its hours with them."""


@dataclass(frozen=True)
class Priced:
    """The plan by whose rates things are judged, as far as it goes.

    Attributes:
        job: The job.
        rules: The rulebook.
        earthworks: The dig; None where it is not made.
        labour: Work in hours; None where it is not made.
        quantities: Measured items; None where they are not made.
        cost: The price; None where there is none.
    """

    job: Job
    rules: Rulebook
    earthworks: Earthworks | None
    labour: tuple[LabourTask, ...] | None
    quantities: Quantities | None
    cost: Cost | None


def more_rate(plan: Priced, number: int, area: PlanArea, up: AreaBuildUp, layer: Layer) -> TakeUpRate | None:
    """Return what a cubic metre more of a layer takes; None for a layer that takes nothing up.

    Args:
        plan: The plan by whose rates it is judged.
        number: Place of the area in the job.
        area: The area.
        up: What lies under it.
        layer: The layer that is made thicker.
    """
    needs = layer_needs(plan.job, layer.material, 1.0, plan.rules)
    if not needs:
        return None
    kind = _kind_of(layer)
    goods = tuple(_goods(plan, need) for need in needs)
    task_kinds = _WORK.get(kind)
    if task_kinds is None:
        hours, labour = (None, None)
        known: float | None = 0.0
    else:
        worked = [each for each in layer_volumes(area, up) if _kind_of(each.layer) is kind]
        volume = sum(each.volume_m3 for each in worked)
        hours, labour = _work_per_m3(plan, number, task_kinds, volume)
        known = labour
    prices = [each.minor_per_m3 for each in goods]
    minor = None if known is None or None in prices else known + sum(each for each in prices if each is not None)
    return TakeUpRate(kind, layer.key, goods, hours, minor)


def stone_rate(plan: Priced, number: int, area: PlanArea, up: AreaBuildUp) -> TakeUpRate | None:
    """Return what a cubic metre of stone takes that fills what was dug out: open stone where water goes through."""
    material = LayerMaterial.OPEN_STONE if up.is_permeable else LayerMaterial.STONE
    return more_rate(plan, number, area, up, Layer(LayerKey.SUB_BASE, "", 0.0, material, 0.0, (), ""))


def _kind_of(layer: Layer) -> TakeUp:
    if layer.material in _STONE:
        return TakeUp.STONE
    return TakeUp.CONCRETE if layer.material is LayerMaterial.CONCRETE else TakeUp.BED


def _goods(plan: Priced, need: LayerNeed) -> GoodsRate:
    """Return what a cubic metre takes of one material, with the price that the plan pays for it."""
    key = of_material(need.material)
    item = None if plan.quantities is None else next((each for each in plan.quantities.items if each.key == key), None)
    line = None if plan.cost is None else next((each for each in plan.cost.lines if each.key == key), None)
    in_pack = price = None
    if item is not None and item.ordered and item.unit is need.unit:
        in_pack = item.ordered_amount / item.ordered
        if line is not None and item.ordered_amount:
            price = need.amount * line.amount_minor / item.ordered_amount
    return GoodsRate(need.material, need.amount, need.unit, in_pack, price)


def _work_per_m3(
    plan: Priced, number: int, kinds: Collection[TaskKind], volume_m3: float
) -> tuple[float | None, float | None]:
    """Return hours [h/m³] and their cost [minor units per m³] of work in an area; None where the plan has none."""
    if plan.labour is None or volume_m3 <= 0.0:
        return None, None
    own = [task for task in plan.labour if task.key.kind in kinds and task.key.area == number]
    if not own:
        return None, None
    hours = sum(task.person_hours for task in own) / volume_m3
    lines = {line.key: line.amount_minor for line in (plan.cost.lines if plan.cost is not None else ())}
    paid = [lines.get(TaskKey(task.key.kind, task.key.area, task.key.number)) for task in own]
    if None in paid:
        return hours, None
    return hours, sum(each for each in paid if each is not None) / volume_m3


def dig_rate(plan: Priced, number: int, name: str) -> TakeUpRate | None:
    """Return what a cubic metre more of dig takes; None where the ground was not levelled.

    Args:
        plan: The plan by whose rates it is judged.
        number: Place of the area in the job.
        name: Its name.
    """
    works = plan.earthworks
    if works is None or not works.areas or works.away_m3 <= 0.0:
        return None
    cut = works.area(name).volumes.cut_m3 + sum(each.dig_m3 for each in works.found_in(name))
    hours, labour = _work_per_m3(plan, number, _DUG, cut)
    loose = works.loose_m3.likely / works.away_m3
    item, line = None, None
    spoil = ItemKey(ItemKind.SPOIL)
    if plan.quantities is not None and plan.cost is not None:
        item = next((each for each in plan.quantities.items if each.key == spoil), None)
        line = next((each for each in plan.cost.lines if each.key == spoil), None)
    away = None if item is None or line is None or not item.net else loose * line.amount_minor / item.net
    minor = None if labour is None or away is None else labour + away
    return TakeUpRate(TakeUp.DIG, None, (), hours, minor, loose)


def trim_rate(dig: TakeUpRate | None) -> TakeUpRate | None:
    """Return what it takes to trim a layer that lies high: it is taken off by hand as soil is, and used elsewhere."""
    if dig is None:
        return None
    return TakeUpRate(TakeUp.DIG, None, (), dig.hours_per_m3, None, None)


def consequence(
    rate: TakeUpRate | None, volume_m3: float, off: OffVolumes, area_m2: float, day_h: float | None
) -> Consequence | None:
    """Return what it takes that a surface is off; None where nothing is off, or nothing is known that takes it up.

    Args:
        rate: What a cubic metre takes.
        volume_m3: How much is low, or high. [m³]
        off: The readings behind it.
        area_m2: The surface. [m²]
        day_h: Hours that the crew works in a day, all of them together; None where that is not known. [h]
    """
    if rate is None or volume_m3 <= 0.0:
        return None
    doubt = off.doubt_m3 or 0.0
    spread = Spread(max(volume_m3 - doubt, 0.0), volume_m3, volume_m3 + doubt)
    hours = None if rate.hours_per_m3 is None else volume_m3 * rate.hours_per_m3
    mean = units.m_to_mm(volume_m3 / area_m2)
    return Consequence(
        kind=rate.kind,
        layer=rate.layer,
        volume_m3=spread,
        mean_mm=mean,
        goods=tuple(_needed(each, volume_m3) for each in rate.goods),
        loose_m3=None if rate.loose_per_m3 is None else volume_m3 * rate.loose_per_m3,
        hours=hours,
        minor=None if rate.minor_per_m3 is None else volume_m3 * rate.minor_per_m3,
        days=None if hours is None or not day_h else hours / day_h,
        working=Working(f"{area_m2:.2f} m² × {mean:.1f} mm", volume_m3, "m³"),
    )


def _needed(rate: GoodsRate, volume_m3: float) -> GoodsNeeded:
    amount = volume_m3 * rate.per_m3
    return GoodsNeeded(rate.material, amount, rate.unit, None if not rate.in_pack else amount / rate.in_pack)
