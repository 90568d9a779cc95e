"""Triangles whose sides keep to given lines: edges that cross a line are turned until none does."""

from __future__ import annotations

import itertools
from collections import deque
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry._vectors import XYZ

Edge = tuple[int, int]
Triangle = tuple[int, int, int]

_ON_LINE_MM = 0.5
"""A point this near to a line stands on it. [mm]"""
_FLAT_MM2 = 1e-6


class CrossingLinesError(ValueError):
    """Two lines cross where nothing was measured; holds the indices of the four points."""

    def __init__(self, first: Edge, second: Edge) -> None:
        """Keep both lines."""
        super().__init__(f"lines {first} and {second} cross")
        self.lines = first, second


class Mesh:
    """Triangles that can be turned about their edges."""

    def __init__(self, points: Sequence[XYZ], triangles: Sequence[Triangle]) -> None:
        """Take triangles, anticlockwise."""
        self._places = np.array([(x, y) for x, y, _ in points])
        self._opposite: dict[Edge, list[int]] = {}
        self._fixed: set[Edge] = set()
        for triangle in triangles:
            self._put(triangle)

    @property
    def triangles(self) -> tuple[Triangle, ...]:
        """All triangles, anticlockwise, from their least corner."""
        found: set[Triangle] = set()
        for (a, b), others in self._opposite.items():
            for c in others:
                turned = (a, b, c) if self._twice_area(a, b, c) > 0.0 else (b, a, c)
                start = turned.index(min(turned))
                first, second, third = turned[start:] + turned[:start]
                found.add((first, second, third))
        return tuple(sorted(found))

    def keep(self, start: int, end: int) -> None:
        """Turn edges until one runs from point to point, over the points that stand on the way.

        Raises:
            CrossingLinesError: a line that is kept already crosses it.
        """
        for a, b in self._legs(start, end):
            self._keep_leg(a, b)

    def _legs(self, start: int, end: int) -> list[Edge]:
        a, b = self._places[start], self._places[end]
        along = b - a
        length = float(np.hypot(*along))
        if length == 0.0:
            return []
        away = self._places - a
        off = np.abs(along[0] * away[:, 1] - along[1] * away[:, 0]) / length
        way = away @ along / length
        on = np.flatnonzero((off <= _ON_LINE_MM) & (way > _ON_LINE_MM) & (way < length - _ON_LINE_MM))
        stops = [start, *on[np.argsort(way[on])].tolist(), end]
        return list(itertools.pairwise(stops))

    def _keep_leg(self, a: int, b: int) -> None:
        wanted = _edge(a, b)
        waiting = deque(edge for edge in self._opposite if self._cross(edge, wanted))
        for edge in waiting:
            if edge in self._fixed:
                raise CrossingLinesError(edge, wanted)
        fresh: list[Edge] = []
        left = len(waiting) ** 2 + 100
        while waiting and left:
            left -= 1
            edge = waiting.popleft()
            turned = self._turn(edge)
            if turned is None:
                waiting.append(edge)
            elif self._cross(turned, wanted):
                waiting.append(turned)
            else:
                fresh.append(turned)
        self._fixed.add(wanted)
        self._rounded([edge for edge in fresh if edge != wanted])

    def _rounded(self, edges: list[Edge]) -> None:
        """Turn new edges where that makes rounder triangles."""
        left = 20 * len(edges) + 100
        waiting = deque(edges)
        while waiting and left:
            left -= 1
            edge = waiting.popleft()
            others = self._opposite.get(edge, [])
            if edge in self._fixed or len(others) != _TWO or not self._better(edge, others[0], others[1]):
                continue
            p, q = others
            if self._turn(edge) is not None:
                waiting.extend(_edge(one, other) for one in edge for other in (p, q))

    def _better(self, edge: Edge, p: int, q: int) -> bool:
        """Return whether the angles at p and q sum to more than half a turn."""
        cosines = []
        for corner in (p, q):
            one, other = (self._places[end] - self._places[corner] for end in edge)
            cosines.append(float(one @ other / (np.hypot(*one) * np.hypot(*other))))
        return float(np.arccos(np.clip(cosines, -1.0, 1.0)).sum()) > np.pi + 1e-9

    def _turn(self, edge: Edge) -> Edge | None:
        """Turn an edge in its quadrangle and return the new one; None where the quadrangle has a hollow corner."""
        others = self._opposite.get(edge, [])
        if len(others) != _TWO:
            return None
        (a, b), (p, q) = edge, others
        sides = self._twice_area(p, q, a), self._twice_area(p, q, b)
        if sides[0] * sides[1] >= -_FLAT_MM2:
            return None
        for corner in (p, q):
            self._take((a, b, corner))
        for corner in (a, b):
            self._put((p, q, corner))
        return _edge(p, q)

    def _put(self, triangle: Triangle) -> None:
        a, b, c = triangle
        for first, second, other in ((a, b, c), (b, c, a), (c, a, b)):
            self._opposite.setdefault(_edge(first, second), []).append(other)

    def _take(self, triangle: Triangle) -> None:
        a, b, c = triangle
        for first, second, other in ((a, b, c), (b, c, a), (c, a, b)):
            others = self._opposite[_edge(first, second)]
            others.remove(other)
            if not others:
                del self._opposite[_edge(first, second)]

    def _cross(self, one: Edge, other: Edge) -> bool:
        if set(one) & set(other):
            return False
        (a, b), (c, d) = one, other
        first = self._twice_area(a, b, c) * self._twice_area(a, b, d)
        second = self._twice_area(c, d, a) * self._twice_area(c, d, b)
        return first < -_FLAT_MM2 and second < -_FLAT_MM2

    def _twice_area(self, a: int, b: int, c: int) -> float:
        (ax, ay), (bx, by), (cx, cy) = self._places[a], self._places[b], self._places[c]
        return float((bx - ax) * (cy - ay) - (by - ay) * (cx - ax))


_TWO = 2


def _edge(a: int, b: int) -> Edge:
    return (a, b) if a < b else (b, a)
