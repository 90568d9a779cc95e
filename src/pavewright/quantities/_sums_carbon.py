"""The sum of carbon: amounts times factors, between the ends on which sources disagree."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.sums import Quantity, Sum, SumRefusedError, Value

if TYPE_CHECKING:
    from collections.abc import Sequence


def carbon_kg(
    amounts: Sequence[float], low: Sequence[float], likely: Sequence[float], high: Sequence[float]
) -> tuple[float, float, float]:
    """Return the carbon of amounts by the lower, the likely and the upper factor of each. [kg].

    Ends are added as they stand: all sources low, or all high. A chance is not said.

    Args:
        amounts: How much of each thing. [t, or litre]
        low: Lower factor of each. [kg for a unit]
        likely: Likely factor of each. [kg for a unit]
        high: Upper factor of each. [kg for a unit]

    Source: definition, amount · factor

    >>> carbon_kg((200.0,), (2.331,), (2.331,), (2.331,))
    (466.2, 466.2, 466.2)
    """
    low_kg, likely_kg, high_kg = (
        math.fsum(amount * factor for amount, factor in zip(amounts, factors, strict=True))
        for factors in (low, likely, high)
    )
    return low_kg, likely_kg, high_kg


def carbon(
    amounts: tuple[float, ...], low: tuple[float, ...], likely: tuple[float, ...], high: tuple[float, ...]
) -> dict[str, Value]:
    """Return the carbon of amounts with a factor for each.

    Source: definition, amount · factor
    """
    if not amounts or {len(low), len(likely), len(high)} != {len(amounts)}:
        message = "Give each amount its lower, its likely and its upper factor; with one source all three are alike."
        raise SumRefusedError(message)
    if min(amounts) < 0.0 or not all(0.0 <= a <= b <= c for a, b, c in zip(low, likely, high, strict=True)):
        message = "Amounts are not less than zero, and a likely factor lies between its ends."
        raise SumRefusedError(message)
    low_kg, likely_kg, high_kg = carbon_kg(amounts, low, likely, high)
    return {"low_kg": low_kg, "likely_kg": likely_kg, "high_kg": high_kg}


SUMS: tuple[Sum, ...] = (
    Sum(
        "carbon",
        "Find the carbon of what is bought or burnt, by a factor for each",
        (
            Quantity("amounts", "t", "how much of each: tonnes, or litres with factors for a litre", kind="numbers"),
            Quantity("low", "kg/t", "lower factor of each", kind="numbers"),
            Quantity("likely", "kg/t", "likely factor of each", kind="numbers"),
            Quantity("high", "kg/t", "upper factor of each", kind="numbers"),
        ),
        (
            Quantity("low_kg", "kg", "carbon with all factors low"),
            Quantity("likely_kg", "kg", "carbon with the likely factors"),
            Quantity("high_kg", "kg", "carbon with all factors high"),
        ),
        "factors of one kind and year; what has no factor is left out and has to be named beside the answer",
        "definition, amount · factor",
        carbon,
    ),
)
