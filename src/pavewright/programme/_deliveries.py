"""By when materials have to be on site, of whom, and by when they have to be ordered."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from pavewright.cost import TaskKey, TaskKind, terms_of
from pavewright.programme._clock import LONGEST_DAYS
from pavewright.programme._supply_types import Delivery, DeliveryLine
from pavewright.quantities import ItemGroup, ItemKind

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from pavewright.job import BuyingTerms, Job, SupplierKind
    from pavewright.programme._clock import WorkingTime
    from pavewright.programme._figures import ProgrammeFigures
    from pavewright.programme._types import Programme, Task
    from pavewright.quantities import Item, ItemKey

_FIRST_USED = {
    ItemGroup.DIG: (TaskKind.DIG,),
    ItemGroup.BASE: (TaskKind.SUB_BASE, TaskKind.SUB_BASE_LAYER, TaskKind.BASE),
    ItemGroup.BED: (TaskKind.LAY_BORDER, TaskKind.LAY_ZONE, TaskKind.LAY),
    ItemGroup.UNITS: (TaskKind.CUT, TaskKind.LAY_BORDER, TaskKind.LAY_ZONE, TaskKind.LAY),
    ItemGroup.JOINTS: (TaskKind.POINT,),
    ItemGroup.EDGES: (TaskKind.EDGES_KERB, TaskKind.EDGES_EDGING, TaskKind.EDGES_HAUNCH, TaskKind.STEPS),
    ItemGroup.DRAINAGE: (
        *(TaskKind.DRAINS, TaskKind.CHANNEL_PIPES, TaskKind.GULLIES, TaskKind.GULLY_PIPES),
        *(TaskKind.CHANNEL_FILL, TaskKind.GULLY_FILL, TaskKind.PIT_FILL, TaskKind.SILT_TRAPS),
        *(TaskKind.GRATINGS, TaskKind.FRAMES),
    ),
    ItemGroup.SUNDRIES: (),
}
"""The work that needs each part of the order first; where there is none of it, the first work on site does."""
_LEAVES = frozenset({ItemKind.SPOIL, ItemKind.PIT_SPOIL})
"""Items that leave the site."""
_SATURDAY = 5


def deliveries(
    job: Job,
    tasks: Sequence[Task],
    items: Iterable[Item],
    clock: WorkingTime,
    start: dt.date,
    figures: ProgrammeFigures,
) -> tuple[Delivery, ...]:
    """Return what has to be delivered by when, each part of the order and supplier on the working day before its need.

    Args:
        job: The job, with the terms of buying.
        tasks: Tasks with their dates.
        items: What is measured.
        clock: When the crew works.
        start: The first day of work.
        figures: Figures of the programme.
    """
    by_whom: dict[ItemGroup, dict[tuple[str, SupplierKind | None], list[tuple[Item, BuyingTerms | None]]]] = {}
    for item in items:
        terms = terms_of(item.key, job)
        if item.key.bought and item.ordered > 0.0 and _comes(item, terms):
            who = ("", None) if terms is None else (terms.supplier.strip(), terms.supplier_kind)
            by_whom.setdefault(item.group, {}).setdefault(who, []).append((item, terms))
    found = []
    for group, suppliers in by_whom.items():
        needed, begun = _needed(tasks, group, start)
        when = _day_before(job, clock, needed), begun
        for number, ((supplier, kind), entries) in enumerate(suppliers.items()):
            found.append(_delivery(job, (group, number), (supplier, kind), entries, when, figures))
    place = {group: number for number, group in enumerate(ItemGroup)}
    return tuple(sorted(found, key=lambda each: (each.on, place[each.group], each.number)))


def brought_on(programme: Programme) -> dict[ItemKey, dt.date]:
    """Return the day on which each item comes that is delivered."""
    return {line.key: each.on for each in programme.deliveries for line in each.items}


def _comes(item: Item, terms: BuyingTerms | None) -> bool:
    """Return whether an item is delivered: not what leaves or is settled when found, nor what the crew brings along."""
    if item.key.kind in _LEAVES or item.key.apart:
        return False
    return item.key.kind is not ItemKind.CATALOGUE or bool(terms is not None and terms.lead_days)


def _delivery(
    job: Job,
    key: tuple[ItemGroup, int],
    who: tuple[str, SupplierKind | None],
    entries: list[tuple[Item, BuyingTerms | None]],
    when: tuple[dt.date, bool],
    figures: ProgrammeFigures,
) -> Delivery:
    lines = tuple(
        DeliveryLine(
            item.key,
            item.description,
            item.ordered,
            item.sold_as,
            item.kg,
            None if terms is None else terms.lead_days,
        )
        for item, terms in entries
    )
    on, begun = when
    leads = [line.lead_days for line in lines if line.lead_days is not None]
    lead = max(leads, default=None)
    kg = sum(line.kg or 0.0 for line in lines)
    return Delivery(
        group=key[0],
        number=key[1],
        supplier=who[0],
        supplier_kind=who[1],
        on=on,
        begun=begun,
        lead_days=lead,
        lead_known=len(leads) == len(lines),
        order_by=None if lead is None else order_by(job, on, lead),
        kg=kg,
        kg_known=all(line.kg is not None for line in lines),
        room_m2=kg / figures.drop_kg_per_m2.value,
        items=lines,
    )


def _needed(tasks: Sequence[Task], group: ItemGroup, start: dt.date) -> tuple[dt.date, bool]:
    """Return the day on which a part of the order is needed first, and whether that work has begun."""
    kinds = _FIRST_USED[group]
    own = [task for task in tasks if isinstance(task.key, TaskKey) and (not kinds or task.key.kind in kinds)]
    if not own:
        return start, False
    first = min(own, key=lambda task: task.start)
    return first.start.date(), any(task.done_percent for task in own)


def supplied_on(job: Job, day: dt.date) -> bool:
    """Return whether suppliers deliver and count a day: Monday to Friday, days off of the job left out."""
    return day.weekday() < _SATURDAY and day not in job.calendar.days_off


def order_by(job: Job, on: dt.date, lead_days: int) -> dt.date:
    """Return the last day on which to order what takes so many working days to come."""
    return _stepped(job, on, lead_days, -1)


def comes_on(job: Job, ordered: dt.date, lead_days: int) -> dt.date:
    """Return the day on which comes what is ordered on a day."""
    return _stepped(job, ordered, lead_days, 1)


def _stepped(job: Job, day: dt.date, count: int, step: int) -> dt.date:
    left = count
    for _ in range(LONGEST_DAYS):
        if left <= 0:
            break
        day += dt.timedelta(days=step)
        left -= supplied_on(job, day)
    return day


def _day_before(job: Job, clock: WorkingTime, day: dt.date) -> dt.date:
    """Return the day before a day on which somebody works and suppliers deliver.

    One on which somebody works where a month has none of those, and the day itself where nobody does.
    """
    before = [day - dt.timedelta(days=back) for back in range(1, _MONTH + 1)]
    works = [each for each in before if clock.works_on(each)]
    return next((each for each in works if supplied_on(job, each)), works[0] if works else day)


_MONTH = 31
