"""What own jobs say: an average of few is drawn towards what is known of many, by how far each may be off."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

_MIN_GROUPS = 4
"""Groups below this cannot say how they differ: the estimator takes three of them for itself. [-]"""


@dataclass(frozen=True, slots=True)
class Learnt:
    """What is expected after looking at own jobs.

    Attributes:
        value: The estimate. [unit of the output]
        sd: How far it may be off, standard deviation. [unit of the output]
        weight: Weight of the own jobs in it, 0 to 1; the rest is the book's. [-]
    """

    value: float
    sd: float
    weight: float


def learnt_output(book: float, book_sd: float, own: Sequence[float], job_sd: float | None = None) -> Learnt:
    """Return an output drawn from a book's figure towards own jobs, each by how far it may be off.

    Args:
        book: Figure of the book. [unit of the output]
        book_sd: How far crews differ from it. [unit of the output]
        own: What each own job took. [unit of the output]
        job_sd: How far one job scatters about its crew's output; None takes the scatter of the jobs themselves, of
            which there are to be three or more. [unit of the output]

    Valid for: book_sd > 0; job_sd > 0, or three jobs that differ.
    Source: empirical_bayes, normal prior and normal scatter: weight = n · V / (n · V + s²)

    >>> found = learnt_output(10.0, 2.0, [8.0, 8.0, 8.0, 8.0], 3.0)
    >>> round(found.weight, 2), round(found.value, 2), round(found.sd, 2)
    (0.64, 8.72, 1.2)
    """
    count = len(own)
    if not count:
        return Learnt(book, book_sd, 0.0)
    mean = math.fsum(own) / count
    if job_sd is None:
        if count < _MIN_GROUPS - 1:
            message = "Two jobs do not say how far jobs scatter: give the scatter of a job, or three jobs."
            raise ValueError(message)
        job_sd = math.sqrt(math.fsum((each - mean) ** 2 for each in own) / (count - 1))
    between, within = count * book_sd**2, job_sd**2
    weight = between / (between + within)
    return Learnt(book + weight * (mean - book), book_sd * math.sqrt(1.0 - weight), weight)


def credible(own_mean: float, count: float, book: float, within: float, between: float) -> Learnt:
    """Return a mean drawn towards the book's by credibility.

    Args:
        own_mean: Own mean. [unit of the output]
        count: How many exposures it is the mean of. [-]
        book: Mean of all. [unit of the output]
        within: Variance of one exposure about its own mean. [unit of the output, squared]
        between: Variance of the means about that of all. [unit of the output, squared]

    Valid for: count > 0; between > 0; within ≥ 0.
    Source: credibility_notes, Z = n / (n + within / between)

    >>> round(credible(11.1111, 1800.0, 20.0, 8000.0, 40.0).value)
    12
    """
    weight = count / (count + within / between)
    return Learnt(book + weight * (own_mean - book), math.sqrt(between * (1.0 - weight)), weight)


def shrunk(means: Sequence[float], variance: float) -> tuple[float, float, tuple[float, ...]]:
    """Return the centre of groups, the part of its distance that each keeps, and the groups drawn towards the centre.

    Args:
        means: Mean of each group. [unit of the means]
        variance: Variance of the mean of one group about what it would be in the long run. [unit of the means, squared]

    Valid for: four groups or more that differ.
    Source: efron_morris, c = 1 − (k − 3) · variance / sum of squares, not less than zero
    """
    count = len(means)
    if count < _MIN_GROUPS:
        message = f"{_MIN_GROUPS} groups or more say how groups differ."
        raise ValueError(message)
    centre = math.fsum(means) / count
    squares = math.fsum((each - centre) ** 2 for each in means)
    kept = max(0.0, 1.0 - (count - 3) * variance / squares) if squares > 0.0 else 0.0
    return centre, kept, tuple(centre + kept * (each - centre) for each in means)
