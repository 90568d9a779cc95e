"""Sums of cars on slopes: crest, sag, transitions, and a car over any profile."""

from __future__ import annotations

import math

from pavewright.levels.cars._grounding import (
    Car,
    breakover_deg,
    crest_change,
    crest_curve_mm,
    crest_radius_mm,
    half_strip_mm,
    over_profile,
    sag_change,
)
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_WHEELBASE = Quantity("wheelbase_mm", "mm", "from front to rear wheels", figure="levels.car_wheelbase_mm")
_ROOM = Quantity("room_mm", "mm", "room under the car that may be used, margin taken off")


def _lengths(*given: float) -> None:
    if min(given) <= 0.0:
        message = "Wheelbase, room and overhang are lengths more than zero: measure the car."
        raise SumRefusedError(message)


def gradient(one_in: float) -> dict[str, Value]:
    """Return a gradient as a percentage and an angle.

    Source: definition
    """
    if one_in <= 0.0:
        message = "n of 1 in n is more than zero."
        raise SumRefusedError(message)
    return {"percent": 100.0 / one_in, "angle_deg": math.degrees(math.atan(1.0 / one_in))}


def car_crest(room_mm: float, wheelbase_mm: float, change_percent: float) -> dict[str, Value]:
    """Return what a car passes at a crest, and how a greater change of gradient is eased.

    Source: definition; angle by the encyclopaedia article on the breakover angle
    """
    _lengths(room_mm, wheelbase_mm)
    if change_percent < 0.0:
        message = "Give the change of gradient at the crest as a percentage of zero or more."
        raise SumRefusedError(message)
    change = change_percent / 100.0
    strip = half_strip_mm(change, room_mm, wheelbase_mm)
    return {
        "angle_deg": breakover_deg(room_mm, wheelbase_mm),
        "change_percent_max": 100.0 * crest_change(room_mm, wheelbase_mm),
        "radius_mm": crest_radius_mm(room_mm, wheelbase_mm),
        "curve_mm": crest_curve_mm(change, room_mm, wheelbase_mm),
        "strip_mm": strip if math.isfinite(strip) else -1.0,
    }


def car_sag(end_mm: float, overhang_mm: float) -> dict[str, Value]:
    """Return the greatest change of gradient in a sharp sag.

    Source: definition
    """
    _lengths(end_mm, overhang_mm)
    change = sag_change(end_mm, overhang_mm)
    return {"change_percent_max": 100.0 * change, "angle_deg": math.degrees(math.atan(change))}


def car_over_profile(
    along_mm: tuple[float, ...],
    level_mm: tuple[float, ...],
    wheelbase_mm: float,
    room_mm: float,
    overhang_mm: float,
    end_mm: float,
) -> dict[str, Value]:
    """Return how much of the room under a car a profile takes, and whether that is too much.

    Source: definition
    """
    _lengths(wheelbase_mm, room_mm, overhang_mm, end_mm)
    if len(along_mm) != len(level_mm):
        message = "Give as many levels as places."
        raise SumRefusedError(message)
    met = over_profile(along_mm, level_mm, Car(wheelbase_mm, room_mm, 0.0, overhang_mm, end_mm))
    return {
        "between_mm": met.between_mm,
        "between_at_mm": met.between_at_mm,
        "ends_mm": met.ends_mm,
        "verdict": "grounds" if met.between_mm > room_mm or met.ends_mm > end_mm else "passes",
    }


SUMS: tuple[Sum, ...] = (
    Sum(
        "gradient",
        "Find a gradient as a percentage and an angle",
        (Quantity("one_in", "", "n of 1 in n"),),
        (Quantity("percent", "%", "gradient"), Quantity("angle_deg", "deg", "angle to the level")),
        "percent = 100 / n; angle = atan(1/n)",
        "definition",
        gradient,
    ),
    Sum(
        "car-crest",
        "Find what a car passes at a crest without grounding between its wheels",
        (_ROOM, _WHEELBASE, Quantity("change_percent", "%", "change of gradient at the crest", default=0.0)),
        (
            Quantity("angle_deg", "deg", "sharpest angle of a crest"),
            Quantity("change_percent_max", "%", "greatest change of gradient at one place"),
            Quantity("radius_mm", "mm", "smallest radius of a round crest a wheelbase long or more"),
            Quantity("curve_mm", "mm", "length over which this change has to be rounded"),
            Quantity("strip_mm", "mm", "length of one strip at the mean gradient instead; -1 where none is enough"),
        ),
        "angle = 2 atan(2h/W); A = 4h/W; R = W²/8h + h/2; L = 2W - 8h/A; T = 2W - 4√(hW/A)",
        "definition",
        car_crest,
    ),
    Sum(
        "car-sag",
        "Find what a car passes in a sag without touching with its nose or tail",
        (
            Quantity("end_mm", "mm", "room under nose or tail", figure="levels.car_end_mm"),
            Quantity("overhang_mm", "mm", "from the wheel to the end of the car", figure="levels.car_overhang_mm"),
        ),
        (
            Quantity("change_percent_max", "%", "greatest change of gradient at one place"),
            Quantity("angle_deg", "deg", "the same as an angle"),
        ),
        "A = n/o",
        "definition",
        car_sag,
    ),
    Sum(
        "car-over-profile",
        "Find whether a car grounds anywhere on a way of straight gradients",
        (
            Quantity("along_mm", "mm", "places where the gradient changes, ends included", kind="numbers"),
            Quantity("level_mm", "mm", "levels there", kind="numbers"),
            _WHEELBASE,
            _ROOM,
            Quantity("overhang_mm", "mm", "from the wheel to the end of the car", figure="levels.car_overhang_mm"),
            Quantity("end_mm", "mm", "room under nose and tail", figure="levels.car_end_mm"),
        ),
        (
            Quantity("between_mm", "mm", "room taken between the wheels"),
            Quantity("between_at_mm", "mm", "where along the way"),
            Quantity("ends_mm", "mm", "room taken under nose or tail"),
            Quantity("verdict", "", "passes or grounds", kind="word", choices=("passes", "grounds")),
        ),
        "line through both wheels against the ground, wheels at every place of the way",
        "definition",
        car_over_profile,
    ),
)
