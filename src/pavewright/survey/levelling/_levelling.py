"""The arithmetic of a level book: rise and fall, height of collimation, checks, misclosure."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.survey._types_levels import ArithmeticCheck, ReducedRow

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, slots=True)
class Sighting:
    """The readings booked against one point. [mm]."""

    point: str
    backsight_mm: float | None = None
    intermediate_mm: float | None = None
    foresight_mm: float | None = None


def reduce_rows(sightings: Sequence[Sighting], first_level_mm: float) -> tuple[ReducedRow, ...]:
    """Return the rows reduced by rise and fall, with the height of collimation of every set-up beside them.

    Args:
        sightings: Rows of a book in which ``booking_slips`` finds nothing.
        first_level_mm: Level of the first point. [mm]

    Valid for: staff read upright, readings growing downwards.
    Source: nptel_surveying, module 4
    """
    start = sightings[0]
    reading = start.backsight_mm or 0.0
    level, collimation, setup = first_level_mm, first_level_mm + reading, 1
    rows = [_row(start, None, collimation, level, setup)]
    for sighting in sightings[1:]:
        read = _onward_reading(sighting)
        change = reading - read
        level += change
        reading = read
        this_setup = setup
        if sighting.backsight_mm is not None:
            reading = sighting.backsight_mm
            collimation = collimation - read + sighting.backsight_mm
            setup += 1
        rows.append(_row(sighting, change, collimation, level, this_setup))
    return tuple(rows)


def _onward_reading(row: Sighting | ReducedRow) -> float:
    """Return the foresight or intermediate sight of a row after the first. [mm]."""
    return (row.intermediate_mm if row.foresight_mm is None else row.foresight_mm) or 0.0


def _row(sighting: Sighting, change: float | None, collimation: float, level: float, setup: int) -> ReducedRow:
    return ReducedRow(
        point=sighting.point,
        backsight_mm=sighting.backsight_mm,
        intermediate_mm=sighting.intermediate_mm,
        foresight_mm=sighting.foresight_mm,
        rise_mm=change if change is not None and change >= 0.0 else None,
        fall_mm=-change if change is not None and change < 0.0 else None,
        collimation_mm=collimation,
        level_mm=level,
        correction_mm=0.0,
        adjusted_mm=level,
        setup=setup,
    )


def levels_by_collimation(rows: Sequence[ReducedRow]) -> tuple[float, ...]:
    """Return the levels once more, each as height of collimation less the reading. [mm].

    Source: nptel_surveying, module 4
    """
    collimation = rows[0].collimation_mm
    levels = [rows[0].level_mm]
    for row in rows[1:]:
        levels.append(collimation - _onward_reading(row))
        collimation = row.collimation_mm
    return tuple(levels)


@dataclass(frozen=True, slots=True)
class BookSums:
    """Sums of the columns of a level book. [mm]."""

    backsights_mm: float
    intermediates_mm: float
    foresights_mm: float
    rises_mm: float
    falls_mm: float


def column_sums(rows: Sequence[ReducedRow]) -> BookSums:
    """Return the sums at the foot of the page."""
    return BookSums(
        math.fsum(row.backsight_mm or 0.0 for row in rows),
        math.fsum(row.intermediate_mm or 0.0 for row in rows),
        math.fsum(row.foresight_mm or 0.0 for row in rows),
        math.fsum(row.rise_mm or 0.0 for row in rows),
        math.fsum(row.fall_mm or 0.0 for row in rows),
    )


def arithmetic_checks(rows: Sequence[ReducedRow], levels_mm: Sequence[float]) -> tuple[ArithmeticCheck, ...]:
    """Return the checks at the foot of the page, checked against a column of levels.

    The first two do not touch intermediate sights; the third holds every level against its height of collimation:
    the levels after the first add up to each height of collimation as often as it was read from, less the readings.

    Args:
        rows: Reduced rows.
        levels_mm: The levels to check: those of the reduction, or a column that somebody else worked out. [mm]

    Source: nptel_surveying, module 4
    """
    sums = column_sums(rows)
    read_from = []
    collimation = rows[0].collimation_mm
    for row in rows[1:]:
        read_from.append(collimation)
        collimation = row.collimation_mm
    by_readings = sums.backsights_mm - sums.foresights_mm
    by_steps = sums.rises_mm - sums.falls_mm
    by_levels = levels_mm[-1] - levels_mm[0]
    return (
        ArithmeticCheck("backsights less foresights = rises less falls", by_readings, by_steps),
        ArithmeticCheck("backsights less foresights = last level less first", by_readings, by_levels),
        ArithmeticCheck("rises less falls = last level less first", by_steps, by_levels),
        ArithmeticCheck(
            "levels after the first = heights of collimation less readings",
            math.fsum(levels_mm[1:]),
            math.fsum(read_from) - sums.intermediates_mm - sums.foresights_mm,
        ),
    )


def greatest_misclosure_mm(per_setup_mm: float, setups: float) -> float:
    """Return the greatest misclosure that a run of levels may have. [mm].

    Args:
        per_setup_mm: What one set-up may be out; one kilometre, where the run goes by its distance. [mm]
        setups: Number of set-ups, or of kilometres. [-, or km]

    Valid for: building sites, sights of like length.
    Source: surveying_for_engineers, m·√n

    >>> round(greatest_misclosure_mm(5.0, 3), 2)
    8.66
    """
    return per_setup_mm * math.sqrt(setups)


def share_mm(misclosure_mm: float, setup: int, setups: int) -> float:
    """Return the correction of everything read from one set-up. [mm].

    Args:
        misclosure_mm: Closing level found less closing level known. [mm]
        setup: Number of the set-up, from 1.
        setups: Number of set-ups.

    Valid for: sights of like length, so that every set-up is as likely to be out as any other.
    Source: mahun_elevations, chapter E, equal share for each set-up

    >>> [share_mm(-9.0, setup, 3) for setup in (1, 2, 3)]
    [3.0, 6.0, 9.0]
    """
    return -misclosure_mm * setup / setups
