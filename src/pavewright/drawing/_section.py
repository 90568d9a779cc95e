"""The section at the house wall, every layer with its thickness, true to scale both ways."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.drawing._scene import DASHED, HAIR, MEDIUM, THICK, THIN, Arrow, Element, Path, Region, Scene, Words

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp
    from pavewright.geometry import XY
    from pavewright.levels import FinishedArea, WallClearance
    from pavewright.pipeline import Plan
    from pavewright.survey import PlanOpening

_OUT_MM = 1100.0
"""How much paving the section shows. [mm]"""
_WALL_MM = 215.0
_SCALE = 10
_HATCH = {
    "unit": "white",
    "bed": "mortar",
    "base": "concrete",
    "sub_base": "stone",
    "capping": "stone",
    "sand": "sand",
}


def section_at_wall(plan: Plan) -> Scene | None:
    """Return the section at a door, or where paving and damp-proof course are nearest; None where no wall is met."""
    met = [(finished, clearance) for finished in plan.levels.areas for clearance in finished.clearances]
    if not met:
        return _section_of(plan, plan.levels.areas[0], None)
    doors = {door.wall for finished in plan.levels.areas for door in finished.doors}
    finished, clearance = min(met, key=lambda each: (each[1].wall not in doors, each[1].least_mm))
    return _section_of(plan, finished, clearance)


def _section_of(plan: Plan, finished: FinishedArea, clearance: WallClearance | None) -> Scene:
    """Return the section; x runs out from the wall, y is the level over the datum."""
    up = plan.build_ups.area(finished.area)
    where = _Place(plan, finished, clearance)
    elements: list[Element] = []
    top, left = where.level(0.0), -_WALL_MM
    dpc = where.dpc_mm
    high = max(top, dpc or top, where.door.threshold_level_mm if where.door else top) + 160.0
    low = top - up.total_mm - 260.0
    elements += _layers(up, where)
    elements += _ground(where)
    if clearance is not None:
        elements += _wall(where, high, low)
    elements += _levels(up, where, left)
    bounds = (left - 420.0, low - 40.0, _OUT_MM + 900.0, high + 60.0)
    title = f"Section at {'wall ' + clearance.wall if clearance else finished.area}"
    return Scene("section", title, tuple(elements), bounds, _SCALE, _about(up, clearance))


class _Place:
    """The line along which the section is cut, square to the wall."""

    def __init__(self, plan: Plan, finished: FinishedArea, clearance: WallClearance | None) -> None:
        site = plan.survey.site
        self.finished, self.ground = finished, plan.survey.ground
        self.dpc_mm: float | None = None
        self.door: PlanOpening | None = None
        centre = site.area(finished.area).gross.centre_mm
        if clearance is None:
            self._start, self._out = finished.corners[0].at, finished.main_direction
            return
        wall = next(each for each in site.walls if each.name == clearance.wall)
        self.dpc_mm = wall.dpc_level_mm
        self.door = wall.openings[0] if wall.openings else None
        if self.door is not None:
            middle = ((self.door.start[0] + self.door.end[0]) / 2.0, (self.door.start[1] + self.door.end[1]) / 2.0)
        elif clearance.at_start_mm <= clearance.at_end_mm:
            middle = clearance.start
        else:
            middle = clearance.end
        run = ((wall.end[0] - wall.start[0]) ** 2 + (wall.end[1] - wall.start[1]) ** 2) ** 0.5
        nx, ny = -(wall.end[1] - wall.start[1]) / run, (wall.end[0] - wall.start[0]) / run
        sign = 1.0 if (centre[0] - middle[0]) * nx + (centre[1] - middle[1]) * ny >= 0.0 else -1.0
        self._start, self._out = middle, (nx * sign, ny * sign)

    def at(self, out_mm: float) -> XY:
        """Return the place in plan so far out from the wall."""
        return self._start[0] + self._out[0] * out_mm, self._start[1] + self._out[1] * out_mm

    def level(self, out_mm: float) -> float:
        """Return the finished level so far out from the wall. [mm]."""
        return self.finished.plane.level_at(self.at(out_mm))


def _layers(up: AreaBuildUp, where: _Place) -> list[Element]:
    found: list[Element] = []
    depth = 0.0
    near, far = where.level(0.0), where.level(_OUT_MM)
    for layer in up.layers:
        if layer.thickness_mm <= 0.0:
            continue
        below = depth + layer.thickness_mm
        ring = ((0.0, near - depth), (_OUT_MM, far - depth), (_OUT_MM, far - below), (0.0, near - below))
        key = "sand" if layer.key == "bed" and layer.material == "sharp_sand" else layer.key
        found.append(Region((ring,), _HATCH[key], MEDIUM))
        middle = (depth + below) / 2.0
        x = _OUT_MM + 60.0
        found.append(Path(((_OUT_MM - 60.0, far - middle), (x, far - middle)), HAIR))
        found.append(Words((x + 12.0, far - middle), f"{layer.thickness_mm:g}  {layer.name}", 2.6, "start"))
        depth = below
    found.append(Path(((0.0, near), (_OUT_MM, far)), THICK))
    found.append(Path(((0.0, near - depth), (_OUT_MM, far - depth)), THICK))
    found.append(Arrow((_OUT_MM * 0.35, near + 55.0), (_OUT_MM * 0.75, near + 55.0)))
    return found


def _ground(where: _Place) -> list[Element]:
    """Return the ground as it lies, where it is known."""
    if where.ground is None:
        return []
    reach = _OUT_MM + 40.0
    line = tuple((x, where.ground.level_beyond(where.at(x))) for x in (0.0, reach / 2.0, reach))
    at = (_OUT_MM + 72.0, max(line[-1][1], where.level(_OUT_MM)) + 60.0)
    leader = Path((line[-1], (at[0] - 8.0, at[1])), HAIR)
    return [Path(line, DASHED), leader, Words(at, "ground now (dashed)", 2.4, "start")]


def _wall(where: _Place, high: float, low: float) -> list[Element]:
    found: list[Element] = []
    ring = ((-_WALL_MM, low), (0.0, low), (0.0, high), (-_WALL_MM, high))
    found.append(Region((ring,), "wall", MEDIUM))
    if where.dpc_mm is not None:
        band = tuple((x, where.dpc_mm + y) for x, y in ((-_WALL_MM, -6.0), (0.0, -6.0), (0.0, 6.0), (-_WALL_MM, 6.0)))
        found.append(Region((band,), "grey", MEDIUM))
        found.append(Path(((-_WALL_MM, where.dpc_mm), (320.0, where.dpc_mm)), DASHED))
        text = f"damp-proof course {units.metres_text(where.dpc_mm)}"
        found.append(Words((335.0, where.dpc_mm), text, 2.6, "start", white=True))
    if where.door is not None:
        level = where.door.threshold_level_mm
        found.append(Path(((-_WALL_MM - 160.0, level), (40.0, level)), THICK))
        text = f"{where.door.name}: threshold {units.metres_text(level)}"
        found.append(Words((0.0, level + 46.0), text, 2.6, "start", white=True))
    return found


def _levels(up: AreaBuildUp, where: _Place, left: float) -> list[Element]:
    """Return the chain of heights at the wall: damp-proof course, finished, formation."""
    top = where.level(0.0)
    formation = top - up.total_mm
    x = left - 110.0
    found: list[Element] = []
    marks = [*([where.dpc_mm] if where.dpc_mm is not None else []), top, formation]
    found += [Path(((x - 30.0, level), (left, level)), HAIR) for level in marks]
    for upper, lower in itertools.pairwise(marks):
        found.append(Path(((x, upper), (x, lower)), THIN))
        found.append(Words((x - 26.0, (upper + lower) / 2.0), f"{upper - lower:.0f}", 3.0, "end", bold=True))
    if where.dpc_mm is not None:
        far = x - 170.0
        found.append(Path(((far, where.dpc_mm), (far, formation)), THIN))
        found.append(
            Words(
                (far - 22.0, (where.dpc_mm + formation) / 2.0), f"{where.dpc_mm - formation:.0f}", 3.0, "end", bold=True
            )
        )
    found.append(Words((30.0, top + 30.0), f"finished {units.metres_text(top)}", 2.8, "start", bold=True, white=True))
    found.append(
        Words(
            (30.0, formation - 36.0), f"formation {units.metres_text(formation)}", 2.8, "start", bold=True, white=True
        )
    )
    fall = units.fall_text((top - where.level(_OUT_MM)) / _OUT_MM)
    found.append(Words((_OUT_MM * 0.55, top + 85.0), f"falls {fall}", 2.6, white=True))
    return found


def _about(up: AreaBuildUp, clearance: WallClearance | None) -> str:
    layers = ", ".join(f"{layer.name} {layer.thickness_mm:g} mm" for layer in up.layers if layer.thickness_mm > 0.0)
    wall = f" beside wall {clearance.wall}" if clearance is not None else ""
    return f"Section{wall}: {layers}; {up.total_mm:g} mm in all."
