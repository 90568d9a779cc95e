"""Parts that several plans share: outlines, walls, doors, covers, drains, boundaries."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import shapely

from pavewright.drawing._scene import (
    CHAIN,
    DASHED,
    DOTTED,
    MEDIUM,
    THICK,
    THIN,
    Circle,
    Hatch,
    Path,
    Region,
    Sign,
    Stroke,
    Symbol,
)
from pavewright.geometry import along_and_offset, joined, point_along, shape_from_polygon, shared, side_beside
from pavewright.writing import size_mark

if TYPE_CHECKING:
    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._sheet import Sheet
    from pavewright.geometry import XY, Fold, Shape
    from pavewright.job import Service
    from pavewright.pipeline import Plan
    from pavewright.setting_out import ServiceBand
    from pavewright.survey import PlacedService, PlanArea, PlanWall, SitePlan, Survey

_WALL_MM, _WALL_PAPER_MM = 260.0, 5.0
"""Drawn thickness of a wall on the site, and the most of it on paper. [mm]"""
SERVICE = Stroke(0.35, (3.0, 1.0, 0.4, 1.0, 0.4, 1.0))
"""The pen of a buried service."""


def site_points(survey: Survey) -> list[XY]:
    """Return the points that a plan of the paved areas has to show."""
    points = [point for area in survey.site.areas for point in area.gross.outer]
    for wall in survey.site.walls:
        points += [wall.start, wall.end]
    return points


def folds_of(plan: Plan) -> list[Fold]:
    """Return the folds of all finished surfaces; none while levels are not known, for what is folded waits for them."""
    areas = plan.levels.areas if plan.levels is not None else ()
    return [fold for finished in areas for fold in finished.surface.folds]


def rings(shape: Shape) -> tuple[tuple[XY, ...], ...]:
    """Return the rings of a shape."""
    return (shape.outer, *shape.holes)


def outlines(area: PlanArea, stroke: Stroke) -> list[Path]:
    """Return the outline of an area and its holes, arcs as arcs."""
    return [
        Path(
            tuple(corner.xy for corner in ring.corners),
            stroke,
            closed=True,
            rises_mm=tuple(corner.rise_mm for corner in ring.corners),
        )
        for ring in (area.ring, *area.holes)
    ]


def middle_of(start: XY, end: XY) -> XY:
    """Return the middle of a line."""
    return (start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0


def site_key(site: SitePlan) -> tuple[KeyItem, ...]:
    """Return the part of the key for what stands on this site."""
    found: list[KeyItem] = []
    if site.walls:
        found.append((Hatch.WALL, "wall"))
    if site.channels or site.gullies:
        found.append((Hatch.GREY, "channel or gully"))
    if site.boundaries:
        found.append((CHAIN, "boundary"))
    if site.tie_ins:
        found.append((DASHED, "edge of paving that stays"))
    return tuple(found)


def draw_site(sheet: Sheet, site: SitePlan) -> None:
    """Draw what stands on the site: walls with doors, boundaries, drains, covers and posts."""
    sheet.on("site")
    paved = joined([area.gross.polygon for area in site.areas])
    for wall in site.walls:
        _wall(sheet, wall, paved)
    for boundary in site.boundaries:
        sheet.add(Path((boundary.start, boundary.end), CHAIN))
    for tie in site.tie_ins:
        sheet.add(Path((tie.start, tie.end), DASHED))
    for channel in site.channels:
        half = channel.width_mm / 2.0
        ends = [point_along(channel.start, channel.end, 0.0, off) for off in (half, -half)]
        run = math.dist(channel.start, channel.end)
        far = [point_along(channel.start, channel.end, run, off) for off in (-half, half)]
        sheet.add(Region(((*ends, *far),), Hatch.GREY, THIN))
    for placed in site.covers:
        corners = placed.outline
        sheet.add(Region((corners,), Hatch.WHITE, MEDIUM), Path((corners[0], corners[2]), THIN))
        sheet.keep_clear_of(corners)
    for gully in site.gullies:
        half = gully.gully.size_mm / 2.0
        x, y = gully.at
        square = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
        sheet.add(Region((square,), Hatch.GREY, MEDIUM))
        sheet.keep_clear_of(square)
    for post in site.obstacles:
        sheet.add(Region((post.outline,), Hatch.WALL, MEDIUM))
        sheet.keep_clear_of(post.outline)


def bands_of(plan: Plan) -> tuple[ServiceBand, ...]:
    """Return the buried services with the ground beside them; none while nothing is set out."""
    return plan.setting_out.services if plan.setting_out is not None else ()


def band_key(plan: Plan) -> tuple[KeyItem, ...]:
    """Return the part of the key for buried services and the ground beside them."""
    bands = bands_of(plan)
    if not bands:
        return ()
    band = bands[0].band_mm
    return (
        (SERVICE, "buried service"),
        (Hatch.BAND, f"{band:.0f} mm beside it: no pin, dig by hand"),
    )


def draw_bands(sheet: Sheet, plan: Plan) -> None:
    """Draw the ground beside services in which no pin is driven and digging is by hand."""
    bands = bands_of(plan)
    if not bands:
        return
    about = joined([shapely.buffer(_along(band.points), band.band_mm, quad_segs=16) for band in bands])
    inside = shared(about, shapely.box(*sheet.field))
    sheet.on("services")
    for part in shapely.get_parts(inside):
        if isinstance(part, shapely.Polygon):
            sheet.add(Region(rings(shape_from_polygon(part)), Hatch.BAND, DOTTED))


def _along(points: tuple[XY, ...]) -> shapely.Geometry:
    return shapely.LineString(points) if len(points) > 1 else shapely.Point(points[0])


def caution_of(plan: Plan) -> str:
    """Return what every drawing says of buried services that leads a pin or a spade."""
    if plan.setting_out is not None:
        return plan.setting_out.services_words
    return _NOT_SET_OUT


_NOT_SET_OUT = (
    "Buried services: those entered are drawn; there may be others, and their lines and depths are often wrong. Get "
    "the records and have the ground traced before a pin is driven or a spade goes in."
)


def service_in_short(of: ServiceBand | Service) -> str:
    """Return what a service is and how deep it lies, for a drawing."""
    depth = "depth not known" if of.depth_mm is None else f"said to be {size_mark(of.depth_mm)} deep"
    return f"{of.kind if of.kind != 'unknown' else 'kind not known'}, {depth}"


def label_services(sheet: Sheet, plan: Plan) -> None:
    """Write at each service what it is and how deep it lies, and under the drawing what holds for all."""
    sheet.on("services")
    for placed in plan.survey.site.services:
        name, words = placed.service.name, service_in_short(placed.service)
        if len(placed.points) == 1:
            written = sheet.label(placed.points[0], name, bold=True, under=words)
        else:
            written = sheet.label_along(placed.points, name, bold=True, under=words)
        if not written:
            sheet.notes.append(f"{name}: {words}.")
    sheet.notes.append(caution_of(plan))


def draw_services(sheet: Sheet, site: SitePlan) -> None:
    """Draw the buried services that are known, and the trees whose roots the dig may meet."""
    sheet.on("services")
    for placed in site.services:
        if len(placed.points) == 1:
            sheet.add(Symbol(placed.points[0], Sign.TRIANGLE, 2.2))
            sheet.keep_clear(placed.points[0], 2.2)
        else:
            sheet.add(Path(placed.points, SERVICE))
    sheet.on("trees")
    for tree in site.trees:
        reach = max(tree.tree.stem_diameter_mm / 2.0, sheet.mm(1.5))
        sheet.add(Circle(tree.at, tree.tree.stem_diameter_mm, MEDIUM), Circle(tree.at, reach * 3.6, DOTTED))
        sheet.keep_clear(tree.at, reach * 3.6 / sheet.scale)


def label_service(sheet: Sheet, placed: PlacedService, *, bold: bool = False) -> None:
    """Write the name of a service beside it."""
    if len(placed.points) == 1:
        sheet.label(placed.points[0], placed.service.name, bold=bold)
    else:
        sheet.label_along(placed.points, placed.service.name, bold=bold)


def _away(wall: PlanWall, paved: shapely.Geometry) -> float:
    """Return on which side of a wall the house stands: away from the paving beside it, else away from all paving."""
    side = side_beside(wall.start, wall.end, paved, _BESIDE_MM)
    if side is None:
        middle = shapely.centroid(paved)
        side = 1.0 if along_and_offset(wall.start, wall.end, (middle.x, middle.y))[1] >= 0.0 else -1.0
    return -side


_BESIDE_MM = 600.0
"""The paving that a wall belongs to begins within this of it. [mm]"""


def _wall(sheet: Sheet, wall: PlanWall, paved: shapely.Geometry) -> None:
    """Draw a wall as a hatched strip on the side away from the paving, doors left open, air bricks black."""
    length = math.dist(wall.start, wall.end)
    deep = _away(wall, paved) * min(_WALL_MM, sheet.mm(_WALL_PAPER_MM))
    opened = sorted(
        (along_and_offset(wall.start, wall.end, door.start)[0], along_and_offset(wall.start, wall.end, door.end)[0])
        for door in wall.openings
    )
    begin = 0.0
    for low, high in [*opened, (length, length)]:
        if low > begin:
            sheet.add(Region((_strip(wall, begin, low, deep),), Hatch.WALL, THIN))
        if high > low:
            sheet.add(Region((_strip(wall, low, high, deep),), Hatch.WHITE, THIN))
        begin = max(begin, high)
    sheet.add(Path((wall.start, wall.end), THICK))
    for brick in wall.air_bricks:
        along = along_and_offset(wall.start, wall.end, brick.at)[0]
        sheet.add(Region((_strip(wall, along - _BRICK_MM / 2.0, along + _BRICK_MM / 2.0, deep / 2.0),), Hatch.BLACK))


_BRICK_MM = 215.0
"""Drawn width of an air brick. [mm]"""


def _strip(wall: PlanWall, low: float, high: float, deep: float) -> tuple[XY, ...]:
    return (
        point_along(wall.start, wall.end, low),
        point_along(wall.start, wall.end, high),
        point_along(wall.start, wall.end, high, deep),
        point_along(wall.start, wall.end, low, deep),
    )
