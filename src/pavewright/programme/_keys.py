"""What each task and each wait of a programme is called: never a word that somebody typed."""

from __future__ import annotations

from enum import StrEnum

from pavewright.cost import TaskKey
from pavewright.quantities import PlacedKey


class WaitKind(StrEnum):
    """Kind of a wait: something hardens, or somebody has to look before work goes on."""

    CURE_BASE = "cure_base"
    CURE_BED = "cure_bed"
    CURE_KERB = "cure_kerb"
    CURE_EDGING = "cure_edging"
    CURE_FOOTING = "cure_footing"
    CURE_JOINTS = "cure_joints"
    HOLD_FORMATION = "hold_formation"
    HOLD_DRAINS = "hold_drains"
    HOLD_LAYER = "hold_layer"
    HOLD_SNAG = "hold_snag"


class WaitKey(PlacedKey[WaitKind]):
    """Key of a wait in an area.

    >>> WaitKey(WaitKind.CURE_BED, 0).text
    'cure_bed.area1'
    """

    __slots__ = ()


StepKey = TaskKey | WaitKey
"""Key of a task or a wait of a programme."""

HOLDS = frozenset({WaitKind.HOLD_FORMATION, WaitKind.HOLD_DRAINS, WaitKind.HOLD_LAYER, WaitKind.HOLD_SNAG})
"""Waits that end when somebody has looked, not by themselves."""


def priced(key: StepKey) -> StepKey:
    """Return the key of the task of labour that a step is of, or is a layer of; a wait has its own."""
    return key.priced if isinstance(key, TaskKey) else key


def is_hold(key: StepKey) -> bool:
    """Return whether work stops there until somebody has looked."""
    return isinstance(key, WaitKey) and key.kind in HOLDS
