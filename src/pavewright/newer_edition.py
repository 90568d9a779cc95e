"""What a newer edition of the rulebook would change: figures that the plan read, and the answers that hang on them.

A job keeps the edition that it was planned with, so that a price that was given does not move by itself. Where a newer
edition of the same place has other figures for it, the job is planned with both, and what differs is shown.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, TypeVar

from pavewright import units
from pavewright.findings import FieldChange, Finding, Option, Severity

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

    from pavewright.job import Job
    from pavewright.rules import Figure, FigureChange, Rulebook

_K = TypeVar("_K")
_PLACE = "rulebook"
_SHOWN = 6
"""So many figures and findings are named; the rest are counted."""
_SAME_MM = 0.05
"""Levels nearer than this are the same on a staff. [mm]"""


class Code(StrEnum):
    """Codes of the findings on editions."""

    NEWER = "rulebook.newer_edition"
    NOT_HERE = "rulebook.edition_not_here"


@dataclass(frozen=True, slots=True)
class Answers:
    """What the plan of a job answers.

    Attributes:
        price_minor: Price of the whole job. [minor units]
        levels_mm: Finished level of every corner, by area and name. [mm]
        depths_mm: Thickness of the whole build-up, by area. [mm]
        findings: What was noticed, by code and place.
    """

    price_minor: int
    levels_mm: Mapping[tuple[str, str], float]
    depths_mm: Mapping[str, float]
    findings: Mapping[tuple[str, str], Finding]


def edition_not_here(job: Job, rules: Rulebook) -> tuple[Finding, ...]:
    """Return that the edition which the job keeps is not there, where that is so: it is planned with another."""
    kept = job.identity.edition
    if kept is None or kept == rules.dated:
        return ()
    words = (
        f"This job keeps the rulebook of {_day(kept)}, which is not installed; it is planned with that of "
        f"{_day(rules.dated)}. A price that was given with the other may not hold: install that edition, or check the "
        f"job and take this one."
    )
    return (Finding(Code.NOT_HERE, Severity.CHECK, _PLACE, words, options=(_taking(rules.dated),)),)


def newer_edition(
    job: Job, newer: Rulebook, figures: Sequence[FigureChange], before: Answers, after: Answers | None
) -> Finding:
    """Return what a newer edition changes.

    Args:
        job: The job.
        newer: The newer edition.
        figures: Figures that the plan read and that differ; at least one.
        before: Answers with the edition that the job keeps.
        after: Answers with the newer one; None where it makes no plan of the job.
    """
    changed = _changed(job, before, after)
    words = (
        f"A newer edition of the rulebook, of {_day(newer.dated)}, has other figures for this job: "
        f"{_some([_figure_words(each) for each in figures])}. "
    )
    words += f"With it {_some(changed)}." if changed else "The answers of this job stay the same."
    severity = Severity.CHECK if changed else Severity.NOTE
    return Finding(Code.NEWER, severity, _PLACE, words, options=(_taking(newer.dated),))


def _taking(dated: dt.date) -> Option:
    change = FieldChange("identity.edition", dated.isoformat())
    return Option(f"Plan with the rulebook of {_day(dated)}.", (change,))


def _changed(job: Job, before: Answers, after: Answers | None) -> list[str]:
    """Return what differs between the answers of two editions, each as a part of a sentence."""
    if after is None:
        return ["the job cannot be planned"]
    found = []
    extra = after.price_minor - before.price_minor
    if extra:
        amount = units.minor_to_text(abs(extra), job.identity.currency)
        found.append(f"the price is {amount} {'higher' if extra > 0 else 'lower'}")
    for what, apart in (
        ("finished levels differ", _apart(before.levels_mm, after.levels_mm)),
        ("the depth of the build-up differs", _apart(before.depths_mm, after.depths_mm)),
    ):
        if apart is None or apart > _SAME_MM:
            found.append(what if apart is None else f"{what} by up to {apart:.1f} mm")
    found += [f"this is new: {one.message}" for key, one in after.findings.items() if key not in before.findings]
    found += [f"this falls away: {one.message}" for key, one in before.findings.items() if key not in after.findings]
    return [each.rstrip(".") for each in found]


def _apart(old: Mapping[_K, float], new: Mapping[_K, float]) -> float | None:
    """Return by how much numbers differ at most; None where they are not of the same things."""
    if old.keys() != new.keys():
        return None
    return max((abs(new[key] - old[key]) for key in old), default=0.0)


def _figure_words(change: FigureChange) -> str:
    known = change.after or change.before
    label = known.label if known is not None else ""
    return f"{label}, {_number(change.before)} before and {_number(change.after)} now"


def _number(figure: Figure | None) -> str:
    if figure is None:
        return "none"
    ends = "" if figure.low is None or figure.high is None else f" ({figure.low:g} to {figure.high:g})"
    return f"{_measured(figure)}{ends}"


def _measured(figure: Figure) -> str:
    if figure.unit == "1 in n":
        return f"1 in {figure.value:g}"
    return f"{figure.value:g}" if figure.unit == "-" else f"{figure.value:g} {figure.unit}"


def _some(parts: Sequence[str]) -> str:
    more = len(parts) - _SHOWN
    return "; ".join(parts[:_SHOWN]) + (f"; and {more} more" if more > 0 else "")


def _day(date: dt.date) -> str:
    return date.isoformat()
