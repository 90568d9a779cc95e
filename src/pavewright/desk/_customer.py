"""What a customer may see of a job, and nothing else: no cost, margin, rates, hours or findings of the contractor."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright import drawing, rulebook, units
from pavewright.papers import customer_words

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp
    from pavewright.levels import FinishedArea
    from pavewright.pipeline import Plan

_CAUTIONS = (
    "Keep children and pets away from the dig, the tools and the stacks.",
    "Wet mortar and concrete burn the skin: keep off and do not touch until the date above.",
    "Tell us of every pipe and cable that you know of before the dig begins.",
)
"""Usual cautions for a household while the work goes on (common practice)."""


def customer(plan: Plan) -> dict[str, Any]:
    """Return what the page for the customer shows, built up field by field so that nothing else can slip in."""
    words = customer_words(plan, rulebook.load(plan.edition))
    who, cost = plan.job.identity, plan.cost
    return {
        "title": who.title,
        "client": who.client,
        "address": who.address,
        "contractor": who.contractor,
        "date": None if who.date is None else who.date.isoformat(),
        "job": who.job,
        "invented": who.invented,
        "currency": who.currency,
        "before_tax_minor": cost.net_minor,
        "tax_minor": cost.tax_minor,
        "tax": f"{plan.job.rates.tax_name} {plan.job.rates.tax_percent:g} %",
        "to_pay_minor": cost.total_minor,
        "areas": [_area(plan, area) for area in plan.levels.areas],
        "not_ready": words.not_ready,
        "scope": list(words.scope),
        "when": list(words.when),
        "assumed": list(words.assumed),
        "not_included": list(words.not_included),
        "promised": list(words.promised),
        "right_to_cancel": words.right_to_cancel,
        "cautions": list(_CAUTIONS),
        "pictures": {
            "laying": drawing.to_svg(drawing.laying_plan(plan, for_customer=True)),
            "levels": drawing.to_svg(drawing.levels_plan(plan)),
        },
    }


def _area(plan: Plan, area: FinishedArea) -> dict[str, Any]:
    ring = plan.survey.site.area(area.area)
    east, north = zip(*ring.ring.points(), strict=True)
    return {
        "name": area.area,
        "area_m2": ring.shape.area_m2,
        "across_mm": max(east) - min(east),
        "deep_mm": max(north) - min(north),
        "falls": area.falls_text,
        "layers": _layers(plan.build_ups.area(area.area)),
        "doors": [f"{door.opening}: step down to the paving {door.text}." for door in area.doors],
        "corners": [[spot.label, units.metres_text(spot.level_mm)] for spot in area.corners],
    }


def _layers(built: AreaBuildUp) -> list[str]:
    return [f"{layer.name}, {layer.thickness_mm:.0f} mm" for layer in built.layers]
