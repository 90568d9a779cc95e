"""Variations: what may be done otherwise, as changes of the job document with the facts that describe them."""

from __future__ import annotations

import copy
import json
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from pavewright.findings import FieldChange
from pavewright.job import changed_document

if TYPE_CHECKING:
    from collections.abc import Iterable


class SlotKind(StrEnum):
    """What is varied: of each slot a plan has one variation, or what is drawn."""

    UNIT = "unit"
    PATTERN = "pattern"
    JOINT = "joint"
    BORDER = "border"
    START = "start"
    FALL = "fall"
    CROSS_FALL = "cross_fall"
    EDGE = "edge"
    BUILD_UP = "build_up"
    DRAIN = "drain"


class VariationKind(StrEnum):
    """What a variation does."""

    UNIT = "unit"
    PATTERN = "pattern"
    JOINT = "joint"
    BORDER_COURSES = "border_courses"
    BORDER_KIND = "border_kind"
    BORDER_CORNER = "border_corner"
    BORDER_STRETCH = "border_stretch"
    START = "start"
    DIRECTION = "direction"
    FALL = "fall"
    CROSS_TO = "cross_to"
    NO_CROSS_FALL = "no_cross_fall"
    FOLDING = "folding"
    GULLY_CHOSEN = "gully_chosen"
    EDGE = "edge"
    BUILD_UP = "build_up"
    WITHOUT_GULLY = "without_gully"
    WITHOUT_CHANNEL = "without_channel"


@dataclass(frozen=True, slots=True, order=True)
class Slot:
    """Where something is varied.

    Attributes:
        kind: What is varied.
        number: Place of the area in the job; -1 for the whole job.
        place: Place of the side or the drain in its list; 0 where there is one.
    """

    kind: SlotKind
    number: int
    place: int = 0


@dataclass(frozen=True, slots=True)
class VariationFacts:
    """What a variation is, for its words.

    Attributes:
        kind: What it does.
        area: Name of the area; empty for the whole job.
        name: Name of the unit, the gully, or the corner from which a side leaves.
        other: Name of the unit before, or of the corner at which a side ends.
        option: What it becomes where that is one of a list.
        rule: Whose rule gives the base.
        value: What it becomes where that is a number. [unit of the field]
        was: What it was before. [unit of the field]
    """

    kind: VariationKind
    area: str = ""
    name: str = ""
    other: str = ""
    option: str = ""
    rule: str = ""
    value: float | None = None
    was: float | None = None


@dataclass(frozen=True, slots=True)
class AddedPoint:
    """A new corner on the line of a side, in place of a measured one.

    Attributes:
        name: Its name.
        instead_of: The corner in whose place it stands in the outline.
        line_from: Start of the line on which it lies.
        line_to: End of that line.
        along_mm: How far along the line. [mm]
    """

    name: str
    instead_of: str
    line_from: str
    line_to: str
    along_mm: float


@dataclass(frozen=True, slots=True)
class StartAsked:
    """A start that is searched for whatever else is varied: the best one of a direction of the courses, or a next one.

    Attributes:
        turn: Which direction: 0 as drawn, then along and square to the longest sides.
        rank: Which of the best starts, from 0.
    """

    turn: int
    rank: int


@dataclass(frozen=True, slots=True)
class Variation:
    """Something done otherwise.

    Attributes:
        slot: Where it is varied.
        facts: What it is, for its words.
        changes: Fields of the document that it sets.
        unit: A paving unit that it brings into the job, as JSON; empty where it brings none.
        points: Corners that take the place of others.
        without: Name of the list and of the drain in it that goes; empty where none does.
        start: The start that is searched for; None for every other variation.
    """

    slot: Slot
    facts: VariationFacts
    changes: tuple[FieldChange, ...] = ()
    unit: str = ""
    points: tuple[AddedPoint, ...] = ()
    without: tuple[str, ...] = ()
    start: StartAsked | None = None


def with_variations(document: dict[str, Any], variations: Iterable[Variation]) -> dict[str, Any] | None:
    """Return a job document with variations; None where they do not go together.

    Args:
        document: The document as drawn; it is not changed.
        variations: What is done otherwise, each slot once.
    """
    made = copy.deepcopy(document)
    for each in variations:
        if each.unit:
            _add_unit(made, json.loads(each.unit))
        for point in each.points:
            if not _put_point(made, each.slot.number, point):
                return None
        if each.without:
            _remove(made, *each.without)
        if each.changes:
            made = changed_document(made, each.changes)
    return made


def with_starts(document: dict[str, Any], starts: list[list[Any]]) -> dict[str, Any]:
    """Return a document with starts that were found.

    Args:
        document: The document.
        starts: Place of the area, and the fields of its laying.
    """
    changes = [
        FieldChange(f"areas.{number}.laying.{field}", value)
        for number, fields in starts
        for field, value in fields.items()
    ]
    return changed_document(document, changes)


def _add_unit(document: dict[str, Any], unit: dict[str, Any]) -> None:
    units = document.setdefault("units", [])
    if all(each["name"] != unit["name"] for each in units):
        units.append(unit)


def _put_point(document: dict[str, Any], number: int, point: AddedPoint) -> bool:
    """Put a corner in the place of another one; False where that one does not stand in the outline any more."""
    area = document["areas"][number]
    corners = [each for each in area["outline"] if each["point"] == point.instead_of]
    if len(corners) != 1:
        return False
    corners[0]["point"] = point.name
    for edge in area.get("edges", ()):
        for field in ("corner", "to"):
            if edge.get(field) == point.instead_of:
                edge[field] = point.name
    measured = document.setdefault("measurements", {}).setdefault("offsets", [])
    row = {"name": point.name, "line_from": point.line_from, "line_to": point.line_to}
    measured.append(row | {"along_mm": point.along_mm, "offset_mm": 0.0})
    return True


def _remove(document: dict[str, Any], kind: str, name: str) -> None:
    """Take a drain out of the job; a fold that leads to it leads to another one."""
    document["site"][kind] = [each for each in document["site"].get(kind, ()) if each["name"] != name]
    for area in document["areas"]:
        if area.get("fall", {}).get("gully") == name:
            area["fall"]["gully"] = None
