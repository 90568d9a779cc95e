"""What each task and each wait of a programme is called: never a word that somebody typed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pavewright.cost import TaskKey


class WaitKind(StrEnum):
    """Kind of a wait."""

    CURE_BASE = "cure_base"
    CURE_BED = "cure_bed"
    CURE_KERB = "cure_kerb"
    CURE_EDGING = "cure_edging"
    CURE_FOOTING = "cure_footing"


@dataclass(frozen=True, slots=True)
class WaitKey:
    """Key of a wait.

    Attributes:
        kind: Kind of wait.
        area: Place of its area in the job, from 0.
        number: Which of several of one kind in one area, from 0.
    """

    kind: WaitKind
    area: int
    number: int = 0

    @property
    def text(self) -> str:
        """Its name for files and pages; no two keys of a programme share one.

        >>> WaitKey(WaitKind.CURE_BED, 0).text
        'cure_bed.area1'
        """
        first = f"{self.kind.value}.area{self.area + 1}"
        return f"{first}.no{self.number + 1}" if self.number else first


StepKey = TaskKey | WaitKey
"""Key of a task or a wait of a programme."""
