"""One area as laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright.as_laid._bays import bays_as_laid, bays_of
from pavewright.as_laid._profiles import profiles_of
from pavewright.as_laid._types import AreaAsLaid, ReadingCheck, WallCheck
from pavewright.as_laid._verdicts import Verdict, within
from pavewright.as_laid.planes import robust_plane
from pavewright.levels import clearance_mm
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.as_laid._figures import AsLaidFigures
    from pavewright.as_laid._promises import Promises, WallPromise
    from pavewright.as_laid._regimes import Regime
    from pavewright.geometry import XY, Plane
    from pavewright.job import AsLaidReading
    from pavewright.levels import FinishedArea
    from pavewright.survey import PlanWall, Survey


def check_area(
    finished: FinishedArea,
    taken: list[AsLaidReading],
    sd_mm: float,
    held: Promises,
    survey: Survey,
    figures: AsLaidFigures,
    regime: Regime,
    joints: tuple[tuple[XY, XY], ...],
) -> AreaAsLaid:
    """Return one area with every reading checked against the plan, its bays, its fall, the clearance at each wall.

    Its verdict stays open here: it is the worst of everything, which is put together once all is read.
    """
    limit = held.level
    readings = tuple(
        _reading(number, each, each.level_mm, finished, limit.value, sd_mm)
        for number, each in enumerate(taken, start=1)
        if each.level_mm is not None
    )
    main = tuple(each for each in readings if finished.surface.facet_at(each.at) == finished.surface.main)
    fitted = _fitted(main, sd_mm)
    bays = bays_of(finished, joints)
    walls = _walls(finished, readings, sd_mm, held, survey, figures)
    unknown = tuple(wall.name for wall in survey.site.walls if _is_not_known(wall, finished, survey, figures))
    planned = finished.plane.fall_along(finished.main_direction)
    fall = None if fitted is None else fitted.fall_along(finished.main_direction)
    return AreaAsLaid(
        area=finished.area,
        readings=readings,
        bays=bays_as_laid(finished, bays, readings, sd_mm, figures),
        profiles=profiles_of(finished.area, bays, readings, sd_mm, regime, figures.beside_row_mm),
        fitted=fitted,
        fall=fall,
        planned_fall=planned,
        steepest=None if fitted is None else fitted.fall,
        bearing_deg=None if fitted is None else fitted.bearing_deg,
        greatest_residual_mm=None
        if fitted is None
        else max(abs(reading.found_mm - fitted.level_at(reading.at)) for reading in readings),
        walls=walls,
        level_limit=limit,
        unknown_walls=unknown,
        reasons=(),
        verdict=Verdict.INCONCLUSIVE,
        workings=_workings(readings, fall, planned),
    )


def _reading(
    number: int, reading: AsLaidReading, found_mm: float, finished: FinishedArea, limit_mm: float, sd_mm: float
) -> ReadingCheck:
    at = reading.x_mm, reading.y_mm
    planned = finished.surface.level_at(at)
    off = found_mm - planned
    return ReadingCheck(reading.label or f"R{number}", at, planned, found_mm, off, within(off, limit_mm, sd_mm))


def _fitted(readings: tuple[ReadingCheck, ...], sd_mm: float) -> Plane | None:
    """Return the plane through the readings without those that the others contradict; None where they carry none."""
    try:
        return robust_plane([(*reading.at, reading.found_mm) for reading in readings], sd_mm).plane
    except ValueError:
        return None


def _walls(
    finished: FinishedArea,
    readings: tuple[ReadingCheck, ...],
    sd_mm: float,
    held: Promises,
    survey: Survey,
    figures: AsLaidFigures,
) -> tuple[WallCheck, ...]:
    """Return the smallest clearance found at each wall: planned at the wall, less what the reading is high."""
    near = figures.near_wall_mm
    promised = {each.wall: each for each in held.walls}
    found = []
    for wall in survey.site.walls:
        met = [clearance for clearance in finished.clearances if clearance.wall == wall.name]
        if wall.dpc_level_mm is None or not met:
            continue
        lines = [LineString([clearance.start, clearance.end]) for clearance in met]
        clear = []
        for reading in readings:
            point = Point(reading.at)
            line = min(lines, key=lambda each: each.distance(point))
            if line.distance(point) <= near:
                foot = line.interpolate(line.project(point))
                at_wall = finished.surface.level_at((float(foot.x), float(foot.y)))
                clear.append(clearance_mm(wall.dpc_level_mm, at_wall + reading.deviation_mm))
        if clear:
            found.append(_wall(promised[wall.name], clear, sd_mm))
    return tuple(found)


def walls_unread(finished: FinishedArea, walls: tuple[WallCheck, ...]) -> tuple[str, ...]:
    """Return the walls with a damp-proof course that the area meets and near which nothing was read."""
    read = {wall.wall for wall in walls}
    return tuple(dict.fromkeys(met.wall for met in finished.clearances if met.wall not in read))


def _wall(promise: WallPromise, clear: list[float], sd_mm: float) -> WallCheck:
    """Return the smallest clearance found at a wall, held to what is promised there."""
    least = min(clear)
    return WallCheck(
        promise.wall,
        least,
        promise.promised_mm,
        len(clear),
        promise.verdict_on(least, sd_mm),
        promise.tolerance_mm,
        promise.tolerance,
    )


def _is_not_known(wall: PlanWall, finished: FinishedArea, survey: Survey, figures: AsLaidFigures) -> bool:
    """Return whether paving meets a house wall whose damp-proof course was not read: clearance there is not known."""
    if not wall.is_house or wall.dpc_level_mm is not None:
        return False
    shape = survey.site.area(finished.area).gross.polygon
    return bool(shape.distance(LineString([wall.start, wall.end])) <= figures.meets_mm)


def _workings(readings: tuple[ReadingCheck, ...], fall: float | None, planned: float) -> tuple[Working, ...]:
    mean = sum(reading.deviation_mm for reading in readings) / len(readings)
    workings = [
        Working(
            f"mean deviation = Σ (found − planned) / {len(readings)}", mean, "mm", (), "high is positive, low negative"
        )
    ]
    if fall is not None:
        words = f"fall along the planned direction = {fall:.5f}, planned {planned:.5f}"
        workings.append(Working(words, fall, "-", (), "from the plane that fits all readings best"))
    return tuple(workings)
