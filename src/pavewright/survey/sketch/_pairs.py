"""Which two points can be taped next: not through a wall, and not behind the walls of an outline."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from shapely.geometry import Point, Polygon

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping, Sequence

    from pavewright.geometry import XY
    from pavewright.survey.sketch._known import Placed


@dataclass(frozen=True, slots=True)
class Drawn:
    """Lines that are drawn between points: walls, and outlines of what is paved."""

    walls: tuple[tuple[str, str], ...] = ()
    rings: tuple[tuple[str, ...], ...] = ()

    def wants(self, name: str, tied: Collection[str]) -> bool:
        """Return whether a point has to be measured: a corner, an end of a wall, or one to which something is measured.

        A spot that was tapped in the middle need not. Where nothing is drawn between points, all have to be.
        """
        lines = (*self.walls, *self.rings)
        return name in tied or not lines or any(name in line for line in lines)


@dataclass(frozen=True, slots=True)
class Pair:
    """Two points between which a tape can be pulled, and whether that is a side."""

    start: str
    end: str
    is_side: bool


def pairs_to_tape(placed: Placed, taped: set[frozenset[str]], drawn: Drawn) -> list[Pair]:
    """Return the pairs of points that can be taped and are not, each with whether it is a side."""
    sides = {frozenset(pair) for pair in (*placed.pairs, *drawn.walls)}
    sides |= {frozenset(pair) for ring in drawn.rings for pair in zip(ring, (*ring[1:], ring[0]), strict=True)}
    held = {name for name, ways in placed.freedom.items() if not ways}
    found = []
    wanted = [name for name in placed.places if drawn.wants(name, placed.tied)]
    for start, end in itertools.combinations(wanted, 2):
        pair = frozenset((start, end))
        if pair in taped or pair <= held or placed.places[start] == placed.places[end]:
            continue
        if can_be_taped(start, end, placed.places, drawn):
            found.append(Pair(start, end, pair in sides))
    return found


def can_be_taped(start: str, end: str, places: Mapping[str, XY], drawn: Drawn) -> bool:
    """Return whether a tape crosses no wall, and does not run behind a row of walls of one outline."""
    a, b = places[start], places[end]
    for wall in drawn.walls:
        if start in wall or end in wall or any(name not in places for name in wall):
            continue
        c, d = places[wall[0]], places[wall[1]]
        if _turn(a, b, c) * _turn(a, b, d) < 0.0 and _turn(c, d, a) * _turn(c, d, b) < 0.0:
            return False
    standing = {frozenset(wall) for wall in drawn.walls}
    if frozenset((start, end)) in standing:
        return True
    middle = (a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0
    for ring in drawn.rings:
        if start not in ring or end not in ring or any(name not in places for name in ring):
            continue
        behind = any(
            all(frozenset(leg) in standing for leg in itertools.pairwise(run))
            for run in (_run(ring, start, end), _run(ring, end, start))
        )
        if behind and not _encloses(tuple(places[name] for name in ring), middle):
            return False
    return True


def _run(ring: Sequence[str], start: str, end: str) -> tuple[str, ...]:
    """Return the corners from one to another in the order of a ring."""
    turned = itertools.islice(itertools.cycle(ring), ring.index(start), ring.index(start) + len(ring))
    return (*itertools.takewhile(lambda name: name != end, turned), end)


def _turn(a: XY, b: XY, c: XY) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _encloses(ring: tuple[XY, ...], place: XY) -> bool:
    return len(ring) > _TWO and Polygon(ring).contains(Point(place))


_TWO = 2


def sides_first(pairs: Sequence[Pair]) -> Iterator[tuple[frozenset[str], int]]:
    """Give for every pair whether it comes first among equals: a side before a diagonal."""
    for each in pairs:
        yield frozenset((each.start, each.end)), 0 if each.is_side else 1
