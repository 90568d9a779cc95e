"""What is asked of a search for better ways, read before anything is planned."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pavewright.proposals import ALL_AIMS, Aim

MOST_PLANS = 2000
"""No search makes more plans."""
USUAL_PLANS = 200


@dataclass(frozen=True, slots=True)
class BetterAsked:
    """What is asked of a search.

    Attributes:
        aims: What matters; all of them where none is named.
        plans: How many whole plans it may make.
    """

    aims: tuple[Aim, ...] = ALL_AIMS
    plans: int = USUAL_PLANS


class AskedNothingError(ValueError):
    """What is asked of a search makes no sense; the message says what to change."""


PART = "\x1f"
"""What begins a part of an answer that is reported before the whole of it: JSON follows, and no words for a person."""


def better_asked(given: dict[str, Any]) -> BetterAsked:
    """Return what is asked of a search.

    Args:
        given: ``aims``, names of what matters, and ``plans``, how many may be made.

    Raises:
        AskedNothingError: one of the two makes no sense.
    """
    named, plans = given.get("aims") or [], given.get("plans", USUAL_PLANS)
    aims = tuple(each for each in ALL_AIMS if each.value in named)
    if not isinstance(named, list) or len(aims) != len(set(map(str, named))):
        message = f"aims are to be some of {', '.join(each.value for each in ALL_AIMS)}."
        raise AskedNothingError(message)
    if not isinstance(plans, int) or isinstance(plans, bool) or not 1 <= plans <= MOST_PLANS:
        message = f"plans is to be a whole number from 1 to {MOST_PLANS}."
        raise AskedNothingError(message)
    return BetterAsked(aims or ALL_AIMS, plans)
