"""When what a payment waits for can be seen, by the programme."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from pavewright.cost import TaskKey, TaskKind
from pavewright.job import PaymentEvent
from pavewright.quantities import ItemGroup

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from pavewright.cash._figures import CashFigures
    from pavewright.job import Terms
    from pavewright.programme import Delivery, Programme

_BASE = frozenset(
    {
        *(TaskKind.DIG, TaskKind.SIDES, TaskKind.LOAD, TaskKind.CART, TaskKind.FILL),
        *(TaskKind.BREAK_OUT, TaskKind.DIG_FREE),
        *(TaskKind.SUB_BASE, TaskKind.SUB_BASE_LAYER, TaskKind.BASE),
    }
)
_LAID = frozenset({TaskKind.LAY, TaskKind.LAY_BORDER, TaskKind.LAY_ZONE, TaskKind.CUT, TaskKind.STEPS})

_BROUGHT = frozenset({ItemGroup.UNITS, ItemGroup.BASE})


def event_dates(
    terms: Terms, programme: Programme, deliveries: Iterable[Delivery], figures: CashFigures
) -> Mapping[PaymentEvent, dt.date]:
    """Return the day on which each thing can be seen: the step of the programme that ends it, or the delivery.

    What no step stands for can be seen when the work is complete.
    """
    deposit = int(figures.deposit_days.value) if terms.deposit_days is None else terms.deposit_days
    defects = int(figures.defects_days.value) if terms.defects_days is None else terms.defects_days
    brought = [each.on for each in deliveries if each.group in _BROUGHT]
    return {
        PaymentEvent.DEPOSIT: programme.start - dt.timedelta(days=deposit),
        PaymentEvent.MATERIALS_ON_SITE: max(brought, default=programme.start),
        PaymentEvent.BASE_IN: last_of(programme, _BASE) or programme.finish,
        PaymentEvent.LAID: last_of(programme, _LAID) or programme.finish,
        PaymentEvent.COMPLETE: programme.finish,
        PaymentEvent.SNAG_FREE: programme.finish + dt.timedelta(days=defects),
    }


def unseen(terms: Terms, programme: Programme, deliveries: Iterable[Delivery]) -> tuple[PaymentEvent, ...]:
    """Return what payments wait for though this job has nothing of it: nobody will ever see it."""
    there = {
        PaymentEvent.MATERIALS_ON_SITE: any(each.group in _BROUGHT for each in deliveries),
        PaymentEvent.BASE_IN: last_of(programme, _BASE) is not None,
        PaymentEvent.LAID: last_of(programme, _LAID) is not None,
    }
    return tuple(dict.fromkeys(stage.event for stage in terms.stages if not there.get(stage.event, True)))


def last_of(programme: Programme, kinds: frozenset[TaskKind]) -> dt.date | None:
    """Return the day on which the last work of some kinds ends; None where there is none of it."""
    ends = [task.finish.date() for task in programme.tasks if isinstance(task.key, TaskKey) and task.key.kind in kinds]
    return max(ends, default=None)
