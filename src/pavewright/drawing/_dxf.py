"""A plan as a DXF drawing, R2018: true millimetres on layers of our own naming."""

from __future__ import annotations

import io
import threading
from typing import TYPE_CHECKING

from ezdxf import filemanagement
from ezdxf import units as dxf_units
from ezdxf._options import options

from pavewright import units
from pavewright.drawing._dxf_layers import LAYERS, LINES, Space
from pavewright.drawing._site_parts import middle_of
from pavewright.laying import PieceKind

if TYPE_CHECKING:
    from ezdxf.document import Drawing

    from pavewright.pipeline import Plan

_TEXT_MM, _SMALL_MM = 60.0, 40.0
"""Heights of type in the drawing. [mm]"""
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
            document = _document()
            space = Space(document.modelspace())
            _site(space, plan)
            _outlines(space, plan)
            _pieces(space, plan)
            _levels(space, plan)
            _water(space, plan)
            _pegs(space, plan)
            _readings(space, plan)
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


def _document() -> Drawing:
    """Return an empty drawing in millimetres with its layers, lines and style of sizes."""
    document = filemanagement.new("R2018", setup=False, units=dxf_units.MM)
    document.header["$MEASUREMENT"] = 1
    for name, pattern in LINES.items():
        document.linetypes.add(name, pattern=list(pattern))
    for name, (weight, line) in LAYERS.items():
        document.layers.add(name, lineweight=weight, linetype=line)
    style = document.dimstyles.new("PLAN")
    style.dxf.dimtxt, style.dxf.dimasz = _TEXT_MM, _TEXT_MM
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
            words = f"{door.name} {units.level_text(door.threshold_level_mm)}"
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
    for service in site.services:
        if len(service.points) == 1:
            space.circle(service.points[0], _PEG_MM, "SITE_SERVICES")
        else:
            space.line(service.points, "SITE_SERVICES")
        space.text(service.service.name, service.points[0], "SITE_SERVICES", _TEXT_MM)
    for tree in site.trees:
        space.circle(tree.at, tree.tree.stem_diameter_mm / 2.0, "SITE_TREES")
        space.text(tree.tree.name, tree.at, "SITE_TREES", _TEXT_MM)
    if plan.survey.ground is not None:
        for x, y, level in plan.survey.ground.points:
            space.point((x, y, level), "GROUND_SPOTS")
            space.text(units.metres_text(level), (x + 30.0, y - 60.0), "GROUND_SPOTS", _SMALL_MM)


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
            space.text(str(piece.number), piece.shape.centre_mm, "PIECES_NUMBERS", _SMALL_MM, middle=True)
        for ends in laid.mixed.bay_joints if laid.mixed is not None else ():
            space.line(ends, "MOVEMENT_JOINTS")


def _levels(space: Space, plan: Plan) -> None:
    """Add finished levels as points in space, and the falls."""
    for finished in plan.levels.areas:
        for spot in (*finished.corners, *finished.spots):
            space.point((*spot.at, spot.level_mm), "LEVELS_FINISHED")
            space.text(
                units.metres_text(spot.level_mm), (spot.at[0] + 30.0, spot.at[1] + 30.0), "LEVELS_FINISHED", _TEXT_MM
            )
        x, y = plan.survey.site.area(finished.area).gross.centre_mm
        dx, dy = finished.main_direction
        space.line(((x - dx * 400.0, y - dy * 400.0), (x + dx * 400.0, y + dy * 400.0)), "LEVELS_FALLS")
        words = f"{finished.area}: {units.fall_text(finished.main_fall)}"
        space.text(words, (x + dx * 400.0, y + dy * 400.0), "LEVELS_FALLS", _TEXT_MM)
    for steps in plan.levels.steps:
        space.line((steps.start, steps.end), "STEPS")
        space.text(f"{steps.name}: {steps.risers} risers of {steps.riser_mm:.0f}", steps.start, "STEPS", _TEXT_MM)


def _water(space: Space, plan: Plan) -> None:
    """Add what drains where."""
    for caught in plan.water.catchments:
        for shape in caught.shapes:
            space.shape(shape, "WATER_PARTS")
            space.text(f"to {caught.to}", shape.centre_mm, "WATER_PARTS", _SMALL_MM)


def _pegs(space: Space, plan: Plan) -> None:
    """Add pegs and strings."""
    places = {peg.name: peg.at for peg in plan.setting_out.pegs}
    for peg in plan.setting_out.pegs:
        space.circle(peg.at, _PEG_MM, "PEGS")
        space.text(peg.name, peg.at, "PEGS", _SMALL_MM)
    for string in plan.setting_out.strings:
        space.line((places[string.start], places[string.end]), "STRINGS")


def _readings(space: Space, plan: Plan) -> None:
    """Add readings as laid as points in space, with their deviation and verdict."""
    if plan.as_laid is None:
        return
    for area in plan.as_laid.areas:
        for reading in area.readings:
            space.point((*reading.at, reading.found_mm), "AS_LAID")
            off = units.millimetres_text(reading.deviation_mm, sign=True)
            space.text(f"{reading.label} {off} {reading.verdict}", reading.at, "AS_LAID", _SMALL_MM)
