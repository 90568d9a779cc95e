"""The sentences of clashes of folded areas, of their chains and of their options, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.levels.design import (
    DRAINS,
    FACETS_MEET,
    FRAMES,
    MIN_FALL,
    ONE_RISER,
    STEEPEST,
    VALLEY_FALL,
    RuleKind,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.levels.design import Bound, Change, FallRange, Repair, Rule
    from pavewright.levels.folds import Candidate

_AS_IT_LIES_MM = 1.0
"""A frame that moves by less at its middle is tilted only. [mm]"""


def cannot_be_laid(
    area: str,
    option: Candidate,
    rules_met: tuple[Rule, ...],
    taken: Repair | None,
    *,
    for_picture: bool,
    invented: bool,
) -> str:
    """Say which rules of a folded area cannot all be kept, and with which change its levels are shown.

    Args:
        area: Name of the area.
        option: The way to fold it.
        rules_met: The rules that clash.
        taken: The changes with which it is shown; None for none.
        for_picture: Whether those changes are not offered.
        invented: Whether a price of an option is an invented one.
    """
    changed = changes(taken, option) if taken is not None else "nothing changed"
    if for_picture:
        changed += ", which is not offered and is for the picture only"
    prices = " Prices of the options are invented where the job gives none." if invented else ""
    return (
        f"{area} cannot be laid as {option.words}: {_named(rules_met, option)} cannot all be kept. "
        f"The levels shown are those with one change: {changed}.{prices}"
    )


def _named(rules_met: tuple[Rule, ...], option: Candidate) -> str:
    """Return the rules of a clash in words."""
    falls = option.task.falls
    said = {
        MIN_FALL: f"a fall of {units.fall_text(falls.least)} or more",
        STEEPEST: f"no more than {units.fall_text(falls.steepest)}",
        VALLEY_FALL: f"{units.fall_text(falls.valley)} along the valley",
        DRAINS: "the gully as the lowest place",
        ONE_RISER: "a step of one riser",
    }
    things = {bound.rule: _limit_words(bound) for bound in option.task.limits}
    found = [(said | things)[rule] for rule in rules_met if rule != FACETS_MEET]
    return ", ".join(found[:-1]) + (" and " if len(found) > 1 else "") + found[-1]


def _limit_words(bound: Bound) -> str:
    if bound.kind is RuleKind.DPC:
        return f"{bound.fixed_mm - bound.high_mm:.0f} mm below the damp-proof course of {bound.thing}"
    return f"the level of {bound.thing}"


def fold_kept(way: str, cost_minor: float | None, currency: str) -> str:
    """Propose another way to fold an area that keeps every limit. [minor units]."""
    cost = f", earthwork {units.minor_to_text(round(cost_minor), currency)}" if cost_minor is not None else ""
    return f"Fold it as {way} instead: every limit is kept{cost}."


def falls_between(area: str, falls: FallRange) -> str:
    """Say between which falls an area is to lie."""
    return f"{area} falls {units.fall_text(falls.least)} or more and {units.fall_text(falls.steepest)} at most."


def valley_falls(falls: FallRange) -> str:
    """Say how a valley is to fall."""
    return f"The valley falls {units.fall_text(falls.valley)} or more."


def clashes_by_itself(thing: str) -> str:
    """Say that no level of a thing helps."""
    return f"That clashes by itself, whatever the level of {thing}."


def furthest(thing: str, best_mm: float, locked: Bound | None, away_mm: float, *, too_low: bool) -> str:
    """Say how high or low paving can lie at a thing.

    Args:
        thing: Name of the thing.
        best_mm: The level nearest to its own. [mm]
        locked: The limit from which the chain begins; None for none.
        away_mm: How far the thing is from it. [mm]
        too_low: Whether it stays too low; else too high.
    """
    where = ""
    if locked is not None and locked.kind is RuleKind.DPC:
        below, run = locked.fixed_mm - best_mm, units.metres_text(away_mm)
        where = f" ({below:.0f} mm below the damp-proof course, {run} m from it)"
    way = "highest" if too_low else "lowest"
    return f"So the {way} that it can lie at {thing} is {units.metres_text(best_mm)} m{where}."


def that_is_off(off_mm: float, *, too_low: bool) -> str:
    """Say by how much a thing is missed. [mm]."""
    return f"That is {units.millimetres_text(off_mm)} too {'low' if too_low else 'high'}."


def priced(begun: str, way: Repair, currency: str) -> str:
    """Return an option with its price, and what the ground then costs."""
    cost = way.designed.cost
    then = f"; earthwork then {units.minor_to_text(round(cost), currency)}" if cost is not None else ""
    return f"{begun}: about {units.minor_to_text(round(way.price), currency)}{then}."


def changes(way: Repair, option: Candidate) -> str:
    """Return the changes of an option in words."""
    return " and ".join(_change(change, way, option.task.limits, option.task.falls) for change in way.changes)


def _change(change: Change, way: Repair, limits: Iterable[Bound], asked: FallRange) -> str:
    falls = way.task.falls
    if change.rule == MIN_FALL:
        return (
            f"accept a fall of {units.fall_text(falls.least)} instead of {units.fall_text(asked.least)}, slow to clear"
        )
    if change.rule == STEEPEST:
        return f"accept up to {units.fall_text(falls.steepest)}, steeper than is comfortable"
    if change.rule == VALLEY_FALL:
        return f"accept {units.fall_text(falls.valley)} along the valley, slow to clear"
    bound = next(each for each in limits if each.rule == change.rule)
    return _thing_moved(bound, change, way.designed.surface.level_at(bound.at))


def _thing_moved(bound: Bound, change: Change, level: float) -> str:
    """Return in words what happens to a thing that gives way to a level."""
    by = units.millimetres_text(abs(level - bound.fixed_mm) if bound.kind in FRAMES else change.by)
    at = units.metres_text(level)
    if bound.kind is RuleKind.COVER and abs(level - bound.fixed_mm) < _AS_IT_LIES_MM:
        return f"set the frame of {bound.thing} into the paving, tilted with it, its middle at {at}"
    if bound.kind in {*FRAMES, RuleKind.TIE_IN}:
        move = "raise" if level > bound.high_mm else "lower"
        if bound.kind is not RuleKind.TIE_IN:
            return f"{move} the frame of {bound.thing} by {by}, to {units.metres_text(level)} m"
        higher = "higher" if move == "raise" else "lower"
        return f"take up and relay {bound.thing} {by} {higher}, to {units.metres_text(level)} m"
    return f"accept {by} more or less than wanted at {bound.thing} ({units.metres_text(level)} m)"
