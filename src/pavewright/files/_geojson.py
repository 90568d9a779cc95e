"""GeoJSON in metres of a local grid: outside the standard, which knows degrees only, and said to be so."""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING, Any

from pavewright.files._read import TO_MM, FileRefusedError, Gathered, ReadDrawing, ReadLine, refuse_large

if TYPE_CHECKING:
    from collections.abc import Iterator

_CAVEAT = "GeoJSON means degrees by its standard (RFC 7946); read were {unit} of a local grid, x east, y north."
_SPAN = 0.02
"""A site within so little of a degree either way, at places that degrees have, was written in degrees. [deg]"""
_MAX_DEPTH = 40


def read_geojson(content: bytes, unit: str) -> ReadDrawing:
    """Return points and lines of a file of features in local metres or millimetres.

    Args:
        content: The file.
        unit: ``m`` or ``mm``.

    Raises:
        FileRefusedError: no such file, degrees, or nothing to take.
    """
    refuse_large(content)
    if unit not in TO_MM:
        message = f"Say in which unit its local grid is: {', '.join(TO_MM)}."
        raise FileRefusedError(message)
    try:
        reported = json.loads(content)
        shapes = list(_shapes(reported, {}, 0))
    except (ValueError, OverflowError, RecursionError, TypeError, KeyError, AttributeError) as problem:
        message = "The file cannot be read as GeoJSON: save it again as a FeatureCollection of points and lines."
        raise FileRefusedError(message) from problem
    places = [place for _, parts, _ in shapes for part in parts for place in part]
    if places and _in_degrees(places):
        message = "The file looks like degrees: save it again in metres of a local grid, east and north."
        raise FileRefusedError(message)
    found = Gathered()
    for words, parts, closed in shapes:
        for part in parts:
            names = [_point(found, words, place, TO_MM[unit]) for place in part]
            if closed is None:
                continue
            kept = names[:-1] if closed and len(names) > 1 and names[0] == names[-1] else names
            if len(kept) > 1:
                found.lines.append(ReadLine(words.get("kind", "line"), tuple(kept), closed))
    return found.drawing(_CAVEAT.format(unit=unit))


def _shapes(
    reported: Any,  # noqa: ANN401 - whatever a stranger's file holds
    words: dict[str, str],
    depth: int,
) -> Iterator[tuple[dict[str, str], list[list[list[float]]], bool | None]]:
    """Give the words, the rows of places and whether they are closed (None for points) of everything in a file."""
    if depth > _MAX_DEPTH:
        message = "nested too deep"
        raise ValueError(message)
    kind = reported["type"]
    if kind == "FeatureCollection":
        for each in reported["features"]:
            yield from _shapes(each, {}, depth + 1)
    elif kind == "Feature":
        given = reported.get("properties") or {}
        mine = {key: str(given[key])[:200] for key in ("name", "note", "kind") if given.get(key) is not None}
        if reported.get("geometry") is not None:
            yield from _shapes(reported["geometry"], mine, depth + 1)
    elif kind == "GeometryCollection":
        for each in reported["geometries"]:
            yield from _shapes(each, words, depth + 1)
    else:
        parts, closed = _parts(kind, reported["coordinates"])
        yield words, [[_place(place) for place in part] for part in parts], closed


def _place(reported: Any) -> list[float]:  # noqa: ANN401 - whatever a stranger's file holds
    """Return x, y and, if given, level.

    Raises:
        ValueError: what stands there is no place.
    """
    place = [float(each) for each in reported[:3] if not isinstance(each, bool | str)]
    if len(place) < 2 or len(place) != len(reported[:3]) or not all(map(math.isfinite, place)):  # noqa: PLR2004 - x and y
        message = "a place that is none"
        raise ValueError(message)
    return place


def _parts(kind: str, places: Any) -> tuple[list[list[list[float]]], bool | None]:  # noqa: ANN401
    """Return the rows of places of a shape, and whether they are closed; None for points.

    Raises:
        KeyError: no such kind.
    """
    if kind == "MultiPolygon":
        return [ring for polygon in places for ring in polygon], True
    single = {"Point": [[places]], "MultiPoint": [places], "LineString": [places]}
    closed = {"Point": None, "MultiPoint": None, "LineString": False, "MultiLineString": False, "Polygon": True}
    return single.get(kind, places), closed[kind]


def _in_degrees(places: list[list[float]]) -> bool:
    xs, ys = [place[0] for place in places], [place[1] for place in places]
    small = max(xs) - min(xs) < _SPAN and max(ys) - min(ys) < _SPAN
    return small and max(map(abs, xs)) <= 180.0 and max(map(abs, ys)) <= 90.0 and len(places) > 1  # noqa: PLR2004


def _point(found: Gathered, words: dict[str, str], place: list[float], to_mm: float) -> str:
    level = float(place[2]) * to_mm if len(place) > 2 else None  # noqa: PLR2004 - x, y and level
    name = words.get("name") or f"point {found.count + 1}"
    return found.point(name, float(place[0]) * to_mm, float(place[1]) * to_mm, level, words.get("note", ""))
