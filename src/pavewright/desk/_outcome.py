"""What a job comes to in a few figures, so that two versions of it can lie side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.cost import RangeKind
from pavewright.findings import Severity

if TYPE_CHECKING:
    from pavewright.pipeline import PlanSoFar


def outcome(plan: PlanSoFar) -> dict[str, Any]:
    """Return area, counts of units, falls, findings and the price of a plan; null where too little is known."""
    laid, levels, cost = plan.laying, plan.levels, plan.cost
    ranged = cost if cost is not None and cost.range_kind is not RangeKind.NOT_KNOWN else None
    return {
        "area_m2": sum(area.laid_m2 for area in plan.survey.site.areas),
        "whole": None if laid is None else sum(area.whole for area in laid.areas),
        "cut": None if laid is None else sum(area.cut for area in laid.areas),
        "slivers": None if laid is None else sum(area.slivers for area in laid.areas),
        "units": None if laid is None else sum(area.units_with_offcuts for area in laid.areas),
        "falls": [] if levels is None else [f"{area.area}: {area.falls_text}" for area in levels.areas],
        "stops": [finding.message for finding in plan.findings if finding.severity is Severity.STOP],
        "checks": sum(finding.severity is Severity.CHECK for finding in plan.findings),
        "away_m3": None if plan.earthworks is None else plan.earthworks.loose_m3.likely,
        "site_days": None if plan.programme is None else plan.programme.site_days,
        "low_minor": None if ranged is None else ranged.low_minor,
        "total_minor": None if cost is None else cost.total_minor,
        "high_minor": None if ranged is None else ranged.high_minor,
        "gaps": None if cost is None else len(cost.gaps),
        "currency": plan.job.identity.currency,
        "missing": [each.words for each in plan.missing if each.rooms],
    }
