"""A scene as SVG: millimetres of paper, true to scale, literal colours, text as text."""

from __future__ import annotations

import math
from html import escape
from typing import TYPE_CHECKING

from pavewright.drawing._scene import Arrow, Path, Region, Stroke, Symbol, Words

if TYPE_CHECKING:
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY

FONT = "Inter"
_HEAD_MM = 2.2
"""Length of an arrow's head on paper. [mm]"""
TYPE_WIDTH = 0.58
"""Mean width of a letter as a part of the type's height. [-]"""

HATCHES = {
    "cut": ((45.0, 1.4, 0.13),),
    "sliver": ((45.0, 0.9, 0.13), (-45.0, 0.9, 0.13)),
    "wall": ((45.0, 0.8, 0.25),),
    "concrete": ((30.0, 2.2, 0.13), (75.0, 2.6, 0.13)),
    "mortar": ((0.0, 0.7, 0.13),),
    "stone": ((60.0, 1.3, 0.18), (-60.0, 1.3, 0.18)),
    "sand": ((0.0, 1.1, 0.1), (90.0, 1.1, 0.1)),
    "ground": ((-45.0, 1.8, 0.13),),
    "water1": ((45.0, 2.6, 0.13),),
    "water2": ((-45.0, 2.6, 0.13),),
    "water3": ((0.0, 2.6, 0.13),),
    "water4": ((90.0, 2.6, 0.13),),
    "water5": ((20.0, 1.6, 0.13),),
    "water6": ((70.0, 1.6, 0.13),),
}
"""Hatches told apart without colour: angle, spacing and line width of each set of lines. [deg, mm, mm]"""

_PLAIN = {"none": "none", "white": "#fff", "grey": "#d9d9d9"}


def to_svg(scene: Scene) -> str:
    """Return a scene as an SVG document whose millimetres are millimetres of paper."""
    wide, high = scene.paper_mm
    page = _Page(scene)
    body = "".join(page.draw(element) for element in scene.elements)
    used = [name for name in HATCHES if f"url(#{scene.name}-{name})" in body]
    patterns = "".join(_pattern(scene.name, name) for name in used)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(wide)}mm" height="{_n(high)}mm" '
        f'viewBox="0 0 {_n(wide)} {_n(high)}" role="img" font-family="{FONT}, sans-serif" '
        f'stroke-linecap="round" stroke-linejoin="round">'
        f"<title>{escape(scene.title)}, 1:{scene.scale}</title><desc>{escape(scene.about)}</desc>"
        f"<defs>{patterns}</defs>"
        f'<rect width="{_n(wide)}" height="{_n(high)}" fill="#fff"/>{body}</svg>\n'
    )


def _n(value: float) -> str:
    """Return a number to a hundredth, without idle noughts."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def _pattern(scene: str, name: str) -> str:
    sets = HATCHES[name]
    angle, spacing, width = sets[0]
    lines = f'<path d="M0 0H{_n(spacing)}" stroke="#000" stroke-width="{_n(width)}"/>'
    if len(sets) > 1:
        lines += f'<path d="M0 0V{_n(spacing)}" stroke="#000" stroke-width="{_n(sets[1][2])}"/>'
    return (
        f'<pattern id="{scene}-{name}" patternUnits="userSpaceOnUse" width="{_n(spacing)}" height="{_n(spacing)}" '
        f'patternTransform="rotate({_n(-angle)})">{lines}</pattern>'
    )


class _Page:
    """Turns elements of a scene into SVG, with the origin at the top left of the paper."""

    def __init__(self, scene: Scene) -> None:
        self._scene = scene
        self._x1, _, _, self._y2 = scene.bounds_mm

    def _xy(self, point: XY) -> tuple[float, float]:
        return (point[0] - self._x1) / self._scene.scale, (self._y2 - point[1]) / self._scene.scale

    def _d(self, points: tuple[XY, ...], *, closed: bool) -> str:
        places = [self._xy(point) for point in points]
        return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in places) + ("Z" if closed else "")

    def draw(self, element: Path | Region | Words | Symbol | Arrow) -> str:
        """Return one element as SVG."""
        if isinstance(element, Path):
            return f'<path d="{self._d(element.points, closed=element.closed)}" fill="none"{_pen(element.stroke)}/>'
        if isinstance(element, Region):
            return self._region(element)
        if isinstance(element, Words):
            return self._words(element)
        if isinstance(element, Symbol):
            return self._symbol(element)
        return self._arrow(element)

    def _region(self, region: Region) -> str:
        d = "".join(self._d(ring, closed=True) for ring in region.rings)
        pen = _pen(region.stroke) if region.stroke is not None else ""
        fill = _PLAIN.get(region.hatch) or f"url(#{self._scene.name}-{region.hatch})"
        return f'<path d="{d}" fill-rule="evenodd" fill="{fill}"{pen}/>'

    def _words(self, words: Words) -> str:
        x, y = self._xy(words.at)
        size = words.height_mm
        turn = f' transform="rotate({_n(-words.turn_deg)} {_n(x)} {_n(y)})"' if words.turn_deg else ""
        weight = ' font-weight="700"' if words.bold else ""
        halo = ' stroke="#fff" stroke-width="0.7" paint-order="stroke"' if words.white else ""
        return (
            f'<text x="{_n(x)}" y="{_n(y + size * 0.36)}" font-size="{_n(size)}" text-anchor="{words.anchor}"'
            f"{weight}{halo}{turn}>{escape(words.text)}</text>"
        )

    def _symbol(self, symbol: Symbol) -> str:
        x, y = self._xy(symbol.at)
        r = symbol.size_mm / 2.0
        pen = _pen(Stroke(0.25))
        if symbol.kind in {"ring", "dot"}:
            fill = "#000" if symbol.kind == "dot" else "#fff"
            return f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(r)}" fill="{fill}"{pen}/>'
        if symbol.kind == "cross":
            d = f"M{_n(x - r)} {_n(y)}H{_n(x + r)}M{_n(x)} {_n(y - r)}V{_n(y + r)}"
            return f'<path d="{d}" fill="none"{pen}/>'
        if symbol.kind == "triangle":
            d = f"M{_n(x)} {_n(y - r)}L{_n(x + r)} {_n(y + r)}H{_n(x - r)}Z"
            return f'<path d="{d}" fill="#fff"{pen}/>'
        fill = "#000" if symbol.kind == "block" else "#fff"
        return f'<path d="M{_n(x - r)} {_n(y - r)}h{_n(2 * r)}v{_n(2 * r)}h{_n(-2 * r)}Z" fill="{fill}"{pen}/>'

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


def _pen(stroke: Stroke) -> str:
    dash = f' stroke-dasharray="{" ".join(_n(each) for each in stroke.dash_mm)}"' if stroke.dash_mm else ""
    return f' stroke="#000" stroke-width="{_n(stroke.width_mm)}"{dash}'
