"""Words beside a section, each with a leader to what it is of, in an order in which no two leaders cross."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely

from pavewright.drawing._section_parts import spread

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from pavewright.geometry import XY

_ROUNDS = 40


@dataclass(frozen=True, slots=True)
class Note:
    """Words that belong to a place of a section.

    Attributes:
        at: The place. [mm]
        lines: The words, line by line.
        bold: Whether they are bold.
    """

    at: XY
    lines: tuple[str, ...]
    bold: bool = False


def in_order(
    notes: Sequence[Note], gap_mm: float, leader: Callable[[Note, float], tuple[XY, ...]], top_mm: float = math.inf
) -> list[tuple[Note, list[float]]]:
    """Return notes from the top down with the heights of their lines, so that their leaders do not cross.

    They begin in the order of what they are of; two neighbours change places while that leaves fewer crossings.

    Args:
        notes: The notes.
        gap_mm: From line to line. [mm]
        leader: Returns the leader of a note whose first line stands at a height.
        top_mm: No line stands higher. [mm]
    """
    order = sorted(notes, key=lambda note: -note.at[1])
    best = _crossings(placed := _placed(order, gap_mm, top_mm), leader)
    for _ in range(_ROUNDS):
        if not best:
            break
        tries = [[*order[:k], order[k + 1], order[k], *order[k + 2 :]] for k in range(len(order) - 1)]
        counted = [(_crossings(_placed(each, gap_mm, top_mm), leader), k) for k, each in enumerate(tries)]
        fewest, at = min(counted, default=(best, 0))
        if fewest >= best:
            break
        best, order = fewest, tries[at]
        placed = _placed(order, gap_mm, top_mm)
    return placed


def _placed(order: Sequence[Note], gap_mm: float, top_mm: float) -> list[tuple[Note, list[float]]]:
    """Return the heights of all lines, each note kept together."""
    levels: list[float] = []
    for note in order:
        for _ in note.lines:
            levels.append(min(note.at[1], levels[-1]) if levels else note.at[1])
    heights = spread(levels, gap_mm)
    shift = min(0.0, top_mm - max(heights, default=0.0)) if math.isfinite(top_mm) else 0.0
    places = iter(heights)
    return [(note, [next(places) + shift for _ in note.lines]) for note in order]


def _crossings(placed: Sequence[tuple[Note, list[float]]], leader: Callable[[Note, float], tuple[XY, ...]]) -> int:
    lines = [shapely.LineString(leader(note, heights[0])) for note, heights in placed]
    return sum(bool(one.intersects(other)) for one, other in itertools.combinations(lines, 2))
