"""Options of stops, tried by planning the whole job with them and put in order by what it then costs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import OptionKind, Severity, worth_looking_at
from pavewright.job import JobInvalid, changed
from pavewright.pipeline._days_later import days_later, days_words

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.cost import Cost
    from pavewright.findings import FieldChange, Finding, Option
    from pavewright.job import Job
    from pavewright.pipeline._rooms import Rooms

_MAX_TRIALS = 8
"""No plan tries more options than this; those past it keep their place and say no price."""
_Place = tuple[str, str]
"""Code and place of a finding: which one it is."""


@dataclass(frozen=True)
class _Trial:
    """What comes of an option: how much more the job costs and takes, what is then found, its stops, its levels."""

    extra_minor: int
    extra_days: int | None
    found: frozenset[_Place]
    stops: dict[_Place, Finding]
    levels: tuple[Finding, ...]


class Trials:
    """Options that are tried by planning the job with them, each set of changes once."""

    def __init__(self, made: Rooms, tell: Callable[[str], None], again: Callable[[Job], Rooms]) -> None:
        """Begin with the stops of a job as it is.

        Args:
            made: Its rooms as far as its price.
            tell: Takes a name before an option is tried.
            again: Makes the same rooms of a changed job.
        """
        self._job, self._cost, self._tell, self._again = made.job, made.cost, tell, again
        self._programme = made.programme
        self._done: dict[tuple[FieldChange, ...], _Trial | None] = {}
        self._stops = set(_stops_of(made))

    def with_options(self, finding: Finding) -> Finding:
        """Return a finding with its options tried and put in order; unchanged where it has no choice of options."""
        if (
            self._cost is None
            or not (finding.severity is Severity.STOP or finding.tries_options)
            or len(finding.options) < 2  # noqa: PLR2004
            or not any(option.changes for option in finding.options)
        ):
            return finding
        kept: list[Option] = []
        clashing: list[Option] = []
        ends_stop = False
        for way in finding.options:
            if not way.changes or way.facts.kind is OptionKind.ANSWER or not self._able(way.changes):
                kept.append(way)
                continue
            tried = self._try(way.changes, self._cost)
            if tried is None or (finding.code, finding.place) in tried.found:
                continue
            new = [stop for key, stop in tried.stops.items() if key not in self._stops]
            priced = self._priced(way, tried, new, gaps=bool(self._cost.gaps))
            if any(stop in tried.levels for stop in new):
                clashing.append(priced)
            else:
                kept.append(priced)
                ends_stop = True
        # levels that then clash elsewhere are offered only where nothing else ends the stop; questions show all answers
        offered = kept if ends_stop and not finding.tries_options else [*kept, *clashing]
        return finding.with_options(worth_looking_at(offered))

    def _able(self, changes: tuple[FieldChange, ...]) -> bool:
        return changes in self._done or len(self._done) < _MAX_TRIALS

    def _try(self, changes: tuple[FieldChange, ...], now: Cost) -> _Trial | None:
        """Return what comes of changes; None where they make no job that has a price."""
        if changes not in self._done:
            self._tell("options")
            self._done[changes] = self._trial(changes, now)
        return self._done[changes]

    def _trial(self, changes: tuple[FieldChange, ...], now: Cost) -> _Trial | None:
        try:
            other = self._again(changed(self._job, changes))
        except JobInvalid:
            return None
        if other.cost is None or other.levels is None:
            return None
        found = frozenset((each.code, each.place) for each in other.findings)
        days = days_later(self._job.calendar, self._programme, other.programme)
        return _Trial(other.cost.total_minor - now.total_minor, days, found, _stops_of(other), other.levels.findings)

    def _priced(self, way: Option, tried: _Trial, new: list[Finding], *, gaps: bool) -> Option:
        """Return an option with what the whole job then costs, in its facts and in its words."""
        extra, job = tried.extra_minor + way.facts.aside_minor, self._job
        amount = units.minor_to_text(abs(extra), job.identity.currency)
        said = f"costs {amount} {'more' if extra > 0 else 'less'}" if extra else "costs the same"
        if gaps:
            said += ", as far as its items have prices"
        if way.facts.invented:
            said += f", {units.minor_to_text(way.facts.aside_minor, job.identity.currency)} of it an invented amount"
        elif job.identity.invented:
            said += ", at invented prices"
        if tried.extra_days:
            said += f", and takes {days_words(tried.extra_days)}"
        words = f"{way.words} The whole job then {said}."
        if new:
            words += f" It brings another stop: {new[0].message}"
        facts = replace(way.facts, extra_minor=extra, extra_days=tried.extra_days, brings_stop=bool(new))
        return replace(way, words=words, facts=facts)


def _stops_of(made: Rooms) -> dict[_Place, Finding]:
    return {(each.code, each.place): each for each in made.findings if each.severity is Severity.STOP}
