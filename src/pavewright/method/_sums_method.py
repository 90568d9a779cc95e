"""Sums of lifting, dust and noise."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.method._dust import blade_min, water_l
from pavewright.method._lifting import less_at, often_kg, team_kg
from pavewright.method._noise import noise_day, noise_points, noise_until_h
from pavewright.sums import FromTable, Quantity, Sum, SumRefusedError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.rules import Rulebook
    from pavewright.sums import Value

_TEAM = 3
"""A larger team than this is unlikely to lift well."""


def lift_guideline(
    one_kg: float, people: float, per_h: float, two_share: float, three_share: float,
    above_per_min: tuple[float, ...], less_percent: tuple[float, ...],
) -> dict[str, Value]:  # fmt: skip
    """Return the guideline weight of a lift by one to three people, so many times an hour.

    Source: team_lift_guidance
    """
    if one_kg <= 0.0 or per_h < 0.0:
        message = "A weight is more than zero, and a rate is not less than zero."
        raise SumRefusedError(message)
    if people not in {1.0, 2.0, 3.0}:
        message = f"The guidance speaks of one to {_TEAM} people: take an aid, not a larger team."
        raise SumRefusedError(message)
    share = {1.0: 1.0, 2.0: two_share, 3.0: three_share}[people]
    less = less_at(per_h, tuple(zip(above_per_min, less_percent, strict=True)))
    together = team_kg(one_kg, int(people), share)
    return {"together_kg": together, "less_percent": less, "guideline_kg": often_kg(together, less)}


def _often(_known: Mapping[str, Value], rules: Rulebook) -> dict[str, FromTable]:
    table = rules.table("method.often")
    return {
        column: FromTable(
            tuple(row.value(column) for row in table.rows), tuple(table.figure(row.key, column) for row in table.rows)
        )
        for column in ("above_per_min", "less_percent")
    }


def saw_dust_time(saw_m: float, saw_m_per_min: float, water_l_per_min: float) -> dict[str, Value]:
    """Return how long a blade is in the stone, and the water that it takes.

    Source: common practice
    """
    if saw_m < 0.0 or saw_m_per_min <= 0.0 or water_l_per_min < 0.0:
        message = "A length and a flow are not less than zero, and a saw moves: measure them again."
        raise SumRefusedError(message)
    minutes = blade_min(saw_m, saw_m_per_min)
    return {"minutes": minutes, "water_l": water_l(minutes, water_l_per_min)}


def noise_exposure(
    levels_db: tuple[float, ...], hours: tuple[float, ...], upper_db: float, limit_db: float
) -> dict[str, Value]:
    """Return the day's exposure to noise, and how long somebody may stay in each level alone.

    Source: noise_regulations
    """
    if not levels_db or len(levels_db) != len(hours):
        message = "Give as many levels as times."
        raise SumRefusedError(message)
    if min(hours) <= 0.0 or sum(hours) > units.HOURS_PER_DAY:
        message = "A time is more than zero, and a day has 24 hours."
        raise SumRefusedError(message)
    day = noise_day(levels_db, hours)
    return {
        "day_db": day,
        "points": noise_points(day, upper_db),
        "to_limit_h": tuple(noise_until_h(limit_db, each) for each in levels_db),
    }


SUMS: tuple[Sum, ...] = (
    Sum(
        "lift-guideline",
        "Find the guideline weight of a lift by one, two or three people",
        (
            Quantity("one_kg", "kg", "what one person lifts alone", figure="laying.one_person_kg"),
            Quantity("people", "", "how many lift", default=1.0),
            Quantity("per_h", "1/h", "how often in an hour", default=0.0),
            Quantity("two_share", "", "what two lift, as a part of both", figure="method.two_person_share"),
            Quantity("three_share", "", "what three lift, as a part of all", figure="method.three_person_share"),
            Quantity("above_per_min", "1/min", "above so many a minute", kind="numbers", table="method.often"),
            Quantity("less_percent", "%", "so much comes off", kind="numbers", table="method.often"),
        ),
        (
            Quantity("together_kg", "kg", "guideline weight now and then"),
            Quantity("less_percent", "%", "what comes off at that rate"),
            Quantity("guideline_kg", "kg", "guideline weight at that rate"),
        ),
        "weight = one × people × share × (1 − less)",
        "team_lift_guidance",
        lift_guideline,
        _often,
    ),
    Sum(
        "saw-dust-time",
        "Find how long a blade is in the stone",
        (
            Quantity("saw_m", "m", "length of all saw cuts"),
            Quantity("saw_m_per_min", "m/min", "cut in a minute", figure="method.saw_m_per_min"),
            Quantity("water_l_per_min", "l/min", "water on the blade", figure="papers.saw_water_l_per_min"),
        ),
        (
            Quantity("minutes", "min", "the blade in the stone: dust without control"),
            Quantity("water_l", "l", "water that it takes"),
        ),
        "time = length / speed; water = time × flow",
        "common practice",
        saw_dust_time,
    ),
    Sum(
        "noise-exposure",
        "Find a day's exposure to noise, and how long somebody may stay in it",
        (
            Quantity("levels_db", "dB(A)", "each level at the ear", kind="numbers"),
            Quantity("hours", "h", "how long each lasts", kind="numbers"),
            Quantity("upper_db", "dB(A)", "upper action value", figure="method.noise_upper_db"),
            Quantity("limit_db", "dB(A)", "limit value", figure="method.noise_limit_db"),
        ),
        (
            Quantity("day_db", "dB(A)", "exposure of the day over eight hours"),
            Quantity("points", "", "points; the upper action value has 100"),
            Quantity("to_limit_h", "h", "how long in each alone to the limit", kind="numbers"),
        ),
        "L = 10 log Σ 10^(level / 10) t / 8",
        "noise_regulations",
        noise_exposure,
    ),
)
"""Sums of lifting, dust and noise."""
