"""Sums of strings."""

from __future__ import annotations

from pavewright.setting_out._strings import down_from_string
from pavewright.setting_out.errors import ERROR_SUMS
from pavewright.setting_out.hanging import HANGING_SUMS
from pavewright.setting_out.shapes import SHAPE_SUMS
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def layers_below_string(string_mm: float, finished_mm: float, thicknesses_mm: tuple[float, ...]) -> dict[str, Value]:
    """Return how far the top of each layer, and at last the formation, lies below a string.

    Source: definition
    """
    if string_mm < finished_mm:
        message = "The string runs over the finished surface: give its level as the higher one."
        raise SumRefusedError(message)
    if any(thickness < 0.0 for thickness in thicknesses_mm):
        message = "A layer is not thinner than zero: measure its thickness again."
        raise SumRefusedError(message)
    down = down_from_string(string_mm - finished_mm, thicknesses_mm)
    return {"down_mm": down, "formation_mm": string_mm - down[-1]}


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
        layers_below_string,
    ),
    *ERROR_SUMS,
    *HANGING_SUMS,
    *SHAPE_SUMS,
)
