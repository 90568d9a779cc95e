"""Movement joints in section: between units, and along a wall or what is fixed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.buildup import LayerKey
from pavewright.drawing._notes import Note, in_order
from pavewright.drawing._scene import HAIR, MEDIUM, THICK, Hatch, Path, Region, Scene, Words
from pavewright.drawing._section_parts import Sketch, hatch_of, scale_bar
from pavewright.drawing._type import wrapped
from pavewright.writing import thick, worded

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.buildup import AreaBuildUp
    from pavewright.geometry import XY
    from pavewright.laying import LaidArea
    from pavewright.pipeline import Plan

_SCALE = 5
_TYPE_MM, _LINE_MM = 2.9, 4.4
_SIDE_MM = 150.0
"""Paving shown on each side of a joint. [mm]"""
_DRAWN_MM = 10.0
"""Width at which a joint is drawn: what is bought decides. [mm]"""
_SEAL_MM = 10.0
"""Drawn depth of the sealant. [mm]"""
_GROUND_MM = 25.0
_HEAD_MM, _NOTES_MM = 9.0, 56.0
"""Room over a section for its title, and beside it for words, on paper. [mm]"""
_JOINTED = frozenset({LayerKey.UNIT, LayerKey.BED})
_WALL_OVER_MM = 60.0


@dataclass(frozen=True, slots=True)
class _Joint:
    """One kind of joint of some areas that are built alike."""

    up: AreaBuildUp
    areas: tuple[str, ...]
    at_wall: bool
    length_m: float


def movement_details(plan: Plan) -> tuple[Scene, ...]:
    """Return sections through the movement joints of the job, two on a sheet; none where it has none."""
    joints = [*_joints(plan, at_wall=False), *_joints(plan, at_wall=True)]
    pairs = [joints[first : first + 2] for first in range(0, len(joints), 2)]
    return tuple(_scene(plan, pair, number) for number, pair in enumerate(pairs, start=1))


def first_movement_detail(plan: Plan) -> Scene | None:
    """Return the first of those sheets; None where the job has no movement joint."""
    return next(iter(movement_details(plan)), None)


def _joints(plan: Plan, *, at_wall: bool) -> list[_Joint]:
    found: dict[object, _Joint] = {}
    for laid in plan.laying.areas:
        length = laid.movement.edge_m if at_wall else laid.movement.placed_m + laid.movement.unplaced_m
        if length <= 0.0:
            continue
        up = plan.build_ups.area(laid.area)
        known = found.get(up.layers)
        areas = (*known.areas, laid.area) if known is not None else (laid.area,)
        found[up.layers] = _Joint(up, areas, at_wall, length + (known.length_m if known is not None else 0.0))
    return list(found.values())


def _scene(plan: Plan, joints: Sequence[_Joint], number: int) -> Scene:
    sketch, top = Sketch(_SCALE), 0.0
    for joint in joints:
        top = _Panel(sketch, joint, top).draw() - sketch.mm(6.0)
    left, right = -_SIDE_MM - sketch.mm(4.0), _SIDE_MM + sketch.mm(_NOTES_MM + 10.0)
    said = _said(plan, [laid for laid in plan.laying.areas if laid.movement.total_m > 0.0])
    for line in (line for each in said for line in wrapped(worded(each), (right - left) / _SCALE - 6.0, _TYPE_MM)):
        sketch.add("notes", Words((left + sketch.mm(2.0), top), line, _TYPE_MM, "start"))
        top -= sketch.mm(_LINE_MM)
    scale_bar(sketch, (left + sketch.mm(2.0), top - sketch.mm(3.0)))
    bounds = (left, top - sketch.mm(6.0), right, 0.0)
    return Scene(f"movement-{number}", "Movement joints", tuple(sketch.elements), bounds, _SCALE, " ".join(said))


def _said(plan: Plan, areas: Sequence[LaidArea]) -> list[str]:
    found = [
        f"Drawn {_DRAWN_MM:g} mm wide: width, filler and sealant are those that the maker of the sealant says.",
        "The joint runs through units and bed; no mortar bridges it.",
    ]
    for laid in areas:
        moved = laid.movement
        parts = [
            f"{length:.1f} m {where}"
            for length, where in (
                (moved.placed_m, "in straight joints, drawn on the laying plan"),
                (moved.unplaced_m, "not drawn: the pattern has no straight joint for them"),
                (moved.edge_m, "along walls and round what is fixed"),
            )
            if length > 0.0
        ]
        found.append(f"{laid.area}: {'; '.join(parts)}.")
    if any(up.area == laid.area for laid in areas for up in plan.build_ups.areas):
        found.append("A concrete base that is cast in bays has its own joint under that of the units.")
    return found


class _Panel:
    """One joint in its place on the sheet: x from the middle of the joint, y up from the surface."""

    def __init__(self, sketch: Sketch, joint: _Joint, top: float) -> None:
        self._sketch, self._joint, self._top = sketch, joint, top
        over = _WALL_OVER_MM if joint.at_wall else 0.0
        self._zero = top - sketch.mm(_HEAD_MM) - over

    def _at(self, x: float, y: float) -> XY:
        return x, self._zero + y

    def _box(self, x: tuple[float, float], y: tuple[float, float], hatch: Hatch) -> None:
        ring = (self._at(x[0], y[0]), self._at(x[1], y[0]), self._at(x[1], y[1]), self._at(x[0], y[1]))
        self._sketch.add("layers", Region((ring,), hatch, None if hatch is Hatch.GROUND else MEDIUM))

    def draw(self) -> float:
        """Draw it, and return how far down it reaches. [mm]."""
        joint, half = self._joint, _DRAWN_MM / 2.0
        what = "Joint along a wall or what is fixed" if joint.at_wall else "Joint between units"
        title = worded(f"{what}: {', '.join(joint.areas)}, {joint.length_m:.1f} m")
        at = (-_SIDE_MM - self._sketch.mm(2.0), self._top - self._sketch.mm(4.0))
        self._sketch.add("notes", Words(at, title, 3.4, "start", bold=True))
        deep, total = 0.0, joint.up.total_mm
        left = -half if joint.at_wall else -_SIDE_MM
        for layer in joint.up.layers:
            below = deep + layer.thickness_mm
            if layer.thickness_mm > 0.0:
                sides = [(half, _SIDE_MM)] if joint.at_wall else [(-_SIDE_MM, -half), (half, _SIDE_MM)]
                if layer.key not in _JOINTED:
                    sides = [(left, _SIDE_MM)]
                for side in sides:
                    self._box(side, (-deep, -below), hatch_of(layer))
            deep = below
        self._box((left, _SIDE_MM), (-total, -total - _GROUND_MM), Hatch.GROUND)
        if joint.at_wall:
            self._box((-_SIDE_MM, -half), (_WALL_OVER_MM, -total - _GROUND_MM), Hatch.WALL)
        self._box((-half, half), (0.0, -self._jointed), Hatch.SAND)
        self._box((-half, half), (0.0, -_SEAL_MM), Hatch.BLACK)
        line = (self._at(left, -total), self._at(_SIDE_MM, -total))
        self._sketch.add("ground", Path(line, THICK))
        return self._beside(total)

    @property
    def _jointed(self) -> float:
        return sum(layer.thickness_mm for layer in self._joint.up.layers if layer.key in _JOINTED)

    def _beside(self, total: float) -> float:
        sketch = self._sketch
        said = [
            ((0.0, -_SEAL_MM * 0.5), "sealant on a backing strip"),
            ((0.0, -self._jointed * 0.6), "filler that gives way, through units and bed"),
        ]
        deep = 0.0
        for layer in self._joint.up.layers:
            if layer.thickness_mm > 0.0:
                said.append(
                    ((_SIDE_MM - 25.0, -deep - layer.thickness_mm * 0.5), f"{thick(layer.thickness_mm)}  {layer.name}")
                )
            deep += layer.thickness_mm
        x = _SIDE_MM + sketch.mm(8.0)

        def leader(note: Note, height: float) -> tuple[XY, ...]:
            near, bend = x - sketch.mm(0.8), x - sketch.mm(3.5)
            return self._at(near, height), self._at(bend, height), self._at(*note.at)

        notes = [Note(at, tuple(wrapped(worded(text), _NOTES_MM, _TYPE_MM))) for at, text in said]
        low = -total - _GROUND_MM
        for note, heights in in_order(notes, sketch.mm(_TYPE_MM * 1.5), leader, 0.0):
            sketch.add("notes", Path(leader(note, heights[0]), HAIR, leads=True))
            for line, height in zip(note.lines, heights, strict=True):
                sketch.add("notes", Words(self._at(x, height), line, _TYPE_MM, "start"))
                low = min(low, height - sketch.mm(_TYPE_MM))
        return self._zero + low
