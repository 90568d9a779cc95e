"""Sums of what a day of tools does to hands."""

from __future__ import annotations

from pavewright import units
from pavewright.method._vibration import exposure, points, together, until_h
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def hand_arm_vibration(
    values_m_s2: tuple[float, ...], hours: tuple[float, ...], action_m_s2: float, limit_m_s2: float
) -> dict[str, Value]:
    """Return the day's vibration of hand and arm, and how long each tool may run by itself.

    Source: vibration_directive
    """
    if not values_m_s2 or len(values_m_s2) != len(hours):
        message = "Give as many vibrations as times."
        raise SumRefusedError(message)
    if min(values_m_s2) <= 0.0 or min(hours) < 0.0 or sum(hours) > units.HOURS_PER_DAY:
        message = "A vibration is more than zero, a time not less than zero, and a day has 24 hours."
        raise SumRefusedError(message)
    if not 0.0 < action_m_s2 < limit_m_s2:
        message = "The action value is more than zero and less than the limit."
        raise SumRefusedError(message)
    each = tuple(exposure(value, time) for value, time in zip(values_m_s2, hours, strict=True))
    day = together(each)
    if day > limit_m_s2:
        verdict = "over the limit: this day may not be worked so"
    elif day >= action_m_s2:
        verdict = "at or over the action value: less time, a better tool, and health looked after"
    else:
        verdict = "below the action value: still as little as can be"
    return {
        "exposures_m_s2": each,
        "day_m_s2": day,
        "points": sum(points(value, time, action_m_s2) for value, time in zip(values_m_s2, hours, strict=True)),
        "to_action_min": tuple(until_h(action_m_s2, each) * units.MINUTES_PER_HOUR for each in values_m_s2),
        "to_limit_min": tuple(until_h(limit_m_s2, each) * units.MINUTES_PER_HOUR for each in values_m_s2),
        "verdict": verdict,
    }


SUMS: tuple[Sum, ...] = (
    Sum(
        "hand-arm-vibration",
        "Find a day's vibration of hand and arm, and how long a tool may run",
        (
            Quantity(
                "values_m_s2", "m/s²", "vibration of each tool as it is used, not its maker's test", kind="numbers"
            ),
            Quantity("hours", "h", "how long each runs in one man's hands that day", kind="numbers"),
            Quantity("action_m_s2", "m/s²", "action value", figure="papers.vibration_action_m_per_s2"),
            Quantity("limit_m_s2", "m/s²", "limit value", figure="papers.vibration_limit_m_per_s2"),
        ),
        (
            Quantity("exposures_m_s2", "m/s²", "exposure by each over eight hours", kind="numbers"),
            Quantity("day_m_s2", "m/s²", "exposure of the day over eight hours"),
            Quantity("points", "", "points; the action value has 100"),
            Quantity("to_action_min", "min", "how long each may run alone to the action value", kind="numbers"),
            Quantity("to_limit_min", "min", "how long each may run alone to the limit", kind="numbers"),
            Quantity("verdict", "", "how the day stands", kind="word"),
        ),
        "A(8) = √(Σ a² t / 8)",
        "vibration_directive",
        hand_arm_vibration,
    ),
)
"""Sums of what a day of tools does to hands."""
