"""Blocks: what sheets are made of, as plain data for the page."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from pavewright.drawing import to_svg

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from pavewright.drawing import Scene

Block = dict[str, Any]

_ACROSS_LIMIT_MM = 250.0
"""A drawing higher than this needs a sheet that stands upright. [mm]"""


@dataclass
class SheetOfPaper:
    """One sheet: its title and its blocks.

    Attributes:
        title: Title.
        size: ``A4`` or ``A3``.
        upright: Whether it stands upright.
        scale: Scale of its drawing in words; empty without one.
        blocks: Blocks in order.
        mark: What its head says beside the job on every page ("Not ready to be sent: …"); empty for nothing.
        measured: Whether its foot names the datum, the units and north; a price has none of them.
    """

    title: str
    size: str = "A4"
    upright: bool = True
    scale: str = ""
    blocks: list[Block] = field(default_factory=list)
    mark: str = ""
    measured: bool = True

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


def table(heads: Sequence[str], rows: Iterable[Sequence[str]], *, type_size: float = 8.5, pad: float = 3.0) -> Block:
    """Return a table.

    A head that begins with ``>`` is set to the right, one with ``*`` takes the room that is left, one with ``_`` is an
    empty column to write in.
    """
    columns = []
    for head in heads:
        align = "right" if head.startswith(">") else "left"
        width = {"*": "rest", "_": "pencil"}.get(head[:1], "auto")
        columns.append({"head": head.lstrip(">*_"), "align": align, "width": width})
    return {
        "kind": "table",
        "columns": columns,
        "rows": [list(row) for row in rows],
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


def drawing_sheet(scene: Scene, title: str = "") -> SheetOfPaper:
    """Return a sheet with a drawing on it: A4 where it fits, else A3, turned as the drawing lies."""
    wide, high = scene.paper_mm
    if wide <= 186.0 and high <= 226.0:  # noqa: PLR2004 - room on the sheets
        size, upright = "A4", True
    elif wide <= 273.0 and high <= 138.0:  # noqa: PLR2004
        size, upright = "A4", False
    else:
        size, upright = "A3", high > _ACROSS_LIMIT_MM
    sheet = SheetOfPaper(title or scene.title, size, upright, f"Scale 1:{scene.scale} on {size}.")
    return sheet.add(drawing(scene))
