"""A job in a line of the list: its outline, the stage reached, its price and what to do next."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.findings import Severity

if TYPE_CHECKING:
    from pavewright.pipeline import Plan


def summary(plan: Plan) -> dict[str, Any]:
    """Return what the list of jobs shows of a plan."""
    stops = [finding for finding in plan.findings if finding.severity is Severity.STOP]
    checks = [finding for finding in plan.findings if finding.severity is Severity.CHECK]
    stage, then = _stage(plan, bool(stops), bool(checks))
    return {
        "stage": stage,
        "next": stops[0].message if stops else then,
        "stops": len(stops),
        "checks": len(checks),
        "total_minor": plan.cost.total_minor,
        "low_minor": plan.cost.low_minor,
        "high_minor": plan.cost.high_minor,
        "currency": plan.job.identity.currency,
        "invented": plan.job.identity.invented,
        "area_m2": sum(area.shape.area_m2 for area in plan.survey.site.areas),
        "outlines": [[list(point) for point in area.ring.points()] for area in plan.survey.site.areas],
        "walls": [[list(wall.start), list(wall.end)] for wall in plan.survey.site.walls],
    }


def _stage(plan: Plan, stops: bool, checks: bool) -> tuple[str, str]:  # noqa: FBT001 - two facts of one plan
    """Return the stage that a job has reached, and what to do next."""
    if plan.as_laid is not None and plan.as_laid.areas:
        if plan.as_laid.verdict == "pass":
            return "check", "Hand over: the papers hold the levels as laid."
        return "check", "Put right what the check found, then read again."
    if stops:
        return "levels", "A finding says stop."
    if checks:
        return "papers", "Look at the findings to check, then print the papers."
    return "papers", "Print the papers and set out."
