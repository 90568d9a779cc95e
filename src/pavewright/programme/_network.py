"""Tasks and waits in their order, before they have dates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import Bedding
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.cost import LabourTask
    from pavewright.job import Job
    from pavewright.rules import Figure, Rulebook

_RAIN_STOPS = frozenset({"base", "lay", "point", "drains", "frames", "steps"})
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

    key: str
    description: str
    minutes: float
    after: tuple[str, ...]
    weather: bool
    wait: bool
    working: Working


def network(job: Job, tasks: tuple[LabourTask, ...], rules: Rulebook) -> tuple[Step, ...]:
    """Return tasks with cure waits between them: one chain for each area, drains before the first sub-base."""
    found: list[Step] = []
    for area in job.areas:
        own = [task for task in tasks if task.key.endswith(f".{area.name}")]
        mortar = area.laying.bedding is not Bedding.SAND_ON_SUB_BASE
        last: tuple[str, ...] = ()
        for task in own:
            kind = task.key.split(".")[0].split("_")[0]
            if kind == "sub" or (kind == "base" and not any(step.key == f"sub_base.{area.name}" for step in found)):
                shared = [each for each in tasks if "." not in each.key]
                for drain in shared:
                    if all(step.key != drain.key for step in found):
                        found.append(_work(job, drain, last))
                        last = (drain.key,)
            found.append(_work(job, task, last))
            last = (task.key,)
            wait = _wait_after(task.key.split(".")[0], area.name, last, rules, mortar=mortar)
            if wait is not None:
                found.append(wait)
                last = (wait.key,)
    placed = {step.key for step in found}
    found += [_work(job, task, ()) for task in tasks if task.key not in placed]
    return tuple(found)


def _work(job: Job, task: LabourTask, after: tuple[str, ...]) -> Step:
    kind = task.key.split(".")[0].split("_")[0]
    weather = kind in _RAIN_STOPS
    lost = job.calendar.weather_percent if weather else 0.0
    hours = task.person_hours / job.crew.people * (1.0 + lost / 100.0)
    extra = f" × (1 + {lost:g} % weather)" if lost else ""
    words = f"crew time = {task.person_hours:.1f} h / {job.crew.people} people{extra}"
    minutes = hours * units.MINUTES_PER_HOUR
    return Step(task.key, task.description, minutes, after, weather, wait=False, working=Working(words, minutes, "min"))


_WAITS = {
    "base": ("cure_base", "base_cure_h", "Concrete base hardens"),
    "lay": ("cure_bed", "bed_cure_h", "Bed hardens before pointing"),
    "edges_kerb": ("cure_kerb", "edge_cure_h", "Kerb concrete hardens"),
    "edges_edging": ("cure_edging", "edge_cure_h", "Edging concrete hardens"),
}


def _wait_after(kind: str, area: str, after: tuple[str, ...], rules: Rulebook, *, mortar: bool) -> Step | None:
    """Return the wait that follows a kind of work: a bed hardens only where it is mortar, edges matter only on sand."""
    if kind not in _WAITS or (kind == "lay" and not mortar) or (kind.startswith("edges") and mortar):
        return None
    name, figure_name, words = _WAITS[kind]
    figure: Figure = rules.figure(f"programme.{figure_name}")
    minutes = figure.value * units.MINUTES_PER_HOUR
    working = Working(f"wait = {figure.value:g} h", minutes, "min", (figure,), figure.label)
    return Step(f"{name}.{area}", f"{words}, {area}", minutes, after, weather=False, wait=True, working=working)
