"""What a customer is told in words: scope, dates, what is assumed, left out and promised."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.papers._words import day, one

if TYPE_CHECKING:
    from pavewright.laying import LaidArea
    from pavewright.pipeline import Plan
    from pavewright.rules import Rulebook


@dataclass(frozen=True, slots=True)
class CustomerWords:
    """Sentences for a customer, the same on paper and on a screen.

    Attributes:
        scope: What is done.
        when: Dates, and until when to keep off.
        assumed: What could not be seen on the visit.
        not_included: What the price does not hold.
        promised: Limits that the work is held to.
        right_to_cancel: Sentence on cancelling.
    """

    scope: tuple[str, ...]
    when: tuple[str, ...]
    assumed: tuple[str, ...]
    not_included: tuple[str, ...]
    promised: tuple[str, ...]
    right_to_cancel: str


def customer_words(plan: Plan, rules: Rulebook) -> CustomerWords:
    """Return what a customer is told of a plan."""
    programme = plan.programme
    return CustomerWords(
        tuple(_scope(plan)),
        (
            f"{day(programme.start)} to {day(programme.finish)}; weather may move it.",
            f"Keep off until {day(programme.foot_ready)}.",
            *((f"No car until {day(programme.car_ready)}.",) if programme.car_ready is not None else ()),
        ),
        plan.survey.assumptions or ("Nothing was left open on the visit.",),
        (
            "Anything not listed above; soft ground, buried concrete or services found in the dig.",
            "Permissions and fees, unless they are listed.",
            *plan.cost.unpriced,
            "A change is priced, written down and agreed before it is done.",
        ),
        tuple(_promise(plan, rules)),
        "Where this is agreed at your home or at a distance you may have a right to cancel; the notice and the "
        "form come with this price, in the words of the regulations of the place.",
    )


_PATTERN_WORDS = {
    "stack": "stack bond",
    "running": "running bond",
    "coursed": "courses of mixed widths",
    "mixed": "mixed sizes at random",
}


def _units_words(laid: LaidArea) -> str:
    """Return the units of an area in words: all sizes of a mixed pack."""
    return laid.unit if laid.mixed is None else ", ".join(laid.mixed.units)


def _zone_words(laid: LaidArea) -> str:
    """Return the zones of an area in words; nothing where there are none."""
    told = [f"{zone.name} of {zone.unit} in {_PATTERN_WORDS.get(zone.pattern, zone.pattern)}" for zone in laid.zones]
    return f", with {' and '.join(told)}" if told else ""


def _border_words(laid: LaidArea) -> str:
    """Return the border of an area in words; nothing where there is none."""
    if not laid.border_courses:
        return ""
    named = sorted({piece.unit for piece in laid.pieces if piece.border})
    many = "" if laid.border_courses == 1 else f" of {laid.border_courses} courses"
    return f" inside a border{many} of {', '.join(named)}"


def _scope(plan: Plan) -> list[str]:
    found = []
    for area in plan.levels.areas:
        laid = plan.laying.area(area.area)
        layers = [layer.name for layer in plan.build_ups.area(area.area).layers[1:]]
        pattern = _PATTERN_WORDS.get(laid.pattern, laid.pattern)
        found.append(
            f"{area.area}: {one(laid.paved_m2 + laid.joint_m2)} m² of {_units_words(laid)} in {pattern}"
            f"{_border_words(laid)}{_zone_words(laid)} on {', '.join(layers)}; falls "
            f"{units.fall_text(area.main_fall)}."
        )
    found += [f"{steps.name}: {steps.risers} steps." for steps in plan.levels.steps]
    found += [
        f"Drainage: {channel.name} to {channel.outfall or 'no outfall'}." for channel in plan.survey.site.channels
    ]
    if plan.earthworks.areas:
        found.append("Dig, and spoil taken away.")
    return found


def _promise(plan: Plan, rules: Rulebook) -> list[str]:
    straight = rules.value(f"as_laid.straightedge_{plan.job.tolerance.value}_mm")
    step = rules.value("as_laid.step_between_units_mm")
    found = [
        f"Gap under a 3 m straight edge no more than {straight:g} mm; step between units no more than {step:g} mm."
    ]
    found += [
        f"Paving at wall {clearance.wall} {clearance.least_mm:.0f} mm or more below the damp-proof course."
        for area in plan.levels.areas
        for clearance in area.clearances
    ]
    return found
