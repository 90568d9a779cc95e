"""Finished levels at named places."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.geometry import XY


class SpotKind(StrEnum):
    """What stands at a place with a finished level of its own."""

    CORNER = "corner"
    COVER = "cover"
    GULLY = "gully"
    DOOR = "door"
    CHANNEL = "channel"
    FOLD = "fold"
    STEP_TOP = "step_top"
    STEP_FOOT = "step_foot"


@dataclass(frozen=True, slots=True)
class SpotLevel:
    """A finished level at a named place of an area, such as a corner or a cover.

    Attributes:
        kind: What stands there.
        name: Its name without what it is ("Lid").
        label: Its name with what it is ("cover Lid").
        at: Where. [mm]
        level_mm: Finished level. [mm]
        path: Where a door stands in the job document; empty for all else.
    """

    kind: SpotKind
    name: str
    label: str
    at: XY
    level_mm: float
    path: str = ""
