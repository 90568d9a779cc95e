"""A section through each soakaway: what covers it, what fills it, where water enters, and the levels that are known."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing import _long_words as words
from pavewright.drawing._notes import Note, in_order, spread
from pavewright.drawing._scene import (
    HAIR,
    MEDIUM,
    THICK,
    THIN,
    Circle,
    Dimension,
    Hatch,
    Path,
    Region,
    Scene,
    Stroke,
    Words,
    choose_scale,
)
from pavewright.drawing._section_parts import Sketch, scale_bar
from pavewright.drawing._site_parts import caution_of
from pavewright.drawing._type import wrapped
from pavewright.job import PitFill
from pavewright.writing import level_mark, size_mark, worded

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan
    from pavewright.water import DrainRun, RunEnd, SoakawayParts

_TYPE_MM, _LINE_MM = 2.9, 4.4
_ROOM_MM = (66.0, 80.0)
"""Room for the pit and the ground over it on paper, across and up. [mm]"""
_BESIDE_MM = 12.0
"""Ground shown on each side of it on paper. [mm]"""
_LEFT_MM, _RIGHT_MM = 50.0, 62.0
"""Room for levels left of it and words right of it on paper. [mm]"""
_SAME_MM = 25.0
"""Depths that differ by less are the same. [mm]"""
_CLOTH = Stroke(0.5, (1.2, 0.8))


def pit_sections(plan: Plan) -> tuple[Scene, ...]:
    """Return a section through every soakaway whose size is known or proposed."""
    return tuple(_Pit(plan, parts).scene(number) for number, parts in enumerate(plan.water.pits, start=1))


def first_pit_section(plan: Plan) -> Scene | None:
    """Return the first of them; None where the job has none."""
    return next(iter(pit_sections(plan)), None)


class _Pit:
    """One soakaway: x runs across it from its left side, y up from the surface over it."""

    def __init__(self, plan: Plan, parts: SoakawayParts) -> None:
        self._plan, self._parts, self._size = plan, parts, parts.size
        self._runs: list[DrainRun] = [run for run in plan.water.runs if run.pipe.outfall == parts.outfall]
        high = self._size.cover_mm + self._size.depth_mm
        scale = max(10, choose_scale((self._size.width_mm, high), _ROOM_MM))
        self._sketch = Sketch(scale)
        self._low = -high

    @property
    def _end(self) -> RunEnd | None:
        return next((run.end for run in self._runs if run.end is not None), None)

    def scene(self, number: int) -> Scene:
        """Return the drawing."""
        sketch, size = self._sketch, self._size
        self._ground()
        self._fill()
        self._sizes()
        self._levels()
        self._beside()
        left = -sketch.mm(_BESIDE_MM + _LEFT_MM)
        right = size.width_mm + sketch.mm(_BESIDE_MM + _RIGHT_MM)
        y = self._low - sketch.mm(16.0)
        said = [*self._said(), caution_of(self._plan)]
        wide = (right - left) / sketch.scale - 6.0
        for line in (line for each in said for line in wrapped(worded(each), wide, _TYPE_MM)):
            sketch.add("notes", Words((left + sketch.mm(2.0), y), line, _TYPE_MM, "start"))
            y -= sketch.mm(_LINE_MM)
        scale_bar(sketch, (left + sketch.mm(2.0), y - sketch.mm(3.0)))
        bounds = (left, y - sketch.mm(6.0), right, sketch.mm(9.0))
        proposed = ", size proposed" if size.proposed else ""
        title = f"Section through soakaway {self._parts.outfall}{proposed}"
        return Scene(f"soakaway-{number}", title, tuple(sketch.elements), bounds, sketch.scale, " ".join(said[:-1]))

    def _ground(self) -> None:
        """Draw the ground at both sides and under it, and the surface."""
        size, side = self._size, self._sketch.mm(_BESIDE_MM)
        foot = self._low - self._sketch.mm(5.0)
        for x1, x2 in ((-side, 0.0), (size.width_mm, size.width_mm + side)):
            ring = ((x1, 0.0), (x2, 0.0), (x2, foot), (x1, foot))
            self._sketch.add("ground", Region((ring,), Hatch.GROUND))
        under = ((0.0, self._low), (size.width_mm, self._low), (size.width_mm, foot), (0.0, foot))
        self._sketch.add("ground", Region((under,), Hatch.GROUND))
        self._sketch.add("ground", Path(((-side, 0.0), (size.width_mm + side, 0.0)), THICK))

    def _fill(self) -> None:
        """Draw what fills it, the membrane round it and the pipe through it."""
        size, top = self._size, -self._size.cover_mm
        ring = ((0.0, top), (size.width_mm, top), (size.width_mm, self._low), (0.0, self._low))
        over = ((0.0, 0.0), (size.width_mm, 0.0), (size.width_mm, top), (0.0, top))
        self._sketch.add("layers", Region((over,), Hatch.WHITE, THIN))
        hatch = Hatch.STONE if size.fill is PitFill.STONE else Hatch.CONCRETE
        self._sketch.add("layers", Region((ring,), hatch, MEDIUM), Path(ring, _CLOTH, closed=True))
        if self._parts.perforated_pipe_m and self._bore is not None:
            at = (size.width_mm / 2.0, top - self._bore)
            box = self._bore * 0.5
            hole = tuple((at[0] + dx * box, at[1] + dy * box) for dx, dy in ((-1, -1), (1, -1), (1, 1), (-1, 1)))
            self._sketch.add("drains", Region((hole,), Hatch.WHITE), Circle(at, self._bore, MEDIUM))

    @property
    def _bore(self) -> float | None:
        return self._runs[0].bore.value if self._runs else None

    def _sizes(self) -> None:
        """Draw the chain of heights left of it and the width under it."""
        size, sketch = self._size, self._sketch
        x = -sketch.mm(_BESIDE_MM + 5.0)
        for upper, lower in ((0.0, -size.cover_mm), (-size.cover_mm, self._low)):
            if upper > lower:
                sketch.add("heights", Dimension((x, lower), (x, upper), 0.0, ""))
                text = Words(
                    (x - sketch.mm(1.5), (upper + lower) / 2.0), size_mark(upper - lower), _TYPE_MM, "end", bold=True
                )
                sketch.add("heights", text)
        y = self._low - sketch.mm(8.0)
        sketch.add("heights", Dimension((0.0, y), (size.width_mm, y), 0.0, ""))
        across = Words((size.width_mm / 2.0, y - sketch.mm(2.8)), size_mark(size.width_mm), _TYPE_MM, bold=True)
        sketch.add("heights", across)

    def _levels(self) -> None:
        """Write the levels of surface, inlet and foot at the left; what nobody took is said so."""
        end, size, sketch = self._end, self._size, self._sketch
        cover = None if end is None else end.cover_level_mm
        inlet = None if end is None else end.invert_level_mm
        foot = None if inlet is None else inlet - size.depth_mm
        x, near = -sketch.mm(_BESIDE_MM + 16.0), -sketch.mm(_BESIDE_MM)
        marks = ((0.0, "surface", cover), (-size.cover_mm, "inlet", inlet), (self._low, "foot", foot))
        places = spread([y for y, _, _ in marks], sketch.mm(_TYPE_MM * 1.5))
        for (y, name, level), place in zip(marks, places, strict=True):
            missing = words.NOT_TAKEN if name == "inlet" else words.NOT_KNOWN
            said = missing if level is None else level_mark(level)
            ends = ((x + sketch.mm(0.8), place), (x + sketch.mm(2.4), y), (near, y))
            sketch.add("heights", Path(ends, HAIR))
            sketch.add("heights", Words((x, place), f"{name} {said}", _TYPE_MM, "end", bold=True))

    def _beside(self) -> None:
        """Say at the right what it consists of, each with a leader into it."""
        sketch, size, parts = self._sketch, self._size, self._parts
        wide, top = size.width_mm, -size.cover_mm
        fill = (
            f"clean stone, {parts.stone_m3:.2f} m³"
            if size.fill is PitFill.STONE
            else f"crates, {parts.crates_m3:.2f} m³"
        )
        said = [
            ((wide * 0.8, top * 0.5), "ground over it" + (", depth assumed" if size.cover_assumed else "")),
            ((wide, top + self._low * 0.02), f"geotextile all round, lapped on top, {parts.geotextile_m2:.1f} m²"),
            ((wide * 0.85, (top + self._low) / 2.0), f"{fill}, voids {size.void_percent:g} %"),
        ]
        if parts.perforated_pipe_m and self._bore is not None:
            pipe = f"perforated pipe, bore {size_mark(self._bore)}, {parts.perforated_pipe_m:.2f} m, level, capped"
            said.append(((wide / 2.0 + self._bore * 0.4, top - self._bore), pipe))
        x = wide + sketch.mm(_BESIDE_MM + 6.0)

        def leader(note: Note, height: float) -> tuple[XY, ...]:
            return note.at, (x - sketch.mm(4.0), height), (x - sketch.mm(0.8), height)

        notes = [Note(at, tuple(wrapped(worded(text), _RIGHT_MM - 8.0, _TYPE_MM))) for at, text in said]
        for note, heights in in_order(notes, sketch.mm(_TYPE_MM * 1.5), leader):
            sketch.add("notes", Path(leader(note, heights[0]), HAIR, leads=True))
            for line, height in zip(note.lines, heights, strict=True):
                sketch.add("notes", Words((x, height), line, _TYPE_MM, "start"))

    def _said(self) -> list[str]:
        """Return what the drawing alone does not say."""
        size = self._size
        found = [
            f"{size_mark(size.length_mm)} long, {size_mark(size.width_mm)} wide, {size_mark(size.depth_mm)} deep below "
            + ("its inlet; proposed, not entered." if size.proposed else "its inlet.")
        ]
        check = next((each for each in self._plan.water.soakaways if each.outfall == size.outfall), None)
        if check is None:
            found.append(
                "Whether it is large enough is not known: it takes the rain of the place and a test of the ground."
            )
        else:
            found.append(
                f"Holds {check.available_m3:.2f} m³ of {check.required_m3:.2f} m³ that the worst storm needs: "
                f"{check.verdict.value}; half empty after {check.half_empty_hours:.1f} h."
            )
        found += [
            f"Takes {run.start.name}: pipe {words.length_of(run)}, fall {words.fall_of(run)}." for run in self._runs
        ]
        deep = None if self._end is None else self._end.deep_mm
        if deep is not None and abs(deep - size.cover_mm) > _SAME_MM:
            found.append(
                f"By its levels the inlet lies {size_mark(deep)} under the surface, by its sizes "
                f"{size_mark(size.cover_mm)}: take them again."
            )
        if self._end is None or self._end.at is None:
            found.append(
                "Its place is not on the plan: how far it lies from buildings, boundaries and services is not known."
            )
        found.append("Dig as local codes say: no one goes into a trench or pit that is not held.")
        return found
