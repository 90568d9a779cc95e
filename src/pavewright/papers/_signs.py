"""Signs that the fonts of the papers have, and what is drawn for one that none of them has."""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from importlib.resources import files

MARK = "\u25af"
"""An upright empty box: stands for a sign that no font here has."""

_AS_DRAWN: dict[str, str | int | None] = {
    "\uf0b7": "\u2022",
    "\uf0a7": "\u25aa",
    "\uf0d8": "\u27a2",
    "\uf0fc": "\u2713",
    "\u2028": " ",
    "\u2029": " ",
}
"""Bullets that a word processor keeps in a private font, as they show there (from memory); breaks inside a name."""
_HANGUL_PARTS = re.compile("[\u1100-\u11ff]+")
"""Parts of Korean letters: the fonts have the letters whole."""
_MANY_MARKS = re.compile("([\u0300-\u036f]{6})[\u0300-\u036f]+")
"""No letter of any language bears more marks than this."""
_KEYCAP = re.compile("([0-9#*])\ufe0f?\u20e3")
_NOT_DRAWN = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ufe00-\ufe0f\ufeff\ufff9-\ufffb\U000e0100-\U000e01ef]")
"""Signs that say how another is to be shown, or say nothing: they are left out."""
_ALWAYS = "\t\n\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u2069"
"""Blanks and marks of direction that need no glyph."""


def drawable(words: str) -> tuple[str, tuple[str, ...]]:
    """Return words as the papers draw them, and the signs for which a mark stands, each once.

    >>> drawable("Gate \uf0b7 \ue123")
    ('Gate \u2022 \u25af', ('\ue123',))
    """
    if words.isascii() and not _NOT_DRAWN.search(words):
        return words, ()
    plain = _KEYCAP.sub(r"\1", words)
    plain = _NOT_DRAWN.sub("", plain.translate(str.maketrans(_AS_DRAWN)))
    plain = _HANGUL_PARTS.sub(lambda found: unicodedata.normalize("NFC", found[0]), plain)
    plain = _MANY_MARKS.sub(r"\1", plain)
    lacking = tuple(dict.fromkeys(_strange().findall(plain)))
    return _strange().sub(MARK, plain), lacking


@cache
def _strange() -> re.Pattern[str]:
    """Return what matches a sign that no font has, or that an archival paper may not hold."""
    rows = (files("pavewright.papers") / "fonts" / "coverage.txt").read_text("ascii").split("\n")
    pairs = [tuple(int(end, 16) for end in row.split()) for row in rows if row]
    had = "".join(f"{_escaped(first)}-{_escaped(last)}" for first, last in pairs)
    return re.compile(f"[^{had}{_ALWAYS}]|[\ue000-\uf8ff\U000f0000-\U0010ffff\ufdd0-\ufdef\ufffe\uffff]")


def _escaped(sign: int) -> str:
    return f"\\U{sign:08x}"
