"""What strings as they really hang, and set-ups of an instrument, hand on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.setting_out._types import LayerHeight


class HungBy(StrEnum):
    """What the height of a string rests on."""

    READ = "read"
    ONE_END = "one_end"
    PLANNED = "planned"


@dataclass(frozen=True, slots=True)
class StringHung:
    """A string as it hangs.

    Attributes:
        name: Its name.
        area: Name of its area.
        start: Peg at its start.
        end: Peg at its end.
        start_at: Where that is. [mm]
        end_at: Where that is. [mm]
        start_level_mm: Its level there, as read or else as planned. [mm]
        end_level_mm: Its level there, as read or else as planned. [mm]
        hung_by: Whether both ends were read, one, or none.
        span_mm: Between its ends. [mm]
        sag_mm: How far it hangs below the straight line at its middle. [mm]
        prop: Whether it sags so far that a peg goes under its middle.
    """

    name: str
    area: str
    start: str
    end: str
    start_at: XY
    end_at: XY
    start_level_mm: float
    end_level_mm: float
    hung_by: HungBy
    span_mm: float
    sag_mm: float
    prop: bool


@dataclass(frozen=True, slots=True)
class Crossing:
    """A peg under a string, with what lies how far below the string as it hangs there.

    Attributes:
        peg: Name of the peg.
        number: Its number.
        area: Name of its area.
        at: Where it is. [mm]
        string: Name of the string.
        level_mm: Level of the string here, its sag taken off. [mm]
        sag_mm: How far it sags here. [mm]
        hung_by: What its height rests on.
        heights: Tops of the layers with how far they lie below the string as it hangs.
    """

    peg: str
    number: int
    area: str
    at: XY
    string: str
    level_mm: float
    sag_mm: float
    hung_by: HungBy
    heights: tuple[LayerHeight, ...]


@dataclass(frozen=True, slots=True)
class StrayReading:
    """A height of a string that was read at a peg which is not there any more, or stands elsewhere now.

    Attributes:
        peg: Name of the peg.
        away_mm: How far from the peg of that name it was read; None where there is none of that name. [mm]
    """

    peg: str
    away_mm: float | None


@dataclass(frozen=True, slots=True)
class SightHeight:
    """The height of the sight of an instrument that is set up.

    Attributes:
        name: Name of the set-up.
        point: Point on which the staff was read.
        backsight_mm: What was read there. [mm]
        level_mm: Height of collimation; None where the level of the point is not known. [mm]
        sd_mm: Standard deviation of a height shown with it: the backsight and the staff. [mm]
    """

    name: str
    point: str
    backsight_mm: float
    level_mm: float | None
    sd_mm: float
