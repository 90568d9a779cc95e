"""The plan of a job: whole, or as far as what is known."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.findings import in_order
from pavewright.firm import book_findings, book_used, with_book, with_learnt
from pavewright.job import Fault, JobInvalid
from pavewright.laying import LaidBefore
from pavewright.newer_edition import Answers, edition_not_here, newer_edition
from pavewright.pipeline._assumed import with_assumed
from pavewright.pipeline._missing import after_rooms, before_rooms, in_measuring_order
from pavewright.pipeline._offered import offered
from pavewright.pipeline._options import Trials
from pavewright.pipeline._rooms import FOR_A_PRICE, make_rooms, surveyed
from pavewright.pipeline._types import PlanSoFar, Room, leans_on
from pavewright.rules import changes, watched

if TYPE_CHECKING:
    from collections.abc import Callable, Collection

    from pavewright.findings import Finding
    from pavewright.firm import FirmBook
    from pavewright.job import Job
    from pavewright.pipeline._rooms import Rooms
    from pavewright.pipeline._types import Missing, Plan
    from pavewright.rules import ReadLog, Rulebook


def plan(
    job: Job,
    rules: Rulebook,
    report: Callable[[str], None] | None = None,
    newer: Rulebook | None = None,
    book: FirmBook | None = None,
) -> Plan:
    """Return the plan of a job of which enough is known for every room.

    Args:
        job: A job that was read and checked.
        rules: The rulebook of its locality: the edition that it keeps.
        report: Takes the name of each stage before it starts, for a progress line; may raise to stop the work.
        newer: A newer edition of the same place, where there is one: what it would change is shown.
        book: The book of the firm: what the job leaves out comes from it.

    Raises:
        JobInvalid: readings that make no plan, or something that a room needs and nobody knows; all faults of a stage
            at once.
    """
    found = plan_as_far(job, rules, report, newer, book=book)
    whole = found.whole
    if found.faults:
        raise JobInvalid(found.faults)
    if whole is None:
        raise JobInvalid(tuple(Fault(each.path, each.words) for each in found.missing if each.rooms))
    return whole


def plan_as_far(
    job: Job,
    rules: Rulebook,
    report: Callable[[str], None] | None = None,
    newer: Rulebook | None = None,
    unread: tuple[Fault, ...] = (),
    book: FirmBook | None = None,
) -> PlanSoFar:
    """Return the plan of a job as far as what is known, and what is missing, what to measure next first.

    Where a stop has several options, each that the program can take is planned, and the options are put in order by
    what the whole job then costs; those that do not end the stop are left out. Without a price they stay as they are.

    Args:
        job: A job that was read and checked.
        rules: The rulebook of its locality: the edition that it keeps.
        report: Takes the name of each stage before it starts, for a progress line; may raise to stop the work.
        newer: A newer edition of the same place, where there is one: what it would change is shown.
        unread: What is wrong with level books of the document that the job goes without: no height follows from it.
        book: The book of the firm: what the job leaves out comes from it.
    """
    tell = report or (lambda _: None)
    on_prices, own = book_findings(job, book), job
    job = with_learnt(with_book(job, book), book, rules)
    rules, log = watched(rules) if newer is not None else (rules, None)
    before = LaidBefore()
    here, missing = priced(job, rules, before, tell, unread=unread)
    findings = here.findings

    def again(other: Job) -> Rooms:
        return priced(other, rules, before, lambda _: None, options=False)[0]

    here.cost = with_assumed(here, tell, again)
    trials = Trials(here, tell, again)
    make_rooms(here, {room for each in missing for room in each.rooms}, tell)
    late = (here.setting_out, here.hold_points, here.bedding, here.as_laid)
    findings = (*findings, *(each for room in late if room for each in room.findings))
    findings += (*edition_not_here(job, rules), *on_prices)
    if newer is not None and log is not None:
        findings += _with_newer(here, newer, log)
    found = tuple(trials.with_options(finding) for finding in findings)
    told = _handed_on(here, found, (*missing, *after_rooms(here)), own, book)
    return replace(told, offered=tuple(offered(here, again)))


def plan_rooms(job: Job, rules: Rulebook, rooms: Collection[Room], book: FirmBook | None = None) -> PlanSoFar:
    """Return the plan of a job with some rooms, those that they lean on, and no others; no option is tried."""
    own, job = job, with_learnt(with_book(job, book), book, rules)
    here = surveyed(job, rules, LaidBefore(), lambda _: None, options=False)
    missing = tuple(before_rooms(here))
    wanted = {each for room in rooms for each in (room, *leans_on(room, job))}
    make_rooms(here, {room for each in missing for room in each.rooms}, lambda _: None, wanted)
    return _handed_on(here, here.findings, (*missing, *after_rooms(here)), own, book)


def _handed_on(
    here: Rooms, findings: tuple[Finding, ...], missing: tuple[Missing, ...], own: Job, book: FirmBook | None
) -> PlanSoFar:
    items = () if here.quantities is None else here.quantities.items
    bought = {key for item in items for key in (item.key.catalogue, item.key.material) if key}
    return PlanSoFar(
        job=here.job,
        edition=here.rules.edition,
        **{room.value: getattr(here, room.value) for room in Room},
        findings=in_order(findings),
        missing=in_measuring_order(missing),
        faults=_first_faults(here),
        book=book_used(own, here.job, book, bought),
    )


def priced(
    job: Job,
    rules: Rulebook,
    before: LaidBefore,
    tell: Callable[[str], None],
    *,
    options: bool = True,
    unread: tuple[Fault, ...] = (),
) -> tuple[Rooms, tuple[Missing, ...]]:
    """Return the rooms of a job as far as its price, and what is missing for them."""
    here = surveyed(job, rules, before, tell, options=options)
    here.survey_faults = replace(here.survey_faults, heights=(*unread, *here.survey_faults.heights))
    missing = tuple(before_rooms(here))
    make_rooms(here, {room for each in missing for room in each.rooms}, tell, FOR_A_PRICE)
    return here, missing


def _first_faults(here: Rooms) -> tuple[Fault, ...]:
    """Return what contradicts itself, of the first room that it stops; what nobody said is missing and no fault."""
    rooms = ((*here.survey_faults.heights, *here.survey_faults.places), *here.faults.values())
    wrong = (tuple(fault for fault in faults if fault.wanted is None) for faults in rooms)
    return next((faults for faults in wrong if faults), ())


def _with_newer(here: Rooms, newer: Rulebook, log: ReadLog) -> tuple[Finding, ...]:
    """Return what a newer edition changes; nothing where it has the same figures for what was read, or no price."""
    figures, now = changes(here.rules, newer, log), _answers(here)
    if not figures or now is None:
        return ()
    after, _ = priced(here.job, newer, here.before, lambda _: None)
    return (newer_edition(here.job, newer, figures, now, _answers(after)),)


def _answers(made: Rooms) -> Answers | None:
    """Return what a plan answers; None where it has no price."""
    if made.cost is None or made.levels is None or made.build_ups is None:
        return None
    return Answers(
        price_minor=made.cost.total_minor,
        levels_mm={(area.area, spot.label): spot.level_mm for area in made.levels.areas for spot in area.corners},
        depths_mm={up.area: up.total_mm for up in made.build_ups.areas},
        findings={(each.code, each.place): each for each in made.findings},
    )
