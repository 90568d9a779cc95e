"""Where a round part is best placed on the courses round it: tried over one unit and joint each way."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from pavewright.job import Fault
from pavewright.laying.edges import parts_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.job import Job
    from pavewright.survey import PlanArea, Survey

_STEPS = 9
"""Places along and across that are tried; few enough to be laid, where units cannot be counted at once."""


@dataclass(frozen=True, slots=True)
class MovedCircle:
    """A round part moved, and what that makes of the units round it.

    Attributes:
        zone: Its name.
        east_mm: How far its centre is moved east. [mm]
        north_mm: How far north. [mm]
        cut: Units cut round it and at the outline then.
        too_narrow: Those of them that are too narrow somewhere to be cut and laid.
    """

    zone: str
    east_mm: float
    north_mm: float
    cut: int
    too_narrow: int = 0


Round = tuple[int, int]
"""Of the units round the parts: those too narrow to be cut and laid, and those that are cut."""


def moved_circles(
    job: Job, number: int, survey: Survey, cuts_round: Callable[[PlanArea], Round | None], steps: int = _STEPS
) -> tuple[tuple[MovedCircle, ...], int]:
    """Return the best place of every round part whose move saves a cut, and how many places were tried.

    A place with fewer pieces that cannot be cut and laid goes before one with fewer cuts; one with more is none.

    Args:
        job: The job.
        number: Number of the area in the document.
        survey: What was measured, adjusted.
        cuts_round: Counts the units cut in what the parts leave of an area; None where they cannot be counted.
        steps: Places tried along and across.
    """
    area = survey.site.areas[number]
    unit, joint = job.unit(area.area.laying.unit), area.area.laying.joint_mm
    found: list[MovedCircle] = []
    tried = 0
    round_parts = [zone for zone in area.area.zones if zone.circle_at is not None]
    here = _cuts(number, survey, cuts_round) if round_parts else None
    for zone in round_parts if here is not None else ():
        best: tuple[Round, float, float, float] | None = None
        easts, norths = (np.linspace(-0.5, 0.5, steps) * (size + joint) for size in (unit.length_mm, unit.width_mm))
        for east in easts.tolist():
            for north in norths.tolist():
                points = tuple(
                    replace(each, x_mm=each.x_mm + east, y_mm=each.y_mm + north)
                    if each.name == zone.circle_at
                    else each
                    for each in survey.points
                )
                cut = _cuts(number, replace(survey, points=points), cuts_round)
                if cut is None:
                    continue
                tried += 1
                way = cut, abs(east) + abs(north), east, north
                best = way if best is None else min(best, way)
        if best is not None and here is not None and best[0] < here:
            found.append(MovedCircle(zone.name, best[2], best[3], best[0][1], best[0][0]))
    return tuple(found), tried


def _cuts(number: int, survey: Survey, cuts_round: Callable[[PlanArea], Round | None]) -> Round | None:
    parts = parts_of(number, survey.site.areas[number], survey)
    return None if isinstance(parts, Fault) else cuts_round(parts[-1].area)


def circle_words(area: str, moved: tuple[MovedCircle, ...], tried: int) -> str:
    """Return in words what a round part saves at a better place; empty where there is none."""
    if not tried:
        return ""
    if not moved:
        return f" Round parts of {area} were tried at {tried} places: none saves a cut round them that can be laid."
    said = [
        f"{one.zone} {_way(one.east_mm, 'east', 'west')} and {_way(one.north_mm, 'north', 'south')} leaves {one.cut} "
        f"cuts round it{_narrow(one.too_narrow)}"
        for one in moved
    ]
    return f" Round parts were tried at {tried} places: {'; '.join(said)}."


def _narrow(many: int) -> str:
    return f", {many} of them too narrow to be cut and laid" if many else ""


def _way(off_mm: float, forth: str, back: str) -> str:
    return f"{abs(off_mm):.0f} mm {forth if off_mm >= 0.0 else back}"
