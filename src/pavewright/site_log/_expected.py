"""What a task will take in all, from the hours so far and how much of it is done."""

from __future__ import annotations

from dataclasses import dataclass

_ALL_PERCENT = 100.0
TRUSTED = 2.0
"""So many standard deviations of how much is done the ends lie away. [-]"""


@dataclass(frozen=True, slots=True)
class ExpectedHours:
    """What a task will take in all.

    Attributes:
        likely_h: Most likely. [h]
        low_h: Lower end. [h]
        high_h: Upper end; infinite where it may be that next to nothing is done. [h]
    """

    likely_h: float
    low_h: float
    high_h: float


def expected_hours(logged_h: float, done_percent: float, done_sd_percent: float) -> ExpectedHours:
    """Return what a task will take in all if the rest goes like what is done; what is done whole is known.

    Args:
        logged_h: Hours so far. [h]
        done_percent: How much is done. [%]
        done_sd_percent: Standard deviation of that, as judged by eye. [%]

    Valid for: done_percent > 0; the rest like the work so far.
    Source: definition, hours / share done

    >>> expected_hours(9.0, 60.0, 5.0)
    ExpectedHours(likely_h=15.0, low_h=12.857142857142858, high_h=18.0)
    """
    if done_percent >= _ALL_PERCENT:
        return ExpectedHours(logged_h, logged_h, logged_h)
    off = TRUSTED * done_sd_percent
    least, most = done_percent - off, min(done_percent + off, _ALL_PERCENT)
    high = logged_h * _ALL_PERCENT / least if least > 0.0 else float("inf")
    return ExpectedHours(logged_h * _ALL_PERCENT / done_percent, logged_h * _ALL_PERCENT / most, high)
