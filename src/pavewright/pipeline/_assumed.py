"""What the price may differ by for what is assumed: the job is planned again with each assumed fact at its ends."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.cost import AssumedShare
from pavewright.findings import FieldChange
from pavewright.job import JobInvalid, Soil, changed
from pavewright.survey import AssumedWhat

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.cost import Cost
    from pavewright.job import Job
    from pavewright.pipeline._rooms import Rooms
    from pavewright.rules import Rulebook
    from pavewright.survey import AssumedFact

    _End = float | str

_MAX_FACTS = 6
"""So many facts are tried, each at two ends; those past it are said not to be in the range."""
_NOT_TRIED = frozenset({AssumedWhat.OUTFALL_TAKES_WATER, AssumedWhat.PLACE})
"""What has no two ends: where water goes then is another job; a place is off in any direction."""
_SOILS = frozenset(Soil) - {Soil.UNKNOWN, Soil.MADE_GROUND}
"""Soils that natural ground may turn out to be."""


@dataclass(frozen=True, slots=True)
class _Trials:
    """How assumed facts are tried.

    Attributes:
        here: The rooms of the job as far as its price.
        cost: Its price.
        again: Makes the same rooms of a changed job.
    """

    here: Rooms
    cost: Cost
    again: Callable[[Job], Rooms]

    def share(self, fact: AssumedFact) -> AssumedShare:
        """Return what a fact may do to the price; nothing where an end makes no job that has a price."""
        extras = [self._extra(fact, end) for end in _ends_of(fact, self.here.rules)]
        found = [extra for extra in extras if extra is not None]
        if not extras or len(found) < len(extras):
            return AssumedShare(fact, None, None)
        return AssumedShare(fact, min(0, *found), max(0, *found))

    def _extra(self, fact: AssumedFact, end: _End) -> int | None:
        """Return how much more the job costs where a fact turns out to be something else."""
        try:
            other = self.again(changed(self.here.job, (FieldChange(fact.path, end),)))
        except JobInvalid:
            return None
        return None if other.cost is None else other.cost.total_minor - self.cost.total_minor


def with_assumed(here: Rooms, tell: Callable[[str], None], again: Callable[[Job], Rooms]) -> Cost | None:
    """Return the price of a job with what is assumed in its range; None where there is no price.

    Args:
        here: The rooms of the job as far as its price.
        tell: Takes a name before a fact is tried.
        again: Makes the same rooms of a changed job.
    """
    cost, facts = here.cost, here.survey.assumed
    if cost is None or not facts:
        return cost
    trials = _Trials(here, cost, again)
    shares: dict[str, AssumedShare] = {}
    for fact in facts:
        if fact.path in shares or fact.what in _NOT_TRIED or len(shares) == _MAX_FACTS:
            continue  # several levels may be that of one assumed point: it is tried once
        tell("what is assumed")
        shares[fact.path] = trials.share(fact)
    return replace(
        cost,
        low_minor=max(0, cost.low_minor + sum(each.low_minor or 0 for each in shares.values())),
        high_minor=cost.high_minor + sum(each.high_minor or 0 for each in shares.values()),
        assumed=tuple(replace(shares.get(fact.path) or AssumedShare(fact, None, None), fact=fact) for fact in facts),
    )


def _ends_of(fact: AssumedFact, rules: Rulebook) -> tuple[_End, ...]:
    """Return the values between which an assumed fact may turn out to lie."""
    if fact.what is AssumedWhat.SOIL:
        table = rules.table("buildup.soil_cbr")
        bearing = sorted((table.figure(soil.value, "cbr_percent").value, soil.value) for soil in _SOILS)
        return bearing[0][1], bearing[-1][1]
    if not isinstance(fact.value, float):
        return ()
    if fact.what is AssumedWhat.TOPSOIL:
        expected = rules.figure("earthworks.topsoil_expected_mm")
        low, high = (expected.value if end is None else end for end in (expected.low, expected.high))
        return min(low, fact.value), max(high, fact.value)
    off = rules.value("survey.assumed_level_off_mm")
    return fact.value - off, fact.value + off
