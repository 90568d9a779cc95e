"""Making blocks: one short function each, so that a sheet reads like its page."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.drawing import to_svg
from pavewright.papers.look import _blocks as b
from pavewright.papers.look import _form_blocks as f
from pavewright.papers.look._photo import photo_svg
from pavewright.writing import under

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from pavewright.drawing import Scene


def heading(text: str) -> b.Block:
    """Return a heading inside a sheet."""
    return b.Heading(text)


def paragraph(text: str) -> b.Block:
    """Return a paragraph."""
    return b.Paragraph(text)


def lead(text: str) -> b.Block:
    """Return a paragraph in larger type: what to read first."""
    return b.Lead(text)


def small(text: str) -> b.Block:
    """Return a paragraph in small type."""
    return b.Small(text)


def points(items: Iterable[str], *, numbered: bool = False) -> b.Block:
    """Return a list."""
    return b.Points(tuple(items), numbered)


def facts(pairs: Iterable[tuple[str, str]]) -> b.Block:
    """Return names with their values."""
    return b.Facts(tuple((name, value) for name, value in pairs))


class Width(StrEnum):
    """How wide a column is."""

    AUTO = "auto"
    REST = "rest"
    PENCIL = "pencil"


_PENCIL_MM = 26.0
"""Room to write a number in with a pencil. [mm]."""


@dataclass(frozen=True, slots=True)
class Head:
    """The head of a column.

    Attributes:
        text: What it says.
        width: As wide as its words, what room is left, or room to write in with a pencil.
        right: Whether the column is set to the right, as numbers are: they stand under each other at the decimal.
        unit: Unit of the bare numbers in it ("mm", "level" for metres over the datum): the imperial measure stands
            under each where that is usual; empty for none.
        decimal: The same by another name.
        wide_mm: Its width; zero where `width` says it. [mm]
    """

    text: str
    width: Width = Width.AUTO
    right: bool = False
    unit: str = ""
    decimal: bool = False
    wide_mm: float = 0.0


def right(text: str, unit: str = "") -> Head:
    """Return the head of a column of numbers, bare ones in a unit where one is given."""
    return Head(text, right=True, unit=unit)


def decimal(text: str, unit: str = "") -> Head:
    """Return the head of a column of numbers that stand under each other at the decimal."""
    return Head(text, right=True, unit=unit, decimal=True)


def rest(text: str) -> Head:
    """Return the head of a column that takes the room that is left."""
    return Head(text, Width.REST)


def pencil(text: str, wide_mm: float = _PENCIL_MM) -> Head:
    """Return the head of an empty column to write in. [mm]."""
    return Head(text, Width.PENCIL, wide_mm=wide_mm)


def table(
    heads: Sequence[str | Head],
    rows: Iterable[Sequence[str]],
    *,
    type_size: float = 8.5,
    pad: float = 3.0,
    boxed: bool = False,
) -> b.Block:
    """Return a table; a head of words alone stands over a column that is set to the left.

    Args:
        heads: Heads of the columns.
        rows: Words of each row.
        type_size: Size of the type. [pt]
        pad: Room above and below the words of a cell. [pt]
        boxed: Whether every cell has a frame, as where somebody writes in it.
    """
    all_heads = [Head(each) if isinstance(each, str) else each for each in heads]
    measured = [head.unit for head in all_heads]
    return b.Table(
        tuple(_column(head) for head in all_heads),
        tuple(tuple(under(cell, unit) for cell, unit in zip(row, measured, strict=True)) for row in rows),
        type_size,
        pad,
        boxed,
    )


def _column(head: Head) -> b.Column:
    align = "decimal" if head.decimal or head.right else "left"
    wide = head.wide_mm or (_PENCIL_MM if head.width is Width.PENCIL else 0.0)
    return b.Column(head.text, align, wide or head.width.value)


def drawing(scene: Scene) -> b.Block:
    """Return a drawing at its own scale."""
    return b.Drawn(to_svg(scene), scene.about)


def figure(scene: Scene, caption: str, otherwise: str = "") -> b.Block:
    """Return a drawing at its own scale with a caption, among other blocks.

    Args:
        scene: The drawing.
        caption: What stands at it.
        otherwise: What stands there where the page has no room left for it; empty to put it on the next page then.
    """
    return b.Figure(to_svg(scene), scene.about, caption, otherwise=otherwise)


def picture(svg: str, alt: str, caption: str = "", wide_mm: float = 0.0) -> b.Block:
    """Return a picture of lines with a caption; a width of zero keeps its own. [mm]."""
    return b.Figure(svg, alt, caption, wide_mm)


def photo(content: bytes, caption: str, *, alt: str = "", wide_mm: float = 85.0, high_mm: float = 0.0) -> b.Block:
    """Return a photo with its caption.

    Args:
        content: The bytes of the file.
        caption: What stands under it.
        alt: What it shows, for who cannot see it; the caption where it is empty.
        wide_mm: Its width. [mm]
        high_mm: Height of the box of that width in which it stands whole, in the middle; zero for no box. [mm]

    Raises:
        OSError: it is no picture.
    """
    return b.Photo(photo_svg(content, wide_mm, high_mm), alt or caption, caption)


def boxes(text: str, count: int) -> b.Block:
    """Return boxes to tick off."""
    return b.Boxes(text, count)


def lines(labels: Iterable[str]) -> b.Block:
    """Return lines to write on."""
    return b.Lines(tuple(labels))


def contents() -> b.Block:
    """Return the titles of all sheets with their pages."""
    return b.Contents()


def form(form_lines: Iterable[f.FormLine], *, columns: int = 1) -> b.Block:
    """Return lines to fill in by hand, in one column or several."""
    return f.Form(tuple(form_lines), columns)


def tick(text: str, *, ticked: bool = False) -> b.Block:
    """Return a box to tick with its words."""
    return f.Tick(text, ticked)


def choice(question: str, answers: Iterable[str], ticked: Iterable[int] = (), *, several: bool = False) -> b.Block:
    """Return a question with answers to tick."""
    return f.Choice(question, tuple(answers), tuple(ticked), several)


def signatures(*who: str, names: Sequence[str] = ()) -> b.Block:
    """Return room to sign for each; names that are known are printed."""
    filled = tuple(names) + ("",) * (len(who) - len(names))
    return f.Signatures(who, filled)


def callout(level: f.CalloutKind, text: str, word: str = "") -> b.Block:
    """Return words in a frame; the word before them says what kind they are where none is given."""
    return f.Callout(level, word or _WORDS[level], text)


_WORDS = {
    f.CalloutKind.NOTE: "Note",
    f.CalloutKind.CHECK: "Check",
    f.CalloutKind.CAUTION: "Caution",
    f.CalloutKind.STOP: "STOP",
}


def checklist(
    rows: Iterable[f.CheckRow | str],
    *,
    heads: tuple[str, str, str, str] = ("check", "planned", "within", "found"),
    to_write: bool = True,
) -> b.Block:
    """Return what to check one by one; an empty box for what is found unless nothing is to be written."""
    all_rows = tuple(f.CheckRow(each) if isinstance(each, str) else each for each in rows)
    return f.Checklist(all_rows, heads, to_write)


def sketch_grid(high_mm: float, step_mm: float = 5.0, caption: str = "") -> b.Block:
    """Return squared paper to sketch on. [mm]."""
    return f.SketchGrid(high_mm, step_mm, caption)


def together(*blocks: b.Block) -> b.Block:
    """Return blocks that stay on one page."""
    return b.Together(blocks)


def beside(*columns: Sequence[b.Block], shares: Sequence[float] = ()) -> b.Block:
    """Return blocks side by side; without shares each column is as wide as the others.

    Args:
        columns: What stands in each column.
        shares: Share of the width of each, of their sum. [-]
    """
    return b.Beside(tuple(tuple(each) for each in columns), tuple(shares) or (1.0,) * len(columns))


def room(high_mm: float) -> b.Block:
    """Return empty height. [mm]."""
    return b.Room(high_mm)
