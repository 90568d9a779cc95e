"""Sheets, and the documents that they make up."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.papers.look._make import drawing

if TYPE_CHECKING:
    from pavewright.drawing import Scene
    from pavewright.papers.look._blocks import Block

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
        sign: A picture that stands in place of the title on a sheet without words; the title then says what it shows.
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
    sign: str = ""

    def add(self, *blocks: Block) -> SheetOfPaper:
        """Add blocks and return the sheet."""
        self.blocks.extend(blocks)
        return self


@dataclass(frozen=True, slots=True)
class Document:
    """A document: sheets in order, from which its pages and its text twin are both made.

    Attributes:
        title: What it is called.
        sheets: Its sheets.
        letterhead: Whether the firm's letterhead stands on its first page.
        own: Words of the firm in it, which nobody puts in other words.
        wordless: Whether head and foot hold numbers alone: the job, its date and revision, the page.
    """

    title: str
    sheets: tuple[SheetOfPaper, ...]
    letterhead: bool = False
    own: frozenset[str] = frozenset()
    wordless: bool = False


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
    scale = "Scales as written" if scene.scales else f"Scale 1:{scene.scale} on {size}"
    sheet = SheetOfPaper(title or scene.title, size, upright, scale, listed=listed)
    return sheet.add(drawing(scene))
