"""A plan as a DXF drawing, R2018: true millimetres on layers of our own naming."""

from __future__ import annotations

import io
import threading
from typing import TYPE_CHECKING

import shapely
from ezdxf import filemanagement
from ezdxf import units as dxf_units
from ezdxf._options import options

from pavewright import units
from pavewright.drawing._dxf_drains import add_drains, add_grid, drain_points
from pavewright.drawing._dxf_layers import LAYERS, LINES, UNPLOTTED, Space
from pavewright.drawing._dxf_sheets import WIDER, add_sheets, scale_of
from pavewright.drawing._site_parts import middle_of, service_in_short, site_points
from pavewright.drawing._type import wrapped
from pavewright.geometry import shape_from_polygon
from pavewright.laying import PieceKind
from pavewright.writing import length_mark, level_mark, now, off_mark, size_mark, told

if TYPE_CHECKING:
    from ezdxf.document import Drawing

    from pavewright.geometry import XY
    from pavewright.pipeline import Plan
    from pavewright.setting_out import Peg

_TEXT_MM, _SMALL_MM = 2.5, 2.1
"""Heights of capitals on a sheet at its scale: the smaller are those of eight-point type. [mm]"""
_FITS = 0.6
"""Height of the number of a small piece, at most this part of the room that it has. [-]"""
_ABOUT_MM = 1200.0
"""How far round everything the sheets show. [mm]"""
_SIZE_OFF_MM = 250.0
"""How far a size stands off the side that it measures. [mm]"""
_PEG_MM = 25.0
_ONE_AT_A_TIME = threading.Lock()
"""The switch for fixed dates and marks of a file is shared by all threads."""


def to_dxf(plan: Plan) -> bytes:
    """Return everything with a place as a DXF drawing; the same plan gives the same bytes."""
    with _ONE_AT_A_TIME:
        before = options.write_fixed_meta_data_for_testing
        options.write_fixed_meta_data_for_testing = True
        try:
            bounds = _bounds(plan)
            scale = scale_of(bounds)
            document = _document(scale)
            space = Space(document.modelspace(), scale)
            _site(space, plan)
            _outlines(space, plan)
            _pieces(space, plan)
            _levels(space, plan)
            _water(space, plan)
            add_drains(space, plan)
            add_grid(space, plan)
            _pegs(space, plan)
            _readings(space, plan)
            add_sheets(document, plan, bounds, scale)
            _classes_in_order(document)
            stream = io.StringIO()
            document.write(stream)
        finally:
            options.write_fixed_meta_data_for_testing = before
    return stream.getvalue().encode("utf-8")


def _classes_in_order(document: Drawing) -> None:
    """Name the classes of entities in one order; the library takes those in use from a set, in any order."""
    for name in sorted(document.entitydb.dxf_types_in_use()):
        document.classes.add_class(name)
    named = document.classes.classes
    for key in sorted(named):
        named[key] = named.pop(key)


def _bounds(plan: Plan) -> tuple[float, float, float, float]:
    """Return the box about all that the sheets show. [mm]."""
    points = [*site_points(plan.survey), *(peg.at for peg in plan.setting_out.pegs)]
    points += [point for up in plan.build_ups.areas for point in up.dig_shape.outer]
    points += drain_points(plan)
    xs, ys = zip(*points, strict=True)
    return min(xs) - _ABOUT_MM, min(ys) - _ABOUT_MM, max(xs) + _ABOUT_MM, max(ys) + _ABOUT_MM


def _document(scale: int) -> Drawing:
    """Return an empty drawing in millimetres with its layers, lines and style of sizes."""
    document = filemanagement.new("R2018", setup=False, units=dxf_units.MM)
    document.header["$MEASUREMENT"] = 1
    # broken lines keep their length on the site when a sheet shows them to scale
    document.header["$PSLTSCALE"] = 0
    for name, pattern in LINES.items():
        document.linetypes.add(name, pattern=list(pattern))
    for name, (weight, line, colour) in LAYERS.items():
        layer = document.layers.add(name, lineweight=weight, linetype=line, color=colour)
        layer.dxf.plot = int(name not in UNPLOTTED)
    style = document.dimstyles.new("PLAN")
    style.dxf.dimtxt = style.dxf.dimasz = _SMALL_MM * scale
    style.dxf.dimexe, style.dxf.dimexo, style.dxf.dimdec = 30.0, 30.0, 0
    return document


def _site(space: Space, plan: Plan) -> None:
    """Add what stands on the site."""
    site = plan.survey.site
    for wall in site.walls:
        space.line((wall.start, wall.end), "SITE_WALLS")
        space.text(f"wall {wall.name}", middle_of(wall.start, wall.end), "SITE_WALLS", _TEXT_MM)
        for door in wall.openings:
            space.line((door.start, door.end), "SITE_DOORS")
            words = f"{door.name} {level_mark(door.threshold_level_mm)}"
            space.text(words, door.start, "SITE_DOORS", _SMALL_MM)
        for brick in wall.air_bricks:
            space.circle(brick.at, _PEG_MM, "SITE_DOORS")
            space.text(brick.name, brick.at, "SITE_DOORS", _SMALL_MM)
    for boundary in site.boundaries:
        space.line((boundary.start, boundary.end), "SITE_BOUNDARY")
        space.text(boundary.name, middle_of(boundary.start, boundary.end), "SITE_BOUNDARY", _TEXT_MM)
    for tie in site.tie_ins:
        space.line((tie.start, tie.end), "SITE_TIE_INS")
        space.text(tie.name, middle_of(tie.start, tie.end), "SITE_TIE_INS", _TEXT_MM)
    for channel in site.channels:
        space.line((channel.start, channel.end), "SITE_DRAINS")
        space.text(channel.name, middle_of(channel.start, channel.end), "SITE_DRAINS", _TEXT_MM)
    for gully in site.gullies:
        space.circle(gully.at, gully.gully.size_mm / 2.0, "SITE_DRAINS")
        space.text(gully.gully.name, gully.at, "SITE_DRAINS", _TEXT_MM)
    for cover in site.covers:
        space.line(cover.outline, "SITE_COVERS", closed=True)
        space.text(cover.cover.name, cover.at, "SITE_COVERS", _TEXT_MM)
    for post in site.obstacles:
        space.line(post.outline, "SITE_COVERS", closed=True)
        space.text(post.obstacle.name, post.at, "SITE_COVERS", _TEXT_MM)
    _ground(space, plan)


def _ground(space: Space, plan: Plan) -> None:
    """Add services, trees and spot levels of the ground."""
    site = plan.survey.site
    for band in plan.setting_out.services:
        run = shapely.LineString(band.points) if len(band.points) > 1 else shapely.Point(band.points[0])
        space.shape(shape_from_polygon(run.buffer(band.band_mm)), "SERVICE_BANDS")
        space.text(f"{band.name}: {service_in_short(band)}", band.points[0], "SITE_SERVICES", _TEXT_MM)
    x1, y1, x2, _ = _bounds(plan)
    wide = (x2 - x1) / space.scale
    for number, line in enumerate(wrapped(told(plan.setting_out.services_words), wide, _TEXT_MM * WIDER)):
        space.text(line, (x1, y1 - number * 2.0 * _TEXT_MM * space.scale), "SITE_SERVICES", _TEXT_MM)
    for service in site.services:
        if len(service.points) == 1:
            space.circle(service.points[0], _PEG_MM, "SITE_SERVICES")
        else:
            space.line(service.points, "SITE_SERVICES")
    for tree in site.trees:
        space.circle(tree.at, tree.tree.stem_diameter_mm / 2.0, "SITE_TREES")
        space.text(tree.tree.name, tree.at, "SITE_TREES", _TEXT_MM)
    if plan.survey.ground is not None:
        for x, y, level in plan.survey.ground.points:
            space.point((x, y, level), "GROUND_SPOTS")
            space.text(level_mark(level), (x + 30.0, y - 60.0), "GROUND_SPOTS", _SMALL_MM)


def _outlines(space: Space, plan: Plan) -> None:
    """Add outlines with arcs as arcs, their sizes, and the edge of the dig."""
    for area in plan.survey.site.areas:
        space.ring(area.ring, "PAVING_OUTLINE")
        for hole in area.holes:
            space.ring(hole, "PAVING_HOLES")
        for side in area.sides:
            if side.start.rise_mm == 0.0:
                space.size(side.start.xy, side.end.xy, -_SIZE_OFF_MM, "SIZES")
    for up in plan.build_ups.areas:
        space.shape(up.dig_shape, "DIG_EDGE")


def _pieces(space: Space, plan: Plan) -> None:
    """Add every piece with its number."""
    for laid in plan.laying.areas:
        for piece in laid.pieces:
            whole = piece.kind is PieceKind.WHOLE
            space.shape(piece.shape, "PIECES_WHOLE" if whole else "PIECES_SLIVER" if piece.sliver else "PIECES_CUT")
            number = str(piece.number)
            room = min(piece.along_mm / len(number), piece.across_mm) * _FITS / space.scale
            space.text(number, piece.shape.centre_mm, "PIECES_NUMBERS", min(_SMALL_MM, room), middle=True)
        for fill in laid.fills:
            space.shape(fill, "MORTAR_FILLS")
        for each in laid.under_steps:
            space.shape(each.shape, "UNDER_STEPS")
            space.text(each.steps, each.shape.centre_mm, "UNDER_STEPS", _TEXT_MM, middle=True)
        for ends in laid.movement.placed:
            space.line(ends, "MOVEMENT_JOINTS")


def _levels(space: Space, plan: Plan) -> None:
    """Add finished levels as points in space, and the falls."""
    for finished in plan.levels.areas:
        for spot in (*finished.corners, *finished.spots):
            space.point((*spot.at, spot.level_mm), "LEVELS_FINISHED")
            space.text(level_mark(spot.level_mm), (spot.at[0] + 30.0, spot.at[1] + 30.0), "LEVELS_FINISHED", _TEXT_MM)
        x, y = plan.survey.site.area(finished.area).gross.centre_mm
        dx, dy = finished.main_direction
        space.line(((x - dx * 400.0, y - dy * 400.0), (x + dx * 400.0, y + dy * 400.0)), "LEVELS_FALLS")
        words = f"{finished.area}: {units.fall_text(finished.main_fall)}"
        space.text(words, (x + dx * 400.0, y + dy * 400.0), "LEVELS_FALLS", _TEXT_MM)
    for steps in plan.levels.steps:
        space.line((steps.start, steps.end), "STEPS")
        space.text(
            f"{steps.name}: {steps.risers} risers of {size_mark(steps.riser_mm)}", steps.start, "STEPS", _TEXT_MM
        )


def _water(space: Space, plan: Plan) -> None:
    """Add what drains where."""
    for caught in plan.water.catchments:
        for shape in caught.shapes:
            space.shape(shape, "WATER_PARTS")
            space.text(f"to {caught.to}", shape.centre_mm, "WATER_PARTS", _SMALL_MM)


def _beside(peg: Peg, space: Space) -> XY:
    """Return where the name of a peg begins: over it, or under it where it says that no pin goes there."""
    off = 1.0 if peg.no_pin is None else -1.0 - _SMALL_MM
    return peg.at[0] + 1.0 * space.scale, peg.at[1] + off * space.scale


def _peg_layer(peg: Peg) -> str:
    return "PEGS" if peg.no_pin is None else "NO_PIN"


def _pegs(space: Space, plan: Plan) -> None:
    """Add pegs and strings."""
    places = {peg.name: peg.at for peg in plan.setting_out.pegs}
    for peg in plan.setting_out.pegs:
        space.circle(peg.at, _PEG_MM, "PEGS")
        loud = "" if peg.no_pin is None else " NO PIN"
        words = f"{peg.number} {peg.stands.value}{loud}"
        space.text(words, _beside(peg, space), _peg_layer(peg), _SMALL_MM)
        if peg.no_pin is not None:
            space.cross(peg.at, 2.0 * _PEG_MM, "NO_PIN")
            if peg.no_pin.elsewhere is not None:
                space.line((peg.at, peg.no_pin.elsewhere), "NO_PIN")
                space.circle(peg.no_pin.elsewhere, _PEG_MM, "NO_PIN")
    for base in plan.setting_out.base_lines:
        space.line((base.start_at, base.end_at), "BASE_LINE")
        middle = middle_of(base.start_at, base.end_at)
        space.text(f"base line {length_mark(base.length_mm)}", middle, "BASE_LINE", _SMALL_MM)
    for string in plan.setting_out.strings:
        space.line((places[string.start], places[string.end]), "STRINGS")


def _readings(space: Space, plan: Plan) -> None:
    """Add readings as laid as points in space, with their deviation and verdict."""
    if plan.as_laid is None:
        return
    for area in plan.as_laid.areas:
        for reading in area.readings:
            space.point((*reading.at, reading.found_mm), "AS_LAID")
            off = off_mark(reading.deviation_mm) + ("" if now().imperial else " mm")
            space.text(f"{reading.label} {off} {reading.verdict.words}", reading.at, "AS_LAID", _SMALL_MM)
