"""Sums of chance."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from pavewright.chance._draws import even_draws
from pavewright.chance._learning import credible, learnt_output, shrunk
from pavewright.chance._orders import order_at_chance
from pavewright.chance._shapes import Even, Normal, Triangle
from pavewright.chance._shares import variance_shares
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

if TYPE_CHECKING:
    from numpy.typing import NDArray

_SEED = 1
_DRAWS = 65_536
_SHARE_DRAWS = 16_384
_MOST = 20
"""So many parts of a sum, or causes of a test function. [-]"""


def sum_of_ranges(
    low: tuple[float, ...], likely: tuple[float, ...], high: tuple[float, ...], shape: str, chance: float, limit: float
) -> dict[str, Value]:
    """Return how the sum of values falls that are each known by their ends.

    Source: definition
    """
    if not len(low) == len(likely) == len(high) or not 1 <= len(low) <= _MOST or not 0.0 < chance < 1.0:
        message = (
            f"Give as many lower ends as likeliest values and upper ends, up to {_MOST}, and a chance within 0 to 1."
        )
        raise SumRefusedError(message)
    if any(not a <= m <= b for a, m, b in zip(low, likely, high, strict=True)):
        message = "Each likeliest value lies between its ends."
        raise SumRefusedError(message)
    ends = zip(low, likely, high, strict=True)
    parts = [Triangle(a, m, b) if shape == "triangle" else Even(a, b) for a, m, b in ends]
    draws = even_draws(_DRAWS, len(parts), _SEED)
    total = sum(part.at(draws[:, number]) for number, part in enumerate(parts)) + np.zeros(_DRAWS)
    mean, variance = math.fsum(part.mean for part in parts), math.fsum(part.variance for part in parts)
    return {
        "mean": mean,
        "variance": variance,
        "at_chance": float(np.quantile(total, chance)),
        "at_chance_normal": float(Normal(mean, math.sqrt(variance)).at(np.array([chance]))[0]),
        "chance_within": float(np.mean(total <= limit)),
    }


def order_for(mean: float, sd: float, short_cost: float, over_cost: float) -> dict[str, Value]:
    """Return the order that costs least in the mean where what is needed is normal.

    Source: newsvendor
    """
    if sd < 0.0 or min(short_cost, over_cost) <= 0.0:
        message = (
            "A standard deviation is not less than zero; what one too few and one too many cost is more than zero."
        )
        raise SumRefusedError(message)
    chance = order_at_chance(short_cost, over_cost)
    return {"chance": chance, "order": float(Normal(mean, sd).at(np.array([chance]))[0])}


def own_output(book: float, book_sd: float, own_mean: float, jobs: float, job_sd: float) -> dict[str, Value]:
    """Return an output drawn from the book's towards the mean of own jobs.

    Source: empirical_bayes
    """
    if min(book_sd, job_sd) <= 0.0 or jobs != int(jobs) or not 0 <= jobs <= _DRAWS:
        message = "Standard deviations are more than zero, and jobs are a whole number."
        raise SumRefusedError(message)
    found = learnt_output(book, book_sd, [own_mean] * int(jobs), job_sd)
    return {"weight": found.weight, "output": found.value, "sd": found.sd}


def credibility(
    means: tuple[float, ...], counts: tuple[float, ...], book: float, within: float, between: float
) -> dict[str, Value]:
    """Return a mean per exposure drawn towards the book's by credibility.

    Source: credibility_notes
    """
    if len(means) != len(counts) or not counts or min(counts) <= 0.0 or between <= 0.0 or within < 0.0:
        message = "Give as many means as counts, counts above zero, and variances that make sense."
        raise SumRefusedError(message)
    mean = math.fsum(each * count for each, count in zip(means, counts, strict=True)) / math.fsum(counts)
    found = credible(mean, math.fsum(counts), book, within, between)
    return {"own_mean": mean, "weight": found.weight, "estimate": found.value, "k": within / between}


def shrink_averages(means: tuple[float, ...], trials: float) -> dict[str, Value]:
    """Return shares of successes drawn towards their centre.

    Source: efron_morris
    """
    if len(means) < 4 or not all(0.0 < each < 1.0 for each in means) or trials < 1.0:  # noqa: PLR2004
        message = "Give four shares or more between zero and one, and how many trials each is of."
        raise SumRefusedError(message)
    middle = math.fsum(means) / len(means)
    centre, kept, estimates = shrunk(means, middle * (1.0 - middle) / trials)
    return {"centre": centre, "kept": kept, "estimates": estimates}


def function_shares(function: str, numbers: tuple[float, ...]) -> dict[str, Value]:
    """Return the shares of the variance of a test function that has them in closed form.

    Source: saltelli_2010
    """
    if function == "sines":
        if len(numbers) != 2:  # noqa: PLR2004
            message = "The function of sines takes two numbers: a and b."
            raise SumRefusedError(message)
        found = variance_shares(lambda draws: _sines(draws, *numbers), 3, _SHARE_DRAWS, _SEED)
    else:
        if not 1 <= len(numbers) <= _MOST or min(numbers) < 0.0:
            message = f"The product takes 1 to {_MOST} numbers, none less than zero."
            raise SumRefusedError(message)
        found = variance_shares(lambda draws: _product(draws, numbers), len(numbers), _SHARE_DRAWS, _SEED)
    return {"first": tuple(each.first for each in found), "total": tuple(each.total for each in found)}


def _sines(draws: NDArray[np.float64], a: float, b: float) -> NDArray[np.float64]:
    one, two, three = (Even(-math.pi, math.pi).at(draws[:, number]) for number in range(3))
    return np.asarray(np.sin(one) * (1.0 + b * three**4) + a * np.sin(two) ** 2, dtype=np.float64)


def _product(draws: NDArray[np.float64], numbers: tuple[float, ...]) -> NDArray[np.float64]:
    a = np.array(numbers)
    return np.asarray(np.prod((np.abs(4.0 * draws - 2.0) + a) / (1.0 + a), axis=1), dtype=np.float64)


SUMS: tuple[Sum, ...] = (
    Sum(
        "sum-of-ranges",
        "Find how a sum falls whose parts are known by their ends",
        (
            Quantity("low", "", "lower ends", "numbers"),
            Quantity("likely", "", "likeliest values", "numbers"),
            Quantity("high", "", "upper ends", "numbers"),
            Quantity(
                "shape",
                "",
                "how each falls: likeliest in the middle, or alike",
                "word",
                "triangle",
                ("triangle", "even"),
            ),
            Quantity("chance", "", "chance that the sum is not exceeded", default=0.8),
            Quantity("limit", "", "a limit of interest", default=0.0),
        ),
        (
            Quantity("mean", "", "mean of the sum"),
            Quantity("variance", "", "its variance"),
            Quantity("at_chance", "", "value not exceeded with the chance, by draws"),
            Quantity("at_chance_normal", "", "the same as if the sum were normal"),
            Quantity("chance_within", "", "chance that the sum is within the limit, by draws"),
        ),
        "mean and variance of independent parts add",
        "definition",
        sum_of_ranges,
    ),
    Sum(
        "order-at-chance",
        "Find the order that costs least in the mean",
        (
            Quantity("mean", "", "mean of what is needed"),
            Quantity("sd", "", "standard deviation of what is needed"),
            Quantity("short_cost", "", "what one too few costs"),
            Quantity("over_cost", "", "what one too many costs"),
        ),
        (Quantity("chance", "", "chance of having enough"), Quantity("order", "", "how much to order")),
        "chance = short / (short + over); order = mean + z(chance) · sd",
        "newsvendor",
        order_for,
    ),
    Sum(
        "own-output",
        "Learn an output from own jobs",
        (
            Quantity("book", "", "output of the book"),
            Quantity("book_sd", "", "how far crews differ from it, standard deviation"),
            Quantity("own_mean", "", "mean output of own jobs"),
            Quantity("jobs", "", "how many jobs"),
            Quantity("job_sd", "", "how far one job scatters, standard deviation"),
        ),
        (
            Quantity("weight", "", "weight of the own jobs"),
            Quantity("output", "", "output to expect"),
            Quantity("sd", "", "how far it may be off, standard deviation"),
        ),
        "weight = n · V / (n · V + s²); output = book + weight · (own − book)",
        "empirical_bayes",
        own_output,
    ),
    Sum(
        "credibility",
        "Weigh own experience against a book's",
        (
            Quantity("means", "", "mean of each period for one exposure", "numbers"),
            Quantity("counts", "", "exposures of each period", "numbers"),
            Quantity("book", "", "mean of all for one exposure"),
            Quantity("within", "", "variance of one exposure about its own mean"),
            Quantity("between", "", "variance of means about that of all"),
        ),
        (
            Quantity("own_mean", "", "own mean for one exposure"),
            Quantity("weight", "", "weight of the own mean"),
            Quantity("estimate", "", "what to expect of one exposure"),
            Quantity("k", "", "exposures at which own and book weigh alike"),
        ),
        "Z = n / (n + k), k = within / between",
        "credibility_notes",
        credibility,
    ),
    Sum(
        "shrink-averages",
        "Draw averages of few trials towards their centre",
        (
            Quantity("means", "", "share of successes of each", "numbers"),
            Quantity("trials", "", "trials that each is of"),
        ),
        (
            Quantity("centre", "", "mean of all"),
            Quantity("kept", "", "part of its distance from the centre that each keeps"),
            Quantity("estimates", "", "what to expect of each", "numbers"),
        ),
        "estimate = centre + c · (mean − centre); c = 1 − (k − 3) · variance / sum of squares",
        "efron_morris",
        shrink_averages,
    ),
    Sum(
        "variance-shares",
        "Check shares of variance against functions that have them in closed form",
        (
            Quantity("function", "", "function of sines, or product", "word", choices=("sines", "product")),
            Quantity("numbers", "", "a and b of the sines; one a for each cause of the product", "numbers"),
        ),
        (
            Quantity("first", "", "share of each cause by itself", "numbers"),
            Quantity("total", "", "share of each with all that it does together with others", "numbers"),
        ),
        "sin x1 + a · sin² x2 + b · x3⁴ · sin x1 on −π to π; or the product of (|4 x − 2| + a) / (1 + a) on 0 to 1",
        "saltelli_2010",
        function_shares,
    ),
)
