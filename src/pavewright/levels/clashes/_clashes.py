"""What to say when limits clash: the chain of levels in plain words, and the options."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import (
    ChainLink,
    FieldChange,
    Finding,
    Option,
    OptionFacts,
    OptionKind,
    Severity,
    worth_looking_at,
)
from pavewright.geometry import distance
from pavewright.job import Use
from pavewright.levels._codes import Code
from pavewright.levels._formulas import steepest_of
from pavewright.levels.clashes import _words as words
from pavewright.levels.clashes._cross_fall import cross_falls
from pavewright.levels.clashes._moving import REFUSED, moved
from pavewright.levels.design import RuleKind, by_tenths, fall_of

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.job import Job
    from pavewright.levels._figures import LevelFigures
    from pavewright.levels.design import Bound, Falls, Height, Rule
    from pavewright.survey import PlanArea, Survey

_AT_LIMIT_MM = 0.5
"""Paving this near to a limit is held by it. [mm]"""


def clashes(
    area: PlanArea,
    falls: Falls,
    height: Height,
    limits: tuple[Bound, ...],
    survey: Survey,
    job: Job,
    figures: LevelFigures,
) -> tuple[Finding, ...]:
    """Return one finding for each thing that the area does not meet: at its middle, else at its worst place."""
    worst: dict[Rule, Bound] = {}
    for bound in height.broken:
        known = worst.get(bound.rule)
        if known is None or _worse(bound, height) > _worse(known, height):
            worst[bound.rule] = bound
    return tuple(_told(area, falls, height, bound, limits, survey, job, figures) for bound in worst.values())


def _worse(bound: Bound, height: Height) -> tuple[bool, float]:
    return not bound.part, _off(bound, height)


def _off(bound: Bound, height: Height) -> float:
    """Return by how much a bound is broken. [mm]."""
    level = height.plane.level_at(bound.at)
    return max(bound.low_mm - level, level - bound.high_mm)


def _told(
    area: PlanArea,
    falls: Falls,
    height: Height,
    bound: Bound,
    limits: tuple[Bound, ...],
    survey: Survey,
    job: Job,
    figures: LevelFigures,
) -> Finding:
    level = height.plane.level_at(bound.at)
    off = _off(bound, height)
    too_high = level > bound.high_mm
    limit = bound.high_mm if too_high else bound.low_mm
    decided = height.deciding
    rival = decided if decided is not None and decided.path != bound.path else _rival(bound, limits, height)
    across = cross_falls(area, falls, bound, limits, figures)
    code = _CODES[bound.kind]
    return Finding(
        code,
        Severity.STOP,
        f"area {area.name}, {bound.thing}",
        words.off_level(area.name, bound, level, limit, off, too_high=too_high),
        value=level,
        limit=limit,
        unit="mm",
        figure=bound.figure,
        chain=_chain(area, falls, height, bound, rival),
        at_mm=bound.at,
    ).with_options((*across, *_options(area, falls, height, bound, rival, survey, job, figures)))


_CODES = {
    RuleKind.DPC: Code.TOO_NEAR_DPC,
    RuleKind.AIR_BRICK: Code.AIR_BRICK_COVERED,
    RuleKind.DOOR: Code.DOOR_STEP_TOO_SMALL,
    RuleKind.DOOR_REACH: Code.DOOR_STEP_TOO_BIG,
    RuleKind.COVER: Code.COVER_CLASH,
    RuleKind.GULLY: Code.GULLY_CLASH,
    RuleKind.TIE_IN: Code.TIE_IN_CLASH,
    RuleKind.JOIN: Code.AREAS_DO_NOT_MEET,
}
CLASHES = frozenset(_CODES.values())
"""Codes of the findings of a clash of levels."""


def _rival(bound: Bound, limits: tuple[Bound, ...], height: Height) -> Bound | None:
    """Return the first other thing at whose limit the paving lies."""
    for other in limits:
        level = height.plane.level_at(other.at)
        at_limit = min(abs(level - other.low_mm), abs(level - other.high_mm)) < _AT_LIMIT_MM
        if other.path != bound.path and at_limit:
            return other
    return None


def _chain(area: PlanArea, falls: Falls, height: Height, bound: Bound, rival: Bound | None) -> tuple[ChainLink, ...]:
    """Return the levels from what decided the height to what is not met, one sentence each."""
    level = height.plane.level_at(bound.at)
    off = _off(bound, height)
    last: tuple[ChainLink, ...] = (
        bound.link,
        ChainLink(words.leaves(area.name, off, too_high=level > bound.high_mm)),
    )
    if bound.kind is RuleKind.JOIN:
        last = (ChainLink(words.slope_differently()), *last)
    if rival is None or height.deciding is None:
        return (ChainLink(words.lies(area.name, height, level, bound.thing), level), *last)
    start = height.plane.level_at(rival.at)
    run = _along(falls, rival.at, bound.at)
    return (
        rival.link,
        ChainLink(words.paving_at(rival.thing, start), start),
        ChainLink(words.along_fall(bound.thing, falls, run, start, level), level),
        *last,
    )


def _along(falls: Falls, start: XY, end: XY) -> float:
    """Return the run from one place to another along the main fall. [mm]."""
    return (end[0] - start[0]) * falls.direction[0] + (end[1] - start[1]) * falls.direction[1]


def _options(
    area: PlanArea,
    falls: Falls,
    height: Height,
    bound: Bound,
    rival: Bound | None,
    survey: Survey,
    job: Job,
    figures: LevelFigures,
) -> tuple[Option, ...]:
    level = height.plane.level_at(bound.at)
    off = _off(bound, height)
    too_high = level > bound.high_mm
    ways: list[Option] = []
    if height.deciding is None and area.area.fall.level_mm is not None:
        said = words.set_other_level(area.name, off, too_high=too_high)
        by = by_tenths(off) * (-1.0 if too_high else 1.0)
        lower = (FieldChange(f"{area.path}.fall.level_mm", area.area.fall.level_mm + by),)
        ways.append(Option(said, lower, OptionFacts(OptionKind.WISH)))
    elif rival is not None:
        # where the error is shared between the two, the fall has to make up both parts of it
        same = [each for each in height.broken if each.rule == bound.rule]
        gaps = [(each, _off(each, height) + max(0.0, _off(rival, height))) for each in same]
        drops = [(each, gap if too_high else -gap) for each, gap in gaps]
        ways.extend(_other_fall(area, falls, drops, rival, figures))
    ways.extend(moved(bound, off, survey, job, figures, too_high=too_high))
    if rival is not None and height.deciding is not None:
        ways.extend(moved(rival, off, survey, job, figures, too_high=not too_high))
    walked = area.area.use is Use.FOOT
    if rival is not None and walked and off >= figures.steps.worthwhile.value and distance(bound.at, rival.at) > 0.0:
        ways.append(Option(words.split_with_step(area.name, rival.thing, bound.thing, off)))
    locked = bound if bound.locked else rival
    if locked is not None and locked.locked:
        ways.append(Option(words.keep_away(area.name, locked.thing)))
        ways.append(Option(words.not_nearer(locked.thing), facts=REFUSED))
    return worth_looking_at(ways)


def _other_fall(
    area: PlanArea, falls: Falls, drops: list[tuple[Bound, float]], rival: Bound, figures: LevelFigures
) -> list[Option]:
    """Return the fall with which a thing and what decided the height would both be met, if there is one.

    Args:
        area: The area.
        falls: Its present falls.
        drops: The places where the thing is not met, each with how much further the surface has to drop from the rival
            to it; negative for less. [mm]
        rival: What decided the height.
        figures: The figures of the levels.
    """
    runs = [(_along(falls, rival.at, bound.at), drop) for bound, drop in drops]
    wanted = [drop / run for run, drop in runs if abs(run) >= 1.0]
    if not wanted:
        return []
    main = falls.main + max(wanted, key=abs)
    if main <= 0.0:
        return []
    least = units.one_in_n_to_fall(figures.falls.min_fall.value)
    resultant = steepest_of(main, falls.cross)
    changes = fall_of(area, main, flatter=main < falls.main)
    walked = area.area.use is Use.FOOT
    steepest = figures.falls.steepest(area.area.use).value
    given_up = OptionFacts(OptionKind.RULE)
    if resultant > units.one_in_n_to_fall(steepest):
        return [Option(words.steeper_fall(main, falls, walked=walked), changes, given_up)]
    if resultant < least:
        return [Option(words.slow_fall(main, falls, least), changes, given_up)]
    return [Option(words.other_fall(main, falls), changes)]
