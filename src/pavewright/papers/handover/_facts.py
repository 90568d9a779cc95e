"""What a handover says of goods and terms: products with batches by area, spare units, keys of covers, the warranty."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.quantities import of_unit

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Sequence

    from pavewright.job import Job
    from pavewright.job.handover import CoverKeys, DeliveredBatch
    from pavewright.pipeline import Plan


@dataclass(frozen=True, slots=True)
class Product:
    """A product in an area, with one batch of it.

    Attributes:
        area: Name of the area; empty where nobody noted it.
        product: Its name.
        size: Its work size; empty for other goods. [mm]
        batch: Its batch; empty where that is not known.
        delivered_on: Day of its delivery; None where that is not known.
        ticket: Number of its ticket; empty where that is not known.
    """

    area: str
    product: str
    size: tuple[float, ...]
    batch: str = ""
    delivered_on: dt.date | None = None
    ticket: str = ""


def products(plan: Plan) -> tuple[Product, ...]:
    """Return every product of every area: with its batches as entered, without one where none is."""
    batches = delivered(plan.job)
    return (*_of_areas(plan, batches), *_other_goods(batches))


def delivered(job: Job) -> tuple[DeliveredBatch, ...]:
    """Return what was delivered, by the handover and by the logs of the days; what both say the same counts once."""
    told = () if job.handed_over is None else job.handed_over.batches
    logged = (each for log in job.site_days for each in log.delivered)
    return tuple(dict.fromkeys((*told, *logged)))


def _of_areas(plan: Plan, batches: Sequence[DeliveredBatch]) -> Iterator[Product]:
    sizes = {unit.name: (unit.length_mm, unit.width_mm, unit.thickness_mm) for unit in plan.job.units}
    for laid in plan.laying.areas:
        for count in laid.by_unit:
            own = [one for one in batches if one.unit == count.unit and one.area in {laid.area, None}]
            size = sizes.get(count.unit, ())
            for one in own:
                yield Product(laid.area, count.unit, size, one.batch, one.delivered_on, one.ticket)
            if not own:
                yield Product(laid.area, count.unit, size)


def _other_goods(batches: Sequence[DeliveredBatch]) -> Iterator[Product]:
    for one in batches:
        if one.unit is None:
            yield Product(one.area or "", one.product, (), one.batch, one.delivered_on, one.ticket)


@dataclass(frozen=True, slots=True)
class Spare:
    """Units of one kind that may be left over.

    Attributes:
        unit: Its name.
        bought: Units in whole packs that were ordered.
        laid: Units that the laying plans take.
        counted: Units that were counted; None where nobody did.
        kept_at: Where they are; empty where that is not known.
    """

    unit: str
    bought: int
    laid: int
    counted: int | None
    kept_at: str

    @property
    def left_at_most(self) -> int:
        """Units left where none broke."""
        return self.bought - self.laid


def spares(plan: Plan) -> tuple[Spare, ...]:
    """Return what can be left over of each paving unit: bought in whole packs, less what the plans lay."""
    told = plan.job.handed_over
    counted = {} if told is None else {each.unit: each for each in told.spares}
    found = []
    for unit, bought, laid in _bought(plan):
        one = counted.get(unit)
        found.append(Spare(unit, bought, laid, None if one is None else one.count, "" if one is None else one.kept_at))
    return tuple(found)


def _bought(plan: Plan) -> Iterator[tuple[str, int, int]]:
    keys = {of_unit(number): unit.name for number, unit in enumerate(plan.job.units)}
    for item in plan.quantities.items:
        for size in item.holds:
            yield size.unit, size.ordered, size.needed
        if item.key in keys:
            yield keys[item.key], round(item.ordered_amount), round(item.net)


def covers(plan: Plan) -> tuple[tuple[str, CoverKeys | None], ...]:
    """Return the covers of the job with what is known of their keys; None where nothing is."""
    told = plan.job.handed_over
    kept = {} if told is None else {each.cover: each for each in told.cover_keys}
    return tuple((placed.cover.name, kept.get(placed.cover.name)) for placed in plan.survey.site.covers)
