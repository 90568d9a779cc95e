"""Quantiles of chi-square, for the band that chance alone explains."""

from __future__ import annotations

import math

_TINY = 1e-300
_CLOSE = 1e-15
_MAX_STEPS = 10_000


def gamma_part(shape: float, limit: float) -> float:
    """Return the regularised lower incomplete gamma function P(shape, limit).

    A power series below ``shape + 1``, a continued fraction above it; both run until they stand still.

    Args:
        shape: Shape, more than zero. [-]
        limit: Upper limit of the integral, not negative. [-]

    Source: definition, γ(a, x) / Γ(a)

    >>> round(gamma_part(1.0, 1.0), 12)
    0.632120558829
    """
    if limit <= 0.0:
        return 0.0
    front = math.exp(shape * math.log(limit) - limit - math.lgamma(shape))
    if limit < shape + 1.0:
        term = total = 1.0 / shape
        for step in range(1, _MAX_STEPS):
            term *= limit / (shape + step)
            total += term
            if term < total * _CLOSE:
                break
        return front * total
    return 1.0 - front * _upper_fraction(shape, limit)


def _upper_fraction(shape: float, limit: float) -> float:
    """Return the continued fraction of the upper part, worked from the front."""
    middle = limit + 1.0 - shape
    numerator, denominator = 1.0 / _TINY, 1.0 / middle
    value = denominator
    for step in range(1, _MAX_STEPS):
        factor = -step * (step - shape)
        middle += 2.0
        denominator = 1.0 / ((factor * denominator + middle) or _TINY)
        numerator = (middle + factor / numerator) or _TINY
        change = denominator * numerator
        value *= change
        if abs(change - 1.0) < _CLOSE:
            break
    return value


def chi_square_quantile(part: float, freedom: int) -> float:
    """Return the value that chi-square stays below with a given chance, by halving an interval.

    Args:
        part: Chance, between 0 and 1. [-]
        freedom: Degrees of freedom, 1 or more. [-]

    Valid for: up to some thousands of degrees of freedom; good to ten digits there.
    Source: definition, inverse of P(freedom / 2, value / 2)

    >>> round(chi_square_quantile(0.975, 3), 4)
    9.3484
    """
    low, high = 0.0, float(freedom)
    while gamma_part(freedom / 2.0, high / 2.0) < part:
        high *= 2.0
    for _ in range(200):
        middle = (low + high) / 2.0
        if middle in {low, high}:
            break
        if gamma_part(freedom / 2.0, middle / 2.0) < part:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def ratio_band(freedom: int, confidence: float) -> tuple[float, float]:
    """Return the band in which the ratio of standard deviations after and before lies by chance.

    Args:
        freedom: Spare observations. [-]
        confidence: Chance that it lies inside, such as 0.95. [-]

    Source: network_examples, √(χ² / r) at both ends

    >>> tuple(round(end, 3) for end in ratio_band(3, 0.95))
    (0.268, 1.765)
    """
    outside = (1.0 - confidence) / 2.0
    low = math.sqrt(chi_square_quantile(outside, freedom) / freedom)
    return low, math.sqrt(chi_square_quantile(1.0 - outside, freedom) / freedom)
