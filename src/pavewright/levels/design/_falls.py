"""Which way an area falls and how much."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.geometry import Plane, bearing_of, distance, fit_plane
from pavewright.job import Fault, Hand, Wanted
from pavewright.levels._codes import Code
from pavewright.levels._formulas import steepest_of
from pavewright.levels.design import _words as words
from pavewright.levels.edges import away_from, contacts
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.levels._figures import LevelFigures
    from pavewright.survey import PlanArea, PlanWall, Survey

_SQUARE_ENOUGH = 0.5
"""A second wall counts as standing across the fall when the two directions differ by 60 degrees or more. [-]"""


@dataclass(frozen=True, slots=True)
class Falls:
    """Direction and falls of an area.

    Attributes:
        direction: Direction of the main fall, length one.
        main: Fall in that direction. [rise over run]
        cross: Fall to the right of it; negative to the left. [rise over run]
        chosen_by: Why it falls that way, in words.
        workings: The sums.
        findings: What was noticed.
    """

    direction: XY
    main: float
    cross: float
    chosen_by: str
    workings: tuple[Working, ...]
    findings: tuple[Finding, ...]

    @property
    def right(self) -> XY:
        """Direction to the right, looking downhill."""
        return self.direction[1], -self.direction[0]

    def plane(self, origin: XY, level_mm: float) -> Plane:
        """Return the plane with these falls through a level at a point."""
        dx, dy = self.direction
        rx, ry = self.right
        return Plane(level_mm, origin, -(self.main * dx + self.cross * rx), -(self.main * dy + self.cross * ry))


def choose_falls(area: PlanArea, survey: Survey, figures: LevelFigures, path: str) -> Falls | Fault:
    """Return the falls of an area: as wished, away from walls or edges, or with the ground; a fault if none says."""
    wish = area.area.fall
    walls = _walls_met(area, survey, figures)
    cross: float | None = None
    if wish.away_from is not None:
        named = next(wall for wall in survey.site.walls if wall.name == wish.away_from)
        direction, why = (
            away_from(named.start, named.end, area.gross.centre_mm),
            f"away from wall {named.name}, as asked",
        )
    elif wish.bearing_deg is not None:
        turn = math.radians(wish.bearing_deg)
        direction, why = (math.sin(turn), math.cos(turn)), f"bearing {wish.bearing_deg:g} degrees, as asked"
    elif walls:
        direction = away_from(walls[0].start, walls[0].end, area.gross.centre_mm)
        why = f"away from wall {walls[0].name}"
        cross = _away_from_second(area, direction, walls, figures)
    else:
        found = _tie_in_direction(area, survey, figures) or _ground_direction(area, survey)
        if found is None:
            message = f"Nothing says which way area {area.name} falls: give bearing_deg or away_from."
            return Fault(path, message, Wanted.FALL, area.name)
        direction, cross, why = found
    if wish.cross_one_in is not None:
        cross = (1.0 if wish.cross_to is Hand.RIGHT else -1.0) * units.one_in_n_to_fall(wish.cross_one_in)
    asked = wish.away_from is not None or wish.bearing_deg is not None
    return _with_sums(area, direction, cross or 0.0, why, asked=asked, figures=figures)


def _with_sums(area: PlanArea, direction: XY, cross: float, why: str, *, asked: bool, figures: LevelFigures) -> Falls:
    figure = figures.falls.main
    run_per_drop = area.area.fall.one_in or figure.value
    main = units.one_in_n_to_fall(run_per_drop)
    workings = [
        Working(
            f"main fall = 1 / {run_per_drop:g}",
            main,
            "-",
            () if area.area.fall.one_in else (figure,),
            f"{why}; {main * units.MM_PER_M:.1f} mm in each metre",
        )
    ]
    if cross:
        workings.append(
            Working(
                f"steepest fall = √({main:.6f}² + {abs(cross):.6f}²)",
                steepest_of(main, cross),
                "-",
                (),
                f"cross fall {units.fall_text(cross)} to the {'right' if cross > 0 else 'left'}, looking downhill",
            )
        )
    findings = () if asked else (_told(area, direction, main, cross, why),)
    return Falls(direction, main, cross, why, tuple(workings), findings)


def _told(area: PlanArea, direction: XY, main: float, cross: float, why: str) -> Finding:
    return Finding(
        Code.DIRECTION_CHOSEN,
        Severity.NOTE,
        f"area {area.name}",
        words.direction_chosen(area.name, main, cross, why, bearing_of(direction)),
        at_mm=area.gross.centre_mm,
    )


def _walls_met(area: PlanArea, survey: Survey, figures: LevelFigures) -> list[PlanWall]:
    """Return walls of a house that the area meets, longest meeting first."""
    within = figures.meets_mm
    met = []
    for order, wall in enumerate(survey.site.walls):
        if wall.is_house:
            length = sum(contact.length_mm for contact in contacts(area, wall.start, wall.end, within))
            if length > 0.0:
                met.append((-length, order, wall))
    return [wall for _, _, wall in sorted(met, key=lambda entry: entry[:2])]


def _away_from_second(area: PlanArea, direction: XY, walls: list[PlanWall], figures: LevelFigures) -> float | None:
    """Return the cross fall that takes water away from a second wall standing across; None without one."""
    for wall in walls[1:]:
        off = away_from(wall.start, wall.end, area.gross.centre_mm)
        if abs(off[0] * direction[0] + off[1] * direction[1]) <= _SQUARE_ENOUGH:
            to_right = off[0] * direction[1] - off[1] * direction[0]
            return math.copysign(units.one_in_n_to_fall(figures.falls.cross.value), to_right)
    return None


def _tie_in_direction(area: PlanArea, survey: Survey, figures: LevelFigures) -> tuple[XY, float, str] | None:
    """Return the direction square to the longest edge to be met, with the cross fall that follows that edge."""
    within = figures.meets_mm
    met = []
    for order, tie in enumerate(survey.site.tie_ins):
        if tie.start_level_mm is None or tie.end_level_mm is None:
            continue
        rise = tie.start_level_mm - tie.end_level_mm
        length = sum(contact.length_mm for contact in contacts(area, tie.start, tie.end, within))
        if length > 0.0:
            met.append((-length, order, tie, rise))
    if not met:
        return None
    _, _, tie, rise = min(met, key=lambda entry: entry[:2])
    direction = away_from(tie.start, tie.end, area.gross.centre_mm)
    along = rise / distance(tie.start, tie.end)
    ux, uy = (tie.end[0] - tie.start[0], tie.end[1] - tie.start[1])
    to_right = ux * direction[1] - uy * direction[0]
    return direction, math.copysign(1.0, to_right) * along, f"away from the edge {tie.name}, following its own slope"


def _ground_direction(area: PlanArea, survey: Survey) -> tuple[XY, float, str] | None:
    """Return the way the ground falls over the area; None where the ground is not known or level."""
    if survey.ground is None:
        return None
    levels = [(x, y, survey.ground.level_beyond((x, y))) for x, y in area.gross.outer]
    slope = fit_plane(levels)
    return None if slope.fall == 0.0 else (slope.downhill, 0.0, "with the ground")
