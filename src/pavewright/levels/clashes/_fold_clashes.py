"""What to say when no levels of a folded surface keep every rule: the chain, and priced options in finished levels."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from shapely.geometry import MultiPoint, Point

from pavewright import units
from pavewright.findings import (
    ChainLink,
    FieldChange,
    Finding,
    Option,
    OptionFacts,
    OptionKind,
    Owner,
    Severity,
    ask_first,
    worth_looking_at,
)
from pavewright.job import Folding
from pavewright.levels._codes import Code
from pavewright.levels.clashes._moving import REFUSED, facts_of, not_moved
from pavewright.levels.clashes._turned_fall import with_channel, with_channel_across
from pavewright.levels.design import (
    DRAINS,
    FACETS_MEET,
    FRAMES,
    MIN_FALL,
    ONE_RISER,
    STEEPEST,
    VALLEY_FALL,
    RuleKind,
    by_tenths,
    clashing,
    design,
    fold_as,
    reach,
    rule_given,
    thing_given,
)

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.levels._figures import LevelFigures
    from pavewright.levels.design import Bound, Change, Repair, Rule
    from pavewright.levels.folds import Candidate, Candidates
    from pavewright.survey import PlanArea, Survey


def clash(
    area: PlanArea,
    option: Candidate,
    ways: tuple[Repair, ...],
    compared: Candidates,
    job: Job,
    survey: Survey,
    figures: LevelFigures,
) -> Finding:
    """Return the finding of a clash: which rules, the levels that lead to it, and what can be done."""
    priced = {RuleKind(change.key) for change in job.rates.changes}
    able = [way for way in ways if not _of_highway(way, option)]
    given = {change.rule.kind for way in able for change in way.changes}
    invented = " Prices of the options are invented where the job gives none." if given - priced else ""
    rules_met = clashing(option.task)
    thing = _thing(option, rules_met)
    chain = _chain(area, option, rules_met, thing)
    others = other_ways(area, compared, job, survey, figures)
    told = [_way(area, way, option, job, figures) for way in able]
    locked = [bound.thing for bound in option.task.limits if bound.locked and bound.rule in rules_met]
    never = [
        Option(f"Not offered: paving nearer to {name} than the rule.", facts=REFUSED) for name in dict.fromkeys(locked)
    ]
    never += [not_moved(bound.thing) for bound in option.task.limits if bound.owner is Owner.HIGHWAY]
    place = f"area {area.name}" + (f", {thing.thing}" if thing is not None else "")
    taken = " and ".join(_change(change, ways[0], option) for change in ways[0].changes) if ways else "nothing changed"
    if able != list(ways):
        taken += ", which is not offered and is for the picture only"
    return Finding(
        Code.FOLD_CLASH,
        Severity.STOP,
        place,
        f"{area.name} cannot be laid as {option.words}: {_named(rules_met, option)} cannot all be kept. "
        f"The levels shown are those with one change: {taken}.{invented}",
        chain=chain,
        at_mm=area.gross.centre_mm if thing is None else thing.at,
    ).with_options(worth_looking_at((*others, *told, *never)))


def _of_highway(way: Repair, option: Candidate) -> bool:
    """Return whether a set of changes alters what is the highway's."""
    theirs = {bound.rule for bound in option.task.limits if bound.owner is Owner.HIGHWAY}
    return any(change.rule in theirs for change in way.changes)


def other_ways(
    area: PlanArea, compared: Candidates, job: Job, survey: Survey, figures: LevelFigures, but: Folding | None = None
) -> tuple[Option, ...]:
    """Return the ways to fold an area that keep every limit and drain, as options; one kind may be left out.

    A plane towards the house drains only with a channel at its foot: it is offered with one where there is an edge
    opposite to meet, and so are two planes to a channel half way between the house and that edge.
    """
    currency = job.identity.currency
    found = []
    for other in compared.options:
        if other.designed is None or other.kind is but:
            continue
        if other.accepted:
            words = f"Fold it as {other.words} instead: every limit is kept{_at(other, currency)}."
            found.append(Option(words, fold_as(area, other.kind)))
        elif other.kind == Folding.TO_HOUSE and not other.refused and _meets_edge(other):
            found.extend(with_channel(area, other.designed.surface, job, survey, figures))
    straight = next((each for each in compared.options if each.kind == Folding.ONE_PLANE), None)
    if straight is not None and _meets_edge(straight):
        found.extend(with_channel_across(area, straight.task.arrangement.facets[0].direction, job, survey))
    return tuple(found)


def _meets_edge(option: Candidate) -> bool:
    return any(bound.kind is RuleKind.TIE_IN for bound in option.task.limits)


def _thing(option: Candidate, rules_met: tuple[Rule, ...]) -> Bound | None:
    """Return the thing on the site that could give way and is part of the clash."""
    return next((bound for bound in option.task.limits if not bound.locked and bound.rule in rules_met), None)


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
        return f"{bound.fixed_mm - bound.high_mm:.0f} below the damp-proof course of {bound.thing}"
    return f"the level of {bound.thing}"


def _chain(
    area: PlanArea, option: Candidate, rules_met: tuple[Rule, ...], thing: Bound | None
) -> tuple[ChainLink, ...]:
    """Return the levels from what is locked, by the falls, to the thing that is missed."""
    falls = option.task.falls
    locked = next((bound for bound in option.task.limits if bound.locked and bound.rule in rules_met), None)
    said = [] if locked is None else [locked.link]
    if MIN_FALL in rules_met or STEEPEST in rules_met:
        words = (
            f"{area.name} falls {units.fall_text(falls.least)} or more and {units.fall_text(falls.steepest)} at most."
        )
        said.append(ChainLink(words))
    if VALLEY_FALL in rules_met:
        said.append(ChainLink(f"The valley falls {units.fall_text(falls.valley)} or more."))
    if thing is None:
        return tuple(said)
    low, high = reach(option.task, thing.rule, thing.at)
    if math.isnan(low):
        return (*said, ChainLink(f"That clashes by itself, whatever the level of {thing.thing}."))
    too_low = thing.low_mm > high
    best, limit = (high, thing.low_mm) if too_low else (low, thing.high_mm)
    way = "highest" if too_low else "lowest"
    where = ""
    if locked is not None:
        run = units.metres_text(_away(option, locked, thing))
        below = locked.fixed_mm - best
        where = (
            f" ({below:.0f} below the {_kind_words(locked)}, {run} m from it)" if locked.kind is RuleKind.DPC else ""
        )
    said.append(ChainLink(f"So the {way} that it can lie at {thing.thing} is {units.metres_text(best)}{where}.", best))
    said.append(thing.link)
    said.append(ChainLink(f"That is {units.millimetres_text(abs(limit - best))} too {'low' if too_low else 'high'}."))
    return tuple(said)


_AS_IT_LIES_MM = 1.0
"""A frame that moves by less at its middle is tilted only. [mm]"""


def _away(option: Candidate, locked: Bound, thing: Bound) -> float:
    """Return how far a thing is from the line along which a limit holds. [mm]."""
    places = [bound.at for bound in option.task.limits if bound.rule == locked.rule]
    return float(MultiPoint(places).convex_hull.distance(Point(thing.at)))


def _kind_words(bound: Bound) -> str:
    return "damp-proof course" if bound.kind is RuleKind.DPC else bound.thing


def _way(area: PlanArea, way: Repair, option: Candidate, job: Job, figures: LevelFigures) -> Option:
    """Return an option as a sentence: what to change, at what price, and what the ground then costs."""
    currency = job.identity.currency
    bounds = {bound.rule: bound for bound in option.task.limits}
    owners = [bounds[change.rule].owner for change in way.changes if change.rule in bounds]
    owner = next((each for each in owners if each is not Owner.OWN), Owner.OWN)
    said = " and ".join(_change(change, way, option) for change in way.changes)
    said = f"{ask_first(owner)}{said}" if owner is not Owner.OWN else said
    cost = way.designed.cost
    then = f"; earthwork then {units.minor_to_text(round(cost), currency)}" if cost is not None else ""
    words = f"{said[0].upper()}{said[1:]}: about {units.minor_to_text(round(way.price), currency)}{then}."
    given = [_given(area, change, way, option) for change in way.changes]
    # the way was found from planes already turned; it is offered where the job as changed finds it by itself too
    freed = {change.rule for change in way.changes if change.rule.kind in FRAMES}
    limits = tuple(bound for bound in way.task.limits if bound.rule not in freed)
    known = all(given) and design(replace(way.task, limits=limits, earth=None)) is not None
    kinds = {change.rule.kind for change in way.changes}
    kind = OptionKind.RULE if kinds & {RuleKind.MIN_FALL, RuleKind.STEEPEST, RuleKind.VALLEY_FALL} else OptionKind.MOVE
    parts = [facts_of(change.rule.kind, kind, change.by, job, figures, owner) for change in way.changes]
    facts = OptionFacts(kind, owner, sum(part.aside_minor for part in parts), any(part.invented for part in parts))
    return Option(words, tuple(each for changes in given for each in changes) if known else (), facts)


def _given(area: PlanArea, change: Change, way: Repair, option: Candidate) -> tuple[FieldChange, ...]:
    """Return what one change of an option does to the job document."""
    falls = {MIN_FALL: way.task.falls.least, STEEPEST: way.task.falls.steepest, VALLEY_FALL: way.task.falls.valley}
    if change.rule in falls:
        return rule_given(area, change.rule.kind, falls[change.rule])
    bound = next(each for each in option.task.limits if each.rule == change.rule)
    if bound.kind is RuleKind.TIE_IN:
        tolerance = (bound.high_mm - bound.low_mm) / 2.0 + by_tenths(change.by)
        return (FieldChange(f"{bound.path}.tolerance_mm", tolerance),)
    return thing_given(bound, change.by, upward=way.designed.surface.level_at(bound.at) > bound.high_mm)


def _change(change: Change, way: Repair, option: Candidate) -> str:
    falls = way.task.falls
    if change.rule == MIN_FALL:
        asked = units.fall_text(option.task.falls.least)
        return f"accept a fall of {units.fall_text(falls.least)} instead of {asked}, slow to clear"
    if change.rule == STEEPEST:
        return f"accept up to {units.fall_text(falls.steepest)}, steeper than is comfortable"
    if change.rule == VALLEY_FALL:
        return f"accept {units.fall_text(falls.valley)} along the valley, slow to clear"
    bound = next(each for each in option.task.limits if each.rule == change.rule)
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
            return f"{move} the frame of {bound.thing} by {by}, to {units.metres_text(level)}"
        higher = "higher" if move == "raise" else "lower"
        return f"take up and relay {bound.thing} {by} {higher}, to {units.metres_text(level)}"
    return f"accept {by} more or less than wanted at {bound.thing} ({units.metres_text(level)})"


def _at(option: Candidate, currency: str) -> str:
    cost = option.designed.cost if option.designed is not None else None
    return f", earthwork {units.minor_to_text(round(cost), currency)}" if cost is not None else ""
