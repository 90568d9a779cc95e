"""What a search for better ways found, as plain values for a table, with what each changes as operations."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, Any

from pavewright.job.operations import between
from pavewright.proposals import (
    ALL_AIMS,
    Aim,
    ClearanceKind,
    aim_words,
    at_least_as_good,
    limit_words,
    refused_words,
    variation_words,
    win_words,
)

if TYPE_CHECKING:
    from pavewright.proposals import Figures, Proposal, Proposals


class Beside(StrEnum):
    """How a plan stands beside the job as drawn in one aim."""

    BETTER = "better"
    SAME = "same"
    WORSE = "worse"
    OPEN = "open"


def beside(aim: Aim, now: Figures, was: Figures) -> Beside:
    """Return how a plan stands beside the job as drawn in one aim; open where neither is certainly the better one.

    Args:
        aim: What matters.
        now: What the plan comes to.
        was: What the job as drawn comes to.
    """
    no_worse, no_better = at_least_as_good(aim, now, was), at_least_as_good(aim, was, now)
    if no_worse:
        return Beside.SAME if no_better else Beside.BETTER
    return Beside.WORSE if no_better else Beside.OPEN


def proposals_told(found: Proposals, raw: dict[str, Any], currency: str, plans: int) -> dict[str, Any]:
    """Return what a search found.

    Args:
        found: It.
        raw: The job document as it was sent.
        currency: Money of the job.
        plans: How many plans were asked for.
    """
    rows = [_row(each, found.drawn, raw) for each in found.front]
    return {
        "currency": currency,
        "aims": [{"key": each.value, "name": aim_words(each)} for each in found.aims],
        "planned": found.planned,
        "of": plans,
        "whole": found.whole,
        "singles": found.singles,
        "drawn": _row(found.drawn, found.drawn, raw),
        "front": rows,
        "best": found.best.place,
        "why": win_words(found.best, found.planned, currency),
        "refused": [refused_words(why, count) for why, count in found.refused],
        "limits": [limit_words(each) for each in found.limits],
    }


def _row(each: Proposal, drawn: Proposal, raw: dict[str, Any]) -> dict[str, Any]:
    starts = {number: dict(fields) for number, fields in each.starts}
    now, was = each.figures, drawn.figures
    return {
        "is_drawn": not each.variations,
        "changes": [
            variation_words(one.facts, starts.get(one.slot.number) if one.start else None) for one in each.variations
        ],
        "operations": between(raw, each.document(raw)) if each.variations else [],
        "price_minor": now.price_minor,
        "price_at_least": bool(now.price_gaps),
        "cut": now.cut,
        "days": now.days,
        "carbon_kg": None if now.carbon is None else [now.carbon.low, now.carbon.likely, now.carbon.high],
        "clearance_mm": now.clearance.mm,
        "no_wall": now.clearance.kind is ClearanceKind.NO_WALL,
        "beside": {aim.value: beside(aim, now, was).value for aim in ALL_AIMS},
        "stops": [one.message for one in now.stops],
        "ends_stops": max(len(was.stops) - len(now.stops), 0),
        "new_checks": len(set(now.checks) - set(was.checks)),
    }
