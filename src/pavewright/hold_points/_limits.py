"""A reading held to a limit above and another below, with the doubt of the reading itself."""

from __future__ import annotations

from pavewright.as_laid import TRUSTED, Verdict


def off_limit(off_mm: float, above_mm: float, below_mm: float, sd_mm: float) -> Verdict:
    """Return the verdict on a value that may lie so much too high and so much too low.

    It passes or fails where the reading's own doubt, two standard deviations, leaves no other way.

    Args:
        off_mm: Found less planned, positive where it lies high. [mm]
        above_mm: At most so much too high. [mm]
        below_mm: At most so much too low. [mm]
        sd_mm: Standard deviation of the reading. [mm]

    Source: common_practice, a reading is trusted to two standard deviations

    >>> [off_limit(off, 0.0, 25.0, 3.0).value for off in (-12.0, -3.0, 4.0, 10.0, -40.0)]
    ['pass', 'unsure', 'unsure', 'fail', 'fail']
    """
    doubt = TRUSTED * sd_mm
    if off_mm > above_mm + doubt or off_mm < -below_mm - doubt:
        return Verdict.FAILS
    inside = off_mm <= above_mm - doubt and off_mm >= doubt - below_mm
    return Verdict.PASSES if inside else Verdict.INCONCLUSIVE
