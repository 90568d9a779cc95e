"""What the order of work hands on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.geometry import XY


class FixedBy(StrEnum):
    """How a corner is fixed."""

    BASE = "base"
    TWO_TAPES = "two_tapes"
    SQUARE = "square"


@dataclass(frozen=True, slots=True)
class ExpectedError:
    """How far off a place is expected to come out, against the start and the direction of its base line.

    Attributes:
        along_mm: Standard deviation along the base line. [mm]
        off_mm: Standard deviation square to it. [mm]
        radial_mm: Root of the sum of both variances. [mm]
        within_mm: About a place so far off, or nearer, comes out in the share of checks without a slip. [mm]
    """

    along_mm: float
    off_mm: float
    radial_mm: float
    within_mm: float


@dataclass(frozen=True, slots=True)
class StepCheck:
    """A tape that proves a step: none of those that fixed it.

    Attributes:
        start: Where it is held.
        end: Where it is read.
        start_at: Where that is. [mm]
        end_at: Where that is. [mm]
        expected_mm: What it reads. [mm]
        limit_mm: It is off by more than this only where something is wrong. [mm]
    """

    start: str
    end: str
    start_at: XY
    end_at: XY
    expected_mm: float
    limit_mm: float


@dataclass(frozen=True, slots=True)
class WorkStep:
    """One step of setting out: a base line or a corner, how it is fixed, and the check that comes at once.

    Attributes:
        number: Its number, over the whole job.
        area: Name of the area.
        place: What is set out: a corner, or the far end of the base line.
        at: Where it is. [mm]
        fixed_by: How.
        stations: From where: two pegs or corners, or the start and the end of the base line.
        stations_at: Where those are. [mm]
        tapes_mm: Lengths from those; of a square, the way along the base line and the way off it, positive to the left.
            [mm]
        cut_deg: Angle at which the two tapes cross; None where it is squared off. [deg]
        error: How far off it is expected to come out.
        checks: The tape that proves it, or two where one alone proves little; none where no other place is seen yet.
        finds_mm: So far out by one wrong reading, or farther, it most likely shows in a check; None where a wrong
            reading may not show at all. [mm]
    """

    number: int
    area: str
    place: str
    at: XY
    fixed_by: FixedBy
    stations: tuple[str, str]
    stations_at: tuple[XY, XY]
    tapes_mm: tuple[float, ...]
    cut_deg: float | None
    error: ExpectedError
    checks: tuple[StepCheck, ...] = ()
    finds_mm: float | None = None


class FixedThing(StrEnum):
    """What stays where it is while the work goes on."""

    WALL_START = "wall_start"
    WALL_END = "wall_end"
    JAMB_LEFT = "jamb_left"
    JAMB_RIGHT = "jamb_right"
    OBSTACLE = "obstacle"


@dataclass(frozen=True, slots=True)
class FixedPlace:
    """A place on something that stays.

    Attributes:
        kind: What it is.
        name: Name of the wall, door or obstacle.
        number: Number of the corner of an obstacle, from one; zero for anything else.
        at: Where it is. [mm]
    """

    kind: FixedThing
    name: str
    number: int
    at: XY


@dataclass(frozen=True, slots=True)
class ComesBack:
    """How a peg that was knocked out is found again: by two tapes from places that stay.

    Attributes:
        peg: Name of the peg.
        area: Name of its area.
        at: Where it stood. [mm]
        first: The first place.
        second: The second place.
        tapes_mm: The two lengths. [mm]
        cut_deg: Angle at which they cross. [deg]
        is_steep: Whether they cross well.
        radial_mm: How far off it is expected to come back, by two new tapes. [mm]
    """

    peg: str
    area: str
    at: XY
    first: FixedPlace
    second: FixedPlace
    tapes_mm: tuple[float, float]
    cut_deg: float
    is_steep: bool
    radial_mm: float
