"""Marks on the pages of a PDF: where each run of words stands, how large and how dark, and how far lines reach.

Reads what typst writes: fonts of two bytes a letter, one matrix before each run.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import pypdf


_PLAIN = rb"[^()\\]|\\."
_INNER = rb"\((?:" + _PLAIN + rb"|\((?:" + _PLAIN + rb"|\((?:" + _PLAIN + rb")*\))*\))*\)"
"""A string; brackets in it may stand in pairs, here up to two deep in it."""
_TOKEN = re.compile(
    rb"\((?:" + _PLAIN + rb"|" + _INNER + rb")*\)"
    rb"|<<|>>|<[0-9A-Fa-f\s]*>|/[^\s/\[\]<>()]*|[\[\]]|[-+.]?\d[-+.\dEe]*|[A-Za-z'\"*]+[0-9]?\*?",
    re.DOTALL,
)
_ESCAPE = re.compile(rb"\\([0-7]{1,3}|.)", re.DOTALL)
_LETTERS = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}
_ASCENT, _DESCENT = 0.73, 0.18
"""How far capitals and tails of the shipped fonts reach from the line, as parts of the size of type."""
IDENTITY = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
Matrix = tuple[float, float, float, float, float, float]


@dataclass(frozen=True)
class Run:
    """A run of words.

    Attributes:
        text: What it says.
        box: Left, bottom, right, top. [pt]
        size: Size of its type as printed. [pt]
        colour: Red, green and blue from 0 to 1.
        corners: Its four corners, also where it does not lie level. [pt]
        mark: Number of the marked content that it belongs to; -1 for none, as in head and foot.
        pagination: Whether it belongs to the head or foot of the page.
        drawn: Whether it is part of a drawing.
    """

    text: str
    box: tuple[float, float, float, float]
    size: float
    colour: tuple[float, ...]
    corners: tuple[tuple[float, float], ...]
    mark: int
    pagination: bool
    drawn: bool


@dataclass(frozen=True)
class Marks:
    """All that is on a page: runs of words, and the boxes of lines, surfaces and pictures. [pt]."""

    wide: float
    high: float
    runs: tuple[Run, ...]
    boxes: tuple[tuple[float, float, float, float], ...]


class _Font:
    """A font of two bytes a letter: the width of each, and what it stands for."""

    def __init__(self, font: Any) -> None:  # noqa: ANN401 - an object of a PDF
        self.below = font["/DescendantFonts"][0].get_object()
        self.usual = float(self.below.get("/DW", 1000))
        self.letters = _to_unicode(font["/ToUnicode"].get_data()) if "/ToUnicode" in font else {}

    @cached_property
    def widths(self) -> dict[int, float]:
        found: dict[int, float] = {}
        listed = list(self.below.get("/W", []))
        while listed:
            first, then = int(listed.pop(0)), listed.pop(0)
            if isinstance(then, list):
                found |= {first + place: float(wide) for place, wide in enumerate(then)}
            else:
                wide = float(listed.pop(0))
                found |= dict.fromkeys(range(first, int(then) + 1), wide)
        return found

    def read(self, content: bytes) -> tuple[str, float]:
        """Return what letters say and how wide they are. [thousandths of the size]."""
        codes = [int.from_bytes(content[place : place + 2], "big") for place in range(0, len(content), 2)]
        return "".join(self.letters.get(code, "") for code in codes), sum(
            self.widths.get(code, self.usual) for code in codes
        )


def _to_unicode(cmap: bytes) -> dict[int, str]:
    found: dict[int, str] = {}
    for block in re.findall(rb"beginbfchar(.*?)endbfchar", cmap, re.DOTALL):
        for code, text in re.findall(rb"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>", block):
            found[int(code, 16)] = bytes.fromhex(text.decode()).decode("utf-16-be", "replace")
    for block in re.findall(rb"beginbfrange(.*?)endbfrange", cmap, re.DOTALL):
        for first, last, text in re.findall(rb"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>", block):
            begin = int(text, 16)
            for place in range(int(first, 16), int(last, 16) + 1):
                found[place] = chr(begin + place - int(first, 16))
    return found


def _string(token: bytes) -> bytes:
    if token.startswith(b"<"):
        return bytes.fromhex(token[1:-1].decode())

    def plain(found: re.Match[bytes]) -> bytes:
        sign = found[1]
        return bytes([int(sign, 8) & 255]) if sign[:1].isdigit() else _LETTERS.get(sign, sign)

    return _ESCAPE.sub(plain, token[1:-1])


def times(first: Matrix, then: Matrix) -> Matrix:
    """Return the matrix that does one after the other."""
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m)


def placed(at: tuple[float, float], by: Matrix) -> tuple[float, float]:
    """Return where a point comes to lie."""
    return at[0] * by[0] + at[1] * by[2] + by[4], at[0] * by[1] + at[1] * by[3] + by[5]


@dataclass
class _State:
    ctm: Matrix = IDENTITY
    fill: tuple[float, ...] = (0.0,)
    font: _Font | None = None
    size: float = 0.0


class _Reader:
    """Reads one page, with the drawings in it."""

    def __init__(self) -> None:
        self.runs: list[Run] = []
        self.boxes: list[tuple[float, float, float, float]] = []
        self.fonts: dict[int, _Font] = {}
        self.marks: list[tuple[int, bool]] = []
        self.deep = 0

    def font(self, reference: Any) -> _Font:  # noqa: ANN401 - an object of a PDF
        key = getattr(reference, "idnum", id(reference))
        if key not in self.fonts:
            self.fonts[key] = _Font(reference.get_object())
        return self.fonts[key]

    def read(  # noqa: C901, PLR0912 - one branch for each sign of the page
        self,
        content: bytes,
        resources: Any,  # noqa: ANN401 - an object of a PDF
        ctm: Matrix,
    ) -> None:
        state, kept = _State(ctm), []
        text = IDENTITY
        path: list[tuple[float, float]] = []
        stack: list[bytes] = []
        for found in _TOKEN.finditer(content):
            token = found[0]
            if not token[:1].isalpha() and token not in {b"'", b'"'}:
                stack.append(token)
                continue
            if token == b"q":
                kept.append(_State(state.ctm, state.fill, state.font, state.size))
            elif token == b"Q":
                state = kept.pop()
            elif token == b"cm":
                state.ctm = times(_numbers(stack, 6), state.ctm)  # type: ignore[arg-type]
            elif token in {b"scn", b"sc", b"rg", b"g"}:
                state.fill = tuple(float(each) for each in stack if not each.startswith(b"/"))
            elif token == b"Tf":
                state.font = self.font(resources["/Font"].raw_get(stack[-2].decode()))
                state.size = float(stack[-1])
            elif token == b"Tm":
                text = _numbers(stack, 6)  # type: ignore[assignment]
            elif token in {b"Tj", b"TJ"}:
                self.say(stack, state, text)
            elif token in {b"m", b"l"}:
                path.append(placed(_numbers(stack, 2), state.ctm))  # type: ignore[arg-type]
            elif token == b"c":
                x1, y1, x2, y2, x3, y3 = _numbers(stack, 6)
                path += [placed(at, state.ctm) for at in ((x1, y1), (x2, y2), (x3, y3))]
            elif token == b"re":
                x, y, w, h = _numbers(stack, 4)
                path += [placed(at, state.ctm) for at in ((x, y), (x + w, y + h))]
            elif token in {b"S", b"s", b"f", b"f*", b"F", b"B", b"B*", b"b", b"b*"}:
                if path and not self.in_pagination:
                    self.boxes.append(_around(path))
                path = []
            elif token == b"n":
                path = []
            elif token in {b"BDC", b"BMC"}:
                number = stack[stack.index(b"/MCID") + 1] if b"/MCID" in stack else b"-1"
                self.marks.append((int(number), b"/Pagination" in stack))
            elif token == b"EMC":
                self.marks.pop()
            elif token == b"Do":
                self.do(resources["/XObject"][stack[-1].decode()].get_object(), state.ctm)
            stack = []

    @property
    def in_pagination(self) -> bool:
        return any(paged for _, paged in self.marks)

    def do(self, what: Any, ctm: Matrix) -> None:  # noqa: ANN401 - an object of a PDF
        if what["/Subtype"] == "/Image":
            self.boxes.append(_around([placed(at, ctm) for at in ((0.0, 0.0), (1.0, 1.0))]))
            return
        inner: Any = tuple(float(each) for each in what.get("/Matrix", IDENTITY))
        self.deep += 1
        self.read(what.get_data(), what.get("/Resources", {}), times(inner, ctm))
        self.deep -= 1

    def say(self, stack: list[bytes], state: _State, text: Matrix) -> None:
        words, wide = "", 0.0
        if state.font is None:
            return
        for token in stack:
            if token[:1] in {b"(", b"<"}:
                said, much = state.font.read(_string(token))
                words, wide = words + said, wide + much
            elif token[:1] not in {b"[", b"]"}:
                wide -= float(token)
        by = times(text, state.ctm)
        size, wide = state.size, wide * state.size / 1000.0
        corners = [
            placed(at, by)
            for at in (
                (0.0, -_DESCENT * size), (wide, -_DESCENT * size), (wide, _ASCENT * size), (0.0, _ASCENT * size)
            )
        ]  # fmt: skip
        if words.strip():
            self.runs.append(
                Run(
                    words, _around(corners), size * math.hypot(by[2], by[3]), state.fill, tuple(corners),
                    next((mark for mark, _ in reversed(self.marks) if mark >= 0), -1), self.in_pagination,
                    self.deep > 0,
                )
            )  # fmt: skip


def _numbers(stack: list[bytes], many: int) -> tuple[float, ...]:
    return tuple(float(each) for each in stack[-many:])


def _around(points: list[tuple[float, float]]) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def marks_of(page: pypdf.PageObject) -> Marks:
    """Return all that is on a page."""
    reader = _Reader()
    contents = page.get_contents()
    if contents is not None:
        reader.read(contents.get_data(), page["/Resources"], IDENTITY)
    wide, high = float(page.mediabox.width), float(page.mediabox.height)
    return Marks(wide, high, tuple(reader.runs), tuple(reader.boxes))
