"""A plan as a DXF drawing, R2018: true millimetres on layers of our own naming."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import ezdxf
from ezdxf import filemanagement
from ezdxf import units as dxf_units
from ezdxf._options import options

from pavewright import units
from pavewright.laying import PieceKind

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

    from pavewright.geometry import XY, Ring, Shape
    from pavewright.pipeline import Plan

_LAYERS = {
    "SITE_WALLS": 50,
    "SITE_BOUNDARY": 25,
    "SITE_DRAINS": 35,
    "SITE_COVERS": 35,
    "SITE_SERVICES": 25,
    "PAVING_OUTLINE": 50,
    "PAVING_HOLES": 35,
    "PIECES_WHOLE": 13,
    "PIECES_CUT": 18,
    "PIECES_NUMBERS": 13,
    "LEVELS_FINISHED": 18,
    "GROUND_SPOTS": 13,
    "DIG_EDGE": 25,
    "PEGS": 25,
    "STRINGS": 18,
    "SIZES": 13,
}
"""Layers and their line weights. [1/100 mm]"""
_TEXT_MM = 60.0
_TEXT_SMALL_MM = 40.0


def to_dxf(plan: Plan) -> bytes:
    """Return everything with a place as a DXF drawing; the same plan gives the same bytes."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        document = filemanagement.new("R2018", setup=False, units=dxf_units.MM)
        document.header["$MEASUREMENT"] = 1
        for name, weight in _LAYERS.items():
            document.layers.add(name, lineweight=weight)
        _dimension_style(document)
        space = document.modelspace()
        _site(space, plan)
        _paving(space, plan)
        _pegs(space, plan)
        stream = io.StringIO()
        document.write(stream)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return stream.getvalue().encode("utf-8")


def _dimension_style(document: ezdxf.document.Drawing) -> None:
    style = document.dimstyles.new("PLAN")
    style.dxf.dimtxt, style.dxf.dimasz = _TEXT_MM, _TEXT_MM
    style.dxf.dimexe, style.dxf.dimexo, style.dxf.dimdec = 30.0, 30.0, 0


def _line(space: Modelspace, points: tuple[XY, ...], layer: str, *, closed: bool = False) -> None:
    space.add_lwpolyline(points, close=closed, dxfattribs={"layer": layer})


def _shape(space: Modelspace, shape: Shape, layer: str) -> None:
    for ring in (shape.outer, *shape.holes):
        _line(space, ring, layer, closed=True)


def _ring(space: Modelspace, ring: Ring, layer: str) -> None:
    """Add an outline with its arcs as arcs."""
    points = []
    for side in ring.sides:
        bulge = side.start.rise_mm / (side.chord_mm / 2.0) if side.chord_mm else 0.0
        points.append((*side.start.xy, bulge))
    space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": layer})


def _text(space: Modelspace, text: str, at: XY, layer: str, height: float = _TEXT_MM) -> None:
    space.add_text(text, height=height, dxfattribs={"layer": layer, "insert": at})


def _site(space: Modelspace, plan: Plan) -> None:
    site = plan.survey.site
    for wall in site.walls:
        _line(space, (wall.start, wall.end), "SITE_WALLS")
        _text(space, f"wall {wall.name}", wall.start, "SITE_WALLS")
    for boundary in site.boundaries:
        _line(space, (boundary.start, boundary.end), "SITE_BOUNDARY")
        _text(space, boundary.name, boundary.start, "SITE_BOUNDARY")
    for channel in site.channels:
        _line(space, (channel.start, channel.end), "SITE_DRAINS")
        _text(space, channel.name, channel.start, "SITE_DRAINS")
    for gully in site.gullies:
        space.add_circle(gully.at, gully.gully.size_mm / 2.0, dxfattribs={"layer": "SITE_DRAINS"})
    for cover in site.covers:
        _line(space, cover.outline, "SITE_COVERS", closed=True)
        _text(space, cover.cover.name, cover.at, "SITE_COVERS")
    for post in site.obstacles:
        _line(space, post.outline, "SITE_COVERS", closed=True)
    for service in site.services:
        _line(space, service.points, "SITE_SERVICES")
        _text(space, service.service.name, service.points[0], "SITE_SERVICES")
    if plan.survey.ground is not None:
        for x, y, level in plan.survey.ground.points:
            space.add_point((x, y, level), dxfattribs={"layer": "GROUND_SPOTS"})
            _text(space, units.metres_text(level), (x, y), "GROUND_SPOTS", _TEXT_SMALL_MM)


def _paving(space: Modelspace, plan: Plan) -> None:
    for area in plan.survey.site.areas:
        _ring(space, area.ring, "PAVING_OUTLINE")
        for hole in area.holes:
            _ring(space, hole, "PAVING_HOLES")
        for side in area.sides:
            if side.start.rise_mm == 0.0:
                dimension = space.add_aligned_dim(
                    side.start.xy, side.end.xy, -250.0, dimstyle="PLAN", dxfattribs={"layer": "SIZES"}
                )
                dimension.render()
    for up in plan.build_ups.areas:
        _shape(space, up.dig_shape, "DIG_EDGE")
    for laid in plan.laying.areas:
        for piece in laid.pieces:
            _shape(space, piece.shape, "PIECES_WHOLE" if piece.kind is PieceKind.WHOLE else "PIECES_CUT")
            _text(space, str(piece.number), piece.shape.centre_mm, "PIECES_NUMBERS", _TEXT_SMALL_MM)
    for finished in plan.levels.areas:
        for spot in (*finished.corners, *finished.spots):
            space.add_point((*spot.at, spot.level_mm), dxfattribs={"layer": "LEVELS_FINISHED"})
            _text(space, units.metres_text(spot.level_mm), spot.at, "LEVELS_FINISHED")


def _pegs(space: Modelspace, plan: Plan) -> None:
    places = {peg.name: peg.at for peg in plan.setting_out.pegs}
    for peg in plan.setting_out.pegs:
        space.add_circle(peg.at, 25.0, dxfattribs={"layer": "PEGS"})
        _text(space, peg.name, peg.at, "PEGS", _TEXT_SMALL_MM)
    for string in plan.setting_out.strings:
        _line(space, (places[string.start], places[string.end]), "STRINGS")
