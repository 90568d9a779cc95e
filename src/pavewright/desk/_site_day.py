"""What a phone needs to log a day: the work that hours are booked on, and what should be delivered."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.cost import TaskKey, TaskKind
from pavewright.quantities import of_unit

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator

    from pavewright.cost import LabourTask
    from pavewright.pipeline import PlanSoFar
    from pavewright.programme import Delivery, Programme, StepKey
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class TaskOnSite:
    """Work that hours can be booked on.

    Attributes:
        key: Key of the task.
        words: What it is.
        on: The day on which it is planned to begin; None where there are no dates.
        planned_h: Person-hours that the plan gives it. [h]
        low_h: Lower end of those. [h]
        high_h: Upper end of those. [h]
        done_percent: How much of it the programme shows as done. [%]
    """

    key: StepKey
    words: str
    on: dt.date | None
    planned_h: float
    low_h: float
    high_h: float
    done_percent: float


@dataclass(frozen=True, slots=True)
class ItemOnSite:
    """One item of a delivery.

    Attributes:
        words: What it is, with how much.
        product: What it is.
        unit: Name of the paving unit; None for other goods.
    """

    words: str
    product: str
    unit: str | None


@dataclass(frozen=True, slots=True)
class DeliveryOnSite:
    """What should come.

    Attributes:
        on: The day by the programme.
        supplier: Who brings it, as entered; empty where nobody said.
        items: What is in it.
    """

    on: dt.date
    supplier: str
    items: tuple[ItemOnSite, ...]


@dataclass(frozen=True, slots=True)
class DayOnSite:
    """What the log of a day chooses from.

    Attributes:
        tasks: In the order of the work; waits are none.
        deliveries: In the order of their days.
        done_sd: How far what is judged by eye as done may be off.
        judge_from: From how much on hours say how a task will end.
    """

    tasks: tuple[TaskOnSite, ...]
    deliveries: tuple[DeliveryOnSite, ...]
    done_sd: Figure
    judge_from: Figure


def day_on_site(plan: PlanSoFar, rules: Rulebook) -> DayOnSite | None:
    """Return what the log of a day chooses from; None where too little is known for any work."""
    if plan.labour is None:
        return None
    known = {each.key: each for each in plan.labour}
    if plan.programme is None:
        tasks = tuple(_task(each.key, each.description, each, 1.0) for each in plan.labour)
    else:
        tasks = tuple(_steps(plan.programme, known))
    deliveries = () if plan.programme is None else plan.programme.deliveries
    return DayOnSite(
        tasks,
        tuple(_delivery(plan, each) for each in deliveries),
        rules.figure("site_log.done_sd_percent"),
        rules.figure("site_log.judge_from_percent"),
    )


def _steps(programme: Programme, known: dict[TaskKey, LabourTask]) -> Iterator[TaskOnSite]:
    for step in programme.tasks:
        if not isinstance(step.key, TaskKey):
            continue
        task = known[step.key.priced]
        layer = step.key.kind is TaskKind.SUB_BASE_LAYER and step.key.number is not None
        share = task.layers[step.key.number].share if layer and step.key.number is not None else 1.0
        yield _task(step.key, step.description, task, share, on=step.start.date(), done_percent=step.done_percent)


def _task(
    key: TaskKey,
    words: str,
    task: LabourTask,
    share: float,
    on: dt.date | None = None,
    done_percent: float = 0.0,
) -> TaskOnSite:
    low, high = share * task.low_hours, share * task.high_hours
    return TaskOnSite(key, words, on, share * task.person_hours, low, high, done_percent)


def _delivery(plan: PlanSoFar, delivery: Delivery) -> DeliveryOnSite:
    units = {of_unit(number): unit.name for number, unit in enumerate(plan.job.units)}
    items = (
        ItemOnSite(f"{each.description}, {each.ordered_words}", each.description, units.get(each.key))
        for each in delivery.items
    )
    return DeliveryOnSite(delivery.on, delivery.supplier, tuple(items))
