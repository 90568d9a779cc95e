"""Pipeline: from a job and a rulebook to a whole plan, the one place that knows the order of the rooms."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid import check
from pavewright.buildup import build_up, depth_under
from pavewright.cost import labour, price
from pavewright.earthworks import dig
from pavewright.findings import OptionKind, Severity, in_order, worth_looking_at
from pavewright.job import JobInvalid, changed
from pavewright.laying import LaidBefore, lay
from pavewright.levels import finished_levels
from pavewright.newer_edition import Answers, edition_not_here, newer_edition
from pavewright.programme import schedule
from pavewright.quantities import take_off
from pavewright.rules import changes, watched
from pavewright.setting_out import set_out
from pavewright.survey import survey
from pavewright.water import drain

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.as_laid import AsLaidReport
    from pavewright.buildup import BuildUps
    from pavewright.cost import Cost
    from pavewright.earthworks import Earthworks
    from pavewright.findings import FieldChange, Finding, Option
    from pavewright.job import Job
    from pavewright.laying import LayingPlan
    from pavewright.levels import Levels
    from pavewright.programme import Programme
    from pavewright.quantities import Quantities
    from pavewright.rules import ReadLog, Rulebook
    from pavewright.setting_out import SettingOut
    from pavewright.survey import Survey
    from pavewright.water import Water


@dataclass(frozen=True)
class Plan:
    """Everything that follows from a job and a rulebook.

    Attributes:
        job: The job document.
        edition: Edition of the rulebook.
        survey: What was measured, adjusted.
        levels: Finished levels.
        laying: Every unit with its place.
        build_ups: Layers and formation.
        earthworks: Cut, fill and what leaves.
        water: Where water runs.
        quantities: Measured items.
        cost: From cost to price.
        programme: Tasks with dates.
        setting_out: Pegs, strings and tapes.
        as_laid: Readings checked against the plan; None where there are none.
        findings: What every room noticed, stop first.
    """

    job: Job
    edition: str
    survey: Survey
    levels: Levels
    laying: LayingPlan
    build_ups: BuildUps
    earthworks: Earthworks
    water: Water
    quantities: Quantities
    cost: Cost
    programme: Programme
    setting_out: SettingOut
    as_laid: AsLaidReport | None
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class _Costed:
    """A plan as far as its price: what an option is judged by."""

    survey: Survey
    levels: Levels
    laying: LayingPlan
    build_ups: BuildUps
    earthworks: Earthworks
    water: Water
    quantities: Quantities
    programme: Programme
    cost: Cost

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What these rooms noticed."""
        rooms = (self.survey, self.levels, self.laying, self.build_ups, self.earthworks, self.water)
        return tuple(
            finding for room in (*rooms, self.quantities, self.cost, self.programme) for finding in room.findings
        )


def _costed(
    job: Job, rules: Rulebook, before: LaidBefore, tell: Callable[[str], None], *, options: bool = True
) -> _Costed:
    tell("survey")
    surveyed = survey(job, rules)
    tell("levels")
    levels = finished_levels(job, surveyed, rules, depth_under(job, rules))
    tell("laying")
    laying = lay(job, surveyed, rules, levels, options=options, before=before)
    tell("build-up and dig")
    build_ups = build_up(job, surveyed, levels, rules)
    earthworks = dig(job, surveyed, build_ups, rules, laying)
    tell("water")
    water = drain(job, surveyed, levels, rules)
    tell("quantities and cost")
    quantities = take_off(job, surveyed, levels, laying, build_ups, earthworks, water, rules)
    tasks = labour(job, surveyed, laying, build_ups, earthworks, water, quantities, rules)
    programme = schedule(job, tasks, rules)
    cost = price(job, laying, earthworks, quantities, tasks, programme.hires, rules)
    return _Costed(surveyed, levels, laying, build_ups, earthworks, water, quantities, programme, cost)


def plan(job: Job, rules: Rulebook, report: Callable[[str], None] | None = None, newer: Rulebook | None = None) -> Plan:
    """Return the plan of a job.

    Where a stop has several options, each that the program can take is planned, and the options are put in order by
    what the whole job then costs; those that do not end the stop are left out.

    Args:
        job: A job that was read and checked.
        rules: The rulebook of its locality: the edition that it keeps.
        report: Takes the name of each stage before it starts, for a progress line; may raise to stop the work.
        newer: A newer edition of the same place, where there is one: what it would change is shown.

    Raises:
        JobInvalid: readings that make no plan, or nothing that fixes an area's height; all faults of a stage at once.
    """
    tell = report or (lambda _: None)
    rules, log = watched(rules) if newer is not None else (rules, None)
    before = LaidBefore()
    made = _costed(job, rules, before, tell)
    tell("setting out")
    setting_out = set_out(made.survey, made.levels, made.build_ups, rules)
    as_laid = check(job, made.survey, made.levels, rules)
    findings = (*made.findings, *setting_out.findings)
    findings += as_laid.findings if as_laid is not None else ()
    findings += edition_not_here(job, rules)
    if newer is not None and log is not None:
        findings += _with_newer(job, rules, newer, log, made, before)
    trials = _Trials(job, rules, made, before, tell)
    return Plan(
        job=job,
        edition=rules.edition,
        survey=made.survey,
        levels=made.levels,
        laying=made.laying,
        build_ups=made.build_ups,
        earthworks=made.earthworks,
        water=made.water,
        quantities=made.quantities,
        cost=made.cost,
        programme=made.programme,
        setting_out=setting_out,
        as_laid=as_laid,
        findings=in_order(trials.with_options(finding) for finding in findings),
    )


def _with_newer(
    job: Job, rules: Rulebook, newer: Rulebook, log: ReadLog, made: _Costed, before: LaidBefore
) -> tuple[Finding, ...]:
    """Return what a newer edition changes; nothing where it has the same figures for what was read."""
    figures = changes(rules, newer, log)
    if not figures:
        return ()
    try:
        after = _answers(_costed(job, newer, before, lambda _: None))
    except JobInvalid:
        after = None
    return (newer_edition(job, newer, figures, _answers(made), after),)


def _answers(made: _Costed) -> Answers:
    return Answers(
        price_minor=made.cost.total_minor,
        levels_mm={(area.area, spot.label): spot.level_mm for area in made.levels.areas for spot in area.corners},
        depths_mm={up.area: up.total_mm for up in made.build_ups.areas},
        findings={(each.code, each.place): each for each in made.findings},
    )


_MAX_TRIALS = 8
"""No plan tries more options than this; those past it keep their place and say no price."""
_Place = tuple[str, str]
"""Code and place of a finding: which one it is."""


@dataclass(frozen=True)
class _Trial:
    """What comes of an option: how much more the job costs, what is then found, its stops, and what its levels say."""

    extra_minor: int
    found: frozenset[_Place]
    stops: dict[_Place, Finding]
    levels: tuple[Finding, ...]


class _Trials:
    """Options that are tried by planning the job with them, each set of changes once."""

    def __init__(
        self, job: Job, rules: Rulebook, made: _Costed, before: LaidBefore, tell: Callable[[str], None]
    ) -> None:
        self._job, self._rules, self._made, self._before, self._tell = job, rules, made, before, tell
        self._done: dict[tuple[FieldChange, ...], _Trial | None] = {}
        self._stops = set(_stops_of(made))

    def with_options(self, finding: Finding) -> Finding:
        """Return a finding with its options tried and put in order; unchanged where it has no choice of options."""
        if (
            not (finding.severity is Severity.STOP or finding.tries_options)
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
            tried = self._try(way.changes)
            if tried is None or (finding.code, finding.place) in tried.found:
                continue
            new = [stop for key, stop in tried.stops.items() if key not in self._stops]
            priced = self._priced(way, tried, new)
            if any(stop in tried.levels for stop in new):
                clashing.append(priced)
            else:
                kept.append(priced)
                ends_stop = True
        # levels that then clash elsewhere are offered only where nothing else ends the stop
        return finding.with_options(worth_looking_at(kept if ends_stop else [*kept, *clashing]))

    def _able(self, changes: tuple[FieldChange, ...]) -> bool:
        return changes in self._done or len(self._done) < _MAX_TRIALS

    def _try(self, changes: tuple[FieldChange, ...]) -> _Trial | None:
        """Return what comes of changes; None where they make no job."""
        if changes not in self._done:
            self._tell("options")
            try:
                job = changed(self._job, changes)
                other = _costed(job, self._rules, self._before, lambda _: None, options=False)
            except JobInvalid:
                self._done[changes] = None
            else:
                extra = other.cost.total_minor - self._made.cost.total_minor
                self._done[changes] = _Trial(
                    extra,
                    frozenset((each.code, each.place) for each in other.findings),
                    _stops_of(other),
                    other.levels.findings,
                )
        return self._done[changes]

    def _priced(self, way: Option, tried: _Trial, new: list[Finding]) -> Option:
        """Return an option with what the whole job then costs, in its facts and in its words."""
        extra, job = tried.extra_minor + way.facts.aside_minor, self._job
        amount = units.minor_to_text(abs(extra), job.identity.currency)
        said = f"costs {amount} {'more' if extra > 0 else 'less'}" if extra else "costs the same"
        if self._made.cost.gaps:
            said += ", as far as its items have prices"
        if way.facts.invented:
            said += f", {units.minor_to_text(way.facts.aside_minor, job.identity.currency)} of it an invented amount"
        elif job.identity.invented:
            said += ", at invented prices"
        words = f"{way.words} The whole job then {said}."
        if new:
            words += f" It brings another stop: {new[0].message}"
        return replace(way, words=words, facts=replace(way.facts, extra_minor=extra, brings_stop=bool(new)))


def _stops_of(made: _Costed) -> dict[_Place, Finding]:
    return {(each.code, each.place): each for each in made.findings if each.severity is Severity.STOP}
