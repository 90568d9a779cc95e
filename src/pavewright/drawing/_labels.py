"""Where words may stand: beside their place, clear of other words, and off lines where that can be."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely

from pavewright.drawing._hatches import HATCHES
from pavewright.drawing._scene import DOTTED, HAIR, Arrow, Circle, Hatch, Path, Region

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.drawing._scene import Element
    from pavewright.geometry import XY

Box = tuple[float, float, float, float]

_SIDES = ((1, 1), (1, -1), (-1, 1), (-1, -1), (1, 0), (-1, 0), (0, 1), (0, -1))
"""Beside the place on the right above, on the right below, and so on; a zero stands for level with the place."""
_RINGS_MM = (0.9, 3.5, 6.5, 10.0, 14.0, 19.0, 25.0)
"""How far from its place a label is tried on paper, nearest first; past the first it gets a leader. [mm]"""
_CELL_MM = 12.0
"""Boxes are looked up by cells of this size on paper. [mm]"""
_ON_WORDS, _OUTSIDE, _ON_LINE, _ON_FAINT_LINE, _ON_HATCH = 100.0, 100.0, 1.0, 0.3, 1.2
_ON_LEADER, _AWAY, _A_RING, _A_SIDE = 100.0, 0.8, 0.35, 0.01
"""What it costs to stand on words, past the edge, on a line or a hatch; with a leader over a leader, away from home, a
ring further off, and on a later side: words and leaders never cross. [-]"""
_ON_OPEN_HATCH = 0.5
"""What it costs to hide part of a hatch that tells something. [-]"""
_SOLID = frozenset({Hatch.WALL, Hatch.GREY})


@dataclass(frozen=True, slots=True)
class Spot:
    """A place found for a label: its box, whether it needs a leader and where that ends, and what is wrong with it.

    Attributes:
        bounds_mm: Its box on the site. [mm]
        line: The leader; None where it needs none.
        cost: What is wrong with it, summed up. [-]
    """

    bounds_mm: Box
    line: tuple[XY, XY] | None
    cost: float

    @property
    def free(self) -> bool:
        """Whether the box touches no words and stays on the sheet."""
        return self.cost < _ON_WORDS


class Labels:
    """What is taken on a sheet already."""

    def __init__(self, scale: float) -> None:
        """Start with an empty sheet at a scale."""
        self._scale = scale
        self._cells: dict[tuple[int, int], list[Box]] = {}
        self._leaders: dict[tuple[int, int], list[Box]] = {}
        self.boxes: list[Box] = []
        self._signs: list[Box] = []
        self._starts: list[XY] = []
        self._tree: shapely.STRtree | None = None
        self._costs: list[float] = []

    def lines(self, elements: list[Element]) -> None:
        """Take the lines and hatches that words should keep off where they can."""
        shapes: list[shapely.Geometry] = []
        self._costs = []
        for element in elements:
            if isinstance(element, Path):
                shapes.append(shapely.LineString(element.flat()))
                faint = element.stroke in {HAIR, DOTTED}
                self._costs.append(_ON_FAINT_LINE if faint else _ON_LINE)
            elif isinstance(element, Region) and (element.stroke is not None or element.hatch in {*_SOLID, *HATCHES}):
                ring = shapely.Polygon(element.rings[0])
                shapes.append(ring if element.hatch in _SOLID else ring.exterior)
                self._costs.append(_ON_HATCH if element.hatch in _SOLID else _ON_LINE)
                if element.hatch in HATCHES and element.hatch not in _SOLID:
                    shapes.append(ring)
                    self._costs.append(_ON_OPEN_HATCH)
            elif isinstance(element, Arrow):
                shapes.append(shapely.LineString((element.start, element.end)))
                self._costs.append(_ON_LINE)
            elif isinstance(element, Circle):
                shapes.append(shapely.Point(element.at).buffer(element.diameter_mm / 2.0).exterior)
                self._costs.append(_ON_LINE)
        self._tree = shapely.STRtree(shapes)

    def take(self, box: Box) -> None:
        """Keep words and leaders off a box."""
        self.boxes.append(box)
        self._keep(self._cells, box)

    def take_sign(self, box: Box) -> None:
        """Keep words off a sign; a label that belongs to it stands beside it."""
        self._signs.append(box)
        self.take(box)

    def _reach(self, at: XY) -> tuple[float, float]:
        """Return how far the signs that stand on a point reach from it across and up. [mm]."""
        on = [box for box in self._signs if box[0] <= at[0] <= box[2] and box[1] <= at[1] <= box[3]]
        across = max((max(at[0] - x1, x2 - at[0]) for x1, _, x2, _ in on), default=0.0)
        return across, max((max(at[1] - y1, y2 - at[1]) for _, y1, _, y2 in on), default=0.0)

    def touched(self, box: Box) -> int:
        """Return how many boxes a box touches."""
        return self._count(self._cells, box)

    def taken(self, box: Box) -> bool:
        """Return whether words, a sign or a leader stand in a box."""
        return self._touches(self._cells, box) or self._touches(self._leaders, box)

    def on_dark(self, box: Box) -> bool:
        """Return whether a box lies on a hatch, an arrow or a line that words are hard to read on."""
        if self._tree is None:
            return False
        found = self._tree.query(shapely.box(*box), predicate="intersects")
        return any(self._costs[int(k)] >= _ON_LINE for k in found)

    def take_line(self, start: XY, end: XY) -> None:
        """Keep words and other leaders off a leader."""
        self._starts.append(start)
        for x, y in self._along(start, end):
            half = 0.3 * self._scale
            self._keep(self._leaders, (x - half, y - half, x + half, y + half))

    def _keep(self, cells: dict[tuple[int, int], list[Box]], box: Box) -> None:
        for cell in self._cells_of(box):
            cells.setdefault(cell, []).append(box)

    def _count(self, cells: dict[tuple[int, int], list[Box]], box: Box) -> int:
        x1, y1, x2, y2 = box
        near = {each for cell in self._cells_of(box) for each in cells.get(cell, ())}
        return sum(x1 < b2 and b1 < x2 and y1 < c2 and c1 < y2 for b1, c1, b2, c2 in near)

    def _touches(self, cells: dict[tuple[int, int], list[Box]], box: Box) -> bool:
        """Return whether a box touches any."""
        x1, y1, x2, y2 = box
        return any(
            x1 < b2 and b1 < x2 and y1 < c2 and c1 < y2
            for cell in self._cells_of(box)
            for b1, c1, b2, c2 in cells.get(cell, ())
        )

    def place(
        self,
        at: XY,
        size_mm: tuple[float, float],
        field: Box,
        home: shapely.Polygon | None = None,
        *,
        led: bool = False,
    ) -> Spot:
        """Return the best place for a box beside a point and what stands there.

        Args:
            at: The point. [mm]
            size_mm: Width and height of the box on the site. [mm]
            field: What of the sheet is free for words. [mm]
            home: A shape in which the box had better stay.
            led: Whether it needs a leader however near it stands.
        """
        best: Spot | None = None
        reach = self._reach(at)
        for ring, off in enumerate(_RINGS_MM[led:], start=int(led)):
            for order, side in enumerate(_SIDES):
                least = ring * _A_RING + order * _A_SIDE
                if best is not None and least >= best.cost:
                    continue
                spot = self._spot(at, size_mm, off * self._scale, side, reach, led=ring > 0)
                cost = least + self._cost(spot, at, reach, field, math.inf if best is None else best.cost - least)
                if home is not None and not home.contains(shapely.box(*spot.bounds_mm)):
                    cost += _AWAY
                if best is None or cost < best.cost:
                    best = Spot(spot.bounds_mm, spot.line, cost)
        assert best is not None  # noqa: S101 - there is always a first try
        return best

    def _spot(
        self, at: XY, size: tuple[float, float], gap: float, side: tuple[int, int], reach: XY, *, led: bool
    ) -> Spot:
        wide, high = size
        dx, dy = side
        slant = 0.7 if dx and dy else 1.0
        x = at[0] + dx * (gap * slant + reach[0]) + (dx - 1.0) * wide / 2.0
        y = at[1] + dy * (gap * slant + reach[1]) + (dy - 1.0) * high / 2.0
        box = (x, y, x + wide, y + high)
        if not led:
            return Spot(box, None, 0.0)
        rim = 0.3 * self._scale
        end = min(max(at[0], x - rim), x + wide + rim), min(max(at[1], y + high / 2.0), y + high / 2.0)
        if dx == 0:
            end = at[0], y + high + rim if dy < 0 else y - rim
        return Spot(box, (at, end), 0.0)

    def _cost(self, spot: Spot, at: XY, reach: XY, field: Box, limit: float) -> float:
        """Return what stands at a spot; no more is looked at once it costs as much as the best spot so far."""
        x1, y1, x2, y2 = spot.bounds_mm
        cost = _ON_WORDS * (self.touched(spot.bounds_mm) + self._count(self._leaders, spot.bounds_mm))
        if cost >= limit:
            return cost
        if x1 < field[0] or y1 < field[1] or x2 > field[2] or y2 > field[3]:
            cost += _OUTSIDE
        if spot.line is not None:
            half, rim = 0.1 * self._scale, 0.5 * self._scale
            points = self._along(*spot.line)
            # two leaders may begin at one place, and nowhere else touch
            off = rim if any(abs(at[0] - x) <= rim and abs(at[1] - y) <= rim for x, y in self._starts) else -rim
            cost += _ON_WORDS * any(
                self._touches(self._cells, box) for box in _past(points, at, (reach[0] + rim, reach[1] + rim), half)
            )
            cost += _ON_LEADER * any(self._touches(self._leaders, box) for box in _past(points, at, (off, off), half))
        if cost >= limit:
            return cost
        if cost < _ON_WORDS and self._tree is not None:
            found = self._tree.query(shapely.box(x1, y1, x2, y2), predicate="intersects")
            cost += sum(self._costs[k] for k in sorted(int(k) for k in found))
        return cost

    def _along(self, start: XY, end: XY) -> list[XY]:
        """Return points along a line, half a millimetre of paper apart."""
        count = max(1, math.ceil(math.dist(start, end) / (0.5 * self._scale)))
        return [
            (start[0] + (end[0] - start[0]) * k / count, start[1] + (end[1] - start[1]) * k / count)
            for k in range(count + 1)
        ]

    def _cells_of(self, box: Box) -> Iterator[tuple[int, int]]:
        cell = _CELL_MM * self._scale
        for i in range(math.floor(box[0] / cell), math.floor(box[2] / cell) + 1):
            for j in range(math.floor(box[1] / cell), math.floor(box[3] / cell) + 1):
                yield i, j


def _past(points: list[XY], at: XY, off: XY, half: float) -> list[Box]:
    """Return a small box about each point that lies further from a place than so much across or up."""
    return [
        (x - half, y - half, x + half, y + half)
        for x, y in points
        if abs(x - at[0]) > off[0] or abs(y - at[1]) > off[1]
    ]
