"""Where a place comes out when every reading behind it is a little wrong: errors carried from step to step.

A place keeps how it hangs on every reading so far, each in units of its own standard deviation. What two places have in
common, such as the tape that is too long in all of its lengths, or the base line that both were taped from, is not
counted as if it were two errors: it adds straight, or cancels.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright import units
from pavewright.geometry import distance, unit_vector

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.geometry import XY
    from pavewright.setting_out.errors._tool_errors import ToolErrors

_TWO_WAYS = 2
_THREE, _FOUR, _FIVE = 3.0, 4.0, 5.0


@dataclass(frozen=True)
class Spread:
    """A place with how it hangs on the readings behind it.

    Attributes:
        at: The place as wanted. [mm]
        by: How far it moves when each reading is wrong by its standard deviation: float64, shape (2, readings). The
            first is the length of the tape itself. [mm]
        last: Which of the readings fixed it from places that were fixed before, its mark apart.
    """

    at: XY
    by: NDArray[np.float64]
    last: range = range(0)

    @property
    def covariance_mm2(self) -> NDArray[np.float64]:
        """Its variances and covariance: float64, shape (2, 2). [mm2]."""
        return np.asarray(self.by @ self.by.T)

    @property
    def radial_mm(self) -> float:
        """Root of the sum of both variances. [mm]."""
        return float(np.sqrt(np.sum(self.by * self.by)))


def wide(by_mm: NDArray[np.float64], count: int) -> NDArray[np.float64]:
    """Return how a place hangs on so many readings, those that came after it with zero: float64, shape (2, count)."""
    return np.pad(by_mm, ((0, 0), (0, count - by_mm.shape[1])))


class Readings:
    """Counts the readings of a setting-out, so that each has a column of its own.

    The first column is the tape: all its lengths are too long or too short together.
    """

    def __init__(self, tools: ToolErrors) -> None:
        self.tools = tools
        self.count = 1

    def copy(self) -> Readings:
        """Return another one that goes on from here."""
        other = Readings(self.tools)
        other.count = self.count
        return other

    def fresh(self, sd: float) -> NDArray[np.float64]:
        """Return one new reading of a standard deviation: float64, shape (readings,).

        Args:
            sd: Its standard deviation. [mm, or rad for an angle]
        """
        self.count += 1
        row = np.zeros(self.count)
        row[-1] = sd
        return row

    def taped(self, length_mm: float) -> NDArray[np.float64]:
        """Return the error of one taped length: its own readings, and the tape's share. [mm]."""
        tools = self.tools
        lengths = max(1, math.ceil(length_mm / tools.tape_length_mm - 1e-9))
        row = self.fresh(chain_sd_mm(math.hypot(tools.tape_read_sd_mm, tools.tape_fixed_mm), lengths))
        row[0] = units.mm_to_m(length_mm) * tools.tape_per_m_mm
        return row

    def marked(self, at: XY, by_mm: NDArray[np.float64], first: int) -> Spread:
        """Return a place with the error of the mark on its peg, fixed by the readings from the first one on."""
        last = range(first, self.count)
        east, north = self.fresh(self.tools.mark_sd_mm), self.fresh(self.tools.mark_sd_mm)
        whole = wide(by_mm, self.count)
        whole[0] += np.pad(east, (0, self.count - east.size))
        whole[1] += north
        return Spread(at, whole, last)


def chain_sd_mm(one_sd_mm: float, lengths: int) -> float:
    """Return the standard deviation of a distance taped in several lengths. [mm].

    Args:
        one_sd_mm: Standard deviation of laying down and reading the tape once. [mm]
        lengths: How often it is laid down.

    Valid for: errors that differ from one length to the next; a tape that is too long adds straight.
    Source: tape_chain

    >>> chain_sd_mm(2.0, 4)
    4.0
    """
    return one_sd_mm * math.sqrt(lengths)


def base_spreads(readings: Readings, start: XY, end: XY) -> tuple[Spread, Spread]:
    """Return the two pegs of a base line: the first is the origin, the second gives the direction.

    Source: definition, the start has no error and the end only one along the line
    """
    along = readings.taped(distance(start, end))
    ux, uy = unit_vector(start, end)
    mark = readings.fresh(math.sqrt(2.0) * readings.tools.mark_sd_mm)
    row = np.pad(along, (0, 1)) + mark
    return Spread(start, np.zeros((_TWO_WAYS, 1))), Spread(end, np.vstack((ux * row, uy * row)))


def two_tapes_spread(readings: Readings, first: Spread, second: Spread, at: XY) -> Spread:
    """Return a place that two tapes fix.

    Source: on_site_errors, two distances: A·dX = dr + A·dP, with A the directions of the tapes
    """
    before = readings.count
    directions = np.array([unit_vector(each.at, at) for each in (first, second)])
    taped = [readings.taped(distance(each.at, at)) for each in (first, second)]
    count = readings.count
    right = np.vstack(
        [
            np.pad(tape, (0, count - tape.size)) + direction @ wide(each.by, count)
            for tape, direction, each in zip(taped, directions, (first, second), strict=True)
        ]
    )
    return readings.marked(at, np.linalg.solve(directions, right), before)


def triangle_partials(three_mm: float, four_mm: float, five_mm: float) -> tuple[float, float, float]:
    """Return how the right angle of a triangle changes with each of its sides. [rad/mm].

    Args:
        three_mm: Side along the line. [mm]
        four_mm: Side square to it. [mm]
        five_mm: Side across. [mm]

    Valid for: a right angle between the first two.
    Source: on_site_errors, d(angle)/d(sides)

    >>> [round(each, 4) for each in triangle_partials(3.0, 4.0, 5.0)]
    [-0.25, -0.3333, 0.4167]
    """
    legs = three_mm * four_mm
    return -three_mm / legs, -four_mm / legs, five_mm / legs


def angle_errors(readings: Readings, room_along_mm: float, room_off_mm: float) -> NDArray[np.float64]:
    """Return the error of a right angle turned with the tool at hand. [rad].

    Args:
        readings: The readings so far; a triangle of tapes adds three.
        room_along_mm: Room along the line for a side of the triangle. [mm]
        room_off_mm: Room square to it. [mm]
    """
    square = readings.tools.square_sd_deg
    if square is not None:
        return readings.fresh(math.radians(square))
    unit = triangle_unit_mm(room_along_mm, room_off_mm)
    legs = (_THREE, _FOUR) if _THREE * unit <= room_along_mm and _FOUR * unit <= room_off_mm else (_FOUR, _THREE)
    sides = (legs[0] * unit, legs[1] * unit, _FIVE * unit)
    rows = [part * readings.taped(side) for part, side in zip(triangle_partials(*sides), sides, strict=True)]
    return np.asarray(np.sum([np.pad(row, (0, readings.count - row.size)) for row in rows], axis=0))


def triangle_unit_mm(room_along_mm: float, room_off_mm: float) -> float:
    """Return the largest unit of a 3-4-5 triangle that fits, whichever way round it is laid. [mm].

    Args:
        room_along_mm: Room along the line. [mm]
        room_off_mm: Room square to it. [mm]

    Source: definition, 3² + 4² = 5²

    >>> triangle_unit_mm(6000.0, 4500.0)
    1500.0
    """
    return max(min(room_along_mm / _THREE, room_off_mm / _FOUR), min(room_along_mm / _FOUR, room_off_mm / _THREE))


def square_spread(readings: Readings, base: tuple[Spread, Spread], along_mm: float, offset_mm: float) -> Spread:
    """Return a place by a distance along a base line and square off it.

    Args:
        readings: The readings so far.
        base: The two ends of the base line.
        along_mm: Distance along it from its start. [mm]
        offset_mm: Distance square off it, positive to the left. [mm]

    Source: on_site_errors, offset by square
    """
    (start, end) = base
    ux, uy = unit_vector(start.at, end.at)
    along, left = np.array([ux, uy]), np.array([-uy, ux])
    length, before = distance(start.at, end.at), readings.count
    chained = readings.taped(abs(along_mm))
    off = readings.taped(abs(offset_mm))
    turned = angle_errors(readings, max(length, abs(along_mm)), abs(offset_mm))
    count = readings.count
    one, other = wide(start.by, count), wide(end.by, count)
    swung = left @ (other - one) / length
    chain, out = (np.pad(row, (0, count - row.size)) for row in (chained, off))
    slip = np.pad(turned, (0, count - turned.size))
    by = one + np.outer(along, math.copysign(1.0, along_mm) * chain - offset_mm * (swung + slip))
    by += np.outer(left, along_mm * swung + math.copysign(1.0, offset_mm) * out)
    at = start.at[0] + along_mm * ux - offset_mm * uy, start.at[1] + along_mm * uy + offset_mm * ux
    return readings.marked(at, by, before)


def between_spread(readings: Readings, one: Spread, other: Spread) -> NDArray[np.float64]:
    """Return what a tape between two places reads wrong, against what it should: float64, shape (readings,). [mm]."""
    direction = np.array(unit_vector(one.at, other.at))
    tape = readings.taped(distance(one.at, other.at))
    count = readings.count
    moved = direction @ (wide(other.by, count) - wide(one.by, count))
    return np.asarray(moved - tape)
