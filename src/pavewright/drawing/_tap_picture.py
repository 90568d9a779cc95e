"""How a slab goes down when it is tapped: at its middle, midway to a corner, midway to a side."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.bedding import LETTERS, TapPlace, places, plate, sinks
from pavewright.drawing._scene import MEDIUM, THICK, Circle, Hatch, Path, Region, Scene, Words

if TYPE_CHECKING:
    from pavewright.drawing._scene import Element
    from pavewright.geometry import XY

_SCALE = 10
"""The picture is drawn 1 to 10. [-]"""
_SIDE_MM = 260.0
"""Side of a slab in the picture. [mm]"""
_APART_MM = 560.0
"""From one slab to the next. [mm]"""
_ROUND_MM = 150.0
"""Room round a slab for its words. [mm]"""
_TAP_MM, _HELD_MM, _OUT_MM = 60.0, 46.0, 46.0
_TYPE_MM, _SMALL_MM = 3.4, 2.8
_SHOWN = ((TapPlace.CORNER, (2,)), (TapPlace.SIDE, (1, 2)), (TapPlace.MIDDLE, ()))


def tap_picture() -> Scene:
    """Return three slabs, each with a cross where it is tapped, what is held, and how its corners go down."""
    elements: list[Element] = []
    for number, (place, near) in enumerate(_SHOWN):
        elements += _slab(number * _APART_MM, place, near)
    wide = (len(_SHOWN) - 1) * _APART_MM + _SIDE_MM
    bounds = (-_ROUND_MM, -_ROUND_MM, wide + _ROUND_MM, _SIDE_MM + _ROUND_MM)
    about = (
        "Three slabs with corners A, B, C, D. Tapped midway to C with A held, C goes down twice as far as B and D. "
        "Tapped midway to the side B–C with A and D held, B and C go down alike. "
        "Tapped at its middle all four go down alike."
    )
    return Scene("taps", "Where to tap", tuple(elements), bounds, _SCALE, about)


def _slab(x: float, place: TapPlace, near: tuple[int, ...]) -> list[Element]:
    """Return one slab with its tap; what each corner goes down is the share that the sums give it."""
    ring: tuple[XY, ...] = ((x, 0.0), (x + _SIDE_MM, 0.0), (x + _SIDE_MM, _SIDE_MM), (x, _SIDE_MM))
    slab = plate(ring)
    at = next(spot for kind, corners, spot in places(slab) if kind is place and corners == near)
    move, held = sinks(slab, at)
    middle = slab.centre
    found: list[Element] = [Region((ring,), Hatch.NONE, MEDIUM)]
    for number, corner in enumerate(ring):
        out = (_sign(corner[0] - middle[0]), _sign(corner[1] - middle[1]))
        far = corner[0] + out[0] * _OUT_MM, corner[1] + out[1] * 2.1 * _OUT_MM
        found.append(Words(far, LETTERS[number], _TYPE_MM, bold=True))
        down = corner[0] + out[0] * _OUT_MM, corner[1] + out[1] * 0.9 * _OUT_MM
        found.append(Words(down, _SHARE[round(2.0 * move[number])], _SMALL_MM))
        if number in held:
            inner = corner[0] - out[0] * _HELD_MM, corner[1] - out[1] * _HELD_MM
            found.append(Region((_square(inner),), Hatch.BLACK))
    found.append(Circle(at, _TAP_MM, THICK))
    half = _TAP_MM / 3.0
    found.append(Path(((at[0] - half, at[1]), (at[0] + half, at[1])), THICK))
    found.append(Path(((at[0], at[1] - half), (at[0], at[1] + half)), THICK))
    return found


_SHARE = {0: "0", 1: "½", 2: "1"}
"""Halves of what the nearest corner goes down."""


def _sign(value: float) -> float:
    return 1.0 if value > 0.0 else -1.0


def _square(at: XY) -> tuple[XY, ...]:
    half = _HELD_MM / 2.0
    (x, y) = at
    return (x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)
