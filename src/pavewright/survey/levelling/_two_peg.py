"""The two-peg test: does the line of sight of a level lie level."""

from __future__ import annotations


def collimation_error(apparent_mm: float, true_mm: float, distance_a_mm: float, distance_b_mm: float) -> float:
    """Return how far the line of sight points up, as rise over run; negative where it points down.

    Args:
        apparent_mm: Reading on A less reading on B with unequal sights. [mm]
        true_mm: Reading on A less reading on B with equal sights, or level of B less level of A. [mm]
        distance_a_mm: Sight to A, unequal set-up. [mm]
        distance_b_mm: Sight to B, unequal set-up. [mm]

    Valid for: sights of different length; reading = true reading + error × sight.
    Source: surveying_for_engineers, two-peg test

    >>> round(collimation_error(393.0, 423.0, 55_000.0, 5_000.0), 6)
    -0.0006
    """
    return (apparent_mm - true_mm) / (distance_a_mm - distance_b_mm)


def reading_with_level_sight(reading_mm: float, error: float, distance_mm: float) -> float:
    """Return the reading that a level line of sight would have given. [mm].

    Args:
        reading_mm: As read. [mm]
        error: Rise of the line of sight over run. [-]
        distance_mm: Length of the sight. [mm]

    Valid for: sights short enough that the curve of the earth does not count.
    Source: surveying_for_engineers, two-peg test

    >>> round(reading_with_level_sight(1612.0, -0.0006, 55_000.0), 3)
    1645.0
    """
    return reading_mm - error * distance_mm
