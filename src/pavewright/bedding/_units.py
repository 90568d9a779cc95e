"""The units of an area as they are read: four corners with the level wanted at each, and the seams between them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import Point, Polygon

from pavewright.laying import PieceKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY, FoldedSurface
    from pavewright.laying import LaidArea, Piece

LETTERS = "ABCD"
"""What the corners of a unit are called, in order round it."""


@dataclass(frozen=True, slots=True)
class UnitToLay:
    """One unit with the corners at which it is read.

    Attributes:
        piece: Its number in the laying plan.
        course: Its course.
        unit: Name of the paving unit.
        cut: Whether it was cut.
        corners: Three or four corners, anticlockwise from the one nearest to where its course begins. [mm]
        wanted_mm: Finished level planned at each. [mm]
        area_m2: [m²]
    """

    piece: int
    course: int
    unit: str
    cut: bool
    corners: tuple[XY, ...]
    wanted_mm: tuple[float, ...]
    area_m2: float

    @property
    def centre(self) -> XY:
        """The mean of its corners. [mm]."""
        many = len(self.corners)
        return sum(x for x, _ in self.corners) / many, sum(y for _, y in self.corners) / many


@dataclass(frozen=True, slots=True)
class Seam:
    """Where two units stand side by side: which sides, and how far along each its two ends lie.

    Attributes:
        first: Number of the one piece.
        first_side: Its side: from the corner of this number to the next.
        first_part: How far along that side the two ends lie. [-]
        second: Number of the other piece.
        second_side: Its side.
        second_part: How far along that the same two ends lie. [-]
    """

    first: int
    first_side: int
    first_part: tuple[float, float]
    second: int
    second_side: int
    second_part: tuple[float, float]


def read_one_by_one(laid: LaidArea, smallest_m2: float) -> bool:
    """Return whether the units of an area are read each by itself: large enough, and not so many that nobody would.

    Args:
        laid: The area.
        smallest_m2: Smallest unit that is tapped and read by itself. [m²]
    """
    largest = max((piece.area_m2 for piece in laid.pieces), default=0.0)
    return largest >= smallest_m2 and len(laid.pieces) <= _TOO_MANY


_TOO_MANY = 2500
"""So many units at most are read one by one. [-]"""


def units_to_lay(laid: LaidArea, surface: FoldedSurface) -> tuple[UnitToLay, ...]:
    """Return the units of an area in the order of laying; a piece without three corners is left out."""
    found = []
    for piece in laid.pieces:
        corners = reading_corners(piece, laid.bearing_deg)
        if corners is None:
            continue
        wanted = tuple(round(surface.level_at(corner), 3) for corner in corners)
        cut = piece.kind is PieceKind.CUT
        found.append(UnitToLay(piece.number, piece.course, piece.unit, cut, corners, wanted, piece.area_m2))
    return tuple(found)


def reading_corners(piece: Piece, bearing_deg: float) -> tuple[XY, ...] | None:
    """Return the corners at which a piece is read: those of its outline that are nearest to the corners of its box.

    Args:
        piece: The piece.
        bearing_deg: Direction of the courses, degrees clockwise from the y axis. [deg]
    """
    outline = piece.shape.polygon
    ring = [(float(x), float(y)) for x, y in outline.exterior.coords[:-1]]
    box = outline.minimum_rotated_rectangle
    if not isinstance(box, Polygon):
        return None
    turned = math.radians(bearing_deg)
    along, across = (math.sin(turned), math.cos(turned)), (-math.cos(turned), math.sin(turned))

    def early(at: XY) -> float:
        """How far a place lies along its course and up the courses; across counts a little more, so squares agree."""
        east, north = at[0] - ring[0][0], at[1] - ring[0][1]
        return east * (along[0] + _MORE * across[0]) + north * (along[1] + _MORE * across[1])

    frame = [(float(x), float(y)) for x, y in shapely.orient_polygons(box).exterior.coords[:-1]]
    first = min(range(len(frame)), key=lambda number: (round(early(frame[number]), 3), number))
    near = [min(ring, key=lambda at: math.dist(at, frame[(first + step) % len(frame)])) for step in range(len(frame))]
    found = list(dict.fromkeys((round(x, 3), round(y, 3)) for x, y in near))
    enough = len(found) >= _TRIANGLE and abs(Polygon(found).area) > 0.0
    return tuple(found) if enough else None


_TRIANGLE = 3
_MORE = 1.01
"""A little more than one. [-]"""


def seams(units: Sequence[UnitToLay], laid: LaidArea) -> tuple[Seam, ...]:
    """Return where units of an area stand side by side, each pair once, in the order of laying."""
    if not units:
        return ()
    shapes = {piece.number: piece.shape.polygon for piece in laid.pieces}
    outlines = [shapes[unit.piece] for unit in units]
    apart_mm = _APART * laid.joint_mm + _CLOSE
    tree = shapely.STRtree(outlines)
    pairs = tree.query(outlines, predicate="dwithin", distance=apart_mm).T.tolist()
    found = []
    for one, other in sorted((one, other) for one, other in pairs if one < other):
        line = shapely.intersection(outlines[one].exterior, outlines[other].buffer(apart_mm, quad_segs=2))
        ends = _ends(line)
        if ends is not None:
            first, second = units[one], units[other]
            side, part = _on_side(first.corners, ends)
            far_side, far_part = _on_side(second.corners, ends)
            found.append(Seam(first.piece, side, part, second.piece, far_side, far_part))
    return tuple(found)


_APART = 1.5
"""Units this many joints apart still stand side by side. [-]"""
_CLOSE = 1.0
_SHORT = 30.0


def _ends(line: shapely.Geometry) -> tuple[XY, XY] | None:
    """Return the two places of a seam that lie farthest apart; None where it is hardly longer than a corner."""
    places = [(float(x), float(y)) for x, y in shapely.get_coordinates(line)]
    if not places:
        return None
    start = max(places, key=lambda at: math.dist(at, places[0]))
    end = max(places, key=lambda at: math.dist(at, start))
    return (start, end) if math.dist(start, end) > _SHORT else None


def _on_side(corners: tuple[XY, ...], ends: tuple[XY, XY]) -> tuple[int, tuple[float, float]]:
    """Return the side of a unit that runs nearest to a seam, and how far along it the ends of the seam lie."""
    middle = Point((ends[0][0] + ends[1][0]) / 2.0, (ends[0][1] + ends[1][1]) / 2.0)
    sides = [
        shapely.linestrings([corner, corners[(number + 1) % len(corners)]]) for number, corner in enumerate(corners)
    ]
    best = min(range(len(sides)), key=lambda number: (round(sides[number].distance(middle), 3), number))
    part = [round(float(sides[best].project(Point(end), normalized=True)), 3) for end in ends]
    return best, (part[0], part[1])
