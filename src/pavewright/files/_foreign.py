"""Files of other programs, as the job document writes what is in them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from pavewright.files._aligned import aligned
from pavewright.files._clouds import from_bytes, read_las, read_ply, thinned
from pavewright.files._csv_points import read_csv_points
from pavewright.files._dxf import dxf_layers, read_dxf
from pavewright.files._geojson import read_geojson
from pavewright.files._landxml import read_landxml
from pavewright.files._price_list import price_list_told, read_price_list
from pavewright.files._read import MAX_MM, FileRefusedError

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.files._clouds import CloudSurface
    from pavewright.files._read import ReadDrawing, ReadPoint

_HALF_SIGN = re.compile("[\ud800-\udfff]")
KINDS = ("csv", "dxf", "geojson", "landxml", "las", "ply", "prices")
"""What can be read; LAZ is read as LAS."""
_MAX_SPOTS = 2000
_CELL_MM, _EVERY_MM = 25.0, 500.0
_MIN_EVERY_MM, _MAX_EVERY_MM = 50.0, 10_000.0


def file_here(content: bytes, asked: dict[str, Any]) -> dict[str, Any]:
    """Return what a file holds, as entries of the job document, or what has to be said before it can be read.

    Args:
        content: The file.
        asked: Its ``kind``; ``order`` and ``unit`` of CSV; ``layers`` and ``unit`` of DXF, without which the layers are
            told; ``unit`` of GeoJSON and PLY; ``cell_mm``, ``every_mm``, ``ground_only`` and ``marks`` of a cloud; of a
            list of prices how it is read (``columns``, ``decimal``, ``tax_percent``, ``per_unit``, ``sheet``).

    Raises:
        FileRefusedError: the file cannot be taken over; says where and why.
    """
    kind = asked.get("kind")
    readers: dict[str, Callable[[], dict[str, Any]]] = {
        "csv": lambda: _of_points(read_csv_points(content, _word(asked, "order"), _word(asked, "unit"))),
        "dxf": lambda: _dxf(content, asked),
        "geojson": lambda: _of_drawing(read_geojson(content, _word(asked, "unit"))),
        "landxml": lambda: _of_drawing(read_landxml(content)),
        "prices": lambda: price_list_told(read_price_list(content, asked)),
        "las": lambda: _cloud(_las(content, asked), asked),
        "ply": lambda: _cloud(
            read_ply(from_bytes(content), _number(asked, "cell_mm", _CELL_MM), _word(asked, "unit")), asked
        ),
    }
    if not isinstance(kind, str) or kind not in readers:
        message = f"Say what kind of file it is: {', '.join(KINDS)}."
        raise FileRefusedError(message)
    found: dict[str, Any] = _writable(readers[kind]())
    return found


def _writable(value: Any) -> Any:  # noqa: ANN401 - whatever JSON holds
    """Return what was found with a mark for each half of a sign: no document and no page can hold one."""
    if isinstance(value, str):
        return _HALF_SIGN.sub("\ufffd", value)
    if isinstance(value, list):
        return [_writable(each) for each in value]
    return {key: _writable(each) for key, each in value.items()} if isinstance(value, dict) else value


def _las(content: bytes, asked: dict[str, Any]) -> CloudSurface:
    only = asked.get("ground_only") is True
    return read_las(from_bytes(content), _number(asked, "cell_mm", _CELL_MM), ground_only=only)


def _word(asked: dict[str, Any], name: str) -> str:
    found = asked.get(name, "")
    return found if isinstance(found, str) else ""


def _number(asked: dict[str, Any], name: str, default: float) -> float:
    found = asked.get(name, default)
    if isinstance(found, bool) or not isinstance(found, int | float):
        message = f"{name} is to be a number of millimetres."
        raise FileRefusedError(message)
    return float(found)


def entry_of(point: ReadPoint) -> dict[str, Any]:
    """Return a point as an entry of the job document."""
    entry: dict[str, Any] = {"name": point.name, "x_mm": point.x_mm, "y_mm": point.y_mm}
    if point.level_mm is not None:
        entry["level_mm"] = point.level_mm
    if point.note:
        entry["note"] = point.note
    return entry


def _of_points(points: tuple[ReadPoint, ...]) -> dict[str, Any]:
    return {"points": [entry_of(point) for point in points], "lines": [], "caveats": []}


def _of_drawing(drawing: ReadDrawing) -> dict[str, Any]:
    lines = [{"layer": line.layer, "points": list(line.points), "closed": line.closed} for line in drawing.lines]
    return {**_of_points(drawing.points), "lines": lines, "caveats": list(drawing.caveats)}


def _dxf(content: bytes, asked: dict[str, Any]) -> dict[str, Any]:
    """Return the layers and the unit of a drawing, and what lies on those that are chosen."""
    layers, unit = dxf_layers(content)
    chosen = asked.get("layers")
    reported = {"layers": layers, "unit": unit}
    if not isinstance(chosen, list) or not chosen:
        return {**_of_points(()), **reported}
    return {
        **_of_drawing(read_dxf(content, [str(each) for each in chosen], _word(asked, "unit") or unit or "")),
        **reported,
    }


def _cloud(surface: CloudSurface, asked: dict[str, Any]) -> dict[str, Any]:
    """Return spots of a cloud, one in each square, laid onto marks where there are any."""
    spots, residuals = surface.spots, []
    marks, every_mm = asked.get("marks") or [], _number(asked, "every_mm", _EVERY_MM)
    if not isinstance(marks, list) or not _MIN_EVERY_MM <= every_mm <= _MAX_EVERY_MM:
        message = f"Take a spot every {_MIN_EVERY_MM:g} to {_MAX_EVERY_MM:g} mm, and marks as a list."
        raise FileRefusedError(message)
    caveats = [
        "The cloud stands on its own grid: lay it onto three or more levelled points before you trust its levels."
    ]
    if marks:
        pairs = tuple(_pair(each) for each in marks)
        spots, how = aligned(spots, pairs)
        residuals = [{"plan_mm": one, "level_mm": other} for one, other in how.residuals_mm]
        caveats = []
    few = thinned(spots, every_mm)
    if len(few) > _MAX_SPOTS:
        message = f"One spot in each square makes {len(few)}, and {_MAX_SPOTS} can be taken: take wider squares."
        raise FileRefusedError(message)
    points = [
        {"name": f"cloud {number}", "x_mm": round(x, 1), "y_mm": round(y, 1), "level_mm": round(z, 1)}
        for number, (x, y, z) in enumerate(few.tolist(), start=1)
    ]
    read, taken = surface.counts
    words = f"{read} points read, {taken} taken, {len(surface.spots)} cells of {surface.cell_mm:g} mm by their median."
    return {"points": points, "lines": [], "caveats": [words, *caveats], "residuals": residuals}


def _pair(mark: object) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    """Return a place in the cloud and where it was measured."""
    names = ("x_mm", "y_mm", "level_mm")
    if not isinstance(mark, dict) or not all(isinstance(mark.get(each), dict) for each in ("cloud", "site")):
        message = "A mark is a place in the cloud and a point of the site."
        raise FileRefusedError(message)
    one, other = (tuple(_number(mark[each], name, float("nan")) for name in names) for each in ("cloud", "site"))
    if not all(abs(each) <= MAX_MM for each in (*one, *other)):
        message = "A mark needs east, north and level, in the cloud and on the site, within 100 km of the origin."
        raise FileRefusedError(message)
    return (one[0], one[1], one[2]), (other[0], other[1], other[2])
