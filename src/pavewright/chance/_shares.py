"""Shares of the spread: how much of the variance of an answer comes from which cause."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.chance._draws import even_draws

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Share:
    """What one cause has of the variance of an answer.

    Attributes:
        first: Share that it has by itself. [-]
        total: Share with all that it does together with others. [-]
        first_error: Standard error of the first. [-]
        total_error: Standard error of the second. [-]
    """

    first: float
    total: float
    first_error: float
    total_error: float


def variance_shares(
    answer: Callable[[NDArray[np.float64]], NDArray[np.float64]],
    causes: int,
    draws: int,
    seed: int,
    report: Callable[[int], None] | None = None,
) -> tuple[Share, ...]:
    """Return the Sobol share of every cause: first order by Saltelli's estimator, total by Jansen's.

    Two sets of draws are taken; for each cause the answer is worked out once more with that cause taken from the
    second set. First: mean of f_B · (f_AB − f_A) over the variance. Total: half the mean of (f_A − f_AB)² over it.
    Answers are centred first, which leaves the shares and lessens their error. Both hold where answers jump by whole
    packs; the causes are to be drawn independently.

    Args:
        answer: Takes even draws, shape (draws, causes), and returns answers, shape (draws,).
        causes: How many causes. [-]
        draws: How many draws in each set, a power of two. [-]
        seed: Which of the scramblings. [-]
        report: Takes the number of each cause before it is looked at; may raise to stop the work.

    Source: saltelli_2010, table 2, estimators b and f
    """
    both = even_draws(draws, 2 * causes, seed)
    from_one, from_two = answer(both[:, :causes]), answer(both[:, causes:])

    def each_swapped() -> Iterator[NDArray[np.float64]]:
        for cause in range(causes):
            if report is not None:
                report(cause)
            yield answer(swapped(both, cause))

    return shares_of(from_one, from_two, each_swapped())


def swapped(both: NDArray[np.float64], cause: int) -> NDArray[np.float64]:
    """Return the first set of draws with one cause taken from the second.

    Args:
        both: The two sets side by side, shape (draws, 2 × causes), float64. [-]
        cause: Which cause. [-]

    Source: saltelli_2010, the matrix A with one column of B
    """
    causes = both.shape[1] // 2
    found = both[:, :causes].copy()
    found[:, cause] = both[:, causes + cause]
    return found


def shares_of(
    from_one: NDArray[np.float64], from_two: NDArray[np.float64], from_swapped: Iterable[NDArray[np.float64]]
) -> tuple[Share, ...]:
    """Return the Sobol share of every cause from answers that were worked out before, wherever that was.

    Args:
        from_one: Answers to the first set of draws, shape (draws,), float64. [any unit]
        from_two: Answers to the second, likewise. [any unit]
        from_swapped: For each cause the answers to the first set with that cause taken from the second, likewise.
            [any unit]

    Source: saltelli_2010, table 2, estimators b and f
    """
    middle = float(np.mean(np.concatenate((from_one, from_two))))
    from_one, from_two = from_one - middle, from_two - middle
    variance = float(np.var(np.concatenate((from_one, from_two))))
    found = []
    for each in from_swapped:
        if variance <= 0.0:
            found.append(Share(0.0, 0.0, 0.0, 0.0))
            continue
        centred = each - middle
        first = from_two * (centred - from_one) / variance
        total = 0.5 * (from_one - centred) ** 2 / variance
        found.append(Share(float(first.mean()), float(total.mean()), _error(first), _error(total)))
    return tuple(found)


def _error(terms: NDArray[np.float64]) -> float:
    """Return the standard error of the mean of terms as if they were drawn at random: more than that of even draws."""
    return float(terms.std(ddof=1)) / math.sqrt(len(terms))
