"""Words beside a section, each with a leader to what it is of, in an order in which no two leaders cross."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely

from pavewright.drawing._type import unbroken, width_of
from pavewright.writing import worded

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from pavewright.geometry import XY

_ROUNDS = 40
_NOTES_MM, _TYPE_MM = 54.0, 2.9
"""Room for notes at the right of a section, and height of their type, on paper. [mm]"""
_FLAT = 1e-6


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


def lines_of(text: str) -> list[str]:
    """Return the words of a note in lines of the room that is left for them on paper."""
    lines: list[str] = []
    for word in (part for whole in unbroken(worded(text)) for part in _parts(whole)):
        grown = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(grown, _TYPE_MM) <= _NOTES_MM:
            lines[-1] = grown
        else:
            lines.append(word)
    return lines


def _parts(word: str) -> list[str]:
    """Return a word in parts that fit a line of the notes."""
    parts = [""]
    for sign in word:
        if width_of(parts[-1] + sign, _TYPE_MM) > _NOTES_MM:
            parts.append("")
        parts[-1] += sign
    return parts


def spread(levels: list[float], gap: float) -> list[float]:
    """Return places for words, from the top down, at least a gap apart and as near to their levels as that allows.

    Args:
        levels: Where the words would stand, from the top down. [mm]
        gap: Least distance between two of them. [mm]

    >>> spread([10.0, 9.0, 0.0], 4.0)
    [11.5, 7.5, 0.0]
    """
    groups: list[list[float]] = []
    for level in levels:
        groups.append([level, 1.0])
        while len(groups) > 1:
            (upper, many), (lower, few) = groups[-2], groups[-1]
            if upper - lower >= gap * (many + few) / 2.0 - _FLAT:
                break
            groups[-2:] = [[(upper * many + lower * few) / (many + few), many + few]]
    return [middle + gap * ((many - 1.0) / 2.0 - k) for middle, many in groups for k in range(int(many))]
