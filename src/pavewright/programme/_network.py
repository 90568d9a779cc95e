"""Tasks, waits and hold points with what each comes after, before they have dates."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import TaskKind
from pavewright.job import Bedding, HoldKind
from pavewright.programme._by_layer import by_layer
from pavewright.programme._keys import WaitKey, WaitKind
from pavewright.programme._steps import hold, wait, work

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.cost import LabourTask
    from pavewright.job import Job
    from pavewright.programme._figures import ProgrammeFigures
    from pavewright.programme._keys import StepKey
    from pavewright.programme._steps import Step

_RESET = frozenset({TaskKind.GRATINGS, TaskKind.FRAMES})
"""What is set to the finished level: before anything is laid round it, not before stone."""
FILLED_IN = frozenset({TaskKind.CHANNEL_FILL, TaskKind.GULLY_FILL, TaskKind.PIT_FILL})
"""Work that covers what was laid: it waits until somebody has looked."""
_CARRIED = frozenset({TaskKind.CARRY_IN})
_LAID = frozenset({TaskKind.LAY, TaskKind.LAY_BORDER, TaskKind.LAY_ZONE})


def network(job: Job, tasks: tuple[LabourTask, ...], figures: ProgrammeFigures) -> tuple[Step, ...]:
    """Return tasks, waits and holds, each with what comes before it.

    An area is a chain: dig, stone by layer, edges, laying, pointing. Drains go in when the first area is dug, are
    looked at while they lie open, and are filled in before stone lies on them anywhere. Pieces are cut while others
    lay. What is set to the finished level waits for nothing but the drains, and laying waits for it.
    """
    shared = _Shared(job, [task for task in tasks if task.key.area is None])
    found: list[Step] = []
    for number in range(len(job.areas)):
        own = [task for task in tasks if task.key.area == number]
        found += _area(job, number, own, shared, figures)
    return (*found, *shared.put_in(()))


class _Shared:
    """The work of the whole site: carried in, drains, what is set to the finished level."""

    def __init__(self, job: Job, tasks: Sequence[LabourTask]) -> None:
        self.job = job
        self.tasks = tuple(tasks)
        self.before_stone: tuple[StepKey, ...] = ()
        self.before_laying: tuple[StepKey, ...] = ()

    def put_in(self, after: tuple[StepKey, ...]) -> list[Step]:
        """Return the steps of the site after those of an area, once: what comes later waits for their ends."""
        reset, filling = self._of(_RESET), self._of(FILLED_IN)
        found, carried = self._chain(self._of(_CARRIED), after)
        laid, drained = self._chain(
            [task for task in self.tasks if task.key.kind not in {*_CARRIED, *_RESET, *FILLED_IN}], after
        )
        found += laid
        if laid or filling:
            found.append(hold(self.job, HoldKind.DRAINS, WaitKey(WaitKind.HOLD_DRAINS), drained))
            filled, drained = self._chain(filling, (found[-1].key,))
            found += filled
        found += [work(self.job, task, drained) for task in reset]
        if self.tasks:
            self.before_stone = tuple(key for key in dict.fromkeys((*carried, *drained)) if key not in after)
            self.before_laying = tuple(task.key for task in reset)
        self.tasks = ()
        return found

    def _of(self, kinds: frozenset[TaskKind]) -> list[LabourTask]:
        return [task for task in self.tasks if task.key.kind in kinds]

    def _chain(self, tasks: Sequence[LabourTask], after: tuple[StepKey, ...]) -> tuple[list[Step], tuple[StepKey, ...]]:
        """Return tasks one after the other, and what comes last of them: what comes before where there are none."""
        found = []
        for task in tasks:
            found.append(work(self.job, task, after))
            after = (task.key,)
        return found, after


def _area(job: Job, number: int, own: Sequence[LabourTask], shared: _Shared, figures: ProgrammeFigures) -> list[Step]:
    """Return the chain of one area."""
    found: list[Step] = []
    last: tuple[StepKey, ...] = ()
    beside: tuple[StepKey, ...] = ()
    first = TaskKind.SUB_BASE if any(task.key.kind is TaskKind.SUB_BASE for task in own) else TaskKind.BASE
    mortar = job.areas[number].laying.bedding is not Bedding.SAND_ON_SUB_BASE
    for task in own:
        if task.key.kind is first:
            found += shared.put_in(last)
            found.append(hold(job, HoldKind.FORMATION, WaitKey(WaitKind.HOLD_FORMATION, number), last))
            last = tuple(dict.fromkeys((found[-1].key, *shared.before_stone)))
        laid = shared.before_laying if task.key.kind in _LAID else ()
        # what is cut is wanted by the end of laying, not before it
        ends_laying = beside if task.key.kind not in {*_LAID, TaskKind.CUT} else ()
        found += by_layer(job, task, tuple(dict.fromkeys((*last, *laid, *ends_laying))))
        if task.key.kind is TaskKind.CUT:
            beside = (task.key,)
            continue
        beside = () if ends_laying else beside
        last = (found[-1].key,)
        # a bed hardens from when its last piece lies, and that is a cut one
        hardens = wait(
            task.key, job.areas[number].name, figures, beside if task.key.kind is TaskKind.LAY else (), mortar=mortar
        )
        if hardens is not None:
            found.append(hardens)
            last = last if hardens.key.kind is WaitKind.CURE_JOINTS else (hardens.key,)
    return found + _handed_over(job, number, found)


def _handed_over(job: Job, number: int, found: Sequence[Step]) -> list[Step]:
    """Return the look at the finished area: when it is clear and its joints are hard."""
    ends = tuple(
        step.key
        for step in found
        if step.key.kind in {TaskKind.CLEAR, WaitKind.CURE_JOINTS} and step.key.area == number
    )
    return [hold(job, HoldKind.SNAG, WaitKey(WaitKind.HOLD_SNAG, number), ends)] if ends else []
