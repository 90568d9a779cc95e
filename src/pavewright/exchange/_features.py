"""The finished work in plan as map features (GeoJSON)."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import shapely
from shapely.geometry.polygon import orient

from pavewright import units
from pavewright.exchange._exchange_words import WORDS

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.exchange._place import Whereabouts
    from pavewright.geometry import XY, Shape
    from pavewright.pipeline import Plan

    _Placed = Callable[[XY], tuple[float, float]]

_DEGREES, _METRES = 9, 4
"""Digits behind the point: a tenth of a millimetre in either."""


def to_geojson(plan: Plan, where: Whereabouts | None = None) -> bytes:
    """Return areas, pieces, edges to drains and levels in plan; levels stand in the properties, as lengths. [mm].

    With a place on the earth the file is GeoJSON as the standard wants it, longitude before latitude. Without one its
    coordinates are metres on the site grid, and a member of its own says so.

    Args:
        plan: The plan.
        where: Where on the earth the site lies; None for local metres.

    Source: RFC 7946, sections 3.1.6 and 4
    """
    placed = _local if where is None else _on_earth(where)
    features = [*_areas(plan, placed), *_levels(plan, placed), *_drains(plan, placed), *_pieces(plan, placed)]
    who = plan.job.identity
    told = {
        "job": who.job,
        "title": who.title,
        "date": who.date.isoformat(),
        "revision": who.revision,
        "georeferenced": where is not None,
        "coordinates": WORDS.local if where is None else WORDS.placed,
        "unit": "m" if where is None else "deg",
    }
    whole = {"type": "FeatureCollection", "pavewright": told, "features": features}
    return json.dumps(whole, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode() + b"\n"


def _local(point: XY) -> tuple[float, float]:
    return round(units.mm_to_m(point[0]), _METRES), round(units.mm_to_m(point[1]), _METRES)


def _on_earth(where: Whereabouts) -> _Placed:
    def placed(point: XY) -> tuple[float, float]:
        longitude, latitude = where.lon_lat(point)
        return round(longitude, _DEGREES), round(latitude, _DEGREES)

    return placed


def _feature(kind: str, name: str, geometry: dict[str, Any] | None, **facts: Any) -> dict[str, Any]:  # noqa: ANN401 - anything that JSON holds
    known = {key: value for key, value in facts.items() if value is not None}
    return {
        "type": "Feature",
        "id": f"{kind}/{name}",
        "geometry": geometry,
        "properties": {"kind": kind, "name": name} | known,
    }


def _polygon(shape: Shape | shapely.Geometry, placed: _Placed) -> dict[str, Any]:
    """Return a shape with its outer ring anticlockwise and each ring closed; one of several parts as several."""
    whole = shape if isinstance(shape, shapely.Geometry) else shape.polygon
    parts = [
        [[placed((x, y)) for x, y in ring.coords] for ring in (part.exterior, *part.interiors)]
        for part in map(orient, shapely.get_parts(whole))
        if isinstance(part, shapely.Polygon)
    ]
    if len(parts) == 1:
        return {"type": "Polygon", "coordinates": parts[0]}
    return {"type": "MultiPolygon", "coordinates": parts}


def _point(at: XY, placed: _Placed) -> dict[str, Any]:
    return {"type": "Point", "coordinates": placed(at)}


def _line(points: tuple[XY, ...], placed: _Placed) -> dict[str, Any]:
    return {"type": "LineString", "coordinates": [placed(each) for each in points]}


def _areas(plan: Plan, placed: _Placed) -> Iterator[dict[str, Any]]:
    for area in plan.survey.site.areas:
        finished, up, laid = (
            plan.levels.area(area.name),
            plan.build_ups.area(area.name),
            plan.laying.area(area.name),
        )
        yield _feature(
            "area",
            area.name,
            _polygon(area.shape, placed),
            laid_m2=area.laid_m2,
            falls=finished.falls_text,
            highest_mm=finished.highest_mm,
            lowest_mm=finished.lowest_mm,
            unit=laid.unit,
            pattern=laid.pattern,
            build_up_mm=up.total_mm,
            layers=[{"name": each.name, "thickness_mm": each.thickness_mm} for each in up.layers],
        )


def _levels(plan: Plan, placed: _Placed) -> Iterator[dict[str, Any]]:
    for area in plan.levels.areas:
        for number, spot in enumerate((*area.corners, *area.spots), start=1):
            yield _feature(
                "level", f"{area.area}/{number}", _point(spot.at, placed), area=area.area, level_mm=spot.level_mm,
                at=spot.name,
            )  # fmt: skip


def _drains(plan: Plan, placed: _Placed) -> Iterator[dict[str, Any]]:
    site = plan.survey.site
    for placed_gully in site.gullies:
        gully = placed_gully.gully
        facts = {"size_mm": gully.size_mm, "invert_level_mm": gully.invert_level_mm, "outfall": gully.outfall}
        yield _feature("gully", gully.name, _point(placed_gully.at, placed), **facts)
    for channel in site.channels:
        line = _line((channel.start, channel.end), placed)
        facts = {"width_mm": channel.width_mm, "invert_level_mm": channel.invert_level_mm, "outfall": channel.outfall}
        yield _feature("channel", channel.name, line, **facts)
    for run in plan.water.runs:
        start, end = run.start, run.end
        known = start.at is not None and end is not None and end.at is not None
        line_known = _line((start.at, end.at), placed) if start.at and end and end.at else None
        yield _feature(
            "pipe",
            f"{run.pipe.kind.value}/{run.pipe.name}",
            line_known,
            line_known=known,
            outfall=run.pipe.outfall,
            length_m=run.pipe.length_m,
            start_invert_mm=start.invert_level_mm,
            end_invert_mm=None if end is None else end.invert_level_mm,
        )


def _pieces(plan: Plan, placed: _Placed) -> Iterator[dict[str, Any]]:
    for laid in plan.laying.areas:
        surface = plan.levels.area(laid.area).surface
        for piece in laid.pieces:
            yield _feature(
                "piece",
                f"{laid.area}/{piece.number}",
                _polygon(piece.shape, placed),
                area=laid.area,
                number=piece.number,
                unit=piece.unit,
                cut=piece.kind.value,
                level_mm=round(surface.level_at(piece.shape.centre_mm), 3),
                area_m2=piece.area_m2,
            )
