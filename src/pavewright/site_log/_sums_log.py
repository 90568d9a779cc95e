"""Sums of the site log."""

from __future__ import annotations

from pavewright.site_log._expected import TRUSTED, expected_hours
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_ALL_PERCENT = 100.0


def hours_at_end_of(logged_h: float, done_percent: float, done_sd_percent: float) -> dict[str, Value]:
    """Return what a task will take in all, with its ends, and what is left of it.

    Args:
        logged_h: Hours so far. [h]
        done_percent: How much is done. [%]
        done_sd_percent: Standard deviation of that. [%]

    Source: definition, hours / share done
    """
    if not 0.0 < done_percent <= _ALL_PERCENT or logged_h <= 0.0 or done_sd_percent < 0.0:
        message = "Give hours over zero, and how much is done as more than 0 and no more than 100 per cent."
        raise SumRefusedError(message)
    if done_percent <= TRUSTED * done_sd_percent:
        message = "So little is done that the hours so far say nothing yet: look again later."
        raise SumRefusedError(message)
    found = expected_hours(logged_h, done_percent, done_sd_percent)
    return {
        "expected_h": found.likely_h,
        "low_h": found.low_h,
        "high_h": found.high_h,
        "left_h": found.likely_h - logged_h,
    }


SUMS: tuple[Sum, ...] = (
    Sum(
        "hours-at-end",
        "Hours of a task in all, from the hours so far and how much is done",
        (
            Quantity("logged_h", "h", "hours on the task so far, of all people"),
            Quantity("done_percent", "%", "how much of it is done"),
            Quantity(
                "done_sd_percent",
                "%",
                "how far that may be off, one standard deviation",
                figure="site_log.done_sd_percent",
            ),
        ),
        (
            Quantity("expected_h", "h", "in all, if the rest goes like what is done"),
            Quantity("low_h", "h", "in all, if more is done than it looks"),
            Quantity("high_h", "h", "in all, if less is done than it looks"),
            Quantity("left_h", "h", "still to do"),
        ),
        "in all = hours so far / share done; ends at two standard deviations of the share",
        "definition",
        hours_at_end_of,
    ),
)
"""All sums of this room."""
