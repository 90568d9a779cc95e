"""What finished tasks say of the firm's own outputs, as its book takes it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.firm import PastHours
from pavewright.job import OutputKind, Pattern

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.cost import LabourTask, TaskKey
    from pavewright.job import Job
    from pavewright.site_log._types import SiteLog, TaskLog

_ALL_PERCENT = 100.0
_NAME_MAX = 60


class NotLearnt(StrEnum):
    """Why a task says nothing of an output."""

    NOT_DONE = "not_done"
    IN_BOOK = "in_book"


@dataclass(frozen=True, slots=True)
class OwnHours:
    """What tasks of one kind of work took on this job.

    Attributes:
        kind: What kind of work, and in which unit it is measured.
        pattern: Of laying blocks in a pattern that has an output of its own: the pattern.
        tasks: Keys of the tasks.
        words: The tasks in words.
        amount: How much was done. [unit of the output]
        unit: Unit of the output.
        person_h: How long it took. [h]
        hours_each: Hours of one person for one unit. [h]
        planned_each: The same as the job was planned. [h]
        why_not: Why the book does not take it; None where it may.
        entry: What the book takes; None where it may not.
    """

    kind: OutputKind
    pattern: Pattern | None
    tasks: tuple[TaskKey, ...]
    words: tuple[str, ...]
    amount: float
    unit: str
    person_h: float
    hours_each: float
    planned_each: float
    why_not: NotLearnt | None
    entry: PastHours | None


def own_hours(job: Job, labour: Sequence[LabourTask], log: SiteLog, past: Sequence[PastHours]) -> tuple[OwnHours, ...]:
    """Return what the finished tasks of a job say, one for each kind of work that hours are booked on.

    Tasks of one kind are taken together; where one of them is not done the hours wait, so that no half task counts.

    Args:
        job: The job.
        labour: Its work in hours.
        log: What its days say.
        past: What the firm's book holds of past jobs already.
    """
    said = {each.key: each for each in log.tasks}
    groups: dict[tuple[OutputKind, Pattern | None], list[tuple[LabourTask, TaskLog]]] = {}
    for task in labour:
        kind = None if task.measured is None else KIND_OF.get(task.measured.output.key)
        if kind is not None and said[task.key].logged_h > 0.0:
            groups.setdefault(kind, []).append((task, said[task.key]))
    name = (job.identity.job or job.identity.title)[:_NAME_MAX].strip()
    there = {(each.job, each.kind, each.pattern) for each in past}
    return tuple(_own(kind, each, name, known=(name, *kind) in there) for kind, each in groups.items())


def _own(
    kind: tuple[OutputKind, Pattern | None], group: Sequence[tuple[LabourTask, TaskLog]], name: str, *, known: bool
) -> OwnHours:
    worked = [(task, task.measured, log) for task, log in group if task.measured is not None]
    amount = sum(each.amount * each.times for _, each, _ in worked)
    hours = sum(log.logged_h for _, log in group)
    done = all((log.done_percent or 0.0) >= _ALL_PERCENT for _, log in group)
    why = NotLearnt.IN_BOOK if known else None if done else NotLearnt.NOT_DONE
    last = max(log.last for _, log in group if log.last is not None)
    entry = PastHours(job=name, on=last, kind=kind[0], pattern=kind[1], amount=amount, person_hours=hours)
    return OwnHours(
        kind=kind[0],
        pattern=kind[1],
        tasks=tuple(task.key for task, _ in group),
        words=tuple(task.description for task, _ in group),
        amount=amount,
        unit=worked[0][1].output.unit,
        person_h=hours,
        hours_each=hours / amount,
        planned_each=sum(task.person_hours for task, _ in group) / amount,
        why_not=why,
        entry=None if why is not None else entry,
    )


KIND_OF = {
    **{f"cost.{kind.value}": (kind, None) for kind in OutputKind},
    **{f"cost.lay_{pattern.value}_h_per_m2": (OutputKind.LAY_BLOCKS, pattern) for pattern in Pattern},
}
"""Kind of work of an output, by the key of its figure; of a pattern with an output of its own the pattern too."""
