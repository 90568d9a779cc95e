"""A rigid slab on an even bed: how far each place of it sinks for a tap, with corners held or free."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY


@dataclass(frozen=True, slots=True)
class Plate:
    """A rigid slab by its corners, and how its area lies round its middle.

    Attributes:
        corners: Its corners, in order round it. [mm]
        centre: The middle of its area. [mm]
        xx: Second moment of its area over its area, east by east. [mm²]
        yy: The same, north by north. [mm²]
        xy: The same, east by north. [mm²]
    """

    corners: tuple[XY, ...]
    centre: XY
    xx: float
    yy: float
    xy: float

    def at_half(self, place: XY) -> XY:
        """Return the place midway between the middle and another place. [mm]."""
        return (self.centre[0] + place[0]) / 2.0, (self.centre[1] + place[1]) / 2.0


def plate(corners: Sequence[XY]) -> Plate:
    """Return a slab of three or more corners, with the moments of its area.

    Args:
        corners: Its corners, in order round it, either way. [mm]

    Valid for: corners that enclose an area, and sides that do not cross.
    Source: definition, moments of a polygon by its sides

    >>> made = plate([(0.0, 0.0), (600.0, 0.0), (600.0, 400.0), (0.0, 400.0)])
    >>> made.centre, made.xx, made.yy, made.xy
    ((300.0, 200.0), 30000.0, 13333.333333333334, 0.0)
    """
    ring = np.asarray(corners, dtype=np.float64)
    shift = ring.mean(axis=0)
    ring = ring - shift
    after = np.roll(ring, -1, axis=0)
    cross = ring[:, 0] * after[:, 1] - after[:, 0] * ring[:, 1]
    area = float(cross.sum()) / 2.0
    if area == 0.0:
        message = "the corners enclose no area"
        raise ValueError(message)
    x, y = ((ring + after) * cross[:, None]).sum(axis=0) / (6.0 * area)
    squares = (ring * ring + ring * after + after * after) * cross[:, None]
    xx, yy = squares.sum(axis=0) / (12.0 * area)
    mixed = (ring[:, 0] * (2.0 * ring[:, 1] + after[:, 1]) + after[:, 0] * (2.0 * after[:, 1] + ring[:, 1])) * cross
    xy = float(mixed.sum()) / (24.0 * area)
    return Plate(
        tuple((float(one[0]), float(one[1])) for one in corners),
        (float(x + shift[0]), float(y + shift[1])),
        float(xx - x * x),
        float(yy - y * y),
        float(xy - x * y),
    )


def sink(slab: Plate, tap: XY, at: XY) -> float:
    """Return how far a place sinks for a tap at another, as a multiple of what the slab sinks on the whole.

    A rigid slab on even springs sinks as a plane: F/kA · (1 + t' M⁻¹ p), with t and p from the middle of its area and
    M the second moments of its area over its area. For a rectangle a by b that is 1 + 12xX/a² + 12yY/b².

    Args:
        slab: The slab.
        tap: Where it is tapped. [mm]
        at: Where the sinking is asked. [mm]

    Valid for: an even bed that pushes back in proportion; small sinkings; a slab that does not bend.
    Source: definition, equilibrium of a rigid plate on even springs

    >>> slab = plate([(-300.0, -200.0), (300.0, -200.0), (300.0, 200.0), (-300.0, 200.0)])
    >>> [round(sink(slab, (150.0, 100.0), corner), 9) for corner in slab.corners]
    [-2.0, 1.0, 4.0, 1.0]
    """
    spread = slab.xx * slab.yy - slab.xy * slab.xy
    tx, ty = tap[0] - slab.centre[0], tap[1] - slab.centre[1]
    px, py = at[0] - slab.centre[0], at[1] - slab.centre[1]
    return 1.0 + (slab.yy * tx * px - slab.xy * (tx * py + ty * px) + slab.xx * ty * py) / spread


def sinks(slab: Plate, tap: XY) -> tuple[tuple[float, ...], tuple[int, ...]]:
    """Return how far each corner sinks for a tap, and which corners are held so that none rises.

    Corners that would rise are held down one after the other, the one that rises most first: somebody stands on them.
    The largest sinking is one.

    Args:
        slab: The slab.
        tap: Where it is tapped. [mm]

    >>> square = plate([(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)])
    >>> sinks(square, (0.5, 0.5))
    ((0.0, 0.5, 1.0, 0.5), (0,))
    """
    moved, held = moved_by(slab, tap)
    most = max(moved)
    return tuple(0.0 if abs(each) < _EXACT * most else round(each / most, 12) for each in moved), held


def moved_by(slab: Plate, tap: XY) -> tuple[tuple[float, ...], tuple[int, ...]]:
    """Return how far each corner moves for a tap, and which are held, of what all sinks where none is held.

    Whoever holds a corner presses on it just so hard that it does not rise; that press sinks the rest as well, and so
    the nearest corner goes down less than if nobody stood there.

    Args:
        slab: The slab.
        tap: Where it is tapped. [mm]

    Source: definition, equilibrium of a rigid plate on even springs

    >>> square = plate([(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)])
    >>> [round(each * 7.0, 9) for each in moved_by(square, (0.5, 0.5))[0]]
    [0.0, 9.0, 18.0, 9.0]
    """
    held: list[int] = []
    free = np.array([sink(slab, tap, corner) for corner in slab.corners])
    moved = free
    while len(held) < _MOST_HELD and float(moved.min()) < -_EXACT:
        held.append(int(moved.argmin()))
        on = [slab.corners[number] for number in held]
        back = np.array([[sink(slab, one, other) for one in on] for other in on])
        force = np.linalg.solve(back, -free[held])
        push = np.array([[sink(slab, one, corner) for one in on] for corner in slab.corners])
        moved = free + push @ force
        moved[held] = 0.0
    return tuple(map(float, moved)), tuple(sorted(held))


_MOST_HELD = 2
"""More than two corners are never held: a third would hold the tap itself. [-]"""
_EXACT = 1e-9
"""What rises by less does not rise. [-]"""
