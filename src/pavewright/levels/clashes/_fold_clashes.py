"""What to say when no levels of a folded surface keep every rule: the chain, and priced options in finished levels."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from shapely.geometry import MultiPoint, Point

from pavewright.findings import (
    ChainLink,
    FieldChange,
    Finding,
    Option,
    OptionFacts,
    OptionKind,
    Owner,
    Severity,
    worth_looking_at,
)
from pavewright.job import Folding
from pavewright.levels._codes import Code
from pavewright.levels.clashes import _words as words
from pavewright.levels.clashes import _words_folds as fold_words
from pavewright.levels.clashes._moving import REFUSED, facts_of, not_moved
from pavewright.levels.clashes._turned_fall import with_channel, with_channel_across
from pavewright.levels.design import (
    FRAMES,
    MIN_FALL,
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
    rules_met = clashing(option.task)
    thing = _thing(option, rules_met)
    chain = _chain(area, option, rules_met, thing)
    others = other_ways(area, compared, job, survey, figures)
    reported = [_way(area, way, option, job, figures) for way in able]
    locked = [bound.thing for bound in option.task.limits if bound.locked and bound.rule in rules_met]
    never = [Option(words.not_nearer(name), facts=REFUSED) for name in dict.fromkeys(locked)]
    never += [not_moved(bound.thing) for bound in option.task.limits if bound.owner is Owner.HIGHWAY]
    place = f"area {area.name}" + (f", {thing.thing}" if thing is not None else "")
    message = fold_words.cannot_be_laid(
        area.name,
        option,
        rules_met,
        ways[0] if ways else None,
        for_picture=able != list(ways),
        invented=bool(given - priced),
    )
    return Finding(
        Code.FOLD_CLASH,
        Severity.STOP,
        place,
        message,
        chain=chain,
        at_mm=area.gross.centre_mm if thing is None else thing.at,
    ).with_options(worth_looking_at((*others, *reported, *never)))


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
            said = fold_words.fold_kept(other.words, other.designed.cost, currency)
            found.append(Option(said, fold_as(area, other.kind)))
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


def _chain(
    area: PlanArea, option: Candidate, rules_met: tuple[Rule, ...], thing: Bound | None
) -> tuple[ChainLink, ...]:
    """Return the levels from what is locked, by the falls, to the thing that is missed."""
    falls = option.task.falls
    locked = next((bound for bound in option.task.limits if bound.locked and bound.rule in rules_met), None)
    said = [] if locked is None else [locked.link]
    if MIN_FALL in rules_met or STEEPEST in rules_met:
        said.append(ChainLink(fold_words.falls_between(area.name, falls)))
    if VALLEY_FALL in rules_met:
        said.append(ChainLink(fold_words.valley_falls(falls)))
    if thing is None:
        return tuple(said)
    low, high = reach(option.task, thing.rule, thing.at)
    if math.isnan(low):
        return (*said, ChainLink(fold_words.clashes_by_itself(thing.thing)))
    too_low = thing.low_mm > high
    best, limit = (high, thing.low_mm) if too_low else (low, thing.high_mm)
    if math.isinf(best):  # nothing else holds it on that side: there is no furthest level to give
        return (*said, thing.link)
    away = 0.0 if locked is None else _away(option, locked, thing)
    said.append(ChainLink(fold_words.furthest(thing.thing, best, locked, away, too_low=too_low), best))
    said.append(thing.link)
    said.append(ChainLink(fold_words.that_is_off(abs(limit - best), too_low=too_low)))
    return tuple(said)


def _away(option: Candidate, locked: Bound, thing: Bound) -> float:
    """Return how far a thing is from the line along which a limit holds. [mm]."""
    places = [bound.at for bound in option.task.limits if bound.rule == locked.rule]
    return float(MultiPoint(places).convex_hull.distance(Point(thing.at)))


def _way(area: PlanArea, way: Repair, option: Candidate, job: Job, figures: LevelFigures) -> Option:
    """Return an option as a sentence: what to change, at what price, and what the ground then costs."""
    bounds = {bound.rule: bound for bound in option.task.limits}
    owners = [bounds[change.rule].owner for change in way.changes if change.rule in bounds]
    owner = next((each for each in owners if each is not Owner.OWN), Owner.OWN)
    begun = words.sentence_of_owner(fold_words.changes(way, option), owner)
    said = fold_words.priced(begun, way, job.identity.currency)
    given = [_given(area, change, way, option) for change in way.changes]
    # the way was found from planes already turned; it is offered where the job as changed finds it by itself too
    freed = {change.rule for change in way.changes if change.rule.kind in FRAMES}
    limits = tuple(bound for bound in way.task.limits if bound.rule not in freed)
    known = all(given) and design(replace(way.task, limits=limits, earth=None)) is not None
    kinds = {change.rule.kind for change in way.changes}
    kind = OptionKind.RULE if kinds & {RuleKind.MIN_FALL, RuleKind.STEEPEST, RuleKind.VALLEY_FALL} else OptionKind.MOVE
    parts = [facts_of(change.rule.kind, kind, change.by, job, figures, owner) for change in way.changes]
    facts = OptionFacts(kind, owner, sum(part.aside_minor for part in parts), any(part.invented for part in parts))
    return Option(said, tuple(each for changes in given for each in changes) if known else (), facts)


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
