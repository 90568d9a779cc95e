"""How much room type takes on paper, so that words can be kept apart without a browser."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.drawing._scene import Words

MIN_TYPE_MM = 2.85
"""Nothing is written smaller on paper: a little over eight points. [mm]"""
LINE = 1.15
"""Height of a line of words as a part of the height of the type. [-]"""
DIGITS = 0.75
"""Height of figures, which have no tails, as a part of the height of the type. [-]"""
_LONGEST = 44
"""Letters of a label on a drawing. [-]"""
_BOLD = 1.07
_WIDTHS = (
    ("fijlrtI.,:;'|!()[]/ ", 0.36),
    ("mwMWOQGDHNU+−×→@%&", 0.84),
    ("ABCEFKLPRSTVXYZ–", 0.71),
    ("0123456789", 0.645),
)
"""Width of letters as a part of the height of the type, a little over what the shipped face needs. [-]"""
_OTHER = 0.62
_WIDE = 1.05
_LAST_NARROW = 0x2FF
"""Letters past the Latin ones may be as wide as they are high."""
_WIDTH_OF = {letter: width for letters, width in _WIDTHS for letter in letters}


def short(text: str) -> str:
    """Return a label short enough for a drawing; the whole of it stands in the tables.

    >>> short("a" * 60) == "a" * 43 + "…"
    True
    """
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1]}…"


def width_of(text: str, height_mm: float, *, bold: bool = False) -> float:
    """Return how wide words stand on paper. [mm].

    >>> round(width_of("10.150", 2.0), 2)
    7.17
    """
    ems = sum(_WIDTH_OF.get(letter, _OTHER if ord(letter) <= _LAST_NARROW else _WIDE) for letter in text)
    return ems * height_mm * (_BOLD if bold else 1.0)


def unbroken(text: str) -> list[str]:
    """Return the parts between which words may be broken: a measure stays with the one beside it, and wide gaps stay.

    >>> unbroken("down 178 mm (7 in) in the middle")
    ['down', '178 mm (7 in)', 'in', 'the', 'middle']
    """
    return _UNBROKEN.findall(text)


_UNBROKEN = re.compile(r"[\d.,\u202f]+ \S+ \([^()]{1,24}\)\S*|\S+ {2}\S+|\S+")


def wrapped(text: str, wide_mm: float, height_mm: float) -> list[str]:
    """Return words in lines that fit a width on paper.

    >>> wrapped("one two three", 10.0, 2.0)
    ['one two', 'three']
    """
    lines: list[str] = []
    for word in unbroken(text):
        if lines and width_of(f"{lines[-1]} {word}", height_mm) <= wide_mm:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def corners_of(words: Words, scale: float) -> tuple[tuple[float, float], ...]:
    """Return the corners of the box that words take on the site. [mm].

    Args:
        words: The words with their place.
        scale: Millimetres on the site for one on paper. [-]
    """
    wide = width_of(words.text, words.height_mm, bold=words.bold) * scale
    tall = words.height_mm * (DIGITS if words.text.isdigit() else 1.0) * scale
    left = {"start": 0.0, "middle": -wide / 2.0, "end": -wide}[words.anchor]
    turn = math.radians(words.turn_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    box = ((left, -tall / 2.0), (left + wide, -tall / 2.0), (left + wide, tall / 2.0), (left, tall / 2.0))
    return tuple((words.at[0] + x * cos - y * sin, words.at[1] + x * sin + y * cos) for x, y in box)


def box_of(words: Words, scale: float) -> tuple[float, float, float, float]:
    """Return the upright box about words on the site: left, lower, right, upper. [mm].

    Args:
        words: The words with their place.
        scale: Millimetres on the site for one on paper. [-]
    """
    xs, ys = zip(*corners_of(words, scale), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def first_clear(tried: Sequence[Words], taken: list[tuple[float, float, float, float]], scale: float) -> Words:
    """Return the first of some places for the same words that touches nothing taken, else the one that covers least.

    Its box is taken from then on.

    Args:
        tried: The words at each place, the best first.
        taken: Boxes that are taken, as left, lower, right and upper. [mm]
        scale: Millimetres on the site for one on paper. [-]
    """
    boxes = [box_of(words, scale) for words in tried]
    covers = [sum(_common(box, other) for other in taken) for box in boxes]
    best = covers.index(min(covers))
    taken.append(boxes[best])
    return tried[best]


def _common(one: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> float:
    """Return the room that two boxes have in common. [mm2]."""
    wide, high = min(one[2], other[2]) - max(one[0], other[0]), min(one[3], other[3]) - max(one[1], other[1])
    return max(wide, 0.0) * max(high, 0.0)
