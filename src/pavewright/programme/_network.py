"""Tasks and waits in their order, before they have dates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, assert_never

from pavewright import units
from pavewright.cost import TaskKey, TaskKind, crew_hours
from pavewright.job import Bedding
from pavewright.programme._keys import StepKey, WaitKey, WaitKind
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.cost import LabourTask
    from pavewright.job import Job
    from pavewright.programme._figures import ProgrammeFigures
    from pavewright.rules import Figure

_RAIN_STOPS = frozenset(
    {
        TaskKind.BASE,
        TaskKind.LAY,
        TaskKind.LAY_BORDER,
        TaskKind.LAY_ZONE,
        TaskKind.POINT,
        TaskKind.DRAINS,
        TaskKind.FRAMES,
        TaskKind.GRATINGS,
        TaskKind.GULLIES,
        TaskKind.STEPS,
        TaskKind.WALL_FOOTING,
        TaskKind.WALL,
    }
)
"""Work that rain stops; digging and stone go on in light rain."""


@dataclass(frozen=True, slots=True)
class Step:
    """A task or a wait without dates.

    Attributes:
        key: Its key.
        description: In words.
        minutes: Crew time on the clock, or length of the wait. [min]
        after: Keys that come first.
        weather: Whether rain stops it.
        wait: Whether it is a wait.
        working: The sum behind its length.
    """

    key: StepKey
    description: str
    minutes: float
    after: tuple[StepKey, ...]
    weather: bool
    wait: bool
    working: Working


def network(job: Job, tasks: tuple[LabourTask, ...], people: int, figures: ProgrammeFigures) -> tuple[Step, ...]:
    """Return tasks with cure waits between them: one chain for each area, drains before the first sub-base."""
    found: list[Step] = []
    shared = [task for task in tasks if task.key.area is None]
    for number, area in enumerate(job.areas):
        own = [task for task in tasks if task.key.area == number]
        stone = any(task.key.kind is TaskKind.SUB_BASE for task in own)
        first = TaskKind.SUB_BASE if stone else TaskKind.BASE
        mortar = area.laying.bedding is not Bedding.SAND_ON_SUB_BASE
        last: tuple[StepKey, ...] = ()
        for task in own:
            if task.key.kind is first:
                for drain in shared:
                    found.append(_work(job, people, drain, last))
                    last = (drain.key,)
                shared = []
            found.append(_work(job, people, task, last))
            last = (task.key,)
            wait = _wait_after(task.key, area.name, figures, mortar=mortar)
            if wait is not None:
                found.append(wait)
                last = (wait.key,)
    return (*found, *(_work(job, people, task, ()) for task in shared))


def _work(job: Job, people: int, task: LabourTask, after: tuple[StepKey, ...]) -> Step:
    weather = task.key.kind in _RAIN_STOPS
    lost = job.calendar.weather_percent if weather else 0.0
    hours = crew_hours(task.person_hours, people, lost)
    extra = f" × (1 + {lost:g} % weather)" if lost else ""
    words = f"crew time = {task.person_hours:.1f} h / {people} people{extra}"
    minutes = hours * units.MINUTES_PER_HOUR
    return Step(task.key, task.description, minutes, after, weather, wait=False, working=Working(words, minutes, "min"))


_WAITS = {
    TaskKind.BASE: (WaitKind.CURE_BASE, "Concrete base hardens"),
    TaskKind.LAY: (WaitKind.CURE_BED, "Bed hardens before pointing"),
    TaskKind.WALL_FOOTING: (WaitKind.CURE_FOOTING, "Footing of the low wall hardens"),
    TaskKind.EDGES_KERB: (WaitKind.CURE_KERB, "Kerb concrete hardens"),
    TaskKind.EDGES_EDGING: (WaitKind.CURE_EDGING, "Edging concrete hardens"),
}
_ONLY_ON_MORTAR = frozenset({WaitKind.CURE_BED})
_ONLY_ON_SAND = frozenset({WaitKind.CURE_KERB, WaitKind.CURE_EDGING})


def _wait_after(task: TaskKey, area: str, figures: ProgrammeFigures, *, mortar: bool) -> Step | None:
    """Return the wait that follows a kind of work: a bed hardens only where it is mortar, edges matter only on sand."""
    if task.kind not in _WAITS or task.area is None:
        return None
    kind, words = _WAITS[task.kind]
    if kind in (_ONLY_ON_SAND if mortar else _ONLY_ON_MORTAR):
        return None
    key = WaitKey(kind, task.area, task.number)
    figure = _cure(kind, figures)
    minutes = figure.value * units.MINUTES_PER_HOUR
    working = Working(f"wait = {figure.value:g} h", minutes, "min", (figure,), figure.label)
    return Step(key, f"{words}, {area}", minutes, (task,), weather=False, wait=True, working=working)


def _cure(kind: WaitKind, figures: ProgrammeFigures) -> Figure:
    match kind:
        case WaitKind.CURE_BASE:
            return figures.base_cure_h
        case WaitKind.CURE_BED:
            return figures.bed_cure_h
        case WaitKind.CURE_KERB | WaitKind.CURE_EDGING | WaitKind.CURE_FOOTING:
            return figures.edge_cure_h
        case _:
            assert_never(kind)
