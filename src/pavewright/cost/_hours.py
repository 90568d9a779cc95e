"""Hours: from an amount of work to person-hours, and to hours of a crew; the one engine of the sum and of a job."""

from __future__ import annotations

_ALL_PERCENT = 100.0


def person_hours(amount: float, hours_each: float, times: float = 1.0, pace: float = 1.0) -> float:
    """Return how long one person takes for an amount of work. [h].

    Args:
        amount: How much, in the unit of the output. [unit of the output]
        hours_each: Output: hours for one unit of it. [h]
        times: How many times the work for which the output holds, as for a longer way. [-]
        pace: Pace of the crew over that of the output. [-]

    Source: definition, amount × output

    >>> person_hours(12.0, 0.8)
    9.600000000000001
    """
    return amount * hours_each * times / pace


def crew_hours(hours: float, people: float, lost_percent: float = 0.0) -> float:
    """Return how long a crew takes on the clock. [h].

    Args:
        hours: Person-hours. [h]
        people: People at work at once. [-]
        lost_percent: Time lost to weather, over the time of the work. [%]

    Source: definition, person-hours / people

    >>> crew_hours(24.0, 2.0, 10.0)
    13.200000000000001
    """
    return hours / people * (1.0 + lost_percent / _ALL_PERCENT)
