"""Charts of money on paper: a waterfall from cost to price, and the cash of a job day by day.

Each value stands in words beside what is drawn; hatching, not colour, tells kinds apart.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.drawing._scene import DASHED, HAIR, MEDIUM, THIN, Element, Hatch, Path, Region, Scene, Words

if TYPE_CHECKING:
    from collections.abc import Sequence

_WIDE_MM, _NAME_MM, _VALUE_MM = 180.0, 52.0, 30.0
_ROW_MM, _BAR_MM, _TYPE_MM = 6.0, 3.6, 2.2
_HIGH_MM = 52.0
"""Height of the curve of cash. [mm]"""


@dataclass(frozen=True, slots=True)
class ChartStep:
    """One step of a waterfall.

    Attributes:
        label: What it is.
        value: How much it adds; of a total, how much there is. [any money]
        words: The value in words.
        total: Whether it stands on zero.
    """

    label: str
    value: float
    words: str
    total: bool = False


@dataclass(frozen=True, slots=True)
class ChartPoint:
    """One point of a curve that holds its value until the next one.

    Attributes:
        at: Place along the curve. [days]
        value: Value from there on. [any money]
        words: What is written at it; empty for nothing.
    """

    at: float
    value: float
    words: str = ""


def waterfall_chart(name: str, title: str, steps: Sequence[ChartStep]) -> Scene:
    """Return a waterfall: each step begins where the last one ended, a total stands on zero.

    Args:
        name: File name without its ending.
        title: Title in words.
        steps: Its steps, from above.
    """
    spans, reached = [], 0.0
    for step in steps:
        start = 0.0 if step.total else reached
        reached = step.value if step.total else reached + step.value
        spans.append((step, start, reached))
    ends = [end for _, *both in spans for end in both] or [0.0]
    low, high = min(0.0, *ends), max(*ends, 1.0)
    room = _WIDE_MM - _NAME_MM - _VALUE_MM
    deep = _ROW_MM * max(len(steps), 1)

    def across(value: float) -> float:
        return _NAME_MM + room * (value - low) / (high - low)

    found: list[Element] = [Path(((across(0.0), 0.0), (across(0.0), deep)), HAIR)]
    for row, (step, start, end) in enumerate(spans):
        middle = deep - _ROW_MM * (row + 0.5)
        up, down = middle + _BAR_MM / 2.0, middle - _BAR_MM / 2.0
        left, right = sorted((across(start), across(end)))
        ring = ((left, down), (right, down), (right, up), (left, up))
        hatch = Hatch.GREY if step.total else Hatch.CUT
        found.append(Region((ring,), hatch, THIN))
        found.append(Words((0.0, middle), step.label, _TYPE_MM, "start", bold=step.total))
        found.append(Words((_WIDE_MM, middle), step.words, _TYPE_MM, "end", bold=step.total))
    about = "; ".join(f"{step.label}: {step.words}" for step in steps)
    return Scene(name, title, tuple(found), (0.0, 0.0, _WIDE_MM, deep), 1, f"{title}. {about}.")


def curve_chart(name: str, title: str, points: Sequence[ChartPoint], about: str) -> Scene:
    """Return a curve in steps with a line at zero; words stand at the points that have some.

    Args:
        name: File name without its ending.
        title: Title in words.
        points: Its points in order of place.
        about: What it shows in a sentence, for people who cannot see it.
    """
    values = [0.0, *(point.value for point in points)]
    low, high = min(values), max(*values, min(values) + 1.0)
    first, last = points[0].at, points[-1].at
    rim = 2.0 * _TYPE_MM

    def place(point: ChartPoint, value: float) -> tuple[float, float]:
        along = _WIDE_MM * (point.at - first) / ((last - first) or 1.0)
        return along, rim + (_HIGH_MM - 2.0 * rim) * (value - low) / (high - low)

    line = [place(points[0], 0.0), place(points[0], points[0].value)]
    for before, point in itertools.pairwise(points):
        line += [place(point, before.value), place(point, point.value)]
    zero = place(points[0], 0.0)[1]
    found: list[Element] = [Path(((0.0, zero), (_WIDE_MM, zero)), DASHED), Path(tuple(line), MEDIUM)]
    for before, point in zip((points[0], *points), points, strict=False):
        if point.words:
            along, high_mm = place(point, point.value)
            # under a step down and over a step up: words lie on no line that leads to the point
            below = -1.0 if point.value < before.value or point.value <= 0.0 else 1.0
            anchor = "start" if along < _WIDE_MM / 3.0 else "end" if along > 2.0 * _WIDE_MM / 3.0 else "middle"
            found.append(Words((along, high_mm + below * 1.2 * _TYPE_MM), point.words, _TYPE_MM, anchor, white=True))
    return Scene(name, title, tuple(found), (0.0, 0.0, _WIDE_MM, _HIGH_MM), 1, about)
