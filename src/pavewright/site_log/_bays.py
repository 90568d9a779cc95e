"""Bays on the plan: how far each is by the log."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job.on_site import WorkStage

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from pavewright.geometry import XY
    from pavewright.job import Job
    from pavewright.levels import FinishedArea

STAGES = tuple(WorkStage)
"""Stages from the first to the last."""


@dataclass(frozen=True, slots=True)
class BaySeen:
    """A bay of the plan and how far it is.

    Attributes:
        area: Name of its area.
        number: Which of its area, from 1.
        outline: Its outline in plan.
        stage: How far it is; None where nobody logged anything of it.
        on: The day on which it came so far; None where nobody logged anything.
    """

    area: str
    number: int
    outline: tuple[XY, ...]
    stage: WorkStage | None
    on: dt.date | None


def bays_seen(job: Job, areas: Sequence[FinishedArea]) -> tuple[BaySeen, ...]:
    """Return every bay: the plane parts of each area, with the last stage that was logged.

    What was logged last holds; of two logs of one day the one that is farther.
    """
    said: dict[tuple[str, int], tuple[dt.date, int]] = {}
    surfaces = {each.area: each.surface for each in areas}
    for day in sorted(job.site_days, key=lambda each: each.date):
        for bay in day.bays:
            surface = surfaces.get(bay.area)
            if surface is None:
                continue
            number = surface.facets.index(surface.facet_at((bay.x_mm, bay.y_mm)))
            key, stage = (bay.area, number), STAGES.index(bay.stage)
            before = said.get(key)
            if before is not None and before[0] == day.date:
                stage = max(stage, before[1])
            said[key] = (day.date, stage)
    found = []
    for area in areas:
        for number, facet in enumerate(area.surface.facets):
            stage_on = said.get((area.area, number))
            stage_now = None if stage_on is None else STAGES[stage_on[1]]
            on = None if stage_on is None else stage_on[0]
            found.append(BaySeen(area.area, number + 1, facet.outline, stage_now, on))
    return tuple(found)
