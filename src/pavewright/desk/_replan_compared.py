"""Two sides of a job compared: price, days, findings, lines, and why."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from pavewright.cost import LineChangeKind
from pavewright.desk._plain import plain
from pavewright.desk._replan_causes import causes_of, figure_causes
from pavewright.findings import Severity

if TYPE_CHECKING:
    from pavewright.job import Job

_LINES = 12
"""So many lines are told, those that move most; the rest are counted. [-]"""
_CAUSES = 40
"""So many causes are told; the rest are counted. [-]"""
_DAY = dt.timedelta(days=1)


class Standing(StrEnum):
    """What became of a job."""

    CHANGED = "changed"
    SAME = "same"
    NO_PLAN = "no_plan"
    """It cannot be planned now."""
    LEFT_OUT = "left_out"
    """Its state was not asked for."""
    FAILED = "failed"
    """The program failed, or every worker ended with it."""
    NO_PRICE_BEFORE = "no_price_before"
    """It has a price now and had none before."""


class Take(StrEnum):
    """What makes sense to do with a job."""

    NEWER_EDITION = "newer_edition"
    """Plan it with the newer edition of the rulebook."""
    QUOTE_AGAIN = "quote_again"
    """It keeps its quotation until it is quoted again."""


@dataclass(frozen=True, slots=True)
class Sides:
    """What the two sides of a job rest on.

    Attributes:
        old: The job with all that it takes, before.
        new: The same now.
        quoted: Whether it was quoted.
        accepted: Whether its quotation was accepted.
        newer_edition: Date of a newer edition of the rulebook, where the new side has one.
    """

    old: Job
    new: Job
    quoted: bool
    accepted: bool
    newer_edition: str | None


def compared(old: dict[str, Any], new: dict[str, Any], sides: Sides) -> dict[str, Any]:
    """Return what differs between two sides of a job, as plain values.

    Args:
        old: What the old side answers.
        new: What the new side answers.
        sides: What both rest on.
    """
    if "steps" not in new:
        return {"standing": Standing.NO_PLAN.value, "faults": new["faults"], "take": None}
    if "steps" not in old:
        total = new["steps"]["total"]
        return {"standing": Standing.NO_PRICE_BEFORE.value, "faults": old["faults"], "new_minor": total, "take": None}
    bought = {*old["bought"], *new["bought"]}
    causes = (*causes_of(sides.old, sides.new, bought), *figure_causes(new["figures"]))
    lines = _lines(old["lines"], new["lines"], [plain(each) for each in causes])
    came, went = _findings(new, old), _findings(old, new)
    found = {
        "old_minor": old["steps"]["total"],
        "new_minor": new["steps"]["total"],
        "extra_minor": new["steps"]["total"] - old["steps"]["total"],
        "gaps_old": old["gaps"],
        "gaps_new": new["gaps"],
        "days": _days(old["finish"], new["finish"], sides.new),
        "finish_old": old["finish"],
        "finish_new": new["finish"],
        "came": came,
        "went": went,
        "lines": lines[:_LINES],
        "more_lines": max(0, len(lines) - _LINES),
        "causes": [plain(each) for each in causes[:_CAUSES]],
        "more_causes": max(0, len(causes) - _CAUSES),
    }
    moved = any((found["extra_minor"], found["days"], came, went, lines, old["gaps"] != new["gaps"]))
    standing = Standing.CHANGED if moved else Standing.SAME
    return {"standing": standing.value, "faults": [], "take": _take(sides, moved=moved), **found}


def _take(sides: Sides, *, moved: bool) -> str | None:
    """Return what makes sense to do; nothing with a job that was accepted: its price stands."""
    if sides.accepted or not moved:
        return None
    if sides.quoted:
        return Take.QUOTE_AGAIN.value
    return None if sides.newer_edition is None else Take.NEWER_EDITION.value


def _lines(old: list[dict[str, Any]], new: list[dict[str, Any]], causes: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the lines that differ, what moves most first."""
    before, after = ({each["key"]: each for each in side} for side in (old, new))
    found = []
    for key in dict.fromkeys((*before, *after)):
        one, other = before.get(key), after.get(key)
        if one == other:
            continue
        known = other or one
        assert known is not None  # noqa: S101 - the key came from one of the two
        extra = (other["amount_minor"] if other else 0) - (one["amount_minor"] if one else 0)
        kind = _kind(one, other)
        if kind is None:
            continue
        because = [number for number, each in enumerate(causes) if key in each["lines"]]
        told = {name: known[name] for name in ("key", "group", "description", "unit")}
        sides = {"old": _amounts(one), "new": _amounts(other)}
        found.append({**told, "kind": kind.value, "extra_minor": extra, **sides, "because": because})
    return sorted(found, key=lambda each: (-abs(each["extra_minor"]), each["key"]))


def _kind(one: dict[str, Any] | None, other: dict[str, Any] | None) -> LineChangeKind | None:
    if one is None or other is None:
        return LineChangeKind.NEW if one is None else LineChangeKind.GONE
    rate, quantity = one["rate_minor"] != other["rate_minor"], one["quantity"] != other["quantity"]
    if rate and quantity:
        return LineChangeKind.BOTH
    if rate:
        return LineChangeKind.RATE
    return LineChangeKind.QUANTITY if quantity or one["amount_minor"] != other["amount_minor"] else None


def _amounts(line: dict[str, Any] | None) -> dict[str, Any] | None:
    return None if line is None else {name: line[name] for name in ("quantity", "rate_minor", "amount_minor")}


def _findings(these: dict[str, Any], those: dict[str, Any]) -> list[dict[str, Any]]:
    """Return the findings of one side that the other has not, by code and place."""
    known = {(each["code"], each["place"]) for each in those["findings"]}
    return [each for each in these["findings"] if (each["code"], each["place"]) not in known]


def _days(old: str | None, new: str | None, job: Job) -> int | None:
    """Return how many working days later the work ends; None where one of the two has no dates. [days]."""
    if old is None or new is None:
        return None
    on, last = dt.date.fromisoformat(old), dt.date.fromisoformat(new)
    step = 1 if last >= on else -1
    days = 0
    while on != last:
        on += step * _DAY
        days += step * (on.weekday() in job.calendar.weekdays and on not in job.calendar.days_off)
    return days


def weight(row: dict[str, Any]) -> tuple[int, int, str]:
    """Return by what a row stands in the list: what cannot be planned first, then new stops, then the money moved.

    Args:
        row: What differs in a job, with its ``job_id``.
    """
    if row["standing"] in {Standing.NO_PLAN, Standing.FAILED}:
        return (0, 0, row["job_id"])
    stops = any(each["severity"] == Severity.STOP for each in row.get("came", ()))
    rank = 1 if stops else 3 if row["standing"] == Standing.SAME else 2
    return (rank, -abs(row.get("extra_minor", row.get("new_minor", 0))), row["job_id"])
