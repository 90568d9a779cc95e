"""Where a car grounds: at a crest between its wheels, in a sag with its nose or its tail."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pavewright.sums import SumRefusedError

_STEP_MM = 20.0
"""Places of the rear wheels along a way are no further apart than this. [mm]"""


@dataclass(frozen=True, slots=True)
class Car:
    """A car as the road sees it.

    Attributes:
        wheelbase_mm: From front to rear wheels. [mm]
        clearance_mm: Room under it half way between the wheels. [mm]
        margin_mm: Part of that room that is kept. [mm]
        overhang_mm: From a wheel to the end of the car. [mm]
        end_mm: Room under its ends. [mm]
    """

    wheelbase_mm: float
    clearance_mm: float
    margin_mm: float
    overhang_mm: float
    end_mm: float

    @property
    def room_mm(self) -> float:
        """Room under it that may be used. [mm]."""
        return self.clearance_mm - self.margin_mm


@dataclass(frozen=True, slots=True)
class Grounding:
    """How much of the room under a car a way takes.

    Attributes:
        between_mm: Most that the ground stands above the line of the wheels, between them. [mm]
        between_at_mm: Where along the way. [mm]
        ends_mm: Most that it stands above that line under nose or tail. [mm]
        ends_at_mm: Where along the way. [mm]
    """

    between_mm: float
    between_at_mm: float
    ends_mm: float
    ends_at_mm: float


def breakover_deg(room_mm: float, wheelbase_mm: float) -> float:
    """Return the sharpest angle of a crest that a car passes with its wheels either side of it. [deg].

    Source: encyclopaedia article on the breakover angle, 2 atan(2h/W)
    """
    return math.degrees(2.0 * math.atan(2.0 * room_mm / wheelbase_mm))


def crest_change(room_mm: float, wheelbase_mm: float) -> float:
    """Return the greatest change of gradient at a sharp crest.

    Valid for: gradients up to about one in five.
    Source: definition, 4h/W
    """
    return 4.0 * room_mm / wheelbase_mm


def sag_change(end_mm: float, overhang_mm: float) -> float:
    """Return the greatest change of gradient in a sharp sag.

    Source: definition, n/o
    """
    return end_mm / overhang_mm


def crest_radius_mm(room_mm: float, wheelbase_mm: float) -> float:
    """Return the smallest radius of a round crest at least one wheelbase long. [mm].

    Source: definition, W²/8h + h/2
    """
    return wheelbase_mm**2 / (8.0 * room_mm) + room_mm / 2.0


def crest_curve_mm(change: float, room_mm: float, wheelbase_mm: float) -> float:
    """Return how long a crest has to be rounded for a change of gradient; zero where a sharp one passes. [mm].

    Args:
        change: Change of gradient at the crest. [rise over run]
        room_mm: Room under the car that may be used. [mm]
        wheelbase_mm: Distance between the axles. [mm]

    Source: definition, 2W - 8h/A up to one wheelbase, R times A beyond
    """
    if change <= crest_change(room_mm, wheelbase_mm):
        return 0.0
    short = 2.0 * wheelbase_mm - 8.0 * room_mm / change
    return short if short <= wheelbase_mm else crest_radius_mm(room_mm, wheelbase_mm) * change


def half_strip_mm(change: float, room_mm: float, wheelbase_mm: float) -> float:
    """Return how long one strip at the mean gradient has to be at a crest; infinite where no strip is enough. [mm].

    Args:
        change: Change of gradient at the crest. [rise over run]
        room_mm: Room under the car that may be used. [mm]
        wheelbase_mm: Distance between the axles. [mm]

    Source: definition, A(2W - T)²/16W = h
    """
    if change <= crest_change(room_mm, wheelbase_mm):
        return 0.0
    if change * wheelbase_mm / 8.0 > room_mm:
        return math.inf
    return max(0.0, 2.0 * wheelbase_mm - 4.0 * math.sqrt(room_mm * wheelbase_mm / change))


def over_profile(along_mm: tuple[float, ...], level_mm: tuple[float, ...], car: Car) -> Grounding:
    """Return how much of the room under a car a way of straight gradients takes, whatever the place of its wheels.

    The way runs on beyond both ends at its last gradients. Lengths are taken in plan.

    Args:
        along_mm: Where the gradient changes, ends included, in order. [mm]
        level_mm: Levels there. [mm]
        car: The car.

    Raises:
        SumRefusedError: fewer than two places, or places out of order.

    Source: definition, line through the two wheels against the ground between and beyond them
    """
    place, level = np.array(along_mm, dtype=np.float64), np.array(level_mm, dtype=np.float64)
    if len(place) < 2 or len(place) != len(level) or bool((np.diff(place) <= 0.0).any()):  # noqa: PLR2004
        message = "Give the levels of two places or more along the way, in order."
        raise SumRefusedError(message)
    reach = car.wheelbase_mm + 2.0 * car.overhang_mm
    place = np.concatenate([[place[0] - reach], place, [place[-1] + reach]])
    first = (level[1] - level[0]) / (place[2] - place[1])
    last = (level[-1] - level[-2]) / (place[-2] - place[-3])
    level = np.concatenate([[level[0] - first * reach], level, [level[-1] + last * reach]])
    start, end = place[0] + car.overhang_mm, place[-1] - car.overhang_mm - car.wheelbase_mm
    # wheels half way about each change, and wheels at it, are where the room is least
    exact = np.concatenate([place - car.wheelbase_mm / 2.0, place, place - car.wheelbase_mm])
    even = np.linspace(start, end, max(2, math.ceil((end - start) / _STEP_MM) + 1))
    rear = np.unique(np.clip(np.concatenate([even, exact]), start, end))
    at_rear, at_front = np.interp(rear, place, level), np.interp(rear + car.wheelbase_mm, place, level)
    slope = (at_front - at_rear) / car.wheelbase_mm

    def above(at: np.ndarray, low: float, high: float) -> tuple[float, float]:
        """Return the most that the ground stands above the line of the wheels, from low to high past the rear ones."""
        off = at - rear[:, None]
        over = np.interp(at, place, level) - at_rear[:, None] - slope[:, None] * off
        over = np.where((off >= low) & (off <= high), over, 0.0)
        row, column = np.unravel_index(int(over.argmax()), over.shape)
        return float(over[row, column]), float(np.broadcast_to(at, over.shape)[row, column])

    corners = np.broadcast_to(place, (len(rear), len(place)))
    between = above(corners, 0.0, car.wheelbase_mm)
    long = car.wheelbase_mm + car.overhang_mm
    tips = np.column_stack([rear - car.overhang_mm, rear + long, corners])
    ends = max(above(tips, -car.overhang_mm, 0.0), above(tips, car.wheelbase_mm, long))
    return Grounding(between[0], between[1] - along_mm[0], ends[0], ends[1] - along_mm[0])
