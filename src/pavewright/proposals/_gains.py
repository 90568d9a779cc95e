"""What a plan gains against the job as drawn, in parts of what that comes to, so that gains of two kinds add up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.proposals._aim import ALL_AIMS, Aim
from pavewright.proposals._aims import at_least_as_good

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.proposals._figures import Figures


def gain_of(aim: Aim) -> Callable[[Figures, Figures], float]:
    """Return what tells the gain in one aim.

    Args:
        aim: What matters.
    """
    return lambda drawn, other: gain(aim, drawn, other)


def gain(aim: Aim, drawn: Figures, other: Figures) -> float:
    """Return what a plan gains in an aim, as a part of what the job as drawn comes to. [-].

    A gain that is not certain, as more is left out of it, is none; a loss is one though its size may not be known.

    Args:
        aim: What matters.
        drawn: What the job as drawn comes to.
        other: What the plan comes to.
    """
    was, now = value_of(aim, drawn), value_of(aim, other)
    if was is None or now is None:
        return 0.0
    part = (now - was if aim is Aim.CLEARANCE else was - now) / max(abs(was), 1.0)
    return part if part < 0.0 or at_least_as_good(aim, other, drawn) else 0.0


def whole_gain(drawn: Figures, other: Figures, aims: tuple[Aim, ...] = ALL_AIMS) -> float:
    """Return what a plan gains in some aims together. [-].

    Args:
        drawn: What the job as drawn comes to.
        other: What the plan comes to.
        aims: What matters.
    """
    return sum(gain(aim, drawn, other) for aim in aims)


def value_of(aim: Aim, found: Figures) -> float | None:
    """Return the figure of an aim; None where it is not known. [minor units, pieces, days, kg, mm].

    Args:
        aim: What matters.
        found: What a plan comes to.
    """
    match aim:
        case Aim.PRICE:
            return found.price_minor
        case Aim.CUTS:
            return found.cut
        case Aim.DAYS:
            return found.days
        case Aim.CARBON:
            return None if found.carbon is None else found.carbon.likely
        case Aim.CLEARANCE:
            return found.clearance.mm
