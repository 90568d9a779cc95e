"""A job in a line of the list: its outline, the stage reached, its price and what to do next."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.as_laid import Verdict
from pavewright.desk._order_book import book_told
from pavewright.desk._stages import stage_of
from pavewright.findings import Severity
from pavewright.papers import price_text, range_text
from pavewright.pipeline import Room
from pavewright.quantities import GapReason

if TYPE_CHECKING:
    from pavewright.findings import Finding
    from pavewright.pipeline import Plan, PlanSoFar


def summary(plan: PlanSoFar) -> dict[str, Any]:
    """Return what the list of jobs shows of a plan, as far as it goes."""
    stage, then = next_thing(plan)
    cost, priced = plan.cost, plan.with_rooms((Room.COST,))
    stops = len(_of(plan, Severity.STOP))
    return {
        "stage": stage,
        "book": book_told(plan, stage, stops),
        "next": then,
        "whole": plan.whole is not None and not plan.faults,
        "stops": stops,
        "checks": len(_of(plan, Severity.CHECK)),
        "total_minor": None if cost is None else cost.total_minor,
        "price_words": "" if priced is None else price_text(priced),
        "range_words": "" if priced is None or not cost or not cost.prime_minor else range_text(priced),
        "currency": plan.job.identity.currency,
        "invented": plan.job.identity.invented,
        "area_m2": sum(area.laid_m2 for area in plan.survey.site.areas),
        "outlines": [[list(point) for point in area.ring.points()] for area in plan.survey.site.areas],
        "walls": [[list(wall.start), list(wall.end)] for wall in plan.survey.site.walls],
    }


def next_thing(plan: PlanSoFar) -> tuple[str, str]:
    """Return the stage that a job has reached, and the next thing to do, as the job itself goes.

    While a room is not made it is what is missing first. Then what is laid comes before everything, then what says
    stop, then what is still to be measured or seen, then the price, then what is to be looked at before the papers are
    printed.
    """
    whole = plan.whole
    if whole is None or plan.faults:
        return plan.missing[0].stage, plan.missing[0].words
    for reported in (_laid, _stopped, _unmeasured, _unseen, _unpriced, _unchecked):
        found = reported(whole)
        if found is not None:
            return found
    return "papers", "Print the papers and set out."


def _of(plan: Plan | PlanSoFar, severity: Severity) -> list[Finding]:
    return [finding for finding in plan.findings if finding.severity is severity]


def _laid(plan: Plan) -> tuple[str, str] | None:
    if plan.as_laid is None or not plan.as_laid.areas:
        return None
    if plan.as_laid.verdict is Verdict.PASSES:
        return "check", "Nothing read fails: see Check for standing water, then hand over."
    first = next(iter(plan.as_laid.findings), None)
    return "check", "Read the staff again: nothing is sure yet." if first is None else f"Put right: {first.message}"


def _stopped(plan: Plan) -> tuple[str, str] | None:
    stops = _of(plan, Severity.STOP)
    return (stage_of(stops[0]), stops[0].message) if stops else None


def _unmeasured(plan: Plan) -> tuple[str, str] | None:
    if plan.survey.ground is None:
        return "measure", "Read the ground: staff readings at every corner and in the middle, for the dig."
    open_books = [book.name for book in plan.survey.level_books if book.misclosure_mm is None]
    if open_books:
        return "measure", f"Close {open_books[0]}: read back to where it began, or nothing shows a wrong reading."
    return None


def _unseen(plan: Plan) -> tuple[str, str] | None:
    unseen = [outfall.name for outfall in plan.survey.site.outfalls if not outfall.confirmed]
    if unseen:
        return "water", f"See where {unseen[0]} takes its water: pour a bucket and look, then mark it as seen."
    return None


def _unpriced(plan: Plan) -> tuple[str, str] | None:
    # what nobody measured or knows is a finding of its own room: a price alone does not settle it
    without = [gap.words for gap in plan.cost.gaps if gap.reason is GapReason.NO_PRICE]
    if without:
        return "price", f"Price what is not in the price yet: {', '.join(without)}."
    if plan.job.identity.invented:
        return "price", "Put your own rates and prices in: those in the job are invented."
    return None


def _unchecked(plan: Plan) -> tuple[str, str] | None:
    checks = _of(plan, Severity.CHECK)
    return (stage_of(checks[0]), f"Look at this before the papers: {checks[0].message}") if checks else None
