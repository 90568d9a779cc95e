"""Slabs that are cut up without any waste, for jobs whose parts leave no room for it.

Where the parts fill the slabs of the bound, a plan at the bound wastes nothing on any slab. Boxes that fit together
without waste have a side in common, which few do: all of them are found by joining, and chosen from.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from itertools import islice
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from pavewright.laying.cutting._bound import cost_by_area

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.laying.cutting._grid import SawTask

_MAX_BOXES = 20_000
"""Boxes joined at most."""
_MAX_TRIES = 60_000
"""Sets of strips tried at most for one size of slab and one way to lay them."""
_MAX_STRIPS = 4
"""Strips right across a slab, side by side, at most."""
_MAX_SLABS = 1_400
"""Slabs without waste handed back at most."""
_ROOM = 100
"""Waste in the whole job below which slabs without waste are sought, as a share of one slab: one in so many."""

Size = tuple[int, int]


class Box(NamedTuple):
    """A box without waste: how often it holds each kind, packed in one number, and its sizes."""

    held: int
    wide: int
    high: int


class _Join(NamedTuple):
    """Two boxes end to end: on axis 0 along the width, on 1 along the height."""

    first: Box
    second: Box
    axis: int


@dataclass(slots=True)
class _Boxes:
    """What was joined so far.

    Attributes:
        turning: Whether a box may lie both ways; then it is kept with its longer side first.
        over: What the number of a kind is packed with, so that one too many sets a bit of ``full``.
        full: A bit above each number.
        ways: How each box comes about; the kind for a single part.
        beside: Boxes by axis and the side that they share when they are joined on it, by how many parts they hold.
    """

    turning: bool
    over: int
    full: int
    ways: dict[Box, _Join | int] = field(default_factory=dict)
    beside: dict[Size, dict[int, list[tuple[int, Box]]]] = field(default_factory=dict)

    def lying(self, box: Box) -> list[tuple[int, int, int]]:
        """Return axis, side shared and length on the axis for each way in which a box is joined."""
        if self.turning:
            return [(0, box.high, box.wide), *([(0, box.wide, box.high)] if box.wide != box.high else [])]
        return [(0, box.high, box.wide), (1, box.wide, box.high)]

    def joined(self, held: int, axis: int, side: int, length: int) -> Box:
        """Return the box that comes of boxes with a side in common."""
        wide, high = (length, side) if axis == 0 else (side, length)
        return Box(held, max(wide, high), min(wide, high)) if self.turning else Box(held, wide, high)

    def add(self, box: Box, parts: int, way: _Join | int) -> None:
        """Keep a box."""
        self.ways[box] = way
        for axis, side, length in self.lying(box):
            self.beside.setdefault((axis, side), defaultdict(list))[parts].append((length, box))

    def too_many(self, held: int) -> bool:
        """Return whether more of a kind are held than are wanted."""
        return bool((held + self.over) & self.full)


def leaves_no_waste(task: SawTask, cost: int) -> bool:
    """Return whether a plan at a cost has next to no room for waste, whatever sizes it uses."""
    return not task.rows[:, 3].any() and _ROOM * (cost - cost_by_area(task)) <= int(task.stock[:, 2].min())


def slabs_without_waste(task: SawTask) -> list[tuple[int, np.ndarray]]:
    """Return sets of parts that fill a slab: the size of the slab, and part, x, y, quarter turns of each.

    Valid for: no factory sides. Strips right across a slab are joined only to whole slabs, up to four of them.
    Source: definition
    """
    boxes = _first(task)
    stock = [(int(row[0]), int(row[1])) for row in task.stock]
    whole = _whole(boxes, stock)
    _join_all(boxes, {(axis, side) for axis, side, _ in whole}, stock)
    for axis, side, length in whole:
        for strips in islice(_strips(boxes, axis, side, length), _MAX_BOXES):
            _put_together(boxes, strips, axis, side)
    return list(islice(_full_slabs(task, boxes, stock), _MAX_SLABS))


def _full_slabs(task: SawTask, boxes: _Boxes, stock: list[Size]) -> Iterator[tuple[int, np.ndarray]]:
    """Yield the boxes that are as large as a slab, size by size."""
    for number, (wide, high) in enumerate(stock):
        size = (max(wide, high), min(wide, high)) if boxes.turning else (wide, high)
        for box in boxes.ways:
            if (box.wide, box.high) == size:
                yield number, np.array(list(_laid(task, boxes, box, (0, 0), (wide, high))), dtype=np.int64)


def _first(task: SawTask) -> _Boxes:
    """Return the parts as boxes."""
    wanted = np.bincount(task.rows[:, 4], minlength=task.kinds).tolist()
    places, over, full, at = [], 0, 0, 0
    for many in wanted:
        bits = many.bit_length() + 1
        places.append(at)
        over |= ((1 << (bits - 1)) - 1 - many) << at
        full |= 1 << (at + bits - 1)
        at += bits
    boxes = _Boxes(bool((task.rows[:, 2] & 0b1010).any()), over, full)
    for row in np.unique(task.rows, axis=0).tolist():
        one = boxes.joined(1 << places[row[4]], 0, row[1], row[0])
        boxes.add(one, 1, row[4])
    return boxes


def _join_all(boxes: _Boxes, ends: set[Size], stock: list[Size]) -> None:
    """Join boxes with a side in common, smaller sets first; those with a side of a slab wait for the strips."""
    parts, last = 2, 1
    while parts <= 2 * last:
        fresh: dict[Box, _Join] = {}
        for (axis, side), groups in boxes.beside.items():
            if (axis, side) in ends:
                continue
            for box, way in _joins(boxes, axis, side, groups, parts):
                if box not in boxes.ways and _fits(box, stock, boxes):
                    fresh.setdefault(box, way)
            if len(boxes.ways) + len(fresh) > _MAX_BOXES:
                return
        for box, way in fresh.items():
            boxes.add(box, parts, way)
        last = parts if fresh else last
        parts += 1


def _joins(
    boxes: _Boxes, axis: int, side: int, groups: dict[int, list[tuple[int, Box]]], parts: int
) -> Iterator[tuple[Box, _Join]]:
    """Yield what comes of two boxes end to end that hold so many parts together."""
    for fewer in range(1, parts // 2 + 1):
        for length, one in groups.get(fewer, ()):
            for more, other in groups.get(parts - fewer, ()):
                held = one.held + other.held
                if not boxes.too_many(held):
                    yield boxes.joined(held, axis, side, length + more), _Join(one, other, axis)


def _fits(box: Box, stock: list[Size], boxes: _Boxes) -> bool:
    if boxes.turning:
        return any(box.wide <= max(size) and box.high <= min(size) for size in stock)
    return any(box.wide <= wide and box.high <= high for wide, high in stock)


def _whole(boxes: _Boxes, stock: list[Size]) -> list[tuple[int, int, int]]:
    """Return axis, side shared and whole length of strips that fill a slab, or fill it across, smallest first."""
    found = set()
    for wide, high in stock:
        if boxes.turning:
            found |= {(0, high, wide), (0, wide, high)}
        else:
            found |= {(0, high, wide), (1, wide, high)}
    return sorted(found, key=lambda each: (each[1] * each[2], each))


def _strips(boxes: _Boxes, axis: int, side: int, length: int) -> Iterator[tuple[Box, ...]]:
    """Yield sets of strips that together are as long as a slab, fewer strips first."""
    groups = boxes.beside.get((axis, side), {})
    strips = sorted((each for group in groups.values() for each in group), key=lambda each: (-each[0], each[1]))
    by_length = defaultdict(list)
    for number, (long, _) in enumerate(strips):
        by_length[long].append(number)
    for many in range(2, _MAX_STRIPS + 1):
        tries = 0
        stack: list[tuple[int, int, int, tuple[int, ...]]] = [(0, length, 0, ())]
        while stack and tries <= _MAX_TRIES:
            start, rest, held, chosen = stack.pop()
            left = many - len(chosen)
            if left == 1:
                for number in by_length.get(rest, ()):
                    if number >= start and not boxes.too_many(held + strips[number][1].held):
                        yield tuple(strips[each][1] for each in (*chosen, number))
                continue
            for number, (long, box) in enumerate(strips[start:], start):
                if long * left < rest:
                    break
                if long < rest and not boxes.too_many(held + box.held):
                    tries += 1
                    stack.append((number, rest - long, held + box.held, (*chosen, number)))


def _put_together(boxes: _Boxes, strips: Iterable[Box], axis: int, side: int) -> None:
    """Join strips one after the other, and keep what comes of it."""
    whole: Box | None = None
    total = 0
    for strip in strips:
        length = strip.wide * strip.high // side
        if whole is None:
            whole, total = strip, length
            continue
        total += length
        box = boxes.joined(whole.held + strip.held, axis, side, total)
        boxes.ways.setdefault(box, _Join(whole, strip, axis))
        whole = box


def _laid(task: SawTask, boxes: _Boxes, box: Box, at: Size, size: Size) -> Iterator[tuple[int, int, int, int]]:
    """Yield part, x, y, quarter turns of what a box holds, from its near left corner, as it lies."""
    way = boxes.ways[box]
    if isinstance(way, int):
        part = int(np.flatnonzero(task.rows[:, 4] == way)[0])
        yield part, *at, int(size != (int(task.rows[part, 0]), int(task.rows[part, 1])))
        return
    for axis in (0, 1) if boxes.turning else (way.axis,):
        sizes = [_as_strip(boxes, each, axis, size[1 - axis]) for each in (way.first, way.second)]
        if None not in sizes and sum(each[axis] for each in sizes if each) == size[axis]:
            corner = at
            for each, lying in zip((way.first, way.second), sizes, strict=True):
                if lying is not None:
                    yield from _laid(task, boxes, each, corner, lying)
                    corner = (corner[0] + lying[0], corner[1]) if axis == 0 else (corner[0], corner[1] + lying[1])
            return


def _as_strip(boxes: _Boxes, box: Box, axis: int, side: int) -> Size | None:
    """Return a box as it lies with a side across an axis; None where it has no such side."""
    for wide, high in ((box.wide, box.high), (box.high, box.wide)) if boxes.turning else ((box.wide, box.high),):
        if (high if axis == 0 else wide) == side:
            return wide, high
    return None
