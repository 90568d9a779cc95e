"""Coursed laying in several widths: each course in one unit, the units mixed, joints of neighbours kept apart."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from pavewright.laying.patterns._placing import Placing, joined_placings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.laying.patterns._bond import Bond, Box

_SHIFTS = 8
"""So many shifts of a course are tried; the one whose joints lie farthest from those of the course before is taken."""
_MAX_COURSES = 20_000
"""No home has more courses: the search for the joints of a course stops there."""
_MASK = (1 << 64) - 1


def coursed(bond: Bond, box: Box) -> Placing:
    """Return courses of mixed widths that cover a box.

    In every row of as many courses as there are units each unit comes once, in an order drawn from the mix.
    """
    x1, _, x2, _ = box
    found = [_course(bond, number, size, y, shift, x1, x2) for number, size, y, shift in _courses(bond, box)]
    # a box that lies in a joint between two courses holds none
    return joined_placings(found or [_course(bond, 0, _drawn(bond, 0), 0.0, 0.0, x1, x2)])


def coursed_period(bond: Bond) -> tuple[float, float]:
    """Return the shifts along and across that are worth trying; the mix itself never repeats. [mm]."""
    return bond.pitch_along_mm, max(size.across_mm for size in bond.sizes) + bond.joint_mm


def _courses(bond: Bond, box: Box) -> Iterator[tuple[int, int, float, float]]:
    """Give number, size, near edge and shift of every course that lies in a box, counted from the one at the start."""
    _, y1, _, y2 = box
    for step in (1, -1):
        number, y, shift = 0, 0.0, 0.0
        size = _drawn(bond, 0)
        while abs(number) < _MAX_COURSES and (y < y2 if step > 0 else y > y1):
            if step > 0 and y + bond.sizes[size].across_mm > y1:
                yield number, size, y, shift
            before, at, deep = size, shift, bond.sizes[size].across_mm
            number += step
            size = _drawn(bond, number)
            shift = _apart(bond, number, size, before, at)
            y += deep + bond.joint_mm if step > 0 else -(bond.sizes[size].across_mm + bond.joint_mm)
            if step < 0 and y < y2:
                yield number, size, y, shift


def _course(bond: Bond, number: int, size: int, y: float, shift: float, x1: float, x2: float) -> Placing:
    pitch = bond.sizes[size].along_mm + bond.joint_mm
    columns = np.arange(math.floor(x1 / pitch) - 1, math.ceil(x2 / pitch) + 1)
    x = columns * pitch + shift
    count = len(x)
    return Placing(
        x_mm=x,
        y_mm=np.full(count, y),
        turn_deg=np.zeros(count),
        along_mm=np.full(count, bond.sizes[size].along_mm),
        across_mm=np.full(count, bond.sizes[size].across_mm),
        course=np.full(count, number, dtype=np.int64),
        order=x,
        size=np.full(count, size, dtype=np.int64),
    )


def _drawn(bond: Bond, number: int) -> int:
    """Return which size a course has: a shuffled row of all sizes, then the next."""
    count = len(bond.sizes)
    row, place = divmod(number, count)
    order = sorted(range(count), key=lambda size: _scrambled(bond.mix, row, size))
    return order[place]


def _apart(bond: Bond, number: int, size: int, before: int, at: float) -> float:
    """Return the shift of a course whose joints lie farthest from those of its neighbour nearer the start. [mm]."""
    mine, other = (bond.sizes[each].along_mm + bond.joint_mm for each in (size, before))
    first = _scrambled(bond.mix, number, _MASK) / _MASK
    best, farthest = 0.0, -1.0
    for turn in range(_SHIFTS):
        shift = ((first + turn / _SHIFTS) % 1.0) * mine
        joints = shift + np.arange(math.ceil(2.0 * other / mine) + 2) * mine
        off = (joints - at) % other
        nearest = float(np.minimum(off, other - off).min())
        if nearest > farthest + 1e-9:
            best, farthest = shift, nearest
    return best


def _scrambled(*words: int) -> int:
    """Return a number that looks drawn by lot and is the same everywhere for the same words.

    Source: definition, the finishing steps of a 64-bit multiply and shift generator
    """
    state = 0
    for word in words:
        state = (state + word + 0x9E3779B97F4A7C15) & _MASK
        state = ((state ^ (state >> 30)) * 0xBF58476D1CE4E5B9) & _MASK
        state = ((state ^ (state >> 27)) * 0x94D049BB133111EB) & _MASK
        state ^= state >> 31
    return state
