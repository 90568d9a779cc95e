"""Where to tap a unit and by how much: midway between its middle and a corner, a side or at the middle itself."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.bedding._plate import Plate, sinks

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.geometry import XY


class TapPlace(StrEnum):
    """Where a unit is tapped."""

    MIDDLE = "middle"
    CORNER = "corner"
    SIDE = "side"


@dataclass(frozen=True, slots=True)
class Tap:
    """One place to tap, and what it should do.

    Attributes:
        place: Whether at the middle, or midway between the middle and a corner or a side.
        corners: The corner, or the two corners of the side, that it is meant for; none at the middle.
        at: The place. [mm]
        held: Corners on which somebody stands, so that they do not rise.
        down_mm: How far each corner should go down before it is read again. [mm]
    """

    place: TapPlace
    corners: tuple[int, ...]
    at: XY
    held: tuple[int, ...]
    down_mm: tuple[float, ...]


def places(slab: Plate) -> Iterator[tuple[TapPlace, tuple[int, ...], XY]]:
    """Give every place at which a unit may be tapped: its middle, then towards each corner and each side."""
    yield TapPlace.MIDDLE, (), slab.centre
    many = len(slab.corners)
    for number, corner in enumerate(slab.corners):
        yield TapPlace.CORNER, (number,), slab.at_half(corner)
    for number, (x, y) in enumerate(slab.corners):
        far = slab.corners[(number + 1) % many]
        yield TapPlace.SIDE, (number, (number + 1) % many), slab.at_half(((x + far[0]) / 2.0, (y + far[1]) / 2.0))


@dataclass(frozen=True, slots=True)
class Care:
    """How carefully a unit is tapped.

    Attributes:
        doubt: So many standard deviations of a reading are doubted. [-]
        share_percent: Part of what stands proud that is tapped before the corners are read again. [%]
        gives_percent: How far any corner may go down beyond what was meant, of the largest step meant. [%]
        at_once_mm: The most that a corner is tapped before the corners are read again. [mm]
        floor_mm: How far below what is wanted each corner may not come, readings doubted and the bed giving. [mm]
    """

    doubt: float
    share_percent: float
    gives_percent: float
    at_once_mm: float
    floor_mm: tuple[float, ...]


def best_tap(slab: Plate, over_mm: Sequence[float], sd_mm: Sequence[float], care: Care) -> Tap | None:
    """Return the tap that takes off most of what stands proud and digs no corner below; None where none is safe.

    A tap goes a share of the way to where the first corner would come to what is wanted. Where readings are doubtful it
    goes less far: with every reading too high by its doubt, and every corner that moves giving so much more than meant
    as a bed may, no corner comes below the floor. Of places that do as much the first holds.

    Args:
        slab: The unit.
        over_mm: Plane of the corners over what is wanted. [mm]
        sd_mm: Standard deviation of that at each corner. [mm]
        care: How carefully it is tapped.

    Valid for: a rigid unit on an even bed; common practice holds the far corner.
    Source: common_practice

    >>> from pavewright.bedding._plate import plate
    >>> square = plate([(0.0, 0.0), (600.0, 0.0), (600.0, 600.0), (0.0, 600.0)])
    >>> found = best_tap(square, (0.0, 3.0, 6.0, 3.0), (0.0, 0.0, 0.0, 0.0), Care(2.0, 100.0, 0.0, 9.0, (2.0,) * 4))
    >>> found.place.value, found.corners, found.held, found.down_mm
    ('corner', (2,), (0,), (0.0, 3.0, 6.0, 3.0))
    """
    best, gained = None, 0.0
    gives = care.gives_percent / units.ALL_PERCENT
    for place, corners, at in places(slab):
        move, held = sinks(slab, at)
        meant = (
            min(over / part for over, part in zip(over_mm, move, strict=True) if part > 0.0)
            * care.share_percent
            / units.ALL_PERCENT
        )
        sure = [over - care.doubt * sd + floor for over, sd, floor in zip(over_mm, sd_mm, care.floor_mm, strict=True)]
        safe = min(each / (part + gives) for each, part in zip(sure, move, strict=True) if part > 0.0)
        down = min(meant, safe, care.at_once_mm)
        if down <= 0.0:
            continue
        gain = sum(over * over - (over - down * part) ** 2 for over, part in zip(over_mm, move, strict=True))
        if gain > gained + _EXACT:
            gained = gain
            best = Tap(place, corners, at, held, tuple(round(down * part, 9) for part in move))
    return best


_EXACT = 1e-9
"""What moves by less does not move. [-]"""
