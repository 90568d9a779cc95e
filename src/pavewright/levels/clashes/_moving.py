"""What could be done to the thing itself where levels clash: a frame, an edge, a step at a door."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import FieldChange, Option, OptionFacts, OptionKind, Owner
from pavewright.levels.clashes import _words as words
from pavewright.levels.design import RuleKind, edge_relaid, thing_given
from pavewright.levels.folds import change_prices

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.levels._figures import LevelFigures
    from pavewright.levels.design import Bound
    from pavewright.survey import Survey

REFUSED = OptionFacts(OptionKind.REFUSED)
"""What is said so that nobody thinks of it."""
_NOT_IN_PLAN = frozenset({RuleKind.TIE_IN, RuleKind.DOOR_REACH})
"""Kinds of things whose change is work that the plan does not measure."""


def moved(
    bound: Bound, off_mm: float, survey: Survey, job: Job, figures: LevelFigures, *, too_high: bool
) -> tuple[Option, ...]:
    """Return what could be done to the thing that a limit belongs to; nothing where it is a wall.

    Args:
        bound: The limit.
        off_mm: By how much it is missed. [mm]
        survey: The site.
        job: The job, for its prices.
        figures: The figures of the levels.
        too_high: Whether the paving lies too high for it.
    """
    if bound.kind is RuleKind.TIE_IN:
        return (_edge(bound, off_mm, survey, job, figures, too_high=too_high),)
    said = words.thing_moved(bound, off_mm, too_high=too_high)
    if said is None:
        return ()
    kind = OptionKind.WISH if bound.kind in {RuleKind.DOOR, RuleKind.DOOR_REACH} else OptionKind.MOVE
    return (
        Option(
            said,
            thing_given(bound, off_mm, upward=too_high),
            facts_of(bound.kind, kind, off_mm, job, figures, bound.owner),
        ),
    )


def _edge(bound: Bound, off_mm: float, survey: Survey, job: Job, figures: LevelFigures, *, too_high: bool) -> Option:
    """Return what could be done to an edge of existing paving: nothing to the highway's."""
    if bound.owner is Owner.HIGHWAY:
        return not_moved(bound.thing)
    said = words.relay(bound, off_mm, too_high=too_high)
    changes: tuple[FieldChange, ...] = edge_relaid(bound, off_mm, survey, upward=too_high)
    return Option(said, changes, facts_of(RuleKind.TIE_IN, OptionKind.MOVE, off_mm, job, figures, bound.owner))


def not_moved(thing: str) -> Option:
    """Return the words that an edge of the highway is met as it lies."""
    return Option(words.met_as_it_lies(thing), facts=OptionFacts(OptionKind.REFUSED, Owner.HIGHWAY))


def facts_of(
    key: RuleKind, kind: OptionKind, off_mm: float, job: Job, figures: LevelFigures, owner: Owner
) -> OptionFacts:
    """Return what an option is, with the price of work that the plan does not measure."""
    if key not in _NOT_IN_PLAN:
        return OptionFacts(kind, owner)
    price = change_prices(job, figures)[key]
    own = {RuleKind(each.key) for each in job.rates.changes}
    return OptionFacts(kind, owner, round(price.once + price.each * off_mm), key not in own)
