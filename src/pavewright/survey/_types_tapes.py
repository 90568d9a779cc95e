"""What the tapes of a job become: residuals, suspects, ellipses, the tape that helps most."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class TapeGain(StrEnum):
    """What one more tape is for.

    To be the base line, to fix points of a sketch, to part readings that look alike, to check, or to firm up a point.
    """

    BASE = "base"
    FIX = "fix"
    PLACE = "place"
    CHECK = "check"
    POINT = "point"


@dataclass(frozen=True, slots=True)
class NextTape:
    """A tape that was not taken.

    Attributes:
        start: Point at one end.
        end: Point at the other end.
        length_mm: About how long it will be. [mm]
        gain: What it is for: to part readings that look alike, to check a tape that nothing checks, or to firm up the
            weakest point.
        point: The weakest point; empty for other gains.
        before: What it improves, as it is now: likeness of readings that look alike (1 where nothing separates them),
            what readings lack in redundancy, or the larger deviation of the weakest point in millimetres; or how many
            conditions the points of a sketch lack. [-, or mm for a point]
        after: The same with this tape. [-, or mm for a point]
        fixes: Points of a sketch that it fixes.
    """

    start: str
    end: str
    length_mm: float
    gain: TapeGain
    point: str
    before: float
    after: float
    fixes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ErrorEllipse:
    """Where a point may lie: the ellipse of one standard deviation.

    Attributes:
        major_mm: Larger half-axis. [mm]
        minor_mm: Smaller half-axis. [mm]
        bearing_deg: Direction of the larger one, degrees clockwise from the y axis, 0 to 180. [deg]
    """

    major_mm: float
    minor_mm: float
    bearing_deg: float


@dataclass(frozen=True, slots=True)
class TapeResidual:
    """One tape after adjustment; residual is adjusted less measured.

    Attributes:
        start: Point.
        end: Point.
        measured_mm: As read. [mm]
        adjusted_mm: After adjustment. [mm]
        residual_mm: Adjusted less measured. [mm]
        redundancy: How far other tapes check it, 0 (not at all) to 1. [-]
        sd_mm: Standard deviation that it was given. [mm]
        standardised: Residual over its own standard deviation; None for a tape that nothing checks. [-]
    """

    start: str
    end: str
    measured_mm: float
    adjusted_mm: float
    residual_mm: float
    redundancy: float
    sd_mm: float
    standardised: float | None


class ShapeKind(StrEnum):
    """What a shape beside the tapes says: a corner is square, or a point lies on a line."""

    SQUARE = "square"
    ON_LINE = "on_line"


@dataclass(frozen=True, slots=True)
class ShapeResidual:
    """A square corner or a point on a line after adjustment.

    Attributes:
        kind: Whether it is a square corner or a point on a line.
        points: The corner and its two legs, or the point and the two of its line.
        off_mm: How far it is off after adjustment: the end of the shorter leg from square, or the point from its
            line. [mm]
        redundancy: How far the other readings check it, 0 to 1. [-]
        sd_mm: Standard deviation that it was given. [mm]
    """

    kind: ShapeKind
    points: tuple[str, str, str]
    off_mm: float
    redundancy: float
    sd_mm: float


@dataclass(frozen=True, slots=True)
class SuspectTape:
    """A tape that the others contradict.

    Attributes:
        start: Point.
        end: Point.
        measured_mm: As read. [mm]
        slip_mm: How much too long it was read, negative for too short; None where it cannot be told from others. [mm]
        alike: Tapes that cannot be told apart from it, as start and end; empty where it stands alone.
    """

    start: str
    end: str
    measured_mm: float
    slip_mm: float | None
    alike: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class AdjustedTapes:
    """The tape plan after adjustment.

    Attributes:
        residuals: One row a tape, in the order taken.
        spare: Number of spare readings (degrees of freedom).
        ratio: Standard deviation after over before; None with no spare reading. [-]
        ratio_low: Lower end of what chance explains at 95 %; None with no spare reading. [-]
        ratio_high: Upper end of what chance explains at 95 %; None with no spare reading. [-]
        shapes: Square corners and points on lines.
        suspects: Likely slips, one taken out at a time.
        next_tape: The tape more that helps most; None where none does.
    """

    residuals: tuple[TapeResidual, ...]
    spare: int
    ratio: float | None
    ratio_low: float | None
    ratio_high: float | None
    shapes: tuple[ShapeResidual, ...] = ()
    suspects: tuple[SuspectTape, ...] = ()
    next_tape: NextTape | None = None
