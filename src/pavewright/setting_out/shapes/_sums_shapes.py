"""Sums of shapes that are set out by string."""

from __future__ import annotations

from pavewright.setting_out.shapes._ellipse import ellipse_by_string, ellipse_offset_mm
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def ellipse(length_mm: float, width_mm: float, from_middle_mm: tuple[float, ...]) -> dict[str, Value]:
    """Return pins and string of an ellipse, and offsets from its long axis.

    Source: ellipse_string
    """
    if not 0.0 < width_mm <= length_mm:
        message = "The width is more than zero and no more than the length."
        raise SumRefusedError(message)
    if any(abs(each) > length_mm / 2.0 for each in from_middle_mm):
        message = "An offset is asked for past the end of the long axis: places count from its middle, either way."
        raise SumRefusedError(message)
    found = ellipse_by_string(length_mm, width_mm)
    return {
        "pins_apart_mm": found.pins_apart_mm,
        "pin_from_middle_mm": found.pin_from_middle_mm,
        "loop_mm": found.loop_mm,
        "open_mm": found.open_mm,
        "offsets_mm": tuple(ellipse_offset_mm(length_mm, width_mm, each) for each in from_middle_mm),
    }


SHAPE_SUMS: tuple[Sum, ...] = (
    Sum(
        "ellipse-by-string",
        "Set out an ellipse with two pins and a string",
        (
            Quantity("length_mm", "mm", "long axis"),
            Quantity("width_mm", "mm", "short axis"),
            Quantity("from_middle_mm", "mm", "places on the long axis at which offsets are wanted", "numbers", ()),
        ),
        (
            Quantity("pins_apart_mm", "mm", "between the two pins, on the long axis"),
            Quantity("pin_from_middle_mm", "mm", "from the middle to each pin"),
            Quantity("loop_mm", "mm", "string tied in a loop round both pins"),
            Quantity("open_mm", "mm", "open string, an end on each pin"),
            Quantity("offsets_mm", "mm", "offsets from the long axis at the places asked for", "numbers"),
        ),
        "pins √(L² − W²) apart; loop L + that",
        "ellipse_string",
        ellipse,
    ),
)
