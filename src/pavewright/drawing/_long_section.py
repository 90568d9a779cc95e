"""Long sections of drains: every pipe run from its inlet to its outfall, heights drawn larger than lengths."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.drawing import _long_words as words
from pavewright.drawing._grid import bubble
from pavewright.drawing._long_words import TYPE_MM, fitting, scale_for
from pavewright.drawing._scene import (
    DASHED,
    HAIR,
    MEDIUM,
    THICK,
    THIN,
    Hatch,
    Path,
    Region,
    ScaleWords,
    Scene,
    Sign,
    Symbol,
    Words,
)
from pavewright.drawing._section_parts import Sketch
from pavewright.drawing._site_parts import SERVICE, caution_of
from pavewright.drawing._type import wrapped
from pavewright.job import OutfallKind
from pavewright.writing import level_mark, worded

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY
    from pavewright.pipeline import Plan
    from pavewright.water import DrainRun, RunEnd

_WIDE_MM, _HIGH_MM = 176.0, 235.0
"""A sheet on paper. [mm]"""
_HEADS_MM = 42.0
"""Width of the heads of the table. [mm]"""
_START_MM, _LONGEST_MM, _BROKEN_MM, _SHORTEST_MM = 56.0, 100.0, 84.0, 40.0
"""Where a pipe begins, its longest on paper, that of one whose length is not known, and the least. [mm]"""
_PLOT_MM, _DROP_MM = 34.0, 24.0
"""Height of the section, and of what is between its lowest and its highest level, on paper. [mm]"""
_TITLE_MM, _ROW_MM, _LINE_MM, _GAP_MM = 12.0, 5.4, 4.3, 4.0
_FOOT_MM = 4.0
_ROWS = 7
_PIT_MM = 2.0
"""A soakaway is drawn where there is so much room under its inlet on paper. [mm]"""
_BOLD = 1.07
"""How much wider bold type stands. [-]"""
_CELL_MM = 5.0
"""How far before its end of the run a cell of the table begins on paper. [mm]"""


@dataclass(frozen=True, slots=True)
class _Panel:
    """One run in its place on a sheet, in millimetres of paper from the top left."""

    run: DrainRun
    said: tuple[tuple[str, bool], ...]

    @property
    def high_mm(self) -> float:
        """Room that it takes. [mm]."""
        return _TITLE_MM + _PLOT_MM + _ROWS * _ROW_MM + 2.0 + len(self.said) * _LINE_MM + _GAP_MM


def drain_sections(plan: Plan) -> tuple[Scene, ...]:
    """Return sheets of long sections through every pipe run of the job; none where it has none."""
    panels = [_Panel(run, _said(run)) for run in plan.water.runs]
    caution = wrapped(worded(caution_of(plan)), _WIDE_MM - 4.0, TYPE_MM)
    room = _HIGH_MM - _FOOT_MM - len(caution) * _LINE_MM
    sheets: list[list[_Panel]] = []
    for panel in panels:
        if not sheets or sum(each.high_mm for each in sheets[-1]) + panel.high_mm > room:
            sheets.append([])
        sheets[-1].append(panel)
    return tuple(_scene(sheet, caution, number) for number, sheet in enumerate(sheets, start=1))


def first_drain_section(plan: Plan) -> Scene | None:
    """Return the first of those sheets; None where the job has no pipe run."""
    return next(iter(drain_sections(plan)), None)


def _said(run: DrainRun) -> tuple[tuple[str, bool], ...]:
    heed, know = words.said_of(run)
    return tuple(
        (line, bold)
        for bold, found in ((True, heed), (False, know))
        for said in found
        for line in wrapped(worded(said), (_WIDE_MM - 8.0) / (_BOLD if bold else 1.0), TYPE_MM)
    )


def _scene(panels: Sequence[_Panel], caution: Sequence[str], number: int) -> Scene:
    # every run has its own scale across; the sheet itself is drawn in millimetres of paper
    sketch, top = Sketch(1), 0.0
    for panel in panels:
        _Drawn(sketch, panel, top).draw()
        top -= panel.high_mm
    for line in caution:
        sketch.add("notes", Words((2.0, top - 2.0), line, TYPE_MM, "start"))
        top -= _LINE_MM
    title = "Sections along the drains"
    about = " ".join(_about(panel) for panel in panels)
    name = f"drains-{number}"
    return Scene(name, title, tuple(sketch.elements), (0.0, top - _FOOT_MM, _WIDE_MM, 0.0), 1, about, scales=True)


def _about(panel: _Panel) -> str:
    run = panel.run
    ends = [
        f"{end.name}: surface {words.level_of(end.cover_level_mm)}, invert {words.level_of(end.invert_level_mm)}"
        for end in (run.start, run.end)
        if end is not None
    ]
    said = " ".join(line for line, _ in panel.said)
    return f"{words.title_of(run)}. {'; '.join(ends)}; fall {words.fall_of(run)}. {said}"


class _Drawn:
    """One run as it is drawn."""

    def __init__(self, sketch: Sketch, panel: _Panel, top: float) -> None:
        self._sketch, self._panel, self._run, self._top = sketch, panel, panel.run, top
        self._foot = top - _TITLE_MM - _PLOT_MM
        length = panel.run.pipe.length_m
        self._across = None if length is None else scale_for(units.m_to_mm(length), _LONGEST_MM)
        long = _BROKEN_MM if length is None or self._across is None else units.m_to_mm(length) / self._across
        self._is_true = length is not None and long >= _SHORTEST_MM
        self._ends = (_START_MM, _START_MM + max(long, _SHORTEST_MM))
        known = [
            level for end in self._points for level in (end.cover_level_mm, end.invert_level_mm) if level is not None
        ]
        self._up = scale_for(max(known, default=0.0) - min(known, default=0.0), _DROP_MM)
        self._datum = (min(known, default=0.0) // 100.0) * 100.0 if known else 0.0
        if known and (max(known) - self._datum) / self._up > _PLOT_MM - 4.0:
            self._datum = min(known)

    @property
    def _points(self) -> tuple[RunEnd, ...]:
        return (self._run.start,) if self._run.end is None else (self._run.start, self._run.end)

    def _y(self, level_mm: float) -> float:
        return self._foot + 3.0 + (level_mm - self._datum) / self._up

    def draw(self) -> None:
        """Draw it."""
        title = fitting(worded(words.title_of(self._run)), _WIDE_MM - 4.0, 3.4)
        self._sketch.add("notes", Words((2.0, self._top - 4.0), title, 3.4, "start", bold=True))
        self._scales()
        self._pipe()
        for x, end in zip(self._ends, self._points, strict=False):
            self._end(x, end)
        self._crossed()
        self._table()
        self._notes()

    def _scales(self) -> None:
        """Say both scales, and the level of the foot line."""
        known = (
            len(
                {
                    level
                    for end in self._points
                    for level in (end.cover_level_mm, end.invert_level_mm)
                    if level is not None
                }
            )
            > 1
        )
        across = f"across 1:{self._across}" if self._is_true else "across not to scale"
        up = f"up 1:{self._up}" if known else "heights not to scale: too few levels are known"
        more = ""
        if self._is_true and known and self._across is not None and self._across != self._up:
            more = f"heights are drawn {self._across / self._up:g} times as large as lengths"
        said = ": ".join(filter(None, (f"{across}, {up}", more)))
        fitted = "; ".join(filter(None, ("not to scale", more)))
        self._sketch.add("sheet", ScaleWords((2.0, self._top - 9.0), TYPE_MM, text=said, fitted=fitted))
        line = ((_HEADS_MM, self._foot), (_WIDE_MM - 2.0, self._foot))
        self._sketch.add("heights", Path(line, THIN))
        if known:
            at = (_HEADS_MM - 1.5, self._y(self._datum))
            self._sketch.add("heights", Path(((_HEADS_MM, at[1]), (_HEADS_MM + 4.0, at[1])), HAIR))
            self._sketch.add("heights", Words(at, f"line at {level_mark(self._datum)}", TYPE_MM, "end"))

    def _pipe(self) -> None:
        """Draw the pipe from invert to invert; where one of them is not known only as far as can be said."""
        (x1, x2), run = self._ends, self._run
        start, end = run.start.invert_level_mm, None if run.end is None else run.end.invert_level_mm
        high = run.bore.value / self._up
        if start is None or end is None:
            self._stub(start, end)
            return
        low, foot = self._y(start), self._y(end)
        ring = ((x1, low), (x2, foot), (x2, foot + high), (x1, low + high))
        self._sketch.add("drains", Region((ring,), Hatch.WHITE, MEDIUM))
        if not self._is_true:
            self._break((low + foot + high) / 2.0)

    def _break(self, y: float) -> None:
        """Mark that a length is not to scale."""
        x = sum(self._ends) / 2.0
        gap = ((x - 2.0, y - 4.0), (x + 1.0, y + 4.0), (x + 3.0, y + 4.0), (x, y - 4.0))
        self._sketch.add("drains", Region((gap,), Hatch.WHITE))
        for left in (x - 2.0, x):
            self._sketch.add("drains", Path(((left, y - 4.0), (left + 3.0, y + 4.0)), THIN))

    def _stub(self, start: float | None, end: float | None) -> None:
        """Draw a short piece of pipe where its level is known, and a question mark where it is not."""
        for x, level, way in ((self._ends[0], start, 1.0), (self._ends[1], end, -1.0)):
            if level is not None:
                self._sketch.add("drains", Path(((x, self._y(level)), (x + way * 14.0, self._y(level))), DASHED))
        middle = (sum(self._ends) / 2.0, self._foot + _PLOT_MM * 0.5)
        said = "? inverts not taken"
        self._sketch.add("drains", Words(middle, said, TYPE_MM, bold=True, white=True))

    def _end(self, x: float, end: RunEnd) -> None:
        """Draw an end: the surface over it, its walls and what it is."""
        cover, invert = end.cover_level_mm, end.invert_level_mm
        if cover is not None:
            self._sketch.add("ground", Path(((x - 7.0, self._y(cover)), (x + 7.0, self._y(cover))), THICK))
        top = self._foot + _PLOT_MM - 5.0 if cover is None else self._y(cover)
        low = self._foot + 3.0 if invert is None else self._y(invert)
        pen = DASHED if cover is None or invert is None else MEDIUM
        if end.kind is OutfallKind.SOAKAWAY:
            pit = ((x, low), (x + 9.0, low), (x + 9.0, self._foot + 0.6), (x, self._foot + 0.6))
            if invert is not None and low - self._foot > _PIT_MM:
                self._sketch.add("drains", Region((pit,), Hatch.STONE, THIN))
        self._sketch.add("drains", Path(((x, top), (x, low)), pen))
        self._sketch.add("drains", Path(((x, low), (x, self._foot)), HAIR))
        if cover is None:
            self._sketch.add("drains", Words((x, top + 1.9), "?", TYPE_MM, bold=True, white=True))
        if invert is not None:
            self._sketch.add("drains", Symbol((x, low), Sign.DOT, 1.3))

    def _crossed(self) -> None:
        """Draw where a known service crosses, with the number under which it is spoken of."""
        length, before = self._run.pipe.length_m, 0.0
        if not self._run.line_known or not length:
            return
        (x1, x2), high = self._ends, self._foot + _PLOT_MM
        for number, each in enumerate(self._run.crossings, start=1):
            x = x1 + (x2 - x1) * min(each.along_mm / units.m_to_mm(length), 1.0)
            at = (max(x, before + 5.4), high - 2.4)
            before = at[0]
            self._sketch.add("services", Path(((x, self._foot), (x, high - 7.4)), SERVICE))
            self._sketch.add("services", Path(((x, high - 7.4), (at[0], high - 4.8)), HAIR, leads=True))
            self._sketch.add("services", *bubble(at, str(number)))

    def _table(self) -> None:
        """Write levels under the ends, and length, fall and bore between them."""
        run, points = self._run, self._points
        room = (self._ends[1] - self._ends[0] - 3.0, _WIDE_MM - self._ends[1])
        names = [fitting(end.name, wide) for end, wide in zip(points, room, strict=False)]
        rows = (
            ("at", names),
            ("surface or grating", [words.surface_of(end) for end in points]),
            ("invert", [words.level_of(end.invert_level_mm) for end in points]),
            ("from surface to invert", [words.deep_of(end) for end in points]),
            ("length of pipe", words.length_of(run)),
            ("fall", words.fall_of(run)),
            ("pipe", words.pipe_of(run)),
        )
        for number, (head, cells) in enumerate(rows):
            y = self._foot - (number + 0.5) * _ROW_MM
            line = y - 0.5 * _ROW_MM
            self._sketch.add("heights", Path(((2.0, line), (_WIDE_MM - 2.0, line)), HAIR))
            self._sketch.add("heights", Words((2.0, y), head, TYPE_MM, "start"))
            if isinstance(cells, str):
                bold = cells not in {words.NOT_KNOWN, words.NOT_TAKEN}
                at = (_START_MM - _CELL_MM, y)
                self._sketch.add("heights", Words(at, worded(cells), TYPE_MM, "start", bold=bold))
                continue
            for x, cell in zip(self._ends, cells, strict=False):
                self._sketch.add("heights", Words((x - _CELL_MM, y), worded(cell), TYPE_MM, "start", bold=True))

    def _notes(self) -> None:
        y = self._foot - _ROWS * _ROW_MM - 2.0
        for number, (line, bold) in enumerate(self._panel.said):
            at: XY = (2.0, y - (number + 0.5) * _LINE_MM)
            self._sketch.add("notes", Words(at, line, TYPE_MM, "start", bold=bold))
