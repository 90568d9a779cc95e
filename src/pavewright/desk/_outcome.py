"""What a job comes to in a few figures, so that two versions of it can lie side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.findings import Severity

if TYPE_CHECKING:
    from pavewright.pipeline import Plan


def outcome(plan: Plan) -> dict[str, Any]:
    """Return area, counts of units, falls, findings and the price of a plan."""
    laid = plan.laying.areas
    return {
        "area_m2": sum(area.shape.area_m2 for area in plan.survey.site.areas),
        "whole": sum(area.whole for area in laid),
        "cut": sum(area.cut for area in laid),
        "slivers": sum(area.slivers for area in laid),
        "units": sum(area.units_with_offcuts for area in laid),
        "falls": [f"{area.area}: {area.falls_text}" for area in plan.levels.areas],
        "stops": [finding.message for finding in plan.findings if finding.severity is Severity.STOP],
        "checks": sum(finding.severity is Severity.CHECK for finding in plan.findings),
        "away_m3": plan.earthworks.loose_m3.likely,
        "site_days": plan.programme.site_days,
        "low_minor": plan.cost.low_minor,
        "total_minor": plan.cost.total_minor,
        "high_minor": plan.cost.high_minor,
        "currency": plan.job.identity.currency,
    }
