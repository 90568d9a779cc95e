"""What setting out hands on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.job import ServiceKind


class InTheWay(StrEnum):
    """What a tape cannot go through."""

    HOUSE = "house"
    WALL = "wall"
    BOUNDARY = "boundary"
    OBSTACLE = "obstacle"
    TREE = "tree"
    HOLE = "hole"


class Stands(StrEnum):
    """How a peg is held in the ground.

    A pin is driven outside the dig and stays. A mark is made on the wall, where no pin can be driven. A dip is a place
    under a string: it is measured down to and no pin stays there, for it is dug away.
    """

    PIN = "pin"
    MARK = "mark"
    DIP = "dip"


class PegRole(StrEnum):
    """What a peg is for."""

    BASE = "base"
    CORNER = "corner"
    FOLD = "fold"
    EDGE = "edge"
    GRID = "grid"
    PROFILE = "profile"


class TapeKind(StrEnum):
    """What a tape proves."""

    BASE = "base"
    SIDE = "side"
    DIAGONAL = "diagonal"
    TRIANGLE = "triangle"
    OFFSET = "offset"


class HeightOf(StrEnum):
    """The surfaces that are measured down to from a string, from the top."""

    FINISHED = "finished"
    BED = "top of bed"
    BASE = "top of base"
    SUB_BASE = "top of sub-base"
    CAPPING = "top of capping"
    FORMATION = "formation"


@dataclass(frozen=True, slots=True)
class ServiceBand:
    """A known service with the ground beside it in which nobody drives a pin or digs with a machine.

    Attributes:
        name: Its name.
        kind: What it carries.
        depth_mm: How deep it is said to lie; None where that is not known. [mm]
        band_mm: Width of the ground on each side. [mm]
        points: Its line. [mm]
        words: All of it in a sentence.
    """

    name: str
    kind: ServiceKind
    depth_mm: float | None
    band_mm: float
    points: tuple[XY, ...]
    words: str


@dataclass(frozen=True, slots=True)
class NoPin:
    """Why no pin is driven at a peg, and where one can be.

    Attributes:
        services: Names of the services in whose band it stands.
        away_mm: Distance to the nearest of them. [mm]
        elsewhere: The nearest place on the same line where a pin can be driven; None where there is none. [mm]
        words: All of it in a sentence.
    """

    services: tuple[str, ...]
    away_mm: float
    elsewhere: XY | None
    words: str


@dataclass(frozen=True, slots=True)
class LayerHeight:
    """Top of a layer at a peg: its level and how far down from the string it is."""

    layer: HeightOf
    level_mm: float
    down_from_string_mm: float


@dataclass(frozen=True, slots=True)
class Peg:
    """A peg or a string crossing.

    Attributes:
        number: Its number over the whole job.
        name: Name on the sheet ("Peg 1").
        area: Area that it serves.
        role: What it is for.
        at: Place in plan. [mm]
        string_level_mm: Level of the string at this place. [mm]
        heights: Finished level, top of bed, top of base, top of sub-base and formation, whichever exist, from the top.
        from_corner: Where it is in words: distance along and off the base line of the area.
        along_mm: Distance along the base line of the area. [mm]
        offset_mm: Distance square off the base line, positive to the left. [mm]
        stands: Whether it is a pin outside the dig, a mark on a wall or a place under a string.
        no_pin: Why no pin is driven here; None where no known service is near.
    """

    number: int
    name: str
    area: str
    role: PegRole
    at: XY
    string_level_mm: float
    heights: tuple[LayerHeight, ...]
    from_corner: str
    along_mm: float
    offset_mm: float
    stands: Stands = Stands.DIP
    no_pin: NoPin | None = None


@dataclass(frozen=True, slots=True)
class BaseLine:
    """The line of an area from which everything else is measured, between two pegs.

    Attributes:
        area: The area.
        start: Name of the peg at its start.
        end: Name of the peg at its end.
        start_at: Where it starts. [mm]
        end_at: Where it ends. [mm]
        length_mm: Its length. [mm]
        side: The side of the outline to which it runs parallel.
        off_mm: How far it runs off that side, positive into the area. [mm]
        words: Where it runs.
    """

    area: str
    start: str
    end: str
    start_at: XY
    end_at: XY
    length_mm: float
    side: str
    off_mm: float
    words: str


@dataclass(frozen=True, slots=True)
class StringLine:
    """A string between two pegs, at a stated height over the finished surface."""

    name: str
    area: str
    start: str
    end: str
    length_mm: float
    fall_mm: float
    carries_fall: bool


@dataclass(frozen=True, slots=True)
class TapeCheck:
    """A distance to be checked with a tape that nothing stands in the way of.

    Attributes:
        name: Its name.
        area: Area that it proves.
        kind: What it proves.
        start: Corner or peg where it is held.
        end: Corner or peg to which it is read.
        start_at: Where that is. [mm]
        end_at: Where that is. [mm]
        expected_mm: What it should read. [mm]
        words: What to do.
    """

    name: str
    area: str
    kind: TapeKind
    start: str
    end: str
    start_at: XY
    end_at: XY
    expected_mm: float
    words: str


@dataclass(frozen=True, slots=True)
class HouseInTheWay:
    """A house that tapes are kept out of: how much ground behind its wall is taken for it.

    Attributes:
        area: Name of the area whose tapes are refused.
        wall: Name of the wall.
        deep_mm: How deep the house is taken to be behind the wall, unless another wall stands nearer. [mm]
        refused: Number of tapes between corners and pegs that are not asked for because of it.
        words: What to say of it on the sheet of tapes.
    """

    area: str
    wall: str
    deep_mm: float
    refused: int
    words: str
