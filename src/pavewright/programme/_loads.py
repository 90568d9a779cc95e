"""Days on which spoil leaves: a skip comes, is changed and goes, or a lorry takes a load."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import TaskKey, TaskKind
from pavewright.job import DisposalKind
from pavewright.programme._deliveries import order_by
from pavewright.programme._supply_types import LoadDay, LoadKind
from pavewright.quantities import ItemKind

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Iterator, Sequence

    from pavewright.job import Job
    from pavewright.programme._clock import WorkingTime
    from pavewright.programme._types import Task
    from pavewright.quantities import Item

_SPOIL = frozenset({ItemKind.SPOIL, ItemKind.PIT_SPOIL})
_BY_AREA = (TaskKind.CART, TaskKind.LOAD, TaskKind.DIG)
_BY_PIT = (TaskKind.PIT_LOAD, TaskKind.PIT_DIG)
_TINY = 1e-9


def load_days(job: Job, tasks: Sequence[Task], items: Iterable[Item], clock: WorkingTime) -> tuple[LoadDay, ...]:
    """Return the days on which spoil leaves: each load is full when its part of the work that fills it is done."""
    loads = sum(round(item.ordered) for item in items if item.key.kind in _SPOIL)
    disposal = job.rates.disposal
    filling = _filling(tasks)
    if loads < 1 or disposal is None or not filling:
        return ()
    full = [_full(filling, number / loads, clock) for number in range(1, loads + 1)]
    found = list(_skips(filling, full) if disposal.kind is DisposalKind.SKIP else _lorries(full))
    lead = disposal.lead_days
    return tuple(
        LoadDay(kind, on, number, loads, None if lead is None else order_by(job, on, lead))
        for kind, on, number in found
    )


def _skips(filling: Sequence[Task], full: Sequence[dt.date]) -> Iterator[tuple[LoadKind, dt.date, int]]:
    yield LoadKind.SKIP_COMES, filling[0].start.date(), 1
    for number, on in enumerate(full[:-1], start=1):
        yield LoadKind.SKIP_CHANGED, on, number
    yield LoadKind.SKIP_GOES, full[-1], len(full)


def _lorries(full: Sequence[dt.date]) -> Iterator[tuple[LoadKind, dt.date, int]]:
    for number, on in enumerate(full, start=1):
        yield LoadKind.LOAD_LEAVES, on, number


def _filling(tasks: Sequence[Task]) -> list[Task]:
    """Return the work that fills loads, in its order: carrying where there is any, else loading, else digging."""
    found = []
    for kinds in (_BY_AREA, _BY_PIT):
        own = [task for task in tasks if isinstance(task.key, TaskKey) and task.key.kind in kinds]
        places = dict.fromkeys((task.key.area, task.key.number if kinds is _BY_PIT else 0) for task in own)
        for place in places:
            here = [task for task in own if (task.key.area, task.key.number if kinds is _BY_PIT else 0) == place]
            last = min(kinds.index(TaskKind(task.key.kind)) for task in here)
            found += [task for task in here if task.key.kind is kinds[last]]
    return sorted(found, key=lambda task: (task.start, task.finish))


def _full(filling: Sequence[Task], part: float, clock: WorkingTime) -> dt.date:
    """Return the day on which a part of the work that fills loads is done."""
    lengths = [max(clock.between(task.start, task.finish), _TINY) for task in filling]
    wanted = part * sum(lengths) - _TINY
    for task, length in zip(filling, lengths, strict=True):
        if wanted <= length:
            return clock.after(task.start, max(wanted, 0.0)).date()
        wanted -= length
    return filling[-1].finish.date()
