"""Blocks: what sheets are made of, as plain data for the page."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from pavewright.drawing import to_svg
from pavewright.writing import under

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from pavewright.drawing import Scene

Block = dict[str, Any]

PACK_FRAME = (270.0, 150.0)
"""Room for a plan on an A4 sheet that lies; one that stands is found from it. [mm]"""
_STANDS_MM, _LIES_MM = (186.0, 237.0), (273.0, 153.0)
"""Room on an A4 sheet that stands, and on one that lies. [mm]"""
_ACROSS_LIMIT_MM = 250.0
"""A drawing higher than this needs an A3 sheet that stands upright. [mm]"""


class SheetSize(StrEnum):
    """Size of a sheet."""

    A4 = "A4"
    A3 = "A3"


@dataclass
class SheetOfPaper:
    """One sheet: its title and its blocks.

    Attributes:
        title: Title.
        size: Its size.
        upright: Whether it stands upright.
        scale: Scale of its drawing in words; empty without one.
        blocks: Blocks in order.
        mark: What its head says beside the job on every page ("Not ready to be sent: …"); empty for nothing.
        measured: Whether its foot names the datum, the units and north; a price has none of them.
        follows: Whether it may begin on the page of the sheet before it, where a good part of that is left.
        listed: Whether the contents name it; further sheets of one kind are not.
        read_on: Day of the readings that it shows, in words; empty where the date of the job goes.
    """

    title: str
    size: SheetSize = SheetSize.A4
    upright: bool = True
    scale: str = ""
    blocks: list[Block] = field(default_factory=list)
    mark: str = ""
    measured: bool = True
    follows: bool = False
    listed: bool = True
    read_on: str = ""

    def add(self, *blocks: Block) -> SheetOfPaper:
        """Add blocks and return the sheet."""
        self.blocks.extend(blocks)
        return self


def heading(text: str) -> Block:
    """Return a heading inside a sheet."""
    return {"kind": "heading", "text": text}


def paragraph(text: str) -> Block:
    """Return a paragraph."""
    return {"kind": "paragraph", "text": text}


def lead(text: str) -> Block:
    """Return a paragraph in larger type: what to read first."""
    return {"kind": "lead", "text": text}


def small(text: str) -> Block:
    """Return a paragraph in small type."""
    return {"kind": "small", "text": text}


def points(items: Iterable[str], *, numbered: bool = False) -> Block:
    """Return a list."""
    return {"kind": "list", "items": list(items), "numbered": numbered}


def facts(pairs: Iterable[tuple[str, str]]) -> Block:
    """Return names with their values."""
    return {"kind": "facts", "pairs": [list(pair) for pair in pairs]}


class Width(StrEnum):
    """How wide a column is."""

    AUTO = "auto"
    REST = "rest"
    PENCIL = "pencil"


@dataclass(frozen=True, slots=True)
class Head:
    """The head of a column.

    Attributes:
        text: What it says.
        width: As wide as its words, what room is left, or room to write in with a pencil.
        right: Whether the column is set to the right, as numbers are.
        unit: Unit of the bare numbers in it ("mm", "level" for metres over the datum): the imperial measure stands
            under each where that is usual; empty for none.
    """

    text: str
    width: Width = Width.AUTO
    right: bool = False
    unit: str = ""


def right(text: str, unit: str = "") -> Head:
    """Return the head of a column of numbers, bare ones in a unit where one is given."""
    return Head(text, right=True, unit=unit)


def rest(text: str) -> Head:
    """Return the head of a column that takes the room that is left."""
    return Head(text, Width.REST)


def pencil(text: str) -> Head:
    """Return the head of an empty column to write in."""
    return Head(text, Width.PENCIL)


def table(
    heads: Sequence[str | Head], rows: Iterable[Sequence[str]], *, type_size: float = 8.5, pad: float = 3.0
) -> Block:
    """Return a table; a head of words alone stands over a column that is set to the left.

    Args:
        heads: Heads of the columns.
        rows: Words of each row.
        type_size: Size of the type. [pt]
        pad: Room above and below the words of a cell. [pt]
    """
    all_heads = [Head(each) if isinstance(each, str) else each for each in heads]
    columns = []
    for head in all_heads:
        align = "right" if head.right else "left"
        columns.append({"head": head.text, "align": align, "width": head.width.value})
    measured = [head.unit for head in all_heads]
    return {
        "kind": "table",
        "columns": columns,
        "rows": [[under(cell, unit) for cell, unit in zip(row, measured, strict=True)] for row in rows],
        "type-size": type_size,
        "pad": pad,
    }


def drawing(scene: Scene) -> Block:
    """Return a drawing at its own scale."""
    return {"kind": "drawing", "svg": to_svg(scene), "alt": scene.about}


def boxes(text: str, count: int) -> Block:
    """Return boxes to tick off."""
    return {"kind": "boxes", "text": text, "count": count}


def lines(labels: Iterable[str]) -> Block:
    """Return lines to write on."""
    return {"kind": "lines", "labels": list(labels)}


def contents() -> Block:
    """Return the titles of all sheets with their pages."""
    return {"kind": "contents"}


def drawing_sheet(
    scene: Scene, title: str = "", size: SheetSize = SheetSize.A4, *, listed: bool = True
) -> SheetOfPaper:
    """Return a sheet of a size with a drawing on it, turned as the drawing lies.

    Raises:
        ValueError: the drawing is larger than the sheet.
    """
    wide, high = scene.paper_mm
    upright = high > _ACROSS_LIMIT_MM
    if size is SheetSize.A4:
        upright = wide <= _STANDS_MM[0] and high <= _STANDS_MM[1]
        if not upright and (wide > _LIES_MM[0] or high > _LIES_MM[1]):
            message = f"{scene.name} of {wide:.0f} × {high:.0f} mm is larger than an A4 sheet"
            raise ValueError(message)
    sheet = SheetOfPaper(title or scene.title, size, upright, f"Scale 1:{scene.scale} on {size}", listed=listed)
    return sheet.add(drawing(scene))
