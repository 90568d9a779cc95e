"""Outputs learnt from past jobs: what they took, drawn towards the rulebook by how far either may be off."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.chance import learnt_output
from pavewright.firm._entries import joined, output_key, updated
from pavewright.job import OutputKind, OwnOutput

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.firm._book import FirmBook, PastHours
    from pavewright.job import Job, Pattern
    from pavewright.rules import Figure, Rulebook

_P90 = 1.2816
"""So many standard deviations lie between the mean and the value that one in ten is above, of a normal. [-]"""
_FEW = 3
"""Fewer jobs than these do not say how far jobs scatter. [-]"""


@dataclass(frozen=True, slots=True)
class LearntOutput:
    """What past jobs say of one output.

    Attributes:
        kind: What kind of work, and in which unit it is measured.
        pattern: Of laying blocks: the pattern; None for all.
        jobs: How many jobs.
        own_hours: Their mean. [h]
        book_hours: The rulebook's, at the pace of the crew. [h]
        weight: Weight of the own jobs in what is expected; the rest is the rulebook's. [-]
        hours_each: What is expected. [h]
        error_hours: How far that may be off, standard deviation. [h]
        sd_hours: How far a single job may be off it, standard deviation, its own scatter and the error together. [h]
        own: The output as a job takes it.
    """

    kind: OutputKind
    pattern: Pattern | None
    jobs: int
    own_hours: float
    book_hours: float
    weight: float
    hours_each: float
    error_hours: float
    sd_hours: float
    own: OwnOutput


def learnt_outputs(past: Iterable[PastHours], rules: Rulebook, pace: float = 1.0) -> tuple[LearntOutput, ...]:
    """Return what past jobs say of outputs, in the order of the kinds of work.

    A job's output is its hours over its amount; jobs weigh alike. Crews differ from the rulebook's figure as its ends
    say, four of five of them lying within; jobs of one crew scatter as they do, or as the rulebook says where there are
    fewer than three.

    Args:
        past: Hours of past jobs, as the book of the firm holds them.
        rules: The rulebook, for what the trade takes.
        pace: The crew's pace: the rulebook's hours are divided by it. [-]
    """
    jobs: dict[tuple[OutputKind, Pattern | None], list[PastHours]] = {}
    for each in past:
        pattern = each.pattern if each.kind is OutputKind.LAY_BLOCKS else None
        jobs.setdefault((each.kind, pattern), []).append(each)
    order = list(OutputKind)
    keys = sorted(jobs, key=lambda key: (order.index(key[0]), "" if key[1] is None else key[1].value))
    return tuple(_learnt(key, jobs[key], rules, pace) for key in keys)


def _learnt(
    key: tuple[OutputKind, Pattern | None], jobs: list[PastHours], rules: Rulebook, pace: float
) -> LearntOutput:
    kind, pattern = key
    figure = _figure(kind, pattern, rules)
    book = figure.value / pace
    own = [each.person_hours / each.amount for each in jobs]
    mean = math.fsum(own) / len(own)
    scatter = _scatter(own, mean) or rules.value("chance.job_scatter_percent") / 100.0 * mean
    found = learnt_output(book, _crews_differ(figure, pace, rules), own, scatter)
    sd = math.hypot(scatter, found.sd)
    taken = OwnOutput(
        kind=kind,
        pattern=pattern,
        hours_each=found.value,
        sd_hours=sd,
        jobs=len(own),
        note=f"{len(own)} past jobs, drawn towards the rulebook: weight {found.weight:.2f}, ± {found.sd:.3f} h",
    )
    return LearntOutput(kind, pattern, len(own), mean, book, found.weight, found.value, found.sd, sd, taken)


def _scatter(own: list[float], mean: float) -> float | None:
    """Return how far own jobs scatter; None where they are too few to say, or all alike."""
    if len(own) < _FEW:
        return None
    return math.sqrt(math.fsum((each - mean) ** 2 for each in own) / (len(own) - 1)) or None


def _figure(kind: OutputKind, pattern: Pattern | None, rules: Rulebook) -> Figure:
    """Return the rulebook's output: of the pattern where it has one of its own."""
    of_pattern = None if pattern is None else rules.figures.get(f"cost.lay_{pattern.value}_h_per_m2")
    return rules.figure(f"cost.{kind.value}") if of_pattern is None else of_pattern


def _crews_differ(figure: Figure, pace: float, rules: Rulebook) -> float:
    """Return how far crews differ from a figure, standard deviation. [h]."""
    low = figure.value if figure.low is None else figure.low
    high = figure.value if figure.high is None else figure.high
    if high > low:
        return (high - low) / (2.0 * _P90) / pace
    return rules.value("chance.crew_scatter_percent") / 100.0 * figure.value / pace


def with_learnt(job: Job, book: FirmBook | None, rules: Rulebook) -> Job:
    """Return a job whose crew has the outputs that past jobs of the book say, where it has none of its own for them.

    A job that was quoted keeps the outputs that it was quoted with.

    Args:
        job: The job, with what it takes from the book.
        book: The book of the firm.
        rules: The rulebook.
    """
    if book is None or not book.past or job.quoted is not None:
        return job
    learnt = (each.own for each in learnt_outputs(book.past, rules, job.crew.pace))
    return updated(job, crew=updated(job.crew, outputs=joined(job.crew.outputs, learnt, output_key)))
