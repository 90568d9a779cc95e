"""What a customer reads: scope, dates, what is assumed, left out and promised."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid import promises
from pavewright.drawing import grid_of
from pavewright.papers._customer_money import customer_money
from pavewright.papers._readiness import readiness
from pavewright.papers._scope_words import scope_words
from pavewright.papers._words import day
from pavewright.papers.cancelling import cancelling, right_words

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator

    from pavewright.as_laid import Promises, WallPromise
    from pavewright.papers._customer_money import CustomerMoney
    from pavewright.pipeline import Plan
    from pavewright.rules import Rulebook


@dataclass(frozen=True, slots=True)
class CustomerWords:
    """Sentences for a customer, the same on paper and on a screen.

    Attributes:
        not_ready: That the paper must not be sent yet, and how many points are open; empty where none is.
        scope: What is done.
        when: Dates, and until when to keep off.
        assumed: What could not be seen on the visit, and what was not asked or recorded there.
        not_included: What the price does not hold.
        promised: Limits that the work is held to.
        right_to_cancel: Sentence on cancelling.
        money: The price, how it is paid, what is settled later and how long it holds.
    """

    not_ready: str
    scope: tuple[str, ...]
    when: tuple[str, ...]
    assumed: tuple[str, ...]
    not_included: tuple[str, ...]
    promised: tuple[str, ...]
    right_to_cancel: str
    money: CustomerMoney


def customer_words(plan: Plan, rules: Rulebook) -> CustomerWords:
    """Return what a customer reads of a plan."""
    money = customer_money(plan, rules)
    return CustomerWords(
        readiness(plan, beside=money.stops).words,
        scope_words(plan),
        tuple(_when(plan)),
        tuple(_assumed(plan)),
        (
            "Anything not listed above; soft ground, buried concrete or services found in the dig.",
            "Permissions and fees, unless they are listed.",
            *(f"{gap.words}." for gap in plan.cost.gaps if not gap.ours),
            *_sides(plan),
            "A change is priced, written down and agreed before it is done.",
        ),
        tuple(_promise(plan, promises(plan.job, plan.levels, rules))),
        " ".join(right_words(cancelling(plan, rules))),
        money,
    )


def _sides(plan: Plan) -> Iterator[str]:
    """Give where sides are that are named by their corners: a customer finds them by the squares of the drawing."""
    grid = grid_of(plan)
    for edge in plan.build_ups.open_edges:
        if grid is not None and edge.at_mm is not None:
            yield f"Side {edge.side} of {edge.area} is at square {grid.square_at(edge.at_mm)} of the drawing."


def _when(plan: Plan) -> Iterator[str]:
    """Give the dates, what they leave out, and until when to keep off."""
    programme, likely = plan.programme, likely_finish(plan)
    yield f"{day(programme.start)} to {day(programme.finish)}; weather may move it."
    if likely is not None and likely[0] > programme.finish:
        yield f"Allowing for weather it ends by {day(likely[0])} in {likely[1]:.0f} of 100 cases."
    if not plan.earthworks.areas:
        yield "Digging is not in these dates: the ground was not levelled, so how long it takes is not known."
    yield f"Keep off until {day(programme.foot_ready)}."
    if programme.car_ready is not None:
        yield f"No car until {day(programme.car_ready)}."


_LIKELY = 0.8
"""The chance that a customer is shown: not so high that no work ever ends by it. [-]"""


def likely_finish(plan: Plan) -> tuple[dt.date, float] | None:
    """Return the day by which the work ends in most weather, with its chance; None where no weather is known. [%]."""
    chance = plan.programme.chance
    if chance is None or chance.unknown_months:
        return None
    return next(((each.on, each.chance * units.ALL_PERCENT) for each in chance.ends if each.chance >= _LIKELY), None)


def _assumed(plan: Plan) -> list[str]:
    """Return what is taken for granted; what nobody asked or wrote down is open, never "nothing"."""
    walked = plan.job.site.walk_round
    if not walked:
        unasked = (
            "The walk round the house was not recorded: what it asks about is not known, and is open. What it brings "
            "to light later is priced and agreed before it is done."
        )
        return [unasked, *plan.survey.assumptions]
    return [*plan.survey.assumptions] or [
        f"All {len(walked)} questions recorded on the visit were answered; nothing else was asked."
    ]


def _promise(plan: Plan, held: Promises) -> list[str]:
    flat, step = held.straightedge.value, held.step.value
    return [
        f"Gap under a 3 m straight edge no more than {flat:g} mm; step between units no more than {step:g} mm.",
        *(_wall_promise(wall) for wall in held.walls),
        *(
            f"Nothing is promised of the damp-proof course at wall {name}: it was not read."
            for name in plan.survey.dpc_not_read
        ),
    ]


def _wall_promise(wall: WallPromise) -> str:
    """Return the promise for one wall in words: the limit, and the tolerance where the plan leaves no room for it."""
    if wall.is_open:
        return (
            f"Paving at wall {wall.wall} is planned {wall.planned_min_mm:.0f} mm below the damp-proof course, less "
            f"than the {wall.promised_mm:.0f} mm that it should be: this is open, and nothing is promised there yet."
        )
    said = f"Paving at wall {wall.wall} at least {wall.promised_mm:.0f} mm below the damp-proof course"
    if not wall.tolerance_mm:
        return f"{said}."
    return f"{said}, with a tolerance of {wall.tolerance_mm:g} mm for laying."
