"""LandXML 1.2: points of a survey and points of a surface, north before east."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree.ElementTree import ParseError

from pavewright.files._read import TO_MM, FileRefusedError, Gathered, ReadDrawing, ReadLine, refuse_large

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_UNITS = {"meter": "m", "metre": "m", "millimeter": "mm", "foot": "ft", "USSurveyFoot": "ft", "inch": "in"}
_CAVEAT = (
    "Places were read as north, east, level, as LandXML has them (from memory): check the sketch against the site."
)


def read_landxml(content: bytes) -> ReadDrawing:
    """Return the points of a LandXML file, and the edges of its surfaces as lines.

    Raises:
        FileRefusedError: no such file, entities or other tricks in it, no unit, or nothing to take.
    """
    from defusedxml import DefusedXmlException  # noqa: PLC0415 - only here
    from defusedxml import ElementTree as Safe  # noqa: PLC0415

    refuse_large(content)
    try:
        root = Safe.fromstring(content, forbid_dtd=True)
    except (ParseError, DefusedXmlException, ValueError, LookupError) as problem:
        message = "The file cannot be read as LandXML: it is not whole, or holds what no survey needs. Save it again."
        raise FileRefusedError(message) from problem
    if _kind(root) != "LandXML":
        message = "The file is XML but no LandXML: save the survey as LandXML 1.2."
        raise FileRefusedError(message)
    to_mm = TO_MM[_unit(root)]
    found = Gathered()
    _take(found, root, to_mm)
    return found.drawing(_CAVEAT)


def _take(found: Gathered, root: Element, to_mm: float) -> None:
    """Take points and surfaces; every element is met once, under the surface that is nearest above it."""
    waiting = [(root, "")]
    while waiting:
        each, named = waiting.pop()
        kind = _kind(each)
        if kind == "CgPoint" and each.text and each.text.strip():
            _point(found, each, each.get("name") or f"point {found.count + 1}", to_mm)
        elif kind == "Surface":
            named = each.get("name") or "surface"
        elif named and kind == "P" and each.text:
            _point(found, each, f"{named} {each.get('id') or found.count + 1}", to_mm)
        elif named and kind == "Breakline":
            for row in each:
                if _kind(row) == "PntList3D" and row.text:
                    _break_line(found, row.text, named, to_mm)
        waiting += [(child, named) for child in reversed(each)]


def _kind(element: Element) -> str:
    """Return the name of an element without its namespace."""
    return str(element.tag).rsplit("}", 1)[-1]


def _unit(root: Element) -> str:
    """Return the unit of lengths.

    Raises:
        FileRefusedError: the file states none that is known.
    """
    for each in root.iter():
        if _kind(each) in {"Metric", "Imperial"}:
            reported = each.get("linearUnit", "")
            if reported in _UNITS:
                return _UNITS[reported]
            message = f"The file is in {reported or 'no unit'}: save it in metres or feet."
            raise FileRefusedError(message)
    message = "The file does not state its unit: save it again with its Units."
    raise FileRefusedError(message)


def _point(found: Gathered, element: Element, name: str, to_mm: float) -> str:
    """Take one point: north, east and, if given, level.

    Raises:
        FileRefusedError: it is none.
    """
    try:
        reported = [float(each) * to_mm for each in (element.text or "").split()[:3]]
        north, east = reported[0], reported[1]
    except (ValueError, IndexError):
        message = f"Point {name} does not hold north and east: {(element.text or '')[:60]!r}."
        raise FileRefusedError(message) from None
    level = reported[2] if len(reported) > 2 else None  # noqa: PLR2004 - north, east and level
    return found.point(name, east, north, level, element.get("code") or element.get("desc") or "")


def _break_line(found: Gathered, text: str, named: str, to_mm: float) -> None:
    """Take a line of north, east and level in turn.

    Raises:
        FileRefusedError: it is none.
    """
    try:
        reported = [float(each) * to_mm for each in text.split()]
    except ValueError:
        message = f"A break line of {named} holds what is not a number."
        raise FileRefusedError(message) from None
    rows = [reported[at : at + 3] for at in range(0, len(reported) - 2, 3)]
    names = [found.point(f"{named} {found.count + 1}", y, x, z) for x, y, z in rows]
    if len(names) > 1:
        found.lines.append(ReadLine("break line", tuple(names), closed=False))
