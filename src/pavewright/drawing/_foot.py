"""The foot of a sheet: the key, a scale bar and north."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, assert_never

from pavewright.drawing._scene import (
    MEDIUM,
    SCALES,
    THIN,
    Arrow,
    Element,
    Hatch,
    Path,
    Region,
    ScaleWords,
    Sign,
    Stroke,
    Symbol,
    Words,
    choose_scale,
)
from pavewright.drawing._type import width_of
from pavewright.writing import worded

if TYPE_CHECKING:
    from pavewright.geometry import XY

RIM_MM = 12.5
"""White kept round a plan on paper, for labels. [mm]"""
MIN_WIDE_MM = 140.0
"""Width of the narrowest sheet, so that the key can be read. [mm]"""
NOTE_MM = 4.4
"""Height of a note under the scale bar. [mm]"""
KEY_TYPE_MM = 2.85
"""Height of the type of key and notes on paper. [mm]"""
_BAR_M = (0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)
_BAR_MM = 24.0
"""Lengths of a scale bar in metres, and how long it is on paper at least. [mm]"""
_NORTH_MM = 20.0
"""Room of the north arrow in the foot of a sheet. [mm]"""
_ARROW_MM = 5.2
"""Reach of that arrow from its middle: with its letter it stays in the foot, whichever way it points. [mm]"""
_ROW_MM, _SAMPLE_MM = 5.6, 9.0
"""Height of a row of the key, width of its sample on paper. [mm]"""


@dataclass(frozen=True, slots=True)
class Bold:
    """Words in bold, as a sample of the key."""

    text: str


@dataclass(frozen=True, slots=True)
class Tip:
    """An arrow, as a sample of the key."""


Sample = Stroke | Hatch | Sign | Bold | Tip
KeyItem = tuple[Sample, str]
"""What the key shows, and what it means."""


def rows_of(key: tuple[KeyItem, ...], wide_mm: float) -> list[list[KeyItem]]:
    """Return the key in rows that fit a width on paper."""
    rows: list[list[KeyItem]] = []
    used = math.inf
    for item in key:
        if used + _item_mm(item) > wide_mm - _NORTH_MM:
            rows.append([])
            used = 3.0
        rows[-1].append(item)
        used += _item_mm(item)
    return rows


def foot_mm(rows: list[list[KeyItem]]) -> float:
    """Return how high the foot of a sheet stands on paper. [mm]."""
    return max(_ROW_MM * len(rows) + 6.0, 15.0)


def scale_of(wide: float, high: float, key: tuple[KeyItem, ...], frame_mm: tuple[float, float]) -> int:
    """Return the largest scale at which a plan with its rim and its foot fits a frame.

    Args:
        wide: Width of the plan on the site. [mm]
        high: Its height, likewise. [mm]
        key: What the key shows.
        frame_mm: Width and height of the frame on paper. [mm]
    """
    for scale in SCALES:
        paper_wide = max(wide / scale + 2.0 * RIM_MM, MIN_WIDE_MM)
        foot = foot_mm(rows_of(key, paper_wide))
        if paper_wide <= frame_mm[0] and high / scale + 2.0 * RIM_MM + foot + NOTE_MM <= frame_mm[1]:
            return scale
    return choose_scale((wide, high), (frame_mm[0] - 2.0 * RIM_MM, frame_mm[1] - 2.0 * RIM_MM - 30.0))


def draw_foot(
    rows: list[list[KeyItem]],
    bounds: tuple[float, float, float, float],
    top: float,
    scale: int,
    north_deg: float | None,
) -> list[Element]:
    """Return key, scale bar and north for the foot of a sheet that reaches up to a height on the site.

    Args:
        rows: The key in rows.
        bounds: Least x, least y, greatest x and greatest y of the sheet on the site. [mm]
        top: Height on the site up to which the foot reaches. [mm]
        scale: Millimetres on the site for one on paper.
        north_deg: Direction of north; None where nobody took it. [deg]
    """
    found = _bar(bounds[0], bounds[1], scale)
    for number, row in enumerate(rows):
        y = top - _ROW_MM * (number + 0.5) * scale
        x = bounds[0] + 3.0 * scale
        for sample, words in row:
            found += _sample(sample, (x, y), scale)
            found.append(Words((x + (_SAMPLE_MM + 1.5) * scale, y), worded(words), KEY_TYPE_MM, "start"))
            x += _item_mm((sample, words)) * scale
    return found + _north((bounds[2] - _NORTH_MM / 2.0 * scale, (bounds[1] + top) / 2.0), scale, north_deg)


def _item_mm(item: KeyItem) -> float:
    """Return how wide an item of the key stands on paper. [mm]."""
    return _SAMPLE_MM + 1.5 + width_of(worded(item[1]), KEY_TYPE_MM) + 5.0


def _north(centre: XY, scale: int, bearing_deg: float | None) -> list[Element]:
    """Return an arrow to the north, or that nobody took it."""
    x, y = centre
    if bearing_deg is None:
        line = KEY_TYPE_MM * 0.65 * scale
        return [Words((x, y + line), "north", KEY_TYPE_MM), Words((x, y - line), "not taken", KEY_TYPE_MM)]
    turn = math.radians(bearing_deg)
    dx, dy = math.sin(turn) * _ARROW_MM * scale, math.cos(turn) * _ARROW_MM * scale
    return [
        Arrow((x - dx, y - dy), (x + dx * 0.6, y + dy * 0.6), MEDIUM),
        Words((x + dx * 1.1, y + dy * 1.1), "N", 3.0, bold=True),
    ]


def _bar(x1: float, y1: float, scale: int) -> list[Element]:
    """Return a scale bar in metres."""
    metre = 1000.0
    count = next((n for n in _BAR_M if n * metre / scale >= _BAR_MM), _BAR_M[-1])
    left, low, high = x1 + 3.0 * scale, y1 + 2.0 * scale, 1.4 * scale
    found: list[Element] = []
    for part in range(4):
        x, step = left + part * count * metre / 4.0, count * metre / 4.0
        ring = ((x, low), (x + step, low), (x + step, low + high), (x, low + high))
        found.append(Region((ring,), Hatch.BLACK if part % 2 else Hatch.WHITE, THIN))
    x = left + count * metre + 1.5 * scale
    text = worded(f"{count:g} m")
    found.append(Words((x, low + high / 2.0), text, KEY_TYPE_MM, "start"))
    after = max(10.0, width_of(text, KEY_TYPE_MM) + 3.0)
    return [*found, ScaleWords((x + after * scale, low + high / 2.0), KEY_TYPE_MM)]


def _sample(sample: Sample, at: XY, scale: int) -> list[Element]:
    """Return the sample of an item of the key."""
    x, y = at
    wide, half = _SAMPLE_MM * scale, 2.1 * scale
    match sample:
        case Stroke():
            return [Path(((x, y), (x + wide, y)), sample)]
        case Tip():
            return [Arrow((x, y), (x + wide, y))]
        case Sign():
            return [Symbol((x + wide / 2.0, y), sample, 2.0)]
        case Bold():
            return [Words((x + wide, y), sample.text, KEY_TYPE_MM, "end", bold=True)]
        case Hatch():
            ring = ((x, y - half), (x + wide, y - half), (x + wide, y + half), (x, y + half))
            return [Region((ring,), sample, THIN)]
        case _ as never:
            assert_never(never)
