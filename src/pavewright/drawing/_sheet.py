"""What every plan has: a growing list of elements, labels that do not collide, north and a scale bar."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.drawing._scene import HAIR, MEDIUM, THIN, Arrow, Element, Path, Region, Scene, Words, choose_scale
from pavewright.drawing._svg import TYPE_WIDTH

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.geometry import XY

A3_FRAME = (396.0, 244.0)
"""Room for a plan on an A3 sheet. [mm]"""
A4_FRAME = (178.0, 226.0)
"""Room for a drawing on an A4 sheet. [mm]"""
_UPRIGHT_WIDER_MM, _UPRIGHT_LOWER_MM = 28.0, 40.0
"""What a sheet turned upright gains in width and loses in height against its frame turned: head and foot. [mm]"""
_LONGEST = 36
"""Letters of a label on a drawing; a longer name is cut short there and stands whole in the tables."""
_BAR_M = (1, 2, 5, 10, 20, 50, 100)
_BAR_MM = 24.0
"""Lengths of a scale bar in metres, and how long it is on paper at least. [mm]"""
_RIM_MM = 16.0
"""White kept round a plan on paper, for labels. [mm]"""
_TRIES = ((0.7, 0.7), (0.7, -0.7), (-0.7, 0.7), (-0.7, -0.7), (1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0))
_RINGS_MM = (1.2, 3.5, 6.5, 10.0, 14.0)
"""How far from its place a label is tried, nearest first; past the first it gets a leader. [mm]"""


class Sheet:
    """Elements of one plan at one scale."""

    def __init__(self, points: Iterable[XY], frame_mm: tuple[float, float] = A3_FRAME) -> None:
        """Take the points that the plan has to show and choose the scale that fits them."""
        xs, ys = zip(*points, strict=True)
        wide, high = max(xs) - min(xs), max(ys) - min(ys)
        room = frame_mm[0] - 2.0 * _RIM_MM, frame_mm[1] - 2.0 * _RIM_MM
        # a long narrow site stands upright on the sheet where that shows it larger
        upright = room[1] + _UPRIGHT_WIDER_MM, room[0] - _UPRIGHT_LOWER_MM
        self.scale = min(choose_scale(wide, high, room), choose_scale(wide, high, upright))
        rim = _RIM_MM * self.scale
        self.bounds = (min(xs) - rim, min(ys) - rim, max(xs) + rim, max(ys) + rim)
        self.elements: list[Element] = []
        self._taken: list[tuple[float, float, float, float]] = []

    def mm(self, paper_mm: float) -> float:
        """Return a length on paper as a length on the site. [mm]."""
        return paper_mm * self.scale

    def add(self, *elements: Element) -> None:
        """Draw over what is there."""
        self.elements.extend(elements)

    def keep_clear(self, at: XY, size_mm: float) -> None:
        """Keep labels off a symbol of a size on paper."""
        half = self.mm(size_mm) / 2.0
        self._taken.append((at[0] - half, at[1] - half, at[0] + half, at[1] + half))

    def label(self, at: XY, text: str, height_mm: float = 2.2, *, bold: bool = False, away: float = 0.0) -> None:
        """Write a label beside a place where nothing is written yet; further off it gets a leader.

        Args:
            at: The place. [mm]
            text: The label.
            height_mm: Height of the type on paper. [mm]
            bold: Whether it is bold.
            away: Kept from the place, for a symbol of this size on paper. [mm]
        """
        text = text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1]}…"
        wide, high = self.mm(height_mm * TYPE_WIDTH * len(text)), self.mm(height_mm * 1.15)
        best: tuple[float, XY, str, bool] | None = None
        for ring, off in enumerate(_RINGS_MM):
            for order, (dx, dy) in enumerate(_TRIES):
                gap = self.mm(off + away / 2.0)
                anchor = {1: "start", -1: "end", 0: "middle"}[(dx > 0.0) - (dx < 0.0)]
                centre_y = at[1] + dy * (gap + high / 2.0)
                x = at[0] + dx * gap
                left = {"start": x, "end": x - wide, "middle": x - wide / 2.0}[anchor]
                box = (left, centre_y - high / 2.0, left + wide, centre_y + high / 2.0)
                cost = self._overlap(box) + ring * 0.02 + order * 0.001
                if best is None or cost < best[0]:
                    best = (cost, (x, centre_y), anchor, ring > 0)
            if best is not None and best[0] < 1.0:
                break
        assert best is not None  # noqa: S101 - there is always a first try
        _, place, anchor, led = best
        left = {"start": place[0], "end": place[0] - wide, "middle": place[0] - wide / 2.0}[anchor]
        self._taken.append((left, place[1] - high / 2.0, left + wide, place[1] + high / 2.0))
        if led:
            self.add(Path((at, place), HAIR))
        self.add(Words(place, text, height_mm, anchor, bold, white=True))

    def write_if_free(self, places: Iterable[XY], text: str, height_mm: float) -> None:
        """Write words at the first of some places where nothing is written yet; leave them out where all are taken."""
        wide, high = self.mm(height_mm * TYPE_WIDTH * len(text)), self.mm(height_mm * 1.15)
        for x, y in places:
            box = (x - wide / 2.0, y - high / 2.0, x + wide / 2.0, y + high / 2.0)
            if self._overlap(box) == 0.0:
                self._taken.append(box)
                self.add(Words((x, y), text, height_mm, white=True))
                return

    def _overlap(self, box: tuple[float, float, float, float]) -> float:
        """Return how badly a box collides: one for each label that it touches, and more outside the sheet."""
        x1, y1, x2, y2 = box
        hits = sum(x1 < b2 and b1 < x2 and y1 < c2 and c1 < y2 for b1, c1, b2, c2 in self._taken)
        bx1, by1, bx2, by2 = self.bounds
        outside = x1 < bx1 or y1 < by1 or x2 > bx2 or y2 > by2
        return float(hits) + (3.0 if outside else 0.0)

    def boxes(self) -> tuple[tuple[float, float, float, float], ...]:
        """Return the boxes that labels and symbols take. [mm]."""
        return tuple(self._taken)

    def north(self, bearing_deg: float) -> None:
        """Draw a north arrow at the top right."""
        _, _, x2, y2 = self.bounds
        length = self.mm(11.0)
        centre = (x2 - self.mm(9.0), y2 - self.mm(10.0))
        turn = math.radians(bearing_deg)
        dx, dy = math.sin(turn) * length / 2.0, math.cos(turn) * length / 2.0
        self.add(Arrow((centre[0] - dx, centre[1] - dy), (centre[0] + dx, centre[1] + dy), MEDIUM))
        self.add(Words((centre[0] + dx * 1.35, centre[1] + dy * 1.35), "N", 3.0, bold=True))
        self._taken.append((centre[0] - length, centre[1] - length, centre[0] + length, centre[1] + length))

    def scale_bar(self) -> None:
        """Draw a scale bar at the bottom left, in metres."""
        x1, y1, _, _ = self.bounds
        metre = 1000.0
        count = next((n for n in _BAR_M if n * metre / self.scale >= _BAR_MM), _BAR_M[-1])
        left, low = x1 + self.mm(3.0), y1 + self.mm(3.0)
        high = self.mm(1.4)
        for part in range(2):
            x = left + part * count * metre / 2.0
            ring = ((x, low), (x + count * metre / 2.0, low), (x + count * metre / 2.0, low + high), (x, low + high))
            self.add(Region((ring,), "grey" if part else "white", THIN))
        text = f"{count} m   1:{self.scale}"
        self.add(Words((left + count * metre + self.mm(1.5), low + high / 2.0), text, 2.4, "start"))

    def scene(self, name: str, title: str, about: str) -> Scene:
        """Return the finished scene."""
        return Scene(name, title, tuple(self.elements), self.bounds, self.scale, about)
