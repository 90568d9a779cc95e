"""The section at the house wall, every layer with its thickness, true to scale both ways."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.drawing._edge_words import joints_in_words
from pavewright.drawing._scene import SCALES, Scene, Words, choose_scale
from pavewright.drawing._section_joints import door_room, joints, movement_joint
from pavewright.drawing._section_parts import LEFT_MM, Cut, Sketch, ground, heights, layers, scale_bar, wall
from pavewright.drawing._site_parts import middle_of
from pavewright.drawing._type import box_of
from pavewright.geometry import along_and_offset, unit_vector
from pavewright.levels import clearance_mm
from pavewright.writing import worded

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp
    from pavewright.geometry import XY
    from pavewright.laying import LayingPlan
    from pavewright.levels import FinishedArea, WallClearance
    from pavewright.pipeline import Plan
    from pavewright.survey import PlanOpening, PlanWall

_OUT_MM = 900.0
"""How much paving the section shows. [mm]"""
_ABOVE_MM, _BELOW_MM = 140.0, 130.0
"""What is shown over the highest and under the lowest line. [mm]"""
_HIGH_PAPER_MM = 112.0
"""Most height on paper. [mm]"""
_WIDE_PAPER_MM = 272.0
"""Most width on paper: a sheet of A4 that lies. [mm]"""
_SAME_MM = 0.5
"""Clearances that differ by less are the same all along. [mm]"""
_FOOT_PAPER_MM, _EDGE_PAPER_MM = 9.0, 1.0


@dataclass(frozen=True, slots=True)
class _Where:
    """Where the section is cut."""

    finished: FinishedArea
    clearance: WallClearance | None
    wall: PlanWall | None
    door: PlanOpening | None
    start: XY
    out: XY


def section_at_wall(plan: Plan) -> Scene:
    """Return the section at a door, or where paving and damp-proof course are nearest, or, where no wall is met,
    at the first corner of the first area.
    """  # noqa: D205 - one sentence
    return _section(plan, _places(plan)[0], 0)


def wall_sections(plan: Plan) -> tuple[Scene, ...]:
    """Return that section, and one at every other door that paving meets."""
    return tuple(_section(plan, where, number) for number, where in enumerate(_places(plan)))


def section_mark(number: int) -> str:
    """Return the letters of a section on the plan.

    >>> section_mark(0), section_mark(27)
    ('A–A', 'AB–AB')
    """
    letters = chr(ord("A") + number % _LETTERS)
    if number >= _LETTERS:
        letters = chr(ord("A") + number // _LETTERS - 1) + letters
    return f"{letters}–{letters}"


_LETTERS = 26


def _section(plan: Plan, where: _Where, number: int) -> Scene:
    up = plan.build_ups.area(where.finished.area)
    cut = _cut(plan, where, up)
    marks = [cut.near_mm, cut.far_mm, cut.near_mm - up.total_mm, cut.far_mm - up.total_mm, *cut.ground_mm]
    marks += [level for level in (cut.dpc_mm, cut.threshold_mm) if level is not None]
    high, low = max(marks) + _ABOVE_MM, min(marks) - _BELOW_MM
    scale = max(10, choose_scale((0.0, high - low), (1.0, _HIGH_PAPER_MM)))
    cut = replace(cut, high_mm=high, low_mm=low)
    scene = _drawn(plan, where, number, cut, scale)
    for smaller in (each for each in SCALES if each > scale):
        if scene.paper_mm[0] <= _WIDE_PAPER_MM:
            break
        scene = _drawn(plan, where, number, cut, smaller)  # its sizes take more room than the sheet has
    return scene


def _drawn(plan: Plan, where: _Where, number: int, cut: Cut, scale: int) -> Scene:
    """Return the section at a scale; what is said of a door may reach higher than the levels."""
    up = plan.build_ups.area(where.finished.area)
    sketch, high, low = Sketch(scale), cut.high_mm, cut.low_mm
    high = max(high, door_room(sketch, cut))
    cut = replace(cut, high_mm=high)
    layers(sketch, cut, up)
    laying = plan.survey.site.area(up.area).area.laying
    joints(sketch, cut, up, joints_in_words(laying.joint_mm, laying.bedding, permeable=up.is_permeable))
    if where.wall is not None:
        wall(sketch, cut)
        if _moves(plan.laying, up.area):
            movement_joint(sketch, cut, up)
    ground(sketch, cut)
    top = [level for level in (cut.near_mm, cut.threshold_mm, cut.dpc_mm) if level is not None]
    right = sketch.notes(cut.out_mm, math.inf if cut.threshold_mm is None else max(top))
    reach = heights(sketch, cut, up) - sketch.mm(_EDGE_PAPER_MM)
    notes = [box_of(each, scale)[1] for each in sketch.elements if isinstance(each, Words)]
    foot = min(low, *notes) - sketch.mm(_FOOT_PAPER_MM)
    left = min(-cut.wall_mm - sketch.mm(LEFT_MM), reach)
    scale_bar(sketch, (left + sketch.mm(3.0), foot + sketch.mm(2.5)))
    bounds = (left, foot, right + sketch.mm(2.0), high + sketch.mm(2.0))
    name = "section" if number == 0 else f"section-{number + 1}"
    return Scene(name, _title(where, number), tuple(sketch.elements), bounds, scale, _about(up, cut, where))


def _title(where: _Where, number: int) -> str:
    if where.wall is None:
        return f"Section at {where.finished.area}"
    door = f", {where.door.name}" if where.door is not None else ""
    return f"Section {section_mark(number)} at wall {where.wall.name}{door}"


def _moves(laying: LayingPlan | None, area: str) -> bool:
    """Return whether a movement joint runs along the walls of an area; not while it is not laid."""
    return laying is not None and laying.area(area).movement.edge_m > 0.0


def section_places(plan: Plan) -> tuple[tuple[XY, XY], ...]:
    """Return where each section begins at its wall and its direction out from it; none where no wall is met."""
    return tuple((where.start, where.out) for where in _places(plan) if where.wall is not None)


def _places(plan: Plan) -> tuple[_Where, ...]:
    """Return where sections are cut: at a door first, else where the clearance is least; then at all other doors."""
    met = [(finished, clearance) for finished in plan.levels.areas for clearance in finished.clearances]
    if not met:
        first = plan.levels.areas[0]
        return (_Where(first, None, None, None, first.corners[0].at, first.main_direction),)
    # of several doors in one wall the one with the highest step
    doors = {
        (finished.area, door.wall): door.opening
        for finished in plan.levels.areas
        for door in sorted(finished.doors, key=lambda each: each.max_mm)
    }
    finished, clearance = min(met, key=lambda each: ((each[0].area, each[1].wall) not in doors, each[1].min_mm))
    name = doors.get((finished.area, clearance.wall))
    first_place = _where(plan, finished, clearance, name)
    others = [
        (area, clear, door.opening)
        for area in plan.levels.areas
        for door in area.doors
        for clear in area.clearances
        if clear.wall == door.wall and (area.area, door.wall, door.opening) != (finished.area, clearance.wall, name)
    ]
    return (first_place, *(_where(plan, area, clear, opening) for area, clear, opening in others))


def _where(plan: Plan, finished: FinishedArea, clearance: WallClearance, name: str | None) -> _Where:
    """Return where the section is cut at a wall: in the middle of a door, else where the clearance is least."""
    walls = {each.name: each for each in plan.survey.site.walls}
    wall_met = walls[clearance.wall]
    door = next((each for each in wall_met.openings if each.name == name), None)
    if door is not None:
        start = middle_of(door.start, door.end)
    elif abs(clearance.at_start_mm - clearance.at_end_mm) < _SAME_MM:
        start = middle_of(clearance.start, clearance.end)
    else:
        start = clearance.start if clearance.at_start_mm <= clearance.at_end_mm else clearance.end
    along = unit_vector(wall_met.start, wall_met.end)
    centre = plan.survey.site.area(finished.area).gross.centre_mm
    sign = 1.0 if along_and_offset(wall_met.start, wall_met.end, centre)[1] >= 0.0 else -1.0
    return _Where(finished, clearance, wall_met, door, start, (-along[1] * sign, along[0] * sign))


def _cut(plan: Plan, where: _Where, up: AreaBuildUp) -> Cut:
    """Return the levels that the section meets."""

    def at(out_mm: float) -> XY:
        return where.start[0] + where.out[0] * out_mm, where.start[1] + where.out[1] * out_mm

    surface = plan.survey.ground
    steps = [_OUT_MM * part / 4.0 for part in range(5)]
    return Cut(
        out_mm=_OUT_MM,
        near_mm=where.finished.surface.level_at(at(0.0)),
        far_mm=where.finished.surface.level_at(at(_OUT_MM)),
        total_mm=up.total_mm,
        dpc_mm=None if where.wall is None else where.wall.dpc_level_mm,
        threshold_mm=None if where.door is None else where.door.threshold_level_mm,
        door="" if where.door is None else where.door.name,
        step=_step(where),
        ground_mm=() if surface is None else tuple(surface.level_beyond(at(out)) for out in steps),
        wall_mm=0.0 if where.wall is None else 215.0,
        high_mm=math.inf,
        low_mm=-math.inf,
    )


def _about(up: AreaBuildUp, cut: Cut, where: _Where) -> str:
    names = ", ".join(f"{layer.name} {layer.thickness_mm:g} mm" for layer in up.layers if layer.thickness_mm > 0.0)
    clear = ""
    if cut.dpc_mm is not None:
        clear = f" Finished {clearance_mm(cut.dpc_mm, cut.near_mm):.0f} mm below the damp-proof course."
    return f"From the top: {names}; {up.total_mm:g} mm in all.{clear} {_step(where)}".strip()


def _step(where: _Where) -> str:
    """Return the step down at the door at both jambs and in the middle, where the section is cut; empty without one."""
    if where.wall is None or where.door is None:
        return ""
    wall_name, name = where.wall.name, where.door.name
    found = next((each for each in where.finished.doors if (each.wall, each.opening) == (wall_name, name)), None)
    if found is None:
        return ""
    return worded(f"Step down {found.text}{'; cut here in the middle' if found.varies else ''}.")
