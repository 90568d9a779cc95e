"""Sums of strings."""

from __future__ import annotations

from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def down_from_string(string_mm: float, finished_mm: float, thicknesses_mm: tuple[float, ...]) -> dict[str, Value]:
    """Return how far the top of each layer, and at last the formation, lies below a string.

    Source: definition
    """
    if string_mm < finished_mm:
        message = "The string runs over the finished surface: give its level as the higher one."
        raise SumRefusedError(message)
    if any(thickness < 0.0 for thickness in thicknesses_mm):
        message = "A layer is not thinner than nothing: measure its thickness again."
        raise SumRefusedError(message)
    down = [string_mm - finished_mm]
    for thickness in thicknesses_mm:
        down.append(down[-1] + thickness)
    return {"down_mm": tuple(down), "formation_mm": string_mm - down[-1]}


SUMS: tuple[Sum, ...] = (
    Sum(
        "down-from-string",
        "Find how far each layer lies below a string",
        (
            Quantity("string_mm", "mm", "level of the string"),
            Quantity("finished_mm", "mm", "finished level under it"),
            Quantity("thicknesses_mm", "mm", "layers from the top down", kind="numbers"),
        ),
        (
            Quantity("down_mm", "mm", "finished surface, then the underside of each layer", kind="numbers"),
            Quantity("formation_mm", "mm", "level of the formation"),
        ),
        "down = string − finished + thicknesses so far",
        "definition",
        down_from_string,
    ),
)
