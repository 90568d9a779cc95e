"""One task of labour: amount times output."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost._hours import person_hours
from pavewright.cost._plant import plant_for
from pavewright.cost._types import LabourTask, MeasuredWork
from pavewright.job import Bedding
from pavewright.rules import Status
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.cost._keys import TaskKey
    from pavewright.job import Area, Job
    from pavewright.rules import Figure


def task(
    job: Job, key: TaskKey, words: str, amount: float, unit: str, output: Figure, times: float = 1.0
) -> LabourTask:
    """Return a task: amount times output, over the crew's pace.

    Args:
        job: Whose crew works.
        key: What the task is.
        words: What it is, in words.
        amount: How much there is to do, in ``unit``. [unit of the output]
        unit: Unit of the amount.
        output: Person-hours for one unit.
        times: How many times the work for which the output holds, as for a longer way. [-]
    """
    pace = 1.0 if output.status is Status.OWN else job.crew.pace  # an own output is at the own pace
    low = output.value if output.low is None else output.low
    high = output.value if output.high is None else output.high
    hours = [person_hours(amount, each, times, pace) for each in (output.value, low, high)]
    factor = f" × {times:.2f}" if times != 1.0 else ""
    over = f" / {pace:g}" if pace != 1.0 else ""
    return LabourTask(
        key=key,
        description=words if key.area is None else f"{words}, {job.areas[key.area].name}",
        person_hours=hours[0],
        low_hours=hours[1],
        high_hours=hours[2],
        working=Working(
            f"{amount:.2f} {unit} × {output.value:g} {output.unit}{factor}{over}",
            hours[0],
            "h",
            (output,),
            f"{hours[1]:.1f} to {hours[2]:.1f} h: {_why(output)}",
        ),
        plant=plant_for(key.kind, on_sand=key.area is not None and on_sand(job.areas[key.area])),
        measured=MeasuredWork(amount, output, times),
    )


def _why(output: Figure) -> str:
    """Return why an output has a range."""
    return "own jobs differ" if output.status is Status.OWN else "outputs differ by source, ground and crew"


def on_sand(area: Area) -> bool:
    """Return whether units lie on sand."""
    return area.laying.bedding is Bedding.SAND_ON_SUB_BASE
