"""A task, a wait or a hold point without dates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, assert_never

from pavewright import units
from pavewright.cost import TaskKey, TaskKind
from pavewright.job import HoldKind
from pavewright.programme._keys import WaitKey, WaitKind, is_hold
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.cost import LabourTask
    from pavewright.job import Job, PlantKind
    from pavewright.programme._figures import ProgrammeFigures
    from pavewright.programme._keys import StepKey
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
        minutes: Work of one person, or length of the wait. [min]
        lost_percent: Time added for weather. [%]
        after: Keys that come first.
        weather: Whether rain stops it.
        wait: Whether it is a wait.
        plant: Machines that it takes.
        working: The sum behind the length of a wait; of work its person-hours.
    """

    key: StepKey
    description: str
    minutes: float
    lost_percent: float
    after: tuple[StepKey, ...]
    weather: bool
    wait: bool
    plant: tuple[PlantKind, ...]
    working: Working

    @property
    def hold(self) -> bool:
        """Whether it ends when somebody has looked."""
        return is_hold(self.key)


def work(job: Job, task: LabourTask, after: tuple[StepKey, ...]) -> Step:
    """Return a task of labour as a step."""
    weather = task.key.kind in _RAIN_STOPS
    lost = job.calendar.weather_percent if weather else 0.0
    minutes = task.person_hours * units.MINUTES_PER_HOUR
    return Step(
        task.key, task.description, minutes, lost, after, weather, wait=False, plant=task.plant, working=task.working
    )


_WAITS = {
    TaskKind.BASE: (WaitKind.CURE_BASE, "Concrete base hardens"),
    TaskKind.LAY: (WaitKind.CURE_BED, "Bed hardens before pointing"),
    TaskKind.WALL_FOOTING: (WaitKind.CURE_FOOTING, "Footing of the low wall hardens"),
    TaskKind.EDGES_KERB: (WaitKind.CURE_KERB, "Kerb concrete hardens"),
    TaskKind.EDGES_EDGING: (WaitKind.CURE_EDGING, "Edging concrete hardens"),
    TaskKind.POINT: (WaitKind.CURE_JOINTS, "Joints harden before anybody walks on it"),
}
_ONLY_ON_MORTAR = frozenset({WaitKind.CURE_BED, WaitKind.CURE_JOINTS})
_ONLY_ON_SAND = frozenset({WaitKind.CURE_KERB, WaitKind.CURE_EDGING})


def wait(
    task: TaskKey, area: str, figures: ProgrammeFigures, beside: tuple[StepKey, ...], *, mortar: bool
) -> Step | None:
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
    return Step(
        key, f"{words}, {area}", minutes, 0.0, (task, *beside), weather=False, wait=True, plant=(), working=working
    )


def _cure(kind: WaitKind, figures: ProgrammeFigures) -> Figure:
    match kind:
        case WaitKind.CURE_BASE:
            return figures.base_cure_h
        case WaitKind.CURE_BED:
            return figures.bed_cure_h
        case WaitKind.CURE_JOINTS:
            return figures.walk_on_h
        case WaitKind.CURE_KERB | WaitKind.CURE_EDGING | WaitKind.CURE_FOOTING:
            return figures.edge_cure_h
        case WaitKind.HOLD_FORMATION | WaitKind.HOLD_DRAINS | WaitKind.HOLD_LAYER | WaitKind.HOLD_SNAG:
            message = f"{kind} ends when somebody has looked"
            raise ValueError(message)
        case _:
            assert_never(kind)


_HOLD_WORDS = {
    HoldKind.FORMATION: ("Formation looked at", " before stone"),
    HoldKind.DRAINS: ("Drains tested and looked at", " while they lie open"),
    HoldKind.LAYER: ("Layer looked at", " before it is covered"),
    HoldKind.SNAG: ("Looked over with the customer", ""),
}


def hold(job: Job, kind: HoldKind, key: WaitKey, after: tuple[StepKey, ...]) -> Step:
    """Return a point at which work stops until somebody has looked, for as long as the job says."""
    stated = next((each for each in job.holds if each.key is kind), None)
    hours = stated.wait_h if stated is not None else 0.0
    minutes = hours * units.MINUTES_PER_HOUR
    note = "as entered" if stated is not None else "no time entered: the crew looks itself"
    by = f" by {stated.by}" if stated is not None and stated.by else ""
    looked, until = _HOLD_WORDS[kind]
    words = f"{looked}{by}{until}" + ("" if key.area is None else f", {job.areas[key.area].name}")
    working = Working(f"wait = {hours:g} h", minutes, "min", (), note)
    return Step(key, words, minutes, 0.0, after, weather=False, wait=True, plant=(), working=working)
