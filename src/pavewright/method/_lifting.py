"""Lifting: guideline weights for one person and two, and what comes off them where a lift is repeated often."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.method._types import LiftWay
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.method._figures import MethodFigures
    from pavewright.rules import Figure


def team_kg(one_kg: float, people: int, share: float) -> float:
    """Return what a team lifts together.

    Args:
        one_kg: What each lifts alone. [kg]
        people: How many lift.
        share: What a team of so many lifts, as a part of what all lift alone. [-]

    Valid for: teams on level ground with room to lift and a hold for each hand.
    Source: team_lift_guidance

    >>> round(team_kg(25.0, 2, 2.0 / 3.0), 1), team_kg(25.0, 3, 0.5)
    (33.3, 37.5)
    """
    return one_kg * people * share


def often_kg(one_kg: float, less_percent: float) -> float:
    """Return what is left of a guideline weight where a lift is repeated often.

    Args:
        one_kg: Guideline weight of a lift made now and then. [kg]
        less_percent: What comes off it at that rate. [%]

    Source: lifting_leaflet

    >>> often_kg(25.0, 30.0)
    17.5
    """
    return one_kg * (1.0 - less_percent / units.ALL_PERCENT)


def less_at(per_h: float, steps: Sequence[tuple[float, float]]) -> float:
    """Return what comes off the guideline weight at a rate. [%].

    Args:
        per_h: Lifts of one person in an hour. [1/h]
        steps: Above so many lifts a minute, so much comes off; the slowest rate first. [1/min, %]

    Source: lifting_leaflet
    """
    per_min = per_h / units.MINUTES_PER_HOUR
    return max((less for above, less in steps if per_min > above), default=0.0)


def two_kg(figures: MethodFigures) -> Working:
    """Return the guideline weight for two people, with the sum."""
    one, share = figures.one_person_kg, figures.two_person_share
    return Working(
        f"2 × {one.value:g} kg × {share.value:.2f}", team_kg(one.value, 2, share.value), "kg", (one, share), share.label
    )


def rate_kg(per_h: float, figures: MethodFigures) -> Working:
    """Return the guideline weight for one person who lifts so often in an hour, with the sum. [1/h]."""
    one = figures.one_person_kg
    less = less_at(per_h, [(each.above_per_min, each.less.value) for each in figures.often])
    if not less:
        note = f"up to {figures.seldom_lifts_per_h.value:g} lifts an hour the guideline stands whole"
        return Working(f"{one.value:g} kg", one.value, "kg", (one, figures.seldom_lifts_per_h), note)
    decided: Figure = max((each.less for each in figures.often if each.less.value <= less), key=lambda each: each.value)
    note = f"{per_h:.0f} lifts of each person in an hour"
    return Working(f"{one.value:g} kg × (1 − {less:g} %)", often_kg(one.value, less), "kg", (one, decided), note)


def lift_way(kg: float | None, figures: MethodFigures) -> LiftWay:
    """Return how something is lifted, by its weight alone; not known where its weight is not.

    Args:
        kg: What it weighs; None where that is not known. [kg]
        figures: The guideline weights.
    """
    if kg is None:
        return LiftWay.NOT_KNOWN
    if kg <= figures.one_person_kg.value:
        return LiftWay.ONE
    return LiftWay.TWO if kg <= two_kg(figures).result else LiftWay.AID
