"""What a customer may see of a job, and nothing else: no cost, margin, rates, hours or findings of the contractor."""

from __future__ import annotations

import json
import re
from functools import partial
from typing import TYPE_CHECKING, Any

from pavewright import drawing, rulebook, units
from pavewright.desk._money_rows import money_rows
from pavewright.job import writing_of
from pavewright.papers import customer_words, in_writing, tax_row
from pavewright.papers.quotation import CAUTIONS
from pavewright.pipeline import Room
from pavewright.writing import kept_now

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.buildup import AreaBuildUp
    from pavewright.pipeline import Plan, PlanSoFar
    from pavewright.survey import PlanArea

_SAID = (
    *("title", "client", "address", "contractor", "job", "tax", "areas", "not_ready", "scope", "when", "assumed"),
    *("not_included", "promised", "right_to_cancel", "cautions"),
)
"""What is said in words."""
_LETTERS = re.compile(r"[^\W\d_]")


@in_writing
def customer(plan: PlanSoFar) -> dict[str, Any]:
    """Return what the page for the customer shows, built up field by field so that nothing else can slip in.

    Of a job that is not whole it is what is known: no price, no date and no promise, and that it is not ready.
    """
    who, whole = plan.job.identity, plan.whole
    words = None if whole is None else customer_words(whole, rulebook.load(plan.edition))
    cost = None if whole is None else whole.cost
    tax, tax_minor = (plan.job.rates.tax_name, None) if whole is None else tax_row(whole)
    found = {
        "title": who.title,
        "client": who.client,
        "address": who.address,
        "contractor": who.contractor,
        "date": who.date.isoformat(),
        "job": who.job,
        "invented": who.invented,
        "currency": who.currency,
        "region": writing_of(plan.job).region,
        "measure": writing_of(plan.job).measure.value,
        "before_tax_minor": None if cost is None else cost.net_minor,
        "tax_minor": tax_minor,
        "tax": tax,
        "to_pay_minor": None if cost is None else cost.total_minor,
        "money": None if words is None else money_rows(words.money),
        "areas": [_area(plan, area) for area in plan.survey.site.areas],
        "not_ready": _NOT_WHOLE if words is None else words.not_ready,
        "scope": [] if words is None else list(words.scope),
        "when": [] if words is None else list(words.when),
        "assumed": list(plan.survey.assumptions if words is None else words.assumed),
        "not_included": [] if words is None else list(words.not_included),
        "promised": [] if words is None else list(words.promised),
        "right_to_cancel": "" if words is None else words.right_to_cancel,
        "cautions": list(CAUTIONS),
        "pictures": {
            "laying": _drawn(plan, (Room.LAYING,), partial(drawing.laying_plan, for_customer=True)),
            "levels": _drawn(plan, (Room.LEVELS,), drawing.levels_plan),
        },
    }
    # the page puts in the words of the country and the marks of its numbers; of what was typed it is told what it shows
    shown = json.dumps([found[key] for key in _SAID], ensure_ascii=False)
    return found | {"kept": sorted(name for name in kept_now() if _LETTERS.search(name) and _stands_in(shown, name))}


def _stands_in(shown: str, name: str) -> bool:
    return name in shown and re.search(rf"(?<!\w){re.escape(name)}(?!\w)", shown) is not None


_NOT_WHOLE = "Not ready to be sent: this job is still being measured, and has no price yet."


def _drawn(plan: PlanSoFar, rooms: tuple[Room, ...], draw: Callable[[Plan], drawing.Scene]) -> str:
    """Return a drawing as SVG; empty while too little is known for it."""
    made = plan.with_rooms(rooms)
    return "" if made is None else drawing.to_svg(draw(made))


def _area(plan: PlanSoFar, area: PlanArea) -> dict[str, Any]:
    east, north = zip(*area.ring.points(), strict=True)
    finished = None if plan.levels is None else plan.levels.area(area.name)
    return {
        "name": area.name,
        "area_m2": area.laid_m2,
        "across_mm": max(east) - min(east),
        "deep_mm": max(north) - min(north),
        "falls": "" if finished is None else finished.falls_text,
        "layers": [] if plan.build_ups is None else _layers(plan.build_ups.area(area.name)),
        "doors": []
        if finished is None
        else [f"{door.opening}: step down to the paving {door.text}." for door in finished.doors],
        "corners": []
        if finished is None
        else [[spot.label, units.metres_text(spot.level_mm)] for spot in finished.corners],
    }


def _layers(built: AreaBuildUp) -> list[str]:
    return [
        f"{layer.name}, {layer.thickness_mm:.0f} mm" if layer.thickness_mm else layer.name for layer in built.layers
    ]
