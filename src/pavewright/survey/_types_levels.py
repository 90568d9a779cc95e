"""What survey hands on of levels: what gave them, level books, all readings together."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, assert_never

if TYPE_CHECKING:
    from pavewright.job import HeightMeans
    from pavewright.sums import Working


class LevelledBy(StrEnum):
    """What gives a point its level."""

    BENCHMARK = "benchmark"
    DATUM = "datum"
    GIVEN = "given"
    BOOK = "book"
    HEIGHT_OVER = "height_over"
    HEIGHT_UNDER = "height_under"
    TOGETHER = "together"


@dataclass(frozen=True, slots=True)
class LevelSource:
    """What gave a point its level.

    Attributes:
        kind: A benchmark, an assumed datum, a level given, a level book, a height over another point, or all readings
            together.
        name: Name of the level book, or of the other point; empty for the others.
        means: With what a height over another point was read.
    """

    kind: LevelledBy
    name: str = ""
    means: HeightMeans | None = None

    @property
    def words(self) -> str:
        """What gave it, for a person."""
        by = "" if self.means is None else f" by {self.means.value.replace('_', ' ')}"
        match self.kind:
            case LevelledBy.BENCHMARK | LevelledBy.DATUM | LevelledBy.GIVEN | LevelledBy.TOGETHER:
                return _PLAINLY[self.kind]
            case LevelledBy.BOOK:
                return f"level book {self.name}"
            case LevelledBy.HEIGHT_OVER:
                return f"its height over {self.name}{by}"
            case LevelledBy.HEIGHT_UNDER:
                return f"its height under {self.name}{by}"
            case _:
                assert_never(self.kind)


_PLAINLY = {
    LevelledBy.BENCHMARK: "its benchmark",
    LevelledBy.DATUM: "the assumed datum",
    LevelledBy.GIVEN: "the level given for it",
    LevelledBy.TOGETHER: "all readings together",
}


@dataclass(frozen=True, slots=True)
class ReducedRow:
    """One row of a level book, reduced both ways.

    Attributes:
        point: Name of the point.
        backsight_mm: As read, or None. [mm]
        intermediate_mm: As read, or None. [mm]
        foresight_mm: As read, or None. [mm]
        rise_mm: Rise from the reading before, or None. [mm]
        fall_mm: Fall from the reading before, or None. [mm]
        collimation_mm: Height of collimation of the set-up that reads on from here. [mm]
        level_mm: Reduced level before the misclosure is distributed. [mm]
        correction_mm: Share of the closing error given to this row. [mm]
        adjusted_mm: Reduced level after the misclosure is distributed. [mm]
        setup: Number of the set-up that read the row (a change point: the one it closes).
    """

    point: str
    backsight_mm: float | None
    intermediate_mm: float | None
    foresight_mm: float | None
    rise_mm: float | None
    fall_mm: float | None
    collimation_mm: float
    level_mm: float
    correction_mm: float
    adjusted_mm: float
    setup: int


@dataclass(frozen=True, slots=True)
class ArithmeticCheck:
    """One check of a level book: what the two sides of it come to."""

    name: str
    left_mm: float
    right_mm: float

    @property
    def holds(self) -> bool:
        """Whether both sides agree to a hundredth of a millimetre."""
        return math.isclose(self.left_mm, self.right_mm, abs_tol=0.01)


@dataclass(frozen=True, slots=True)
class ReducedLevelBook:
    """A level book reduced by rise and fall and by height of collimation.

    Attributes:
        name: Name of the book.
        rows: Its rows.
        sum_backsights_mm: [mm]
        sum_foresights_mm: [mm]
        sum_rises_mm: [mm]
        sum_falls_mm: [mm]
        checks: The arithmetic checks, all of which hold in a sound book.
        setups: Number of instrument set-ups.
        misclosure_mm: Closing level found less closing level known; None for a run that closes on nothing. [mm]
        limit_mm: Greatest misclosure accepted. [mm]
        shared_out: Whether the misclosure was distributed over its own set-ups.
        working: The sum behind misclosure and limit.
    """

    name: str
    rows: tuple[ReducedRow, ...]
    sum_backsights_mm: float
    sum_foresights_mm: float
    sum_rises_mm: float
    sum_falls_mm: float
    checks: tuple[ArithmeticCheck, ...]
    setups: int
    misclosure_mm: float | None
    limit_mm: float | None
    shared_out: bool
    working: tuple[Working, ...] = ()


@dataclass(frozen=True, slots=True)
class LevelReading:
    """One reading of the staff, or one height over another point, after all were adjusted together.

    Attributes:
        words: Where it was read and what.
        measured_mm: As read. [mm]
        residual_mm: Adjusted less measured. [mm]
        redundancy: How far other readings check it, 0 (not at all) to 1. [-]
        standardised: Residual over its own standard deviation; None for one that nothing checks. [-]
        suspect: Whether the others contradict it, or it is among those of which one is contradicted.
    """

    words: str
    measured_mm: float
    residual_mm: float
    redundancy: float
    standardised: float | None
    suspect: bool


@dataclass(frozen=True)
class LevelsTogether:
    """All readings of levels adjusted together.

    Attributes:
        readings: Every reading.
        sds_mm: Name and standard deviation of every point that was not held, for a ratio of one. [mm]
        spare: Degrees of freedom.
        ratio: Standard deviation after over before; None with no spare reading. [-]
    """

    readings: tuple[LevelReading, ...]
    sds_mm: tuple[tuple[str, float], ...]
    spare: int
    ratio: float | None
