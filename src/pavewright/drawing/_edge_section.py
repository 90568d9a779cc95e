"""Sections through kerbs, edgings and haunches: their units, the concrete bed under them and the haunch beside them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.drawing import _edge_words as words
from pavewright.drawing._notes import Note, in_order
from pavewright.drawing._scene import HAIR, MEDIUM, THICK, Dimension, Hatch, Path, Region, Scene, Words
from pavewright.drawing._section_parts import Sketch, hatch_of, scale_bar
from pavewright.drawing._type import wrapped
from pavewright.writing import size_mark, thick, worded

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.buildup import AreaBuildUp, EdgeSection
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan

_SCALE = 10
"""Details are drawn 1 to 10. [-]"""
_ON_SHEET = 3
"""Sections on one sheet."""
_PAVING_MM, _BEYOND_MM, _GROUND_MM = 300.0, 90.0, 50.0
"""How much paving, ground beyond and ground under formation are shown. [mm]"""
_NOTES_MM, _TYPE_MM = 50.0, 2.9
"""Width of the words on either side and height of the type on paper. [mm]"""
_JOINT_AT = 0.85
"""How deep in the units the words of the joints point, as a part of their thickness. [-]"""
_HEAD_MM, _FOOT_MM = 11.0, 11.0
"""Room over a section for its title, and under it for the widths, on paper. [mm]"""


@dataclass(frozen=True, slots=True)
class Detail:
    """One section: what it shows, and the areas that have it.

    Attributes:
        up: The layers beside it.
        edge: What holds the side.
        areas: Names of the areas.
        joints: What is said of the joints.
    """

    up: AreaBuildUp
    edge: EdgeSection
    areas: tuple[str, ...]
    joints: str

    @property
    def dug_mm(self) -> float:
        """How far past the paving is dug. [mm]."""
        return max(self.edge.past_paving_mm, *(layer.extends_mm for layer in self.up.layers))

    @property
    def low_mm(self) -> float:
        """How far it is shown below the paving. [mm]."""
        return max(self.up.total_mm, self.edge.foot_mm) + _GROUND_MM


def edge_details(plan: Plan) -> tuple[Scene, ...]:
    """Return sheets of sections through what the job builds to hold its sides; those that are alike are drawn once."""
    details = _details(plan)
    parts = [details[first : first + _ON_SHEET] for first in range(0, len(details), _ON_SHEET)]
    return tuple(_scene(part, number) for number, part in enumerate(parts, start=1))


def first_edge_details(plan: Plan) -> Scene | None:
    """Return the first of those sheets; None where the job builds nothing to hold a side."""
    return next(iter(edge_details(plan)), None)


def _details(plan: Plan) -> list[Detail]:
    found: dict[tuple[object, ...], Detail] = {}
    for area in plan.survey.site.areas:
        up, laying = plan.build_ups.area(area.name), area.area.laying
        joints = words.joints_in_words(laying.joint_mm, laying.bedding, permeable=up.is_permeable)
        for edge in up.edges:
            alike = (up.layers, edge, joints)
            known = found.get(alike)
            areas = (*known.areas, area.name) if known is not None else (area.name,)
            found[alike] = Detail(up, edge, areas, joints)
    return list(found.values())


def _scene(details: Sequence[Detail], number: int) -> Scene:
    """Draw sections one under another."""
    sketch, top = Sketch(_SCALE), 0.0
    past = max(detail.dug_mm for detail in details) + _BEYOND_MM
    for detail in details:
        panel = _Panel(sketch, detail, top - sketch.mm(_HEAD_MM) - max(detail.edge.top_mm, 0.0), past)
        panel.draw()
        top -= panel.high_mm
    left, right = -_PAVING_MM - sketch.mm(_NOTES_MM + 8.0), past + sketch.mm(_NOTES_MM + 8.0)
    scale_bar(sketch, (left + sketch.mm(1.0), top - sketch.mm(4.0)))
    bounds = (left, top - sketch.mm(7.0), right, 0.0)
    about = " ".join(_about(detail) for detail in details)
    return Scene(f"edges-{number}", "Sections at the edges", tuple(sketch.elements), bounds, _SCALE, about)


def _about(detail: Detail) -> str:
    said = [line for _, line in _edge_notes(detail)]
    return f"{words.title_of(detail.edge, detail.areas)}: {'; '.join(said)}."


def _edge_notes(detail: Detail) -> list[tuple[XY, str]]:
    """Return what is said of the edge itself, each with the place that it points to."""
    edge, found = detail.edge, []
    wide, high = edge.unit_mm
    under = edge.top_mm - high
    if wide > 0.0:
        found.append(((wide * 0.8, edge.top_mm - high * 0.2), words.unit_in_words(edge)))
    if edge.back is not None:
        foot = under if wide > 0.0 else edge.top_mm - edge.back.height_mm
        at = (wide + edge.back.mean_mm * 0.6, foot + edge.back.height_mm * 0.5)
        found.append((at, words.haunch_in_words(edge.back, words.where_behind(edge))))
    if edge.front is not None:
        at = (-edge.front.foot_mm * 0.25, under + edge.front.height_mm * 0.3)
        found.append((at, words.haunch_in_words(edge.front, "before")))
    if edge.bed_mm[0] > 0.0:
        found.append(((edge.past_paving_mm * 0.9, under - edge.bed_mm[1] * 0.5), words.bed_in_words(edge)))
    if edge.trench_mm > 0.0:
        found.append(((edge.past_paving_mm, -edge.foot_mm), words.trench_in_words(edge)))
    return found


def _layer_notes(detail: Detail) -> list[tuple[XY, str]]:
    """Return what is said of the layers beside it and of the joints."""
    found: list[tuple[XY, str]] = []
    left, deep = -_PAVING_MM, 0.0
    for number, layer in enumerate(detail.up.layers):
        middle = deep + layer.thickness_mm / 2.0
        said = f"{thick(layer.thickness_mm)}  {layer.name}" if layer.thickness_mm > 0.0 else layer.name
        found.append(((left + 30.0, -middle), said))
        if number == 0:
            found.append(((left + 12.0, -layer.thickness_mm * _JOINT_AT), detail.joints))
        deep += layer.thickness_mm
    return [*found, ((left + 30.0, -deep - 8.0), "formation")]


@dataclass(frozen=True, slots=True)
class _Panel:
    """One section in its place on the sheet: x runs out from the edge of the paving, y up from its surface."""

    sketch: Sketch
    detail: Detail
    zero_mm: float
    past_mm: float

    @property
    def high_mm(self) -> float:
        """Room that it takes. [mm]."""
        gap = self.sketch.mm(_TYPE_MM * 1.5)
        over = max(self.detail.edge.top_mm, 0.0)
        notes = (_edge_notes(self.detail), _layer_notes(self.detail))
        lines = max(sum(len(_lines(said)) for _, said in side) for side in notes)
        return self.sketch.mm(_HEAD_MM) + max(over + self.detail.low_mm + self.sketch.mm(_FOOT_MM), lines * gap)

    def draw(self) -> None:
        """Draw it."""
        self._ground()
        self._layers()
        self._concrete()
        self._widths()
        x = self.past_mm + self.sketch.mm(6.0)
        self._beside(_edge_notes(self.detail), x, side=1.0)
        self._beside(_layer_notes(self.detail), -_PAVING_MM - self.sketch.mm(6.0), side=-1.0)
        at = self._at(-_PAVING_MM - self.sketch.mm(_NOTES_MM + 6.0), max(self.detail.edge.top_mm, 0.0))
        title = Words(
            (at[0], at[1] + self.sketch.mm(6.5)), worded(words.title_of(self.detail.edge, self.detail.areas)), 3.4
        )
        self.sketch.add("notes", replace(title, anchor="start", bold=True))

    def _at(self, x: float, y: float) -> XY:
        return x, self.zero_mm + y

    def _region(self, points: Sequence[XY], hatch: Hatch, *, over: bool = False) -> None:
        """Fill a shape; what lies over others hides them first."""
        ring = tuple(self._at(x, y) for x, y in points)
        if over:
            self.sketch.add("concrete", Region((ring,), Hatch.WHITE))
        self.sketch.add(
            "concrete" if over else "layers", Region((ring,), hatch, MEDIUM if hatch is not Hatch.GROUND else None)
        )

    def _box(self, x: tuple[float, float], y: tuple[float, float], hatch: Hatch, *, over: bool = False) -> None:
        self._region(((x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1])), hatch, over=over)

    def _ground(self) -> None:
        """Draw the ground under formation and beside the dig; how high it stands beyond is not shown."""
        detail, edge, total = self.detail, self.detail.edge, self.detail.up.total_mm
        dug, low = detail.dug_mm, -detail.low_mm
        line: list[XY] = [(-_PAVING_MM, -total)]
        if edge.trench_mm > 0.0:
            near, far = -edge.before_mm, edge.past_paving_mm
            line += [(near, -total), (near, -edge.foot_mm), (far, -edge.foot_mm), (far, -total)]
        line += [(dug, -total), (dug, -detail.up.layers[0].thickness_mm)]
        ring = [*line, (self._beyond, line[-1][1]), (self._beyond, low), (-_PAVING_MM, low)]
        self._region(ring, Hatch.GROUND)
        self.sketch.add("ground", Path(tuple(self._at(*point) for point in line), THICK))

    @property
    def _beyond(self) -> float:
        return self.detail.dug_mm + _BEYOND_MM

    def _layers(self) -> None:
        """Draw the layers; each runs past the paving as far as it is laid."""
        deep = 0.0
        for layer in self.detail.up.layers:
            below = deep + layer.thickness_mm
            if layer.thickness_mm > 0.0:
                self._box((-_PAVING_MM, layer.extends_mm), (-deep, -below), hatch_of(layer))
            deep = below

    def _concrete(self) -> None:
        """Draw bed, haunches and unit over the layers."""
        edge = self.detail.edge
        wide, high = edge.unit_mm
        under = edge.top_mm - high
        if edge.bed_mm[0] > 0.0:
            self._box((-edge.before_mm, edge.past_paving_mm), (under, -edge.foot_mm), Hatch.CONCRETE, over=True)
        if edge.back is not None:
            foot = under if wide > 0.0 else edge.top_mm - edge.back.height_mm
            rise = foot + edge.back.height_mm
            ring = ((wide, foot), (wide + edge.back.foot_mm, foot), (wide + edge.back.top_mm, rise), (wide, rise))
            self._region(ring, Hatch.CONCRETE, over=True)
        if edge.front is not None:
            rise = under + edge.front.height_mm
            ring = ((0.0, under), (-edge.front.foot_mm, under), (-edge.front.top_mm, rise), (0.0, rise))
            self._region(ring, Hatch.CONCRETE, over=True)
        if wide > 0.0:
            self._box((0.0, wide), (edge.top_mm, under), Hatch.GREY, over=True)

    def _widths(self) -> None:
        """Draw how wide the concrete is, under it."""
        edge = self.detail.edge
        ends = (-edge.before_mm, edge.past_paving_mm)
        y = -self.detail.low_mm - self.sketch.mm(3.0)
        self.sketch.add("heights", Dimension(self._at(ends[0], y), self._at(ends[1], y), 0.0, ""))
        size = Words(self._at(sum(ends) / 2.0, y - self.sketch.mm(3.0)), size_mark(ends[1] - ends[0]), _TYPE_MM)
        self.sketch.add("heights", replace(size, bold=True))

    def _beside(self, notes: list[tuple[XY, str]], x: float, *, side: float) -> None:
        """Write words beside the section, each with a leader to what it is of."""

        def leader(note: Note, height: float) -> tuple[XY, ...]:
            near, bend = (x - side * self.sketch.mm(off) for off in (0.8, 3.5))
            return self._at(near, height), self._at(bend, height), self._at(*note.at)

        waiting = [Note(at, tuple(_lines(said))) for at, said in notes]
        top = max(self.detail.edge.top_mm, 0.0)
        for note, heights in in_order(waiting, self.sketch.mm(_TYPE_MM * 1.5), leader, top):
            for line, height in zip(note.lines, heights, strict=True):
                anchor = "start" if side > 0.0 else "end"
                self.sketch.add("notes", Words(self._at(x, height), line, _TYPE_MM, anchor))
            self.sketch.add("notes", Path(leader(note, heights[0]), HAIR, leads=True))


def _lines(said: str) -> list[str]:
    return wrapped(worded(said), _NOTES_MM, _TYPE_MM)
