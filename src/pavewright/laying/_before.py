"""What was laid before for the same plan: a part of an area is laid once, however many options are tried."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.job import FallWish
from pavewright.laying.pieces import frame_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import Fault, Job, PavingUnit
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying._types import LaidArea
    from pavewright.laying.edges import Part
    from pavewright.laying.pieces import Frame
    from pavewright.laying.setting import Setting
    from pavewright.laying.yard import LeftOver
    from pavewright.survey import PlanArea, Survey


@dataclass(frozen=True)
class AskedPart:
    """All that decides how a part of an area is laid; what is not in here, the laying does not see.

    Attributes:
        part: The part, less what says nothing of its units: its fall, the sides that hold it, and its note.
        frame: Directions of the courses and the point from which they start.
        units: Every paving unit of the job.
        known: Figures of this room.
        yard: Left-overs that lie there before.
    """

    part: Part
    frame: Frame
    units: tuple[PavingUnit, ...]
    known: LayingFigures
    yard: tuple[LeftOver, ...]

    @classmethod
    def of(cls, job: Job, part: Part, survey: Survey, known: LayingFigures, yard: Sequence[LeftOver]) -> AskedPart:
        """Return what is asked of a part of an area of a job."""
        alone = replace(part, area=_laid_alone(part.area))
        return cls(alone, frame_of(part.area, survey), job.units, known, tuple(yard))

    def unit(self, name: str) -> PavingUnit:
        """Return the paving unit with this name; ``parse`` has checked that it is there."""
        return next(unit for unit in self.units if unit.name == name)


def _laid_alone(area: PlanArea) -> PlanArea:
    """Return an area less what says nothing of its units."""
    return replace(area, area=area.area.model_copy(update={"fall": FallWish(), "edges": (), "note": ""}))


@dataclass(frozen=True)
class LaidPart:
    """How a part was laid, or why it cannot be, and the left-overs that lie in the yard afterwards."""

    laid: tuple[Setting, LaidArea] | Fault
    yard: tuple[LeftOver, ...]


class LaidBefore:
    """Parts that were laid, each with what was asked; it lives as long as one plan and its trials."""

    def __init__(self) -> None:
        self._kept: dict[str, list[tuple[AskedPart, LaidPart]]] = {}

    def found(self, asked: AskedPart) -> LaidPart | None:
        """Return what was laid when all that decides it was equal; None where it never was."""
        return next((done for other, done in self._kept.get(asked.part.path, ()) if other == asked), None)

    def keep(self, asked: AskedPart, done: LaidPart) -> LaidPart:
        """Keep what was laid, and return it."""
        self._kept.setdefault(asked.part.path, []).append((asked, done))
        return done
