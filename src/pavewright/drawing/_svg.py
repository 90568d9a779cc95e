"""A scene as SVG: millimetres of paper, true to scale, literal colours, text as text."""

from __future__ import annotations

import itertools
import math
import re
from dataclasses import replace
from html import escape
from typing import TYPE_CHECKING, assert_never

from pavewright.drawing._hatches import PLAIN, hatch_lines
from pavewright.drawing._scene import Arrow, Circle, Dimension, Path, Region, ScaleWords, Sign, Stroke, Symbol, Words
from pavewright.drawing._sizes import size_words
from pavewright.drawing._type import MIN_TYPE_MM, width_of
from pavewright.writing import told

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.drawing._scene import Element, Scene
    from pavewright.geometry import XY

FONT = "Inter"
_FALLBACK = ("Arial", "Liberation Sans", "Helvetica", "DejaVu Sans", "sans-serif")
"""Faces for a viewer that has not the shipped one, those first that are no wider than it."""
_PENS = (
    f'font-family="{", ".join((FONT, *_FALLBACK))}" text-rendering="geometricPrecision" '
    'stroke-linecap="round" stroke-linejoin="round"'
)
"""What holds for all words and lines of a sheet."""
_HEAD_MM = 2.2
"""Length of an arrow's head on paper. [mm]"""
_GROUND = 1.05
"""Height of the white below words as a part of the height of their type. [-]"""
_STOP_RING = 1.42
"""How far the ring of the sign for no pin runs round its cross, as a part of half its size. [-]"""
_TICK_MM = 1.2
"""Reach of the ticks of a dimension on paper. [mm]"""
_NOT_XML = re.compile("[^\\t\\n\\r\\x20-\\ud7ff\\ue000-\\ufffd\\U00010000-\\U0010ffff]")
"""Letters that an SVG must not hold."""


def to_svg(scene: Scene, *, scale: int | None = None, width_mm: float | None = None) -> str:
    """Return a scene as an SVG document whose millimetres are millimetres of paper.

    Args:
        scene: What is drawn.
        scale: n of 1:n, where another scale is wanted than the one for which the labels were placed.
        width_mm: Width to which the whole picture is shrunk or blown up, for a screen; it then says that it is not to
            scale. [mm]
    """
    if scale is not None and not scene.scales:
        scene = replace(scene, scale=scale)
    wide, high = scene.paper_mm
    fit = 1.0 if width_mm is None else width_mm / wide
    is_true = math.isclose(fit, 1.0)
    reported = scene.scale_said if is_true else "not to scale"
    page = _Page(scene, is_true=is_true)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(wide * fit)}mm" height="{_n(high * fit)}mm" '
        f'viewBox="0 0 {_n(wide)} {_n(high)}" role="img" {_PENS}>'
        f"<title>{_text(told(scene.title))}, {reported}</title><desc>{_text(told(scene.about))}</desc>"
        f'<rect width="{_n(wide)}" height="{_n(high)}" fill="#fff"/>{_body(scene, page)}</svg>\n'
    )


def stacked_svg(scenes: Sequence[Scene]) -> str:
    """Return several sheets one under another as one SVG document, each true to its scale."""
    if len(scenes) == 1:
        return to_svg(scenes[0])
    wide = max(scene.paper_mm[0] for scene in scenes)
    parts, y = [], 0.0
    for scene in scenes:
        page = _Page(scene, is_true=True)
        heading = (
            f"<title>{_text(told(scene.title))}, {scene.scale_said}</title><desc>{_text(told(scene.about))}</desc>"
        )
        parts.append(f'<g transform="translate(0 {_n(y)})">{heading}{_body(scene, page)}</g>')
        y += scene.paper_mm[1]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(wide)}mm" height="{_n(y)}mm" '
        f'viewBox="0 0 {_n(wide)} {_n(y)}" role="img" {_PENS}>'
        f'<rect width="{_n(wide)}" height="{_n(y)}" fill="#fff"/>{"".join(parts)}</svg>\n'
    )


def _body(scene: Scene, page: _Page) -> str:
    return "".join(
        f'<g data-layer="{_text(layer)}">{"".join(page.draw(element) for element in elements)}</g>'
        for layer, elements in itertools.groupby(scene.elements, key=lambda element: element.layer)
    )


def _text(text: str) -> str:
    """Return words of the user so that they stay words."""
    return escape(_NOT_XML.sub("\N{REPLACEMENT CHARACTER}", text))


def _n(value: float) -> str:
    """Return a number to a hundredth, without idle zeros."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


class _Page:
    """Turns elements of a scene into SVG, with the origin at the top left of the paper."""

    def __init__(self, scene: Scene, *, is_true: bool) -> None:
        self._scene, self._is_true = scene, is_true
        self._x1, _, _, self._y2 = scene.bounds_mm

    def _xy(self, point: XY) -> tuple[float, float]:
        return (point[0] - self._x1) / self._scene.scale, (self._y2 - point[1]) / self._scene.scale

    def _d(self, points: tuple[XY, ...], *, closed: bool) -> str:
        places = [self._xy(point) for point in points]
        return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in places) + ("Z" if closed else "")

    def _arcs(self, path: Path) -> str:
        """Return a line with its arcs as true arcs."""
        x, y = self._xy(path.points[0])
        d = f"M{_n(x)} {_n(y)}"
        ends = (*path.points[1:], path.points[0]) if path.closed else path.points[1:]
        for start, end, rise in zip(path.points, ends, path.rises_mm, strict=False):
            x, y = self._xy(end)
            if rise == 0.0:
                d += f"L{_n(x)} {_n(y)}"
                continue
            half = math.dist(start, end) / 2.0
            radius = (half * half + rise * rise) / (2.0 * abs(rise)) / self._scene.scale
            d += f"A{_n(radius)} {_n(radius)} 0 {int(abs(rise) > half)} {int(rise < 0.0)} {_n(x)} {_n(y)}"
        return d + ("Z" if path.closed else "")

    def draw(self, element: Element) -> str:  # noqa: PLR0911 - one for each kind of element
        """Return one element as SVG."""
        match element:
            case Path():
                return self._path(element)
            case Region():
                return self._region(element)
            case Words():
                return self._words(element)
            case ScaleWords():
                text = (element.text or self._scene.scale_said) if self._is_true else element.fitted
                return self._words(Words(element.at, text, element.height_mm, "start"))
            case Symbol():
                return self._symbol(element)
            case Circle():
                return self._circle(element)
            case Dimension():
                return self._dimension(element)
            case Arrow():
                return self._arrow(element)

    def _path(self, path: Path) -> str:
        d = self._arcs(path) if path.rises_mm else self._d(path.points, closed=path.closed)
        return f'<path d="{d}" fill="none"{_pen(path.stroke)}/>'

    def _circle(self, circle: Circle) -> str:
        x, y = self._xy(circle.at)
        r = circle.diameter_mm / 2.0 / self._scene.scale
        return f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(r)}" fill="none"{_pen(circle.stroke)}/>'

    def _region(self, region: Region) -> str:
        d = "".join(self._d(ring, closed=True) for ring in region.rings)
        pen = _pen(region.stroke) if region.stroke is not None else ""
        if region.hatch in PLAIN:
            return f'<path d="{d}" fill-rule="evenodd" fill="{PLAIN[region.hatch]}"{pen}/>'
        outline = f'<path d="{d}" fill="none"{pen}/>' if pen else ""
        return self._hatch(region) + outline

    def _hatch(self, region: Region) -> str:
        """Return the lines of a hatch, each drawn to where the shape ends: not every program fills with a pattern."""
        rings = [[self._xy(point) for point in ring] for ring in region.rings]
        return "".join(
            f'<path d="{"".join(self._run(line) for line in lines)}" fill="none" stroke="#000" '
            f'stroke-width="{_n(width)}" stroke-linecap="butt"/>'
            for width, lines in hatch_lines(rings, region.hatch)
            if lines
        )

    def _run(self, line: tuple[XY, XY]) -> str:
        (x1, y1), (x2, y2) = line
        return f"M{_n(x1)} {_n(y1)}L{_n(x2)} {_n(y2)}"

    def _words(self, words: Words) -> str:
        words = replace(words, text=told(words.text))
        x, y = self._xy(words.at)
        size = max(words.height_mm, MIN_TYPE_MM)
        turn = f' transform="rotate({_n(-words.turn_deg)} {_n(x)} {_n(y)})"' if words.turn_deg else ""
        weight = ' font-weight="700"' if words.bold else ""
        below = self._ground(words, (x, y), size, turn) if words.white else ""
        return (
            f'{below}<text x="{_n(x)}" y="{_n(y + size * 0.36)}" font-size="{_n(size)}" text-anchor="{words.anchor}"'
            f"{weight}{turn}>{_text(words.text)}</text>"
        )

    def _ground(self, words: Words, at: XY, size: float, turn: str) -> str:
        """Return the white on which words stand, so that no line runs through them.

        A plain shape: not every program draws a rim below the letters, and the words twice would be read twice.
        """
        wide, high = width_of(words.text, size, bold=words.bold), size * _GROUND
        left = at[0] - {"start": 0.0, "middle": wide / 2.0, "end": wide}[words.anchor]
        return (
            f'<rect x="{_n(left)}" y="{_n(at[1] - high / 2.0)}" width="{_n(wide)}" height="{_n(high)}" rx="0.4" '
            f'fill="#fff"{turn}/>'
        )

    def _symbol(self, symbol: Symbol) -> str:
        x, y = self._xy(symbol.at)
        r = symbol.size_mm / 2.0
        pen = _pen(Stroke(0.25))
        match symbol.kind:
            case Sign.RING | Sign.DOT:
                fill = "#000" if symbol.kind is Sign.DOT else "#fff"
                return f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(r)}" fill="{fill}"{pen}/>'
            case Sign.CROSS:
                d = f"M{_n(x - r)} {_n(y)}H{_n(x + r)}M{_n(x)} {_n(y - r)}V{_n(y + r)}"
                return f'<path d="{d}" fill="none"{pen}/>'
            case Sign.STOP:
                d = f"M{_n(x - r)} {_n(y - r)}L{_n(x + r)} {_n(y + r)}M{_n(x - r)} {_n(y + r)}L{_n(x + r)} {_n(y - r)}"
                ring = f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(r * _STOP_RING)}" fill="#fff"{_pen(Stroke(0.4))}/>'
                return f'{ring}<path d="{d}" fill="none"{_pen(Stroke(0.4))}/>'
            case Sign.TRIANGLE:
                d = f"M{_n(x)} {_n(y - r)}L{_n(x + r)} {_n(y + r)}H{_n(x - r)}Z"
                return f'<path d="{d}" fill="#fff"{pen}/>'
            case Sign.BLOCK | Sign.SQUARE:
                fill = "#000" if symbol.kind is Sign.BLOCK else "#fff"
                return f'<path d="M{_n(x - r)} {_n(y - r)}h{_n(2 * r)}v{_n(2 * r)}h{_n(-2 * r)}Z" fill="{fill}"{pen}/>'
            case _ as never:
                assert_never(never)

    def _arrow(self, arrow: Arrow) -> str:
        (x1, y1), (x2, y2) = self._xy(arrow.start), self._xy(arrow.end)
        length = math.hypot(x2 - x1, y2 - y1)
        if length == 0.0:
            return ""
        ux, uy = (x2 - x1) / length, (y2 - y1) / length
        head = min(_HEAD_MM, length * 0.6)
        bx, by = x2 - ux * head, y2 - uy * head
        side = head * 0.32
        tip = f"M{_n(x2)} {_n(y2)}L{_n(bx - uy * side)} {_n(by + ux * side)}L{_n(bx + uy * side)} {_n(by - ux * side)}Z"
        shaft = f"M{_n(x1)} {_n(y1)}L{_n(bx)} {_n(by)}"
        return f'<path d="{shaft}" fill="none"{_pen(arrow.stroke)}/><path d="{tip}" fill="#000"/>'

    def _dimension(self, size: Dimension) -> str:
        """Return the line, its two ticks, the lines that lead to it and the size above it."""
        (x1, y1), (x2, y2) = self._xy(size.start), self._xy(size.end)
        length = math.hypot(x2 - x1, y2 - y1)
        if length == 0.0:
            return ""
        ux, uy = (x2 - x1) / length, (y2 - y1) / length
        nx, ny = uy * size.off_mm, -ux * size.off_mm
        ax, ay, bx, by = x1 + nx, y1 + ny, x2 + nx, y2 + ny
        lead = ""
        if size.off_mm:
            over = 1.0 + _TICK_MM / abs(size.off_mm)
            lead = f"M{_n(x1)} {_n(y1)}L{_n(x1 + nx * over)} {_n(y1 + ny * over)}"
            lead += f"M{_n(x2)} {_n(y2)}L{_n(x2 + nx * over)} {_n(y2 + ny * over)}"
        tx, ty = (ux - uy) * _TICK_MM * 0.6, (uy + ux) * _TICK_MM * 0.6
        ticks = "".join(f"M{_n(x - tx)} {_n(y - ty)}L{_n(x + tx)} {_n(y + ty)}" for x, y in ((ax, ay), (bx, by)))
        written = size_words(size, self._scene.scale)
        words = "" if written is None else self._words(written)
        line = f'<path d="{lead}M{_n(ax)} {_n(ay)}L{_n(bx)} {_n(by)}" fill="none"{_pen(Stroke(0.13))}/>'
        return f'{line}<path d="{ticks}" fill="none"{_pen(Stroke(0.4))}/>{words}'


def _pen(stroke: Stroke) -> str:
    dash = f' stroke-dasharray="{" ".join(_n(each) for each in stroke.dash_mm)}"' if stroke.dash_mm else ""
    return f' stroke="#000" stroke-width="{_n(stroke.width_mm)}"{dash}'
