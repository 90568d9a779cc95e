"""The proposal that is recommended: never worse than the job as drawn in anything that matters, and why it wins."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.proposals._aims import at_least_as_good, no_more_stops
from pavewright.proposals._gains import value_of, whole_gain
from pavewright.proposals._types import Gain, Recommended, Win

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.proposals._aim import Aim
    from pavewright.proposals._figures import Figures
    from pavewright.proposals._types import Proposal


def recommended(drawn: Proposal, front: Sequence[Proposal], aims: tuple[Aim, ...]) -> Recommended:
    """Return the proposal of a front that gains most without losing anything that matters.

    Args:
        drawn: The job as drawn.
        front: The plans that no other one beats.
        aims: What matters.
    """
    was = drawn.figures
    no_worse = [place for place, each in enumerate(front) if each.variations and _is_no_worse(each.figures, was, aims)]
    better = [
        place for place in no_worse if _gains(was, front[place].figures, aims) or _ends(was, front[place].figures)
    ]
    if not better:
        return Recommended(None, Win.AS_DRAWN, same=aims)

    def merit(place: int) -> tuple[float, float, int, int]:
        now = front[place].figures
        gained = round(whole_gain(was, now, aims), 9)
        return _ends(was, now), gained, -len(_new_checks(was, now)), -len(front[place].variations)

    place = max(better, key=lambda each: (*merit(each), -each))
    now = front[place].figures
    gains = _gains(was, now, aims)
    return Recommended(
        place=place,
        win=Win.GAINS_MOST if len(better) > 1 else Win.ALONE,
        gains=gains,
        same=tuple(aim for aim in aims if aim not in {each.aim for each in gains}),
        rivals=len(better) - 1,
        stops_ended=int(_ends(was, now)),
        new_checks=len(_new_checks(was, now)),
    )


def _is_no_worse(now: Figures, was: Figures, aims: tuple[Aim, ...]) -> bool:
    return (
        no_more_stops(now, was)
        and now.unlayable <= was.unlayable
        and all(at_least_as_good(aim, now, was) for aim in aims)
    )


def _gains(was: Figures, now: Figures, aims: tuple[Aim, ...]) -> tuple[Gain, ...]:
    found = []
    for aim in aims:
        before, after = value_of(aim, was), value_of(aim, now)
        if before is not None and after is not None and before != after:
            found.append(Gain(aim, before, after))
    return tuple(found)


def _ends(was: Figures, now: Figures) -> float:
    return float(len(was.stops) - len(now.stops))


def _new_checks(was: Figures, now: Figures) -> tuple[str, ...]:
    return tuple(code for code in now.checks if code not in was.checks)
