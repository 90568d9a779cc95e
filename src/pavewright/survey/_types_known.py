"""What survey hands on of its own knowledge: what is assumed, what was not read, and what contradicts itself."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.job import Fault


class AssumedWhat(StrEnum):
    """What is assumed, not measured and not seen."""

    DPC = "dpc"
    THRESHOLD = "threshold"
    AIR_BRICK = "air_brick"
    COVER = "cover"
    EDGE = "edge"
    GULLY = "gully"
    CHANNEL = "channel"
    OUTFALL_LEVEL = "outfall_level"
    OUTFALL_TAKES_WATER = "outfall_takes_water"
    BOUNDARY = "boundary"
    POINT = "point"
    PLACE = "place"
    SOIL = "soil"
    TOPSOIL = "topsoil"


@dataclass(frozen=True, slots=True)
class AssumedFact:
    """Something that every paper and the price rest on and that nobody measured or saw.

    Attributes:
        what: What is assumed.
        place: Name of the wall, door, cover, edge, gully, channel, outfall, boundary or point; empty for the ground.
        value: What it is taken to be: a level, a depth, or the value of the enum in the job document; for a place that
            was sketched or tapped instead of measured, how far it may be out. [in ``unit``]
        unit: "mm" for levels, depths and places; empty for the others.
        by: Who assumes it; empty where nobody has said.
        why: What it is assumed from; may be empty.
        path: Where it stands in the job document.
    """

    what: AssumedWhat
    place: str
    value: float | str
    unit: str
    by: str
    why: str
    path: str


class NotRead(StrEnum):
    """Whose level has to be read and nobody did."""

    DPC = "dpc"
    THRESHOLD = "threshold"
    AIR_BRICK = "air_brick"
    COVER = "cover"
    EDGE = "edge"


@dataclass(frozen=True, slots=True)
class LevelNotRead:
    """A level near the paving that nobody read.

    Attributes:
        what: Whose.
        name: Its name.
        path: Where it stands in the job document.
    """

    what: NotRead
    name: str
    path: str


@dataclass(frozen=True, slots=True)
class SurveyFaults:
    """Readings that contradict each other or make no place, and those that make no height.

    Attributes:
        places: Of the plan: nothing but the survey is made with them.
        heights: Of levels, the ground among them: no finished level is made with them.
    """

    places: tuple[Fault, ...] = ()
    heights: tuple[Fault, ...] = ()
