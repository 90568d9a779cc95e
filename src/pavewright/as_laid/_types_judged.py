"""What a verdict on paving as laid rests on, and what was seen of water on it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.as_laid._verdicts import Verdict
    from pavewright.rules import Figure


class Ground(StrEnum):
    """What a verdict rests on."""

    LEVEL = "level"
    CLEARANCE = "clearance"
    CLEARANCE_UNKNOWN = "clearance_unknown"
    FALL = "fall"
    BAY = "bay"
    BAY_UNKNOWN = "bay_unknown"
    EDGE = "edge"
    GAP = "gap"
    LIP = "lip"
    JOINT = "joint"
    HOSE = "hose"
    GRATING = "grating"
    STANDING = "standing"
    STANDING_UNKNOWN = "standing_unknown"
    UNREAD = "unread"
    PLACE_UNREAD = "place_unread"
    CLEARANCE_UNREAD = "clearance_unread"


@dataclass(frozen=True, slots=True)
class Reason:
    """Why paving as laid does not pass.

    Attributes:
        area: Name of the area; empty for what belongs to none.
        ground: What it rests on.
        names: Labels of what was read there.
        verdict: Fails, or inconclusive.
    """

    area: str
    ground: Ground
    names: tuple[str, ...]
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class HoseAsLaid:
    """A hose test that still counts: none of the whole area came after it.

    Attributes:
        name: Its name.
        area: Name of its area.
        marks: Names of the places at which water stood.
        deepest_mm: Deepest water found; zero where none stood. [mm]
        after_min: How long after the water was turned off it was looked at. [min]
        is_whole: Whether all of the area was wetted and looked at.
        limit: Shallower water is not counted.
        wait: From then on water that stands is counted as standing.
        verdict: Fails where water stands; passes only where the whole area was wetted and seen dry.
    """

    name: str
    area: str
    marks: tuple[str, ...]
    deepest_mm: float
    after_min: float
    is_whole: bool
    limit: Figure
    wait: Figure
    verdict: Verdict
