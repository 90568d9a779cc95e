"""The sentences of the calendar, in one place: what breaks, and why a job has no place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.crew_calendar._breaks import BreakKind
from pavewright.crew_calendar._types import WhyNot
from pavewright.writing import day_text

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from pavewright.crew_calendar._breaks import Break
    from pavewright.crew_calendar._moving import Shift
    from pavewright.crew_calendar._types import NotPlaced

_BREAKS: dict[BreakKind, str] = {
    BreakKind.TWO_PLACES: "{person} would be here and at {other} on {on}.",
    BreakKind.AWAY: "{person} is not there on {on}.",
    BreakKind.TOO_FEW_HANDS: "On {on} there are too few people for this work.",
    BreakKind.SKILL_MISSING: "On {on} nobody there can do the work of a {skill}.",
    BreakKind.MACHINE_TAKEN: "The {machine} is at {other} on {on}.",
    BreakKind.WAIT_CUT_SHORT: "Work goes on on {on}, and what was laid has to wait until {due}.",
    BreakKind.OUT_OF_TURN: "This work would begin on {on}; the work before it is done by {due} at the earliest.",
    BreakKind.DELIVERY_TOO_LATE: "Materials cannot be there on {on}: ordered today they are there for {due}.",
    BreakKind.COLD_OR_HOT_MONTH: "By the temperatures of the job, {on} falls in a month too cold or too hot for it.",
    BreakKind.PROMISE_MISSED: "It is done on {on}; it was promised for {due}.",
    BreakKind.TOO_EARLY: "It would begin on {on}; it is not to begin before {due}.",
    BreakKind.CLOSED_DAY: "There is no work on it on {on}.",
    BreakKind.PIN_MOVED: "It would begin on {on}; it is pinned to {due}.",
    BreakKind.PINNED_PERSON_GONE: "{person} is pinned to this work and is not sent there on {on}.",
    BreakKind.LENGTH_CHANGED: "The work of this part, from {on}, has changed since it was put there.",
}
_WHY_NOT: dict[WhyNot, str] = {
    WhyNot.LENGTH_UNKNOWN: "How long it takes is not known yet.",
    WhyNot.TOO_FEW_PEOPLE: "It takes {hands} people at a time; the firm has fewer.",
    WhyNot.NO_CREW_WITH_SKILLS: "No {hands} of the people have these skills between them: {skills}.",
    WhyNot.TOO_FEW_MACHINES: "The firm has no {machine}, and the job hires none.",
    WhyNot.PIN_CANNOT_HOLD: "A part is pinned to a day on which it cannot begin.",
    WhyNot.DELIVERY_AFTER_END: "Materials come after the last day that is arranged.",
    WhyNot.HORIZON_TOO_SHORT: "It finds no days even by itself until the last day that is arranged.",
    WhyNot.NO_ROOM_FOUND: "No room was found beside the other jobs until the last day that is arranged.",
}
_UNKNOWN_OTHER = "another job"


def break_words(one: Break, person: Callable[[str], str], job: Callable[[str], str]) -> str:
    """Say what breaks.

    Args:
        one: What breaks.
        person: Takes a number of a person, returns what they are called.
        job: Takes a job, returns what it is called.
    """
    return _BREAKS[one.kind].format(
        person=person(one.person) if one.person else "",
        other=job(one.other_job) if one.other_job else _UNKNOWN_OTHER,
        on=day_text(one.on),
        due="" if one.due is None else day_text(one.due),
        skill="" if one.skill is None else one.skill.value,
        machine="" if one.machine is None else one.machine.value,
    )


def not_placed_words(one: NotPlaced) -> str:
    """Say why a job has no place."""
    return _WHY_NOT[one.why].format(
        hands=one.hands,
        skills=", ".join(skill.value for skill in one.skills),
        machine="" if one.machine is None else one.machine.value,
    )


def shift_words(shifts: tuple[Shift, ...]) -> str:
    """Say what goes along with a move, as a chain of dates."""
    return "; then ".join(
        f"part {each.stretch + 1}: {day_text(each.before)} → {day_text(each.after)}, "
        f"{_counted(abs(each.days))} {'later' if each.days > 0 else 'earlier'}"
        for each in shifts
    )


def sent_words(comes: Sequence[str], leaves: Sequence[str] | None, days: int) -> str:
    """Say who is sent instead of whom; empty where nobody is.

    Args:
        comes: What those are called who are sent.
        leaves: What those are called who are not sent any more; None for everybody.
        days: On how many days.
    """
    if not days:
        return ""
    instead = "" if leaves is None else f" instead of {', '.join(leaves)}"
    return f"{', '.join(comes) or 'Nobody'}{instead} on {_counted(days)}."


def _counted(days: int) -> str:
    return f"{days} day" if days == 1 else f"{days} days"
