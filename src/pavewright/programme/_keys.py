"""What each task and each wait of a programme is called: never a word that somebody typed."""

from __future__ import annotations

from enum import StrEnum

from pavewright.cost import TaskKey
from pavewright.quantities import PlacedKey


class WaitKind(StrEnum):
    """Kind of a wait."""

    CURE_BASE = "cure_base"
    CURE_BED = "cure_bed"
    CURE_KERB = "cure_kerb"
    CURE_EDGING = "cure_edging"
    CURE_FOOTING = "cure_footing"


class WaitKey(PlacedKey[WaitKind]):
    """Key of a wait in an area.

    >>> WaitKey(WaitKind.CURE_BED, 0).text
    'cure_bed.area1'
    """

    __slots__ = ()


StepKey = TaskKey | WaitKey
"""Key of a task or a wait of a programme."""
