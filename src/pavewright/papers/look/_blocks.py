"""What sheets are made of: each block is frozen data, drawn by one template and read out by one text twin."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any, ClassVar


@dataclass(frozen=True, slots=True)
class Block:
    """A part of a sheet."""

    kind: ClassVar[str] = ""


@dataclass(frozen=True, slots=True)
class Heading(Block):
    """A heading inside a sheet."""

    kind: ClassVar[str] = "heading"
    text: str


@dataclass(frozen=True, slots=True)
class Paragraph(Block):
    """A paragraph."""

    kind: ClassVar[str] = "paragraph"
    text: str


@dataclass(frozen=True, slots=True)
class Lead(Block):
    """A paragraph in larger type: what to read first."""

    kind: ClassVar[str] = "lead"
    text: str


@dataclass(frozen=True, slots=True)
class Small(Block):
    """A paragraph in small type."""

    kind: ClassVar[str] = "small"
    text: str


@dataclass(frozen=True, slots=True)
class Points(Block):
    """A list, numbered or not."""

    kind: ClassVar[str] = "list"
    items: tuple[str, ...]
    numbered: bool


@dataclass(frozen=True, slots=True)
class Facts(Block):
    """Names with their values."""

    kind: ClassVar[str] = "facts"
    pairs: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table.

    Attributes:
        head: What stands over it.
        align: "left", "right" or "decimal".
        width: "auto", "rest", or a width as a number. [mm]
    """

    head: str
    align: str
    width: str | float


@dataclass(frozen=True, slots=True)
class Table(Block):
    """A table.

    Attributes:
        columns: Its columns.
        rows: Words of each row.
        type_size: Size of the type. [pt]
        pad: Room above and below the words of a cell. [pt]
        boxed: Whether every cell has a frame, as where somebody writes in it.
    """

    kind: ClassVar[str] = "table"
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    type_size: float
    pad: float
    boxed: bool = False


@dataclass(frozen=True, slots=True)
class Drawn(Block):
    """A drawing at its own scale, which fills its sheet."""

    kind: ClassVar[str] = "drawing"
    svg: str
    alt: str


@dataclass(frozen=True, slots=True)
class Boxes(Block):
    """Boxes to tick off."""

    kind: ClassVar[str] = "boxes"
    text: str
    count: int


@dataclass(frozen=True, slots=True)
class Lines(Block):
    """Lines to write on, each under its label."""

    kind: ClassVar[str] = "lines"
    labels: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Contents(Block):
    """The titles of all sheets with their pages."""

    kind: ClassVar[str] = "contents"


@dataclass(frozen=True, slots=True)
class FindingBlock(Block):
    """Something that a room noticed."""

    kind: ClassVar[str] = "finding"
    severity: str
    strong: bool
    message: str
    place: str
    source: str
    chain: tuple[str, ...]
    ways: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Figure(Block):
    """A picture of lines with a caption, as SVG; a width of zero keeps its own. [mm].

    Where words may stand for it, it is drawn only where the page has room left for it under its caption.
    """

    kind: ClassVar[str] = "figure"
    svg: str
    alt: str
    caption: str
    wide_mm: float = 0.0
    otherwise: str = ""


@dataclass(frozen=True, slots=True)
class Photo(Block):
    """A photo with its caption, made small for paper and wrapped as SVG: words alone go to what sets the page."""

    kind: ClassVar[str] = "photo"
    svg: str
    alt: str
    caption: str


@dataclass(frozen=True, slots=True)
class Together(Block):
    """Blocks that stay on one page."""

    kind: ClassVar[str] = "together"
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Beside(Block):
    """Blocks side by side, each column with its share of the width; read from the left column to the right.

    Attributes:
        columns: What stands in each column.
        shares: Share of the width of each, of their sum. [-]
    """

    kind: ClassVar[str] = "beside"
    columns: tuple[tuple[Block, ...], ...]
    shares: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Room(Block):
    """Empty height. [mm]."""

    kind: ClassVar[str] = "room"
    high_mm: float


def as_data(value: Any) -> Any:  # noqa: ANN401 - plain data of a page
    """Return a block, or what is inside of one, as plain data for the page."""
    if isinstance(value, Block):
        return {"kind": value.kind} | _of_fields(value)
    if hasattr(value, "__dataclass_fields__"):
        return _of_fields(value)
    if isinstance(value, tuple | list):
        return [as_data(each) for each in value]
    return value


def _of_fields(value: Any) -> dict[str, Any]:  # noqa: ANN401 - any frozen part of a block
    return {each.name: as_data(getattr(value, each.name)) for each in fields(value)}
