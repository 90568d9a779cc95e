"""DXF drawings in and out: layers are chosen, a unit that is not stated is asked for, half a file is refused."""

from __future__ import annotations

import io
from collections import Counter
from typing import TYPE_CHECKING

from pavewright.files._read import (
    MAX_MM,
    TO_MM,
    FileRefusedError,
    Gathered,
    ReadDrawing,
    ReadLine,
    ReadPoint,
    refuse_large,
)

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable

    from ezdxf.document import Drawing
    from ezdxf.entities.dxfentity import DXFEntity

_UNITS = {1: "in", 2: "ft", 4: "mm", 6: "m"}
"""Units by the code of the header; others are asked."""
_MAX_ENTITIES = 100_000
_TAKEN = frozenset({"POINT", "LINE", "LWPOLYLINE", "POLYLINE", "CIRCLE", "ARC", "INSERT"})
_OWN = "PAVEWRIGHT"
_LAYER = "SURVEY_POINTS"
_LINE_LAYER = "SURVEY_LINES"
_SAG_MM = 5.0
"""An arc is taken over as points no further from it than this. [mm]"""


def dxf_layers(content: bytes) -> tuple[dict[str, int], str | None]:
    """Return how many things that can be read lie on each layer, and the unit, None where the drawing states none.

    Raises:
        FileRefusedError: it is no whole DXF drawing.
    """
    document = _opened(content)
    found = Counter(_layer(each) for each in document.modelspace() if each.dxftype() in _TAKEN)
    return dict(sorted(found.items())), _UNITS.get(document.header.get("$INSUNITS", 0))


def read_dxf(content: bytes, layers: Collection[str], unit: str) -> ReadDrawing:
    """Return points and lines of some layers of a drawing.

    Levels are taken over where they are not zero: a flat drawing has none.

    Args:
        content: The file.
        layers: Names of the layers to take.
        unit: ``mm``, ``m``, ``ft`` or ``in``; that of the drawing where it states one.

    Raises:
        FileRefusedError: no whole drawing, an unknown layer, a unit that is not the drawing's, or nothing to take.
    """
    document = _opened(content)
    reported = _UNITS.get(document.header.get("$INSUNITS", 0))
    if unit not in TO_MM or (reported is not None and reported != unit):
        known = f"the drawing is in {reported}" if reported is not None else "the drawing does not say: ask who drew it"
        message = f"Say whether it is in {', '.join(TO_MM)}; {known}."
        raise FileRefusedError(message)
    there = {_layer(each) for each in document.modelspace()}
    strange = sorted(set(layers) - there)
    if strange or not layers:
        message = f"Choose layers that are there: {', '.join(sorted(there))}."
        raise FileRefusedError(message)
    found = Gathered()
    flat = not any(abs(z) > 0.0 for each in document.modelspace() if _layer(each) in layers for z in _levels(each))
    for entity in document.modelspace():
        if _layer(entity) in layers:
            _take(entity, found, TO_MM[unit], flat=flat)
    bare = all(point.level_mm is None for point in found.points)
    caveats = ["The drawing is flat: its points have no level."] if bare else []
    meshes = sum(_is_mesh(each) for each in document.modelspace() if _layer(each) in layers)
    if meshes:
        caveats.append(f"{meshes} of what lies there are meshes: their corners were taken as points, their faces not.")
    return found.drawing(*caveats)


def _opened(content: bytes) -> Drawing:
    """Return a drawing.

    Raises:
        FileRefusedError: it is none, not whole, or too large.
    """
    from ezdxf import recover  # noqa: PLC0415 - slow to load
    from ezdxf.lldxf.const import DXFError  # noqa: PLC0415

    refuse_large(content)
    tail = content[-200:].replace(b"\r", b"").rstrip()
    if content.startswith(b"AutoCAD Binary DXF"):
        message = "The drawing is a binary DXF: save it as a text DXF."
        raise FileRefusedError(message)
    if not tail.endswith(b"EOF"):
        message = "The file is not a DXF drawing, or its end is missing: save it again, or send it again whole."
        raise FileRefusedError(message)
    try:
        document, _ = recover.read(io.BytesIO(content))
    except (DXFError, OSError, ValueError, KeyError, IndexError, TypeError, AttributeError) as problem:
        message = "The file cannot be read as a DXF drawing: save it again as DXF R2010."
        raise FileRefusedError(message) from problem
    count = len(document.modelspace())
    if count == 0 or count > _MAX_ENTITIES:
        message = f"The drawing holds {count} things in its model: between 1 and {_MAX_ENTITIES} can be looked at."
        raise FileRefusedError(message)
    return document


def _layer(entity: DXFEntity) -> str:
    """Return the name of a thing's layer; signs that the drawing wrote in an older way are read as Latin ones."""
    return _readable(str(entity.dxf.layer))


def _readable(words: str) -> str:
    r"""Return words without halves of signs, which stand for bytes that are not UTF-8.

    >>> _readable("M\udcfcll")
    'Müll'
    """
    return "".join(chr(ord(sign) - 0xDC00) if "\udc80" <= sign <= "\udcff" else sign for sign in words)


def _levels(entity: DXFEntity) -> Iterable[float]:
    """Return the levels that an entity holds, in its own unit."""
    kind = entity.dxftype()
    if kind in {"POINT", "INSERT"}:
        yield (entity.dxf.location if kind == "POINT" else entity.dxf.insert).z
    elif kind == "LINE":
        yield from (entity.dxf.start.z, entity.dxf.end.z)
    elif kind == "POLYLINE":
        yield from (vertex.dxf.location.z for vertex in entity.vertices)  # type: ignore[attr-defined]
    elif kind == "LWPOLYLINE":
        yield float(entity.dxf.elevation)


def _take(entity: DXFEntity, found: Gathered, to_mm: float, *, flat: bool) -> None:
    """Take over one thing of a drawing; what is none of points and lines is left."""
    layer, kind = _layer(entity), entity.dxftype()
    if kind not in _TAKEN:
        return
    name, note, level_known = _own_words(entity)

    def point(x: float, y: float, z: float) -> str:
        unknown = flat if level_known is None else not level_known
        level = None if unknown else z * to_mm
        return found.point(name or f"{layer} {found.count + 1}", x * to_mm, y * to_mm, level, note)

    if kind in {"POINT", "INSERT"}:
        point(*(entity.dxf.location if kind == "POINT" else entity.dxf.insert))
        return
    if _is_mesh(entity):
        for place in _corners(entity):
            point(*place)
        return
    if kind == "LINE":
        places, closed = [tuple(entity.dxf.start), tuple(entity.dxf.end)], False
    else:
        places, closed = _along(entity, to_mm)
    named = [point(*place) for place in places]
    kept = tuple(each for number, each in enumerate(named) if number == 0 or each != named[number - 1])
    if closed and len(kept) > 1 and kept[0] == kept[-1]:
        kept = kept[:-1]
    if len(kept) > 1:
        found.lines.append(ReadLine(layer, kept, closed))


def _is_mesh(entity: DXFEntity) -> bool:
    """Return whether a polyline is a mesh, which has corners and faces and no course."""
    return entity.dxftype() == "POLYLINE" and bool(entity.is_polygon_mesh or entity.is_poly_face_mesh)  # type: ignore[attr-defined]


def _corners(entity: DXFEntity) -> list[tuple[float, float, float]]:
    """Return the corners of a mesh."""
    rows = [each for each in entity.vertices if not each.is_face_record]  # type: ignore[attr-defined]
    return [(float(each.x), float(each.y), float(each.z)) for each in (row.dxf.location for row in rows)]


def _along(entity: DXFEntity, to_mm: float) -> tuple[list[tuple[float, float, float]], bool]:
    """Return places along a polyline, a circle or an arc, curves flattened within a sag; and whether it is closed."""
    from ezdxf import path  # noqa: PLC0415 - slow to load

    if entity.dxftype() in {"CIRCLE", "ARC"}:
        reach = abs(float(entity.dxf.radius)) * to_mm
        if not reach <= MAX_MM:
            message = f"A circle on layer {_layer(entity)} has a radius of more than 100 km: delete it in the drawing."
            raise FileRefusedError(message)
    made = path.make_path(entity)
    places = [(float(each.x), float(each.y), float(each.z)) for each in made.flattening(_SAG_MM / to_mm)]
    closed = bool(made.is_closed)
    return (places[:-1] if closed and len(places) > 1 else places), closed


def _own_words(entity: DXFEntity) -> tuple[str, str, bool | None]:
    """Return name, note and whether the level is known, of a point that this program wrote."""
    if not entity.has_xdata(_OWN):
        return "", "", None
    words = [str(tag.value) for tag in entity.get_xdata(_OWN) if tag.code == 1000]  # noqa: PLR2004 - text of the format
    return (words[0], words[1], words[2] == "level") if len(words) == 3 else ("", "", None)  # noqa: PLR2004


def write_dxf_points(points: Iterable[ReadPoint], lines: Iterable[ReadLine] = ()) -> bytes:
    """Return points and lines as a drawing in millimetres; read again they are the same."""
    from ezdxf import filemanagement  # noqa: PLC0415 - slow to load
    from ezdxf import units as dxf_units  # noqa: PLC0415

    document = filemanagement.new("R2010", units=dxf_units.MM)
    document.appids.add(_OWN)
    space = document.modelspace()
    places = {}
    for each in points:
        places[each.name] = (each.x_mm, each.y_mm, each.level_mm or 0.0)
        entity = space.add_point(places[each.name], dxfattribs={"layer": _LAYER})
        known = "flat" if each.level_mm is None else "level"
        entity.set_xdata(_OWN, [(1000, each.name), (1000, each.note), (1000, known)])
    for line in lines:
        space.add_polyline3d(
            [places[name] for name in line.points], close=line.closed, dxfattribs={"layer": line.layer or _LINE_LAYER}
        )
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode("utf-8")
