"""Blocks read out as plain text: for a screen reader, a message, a telephone that shows no PDF.

Each row of a table is a line that names its columns, so that who hears it knows what a number is of. A drawing is said
by what it shows.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers.look import _blocks as b
from pavewright.papers.look import _form_blocks as f

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

_TO_WRITE = "____"


def text_lines(blocks: Iterable[b.Block]) -> Iterator[str]:
    """Give the lines of blocks, an empty one after each block."""
    for block in blocks:
        found = list(_LINES[type(block)](block))
        yield from found
        if found and found[-1]:
            yield ""


def _heading(block: b.Heading) -> Iterator[str]:
    yield f"{block.text}:" if block.text[-1:].isalnum() else block.text


def _words(block: b.Paragraph | b.Lead | b.Small) -> Iterator[str]:
    yield from block.text.split("\n")


def _points(block: b.Points) -> Iterator[str]:
    for number, item in enumerate(block.items, start=1):
        yield f"{number}. {item}" if block.numbered else f"- {item}"


def _facts(block: b.Facts) -> Iterator[str]:
    for name, value in block.pairs:
        yield f"{name}: {_flat(value)}"


def _table(block: b.Table) -> Iterator[str]:
    heads = [_flat(column.head) for column in block.columns]
    named = ", ".join(head for head in heads if head)
    if named:
        yield f"Table of {named}:" if block.rows else f"Table of {named}: no rows."
    to_write = _is_to_write(block)
    for row in block.rows:
        said = [_flat(row[0]) or _TO_WRITE]
        for head, cell in zip(heads[1:], row[1:], strict=True):
            words = _flat(cell) or (_TO_WRITE if head and to_write else "")
            said += [f"{head}: {words}" if head else words] if words else []
        yield f"- {'; '.join(said)}"


def _is_to_write(block: b.Table) -> bool:
    """Return whether somebody writes in a table: its cells have frames, or a column has room for a pencil."""
    return block.boxed or any(not isinstance(column.width, str) for column in block.columns)


def _finding(block: b.FindingBlock) -> Iterator[str]:
    yield f"{block.severity}: {block.message}"
    yield f"  {'. '.join(part for part in (block.place, block.source) if part)}"
    yield from (f"  - {each}" for each in block.chain)
    if block.ways:
        yield "  Options:"
    yield from (f"  {number}. {each}" for number, each in enumerate(block.ways, start=1))


def _boxes(block: b.Boxes) -> Iterator[str]:
    yield f"{block.text} ({block.count} boxes to tick)"


def _to_fill(block: b.Lines) -> Iterator[str]:
    yield from (f"{label}: {_TO_WRITE}" for label in block.labels)


def _form(block: f.Form) -> Iterator[str]:
    for line in block.lines:
        yield f"{line.label}: {line.value or _TO_WRITE} {line.unit}".rstrip()


def _tick(block: f.Tick) -> Iterator[str]:
    yield _ticked(block.text, ticked=block.ticked)


def _ticked(words: str, *, ticked: bool) -> str:
    return f"[{'x' if ticked else ' '}] {words}"


def _choice(block: f.Choice) -> Iterator[str]:
    yield f"{block.question} ({'tick what applies' if block.several else 'tick one'})"
    for place, answer in enumerate(block.answers):
        yield f"  {_ticked(answer, ticked=place in block.ticked)}"


def _signatures(block: f.Signatures) -> Iterator[str]:
    for who, name in zip(block.who, block.names, strict=True):
        yield f"{who}: name {name or _TO_WRITE}, signature {_TO_WRITE}, date {_TO_WRITE}"


def _callout(block: f.Callout) -> Iterator[str]:
    yield f"{block.word}: {block.text}"


def _checklist(block: f.Checklist) -> Iterator[str]:
    _, planned, limit, found = block.heads
    for row in block.rows:
        parts = [row.words]
        parts += [f"{planned}: {row.planned}"] if row.planned else []
        parts += [f"{limit}: {row.limit}"] if row.limit else []
        parts += [f"{found}: {row.found or _TO_WRITE}"] if block.to_write else []
        yield _ticked("; ".join(parts), ticked=False)


def _drawn(block: b.Drawn) -> Iterator[str]:
    yield f"Drawing: {block.alt}"


def _pictured(block: b.Figure | b.Photo) -> Iterator[str]:
    kind = "Photo" if isinstance(block, b.Photo) else "Figure"
    said = [part for part in dict.fromkeys((block.caption, block.alt)) if part]
    yield f"{kind}: {'. '.join(said)}"


def _grid(block: f.SketchGrid) -> Iterator[str]:
    yield f"Squared paper to sketch on. {block.caption}".rstrip()


def _together(block: b.Together) -> Iterator[str]:
    yield from text_lines(block.blocks)


def _beside(block: b.Beside) -> Iterator[str]:
    for column in block.columns:
        yield from text_lines(column)


def _flat(words: str) -> str:
    """Return what stands in a cell on one line."""
    return " ".join(words.split("\n"))


def _nothing(_block: b.Block) -> Iterator[str]:
    """Give nothing: pages have numbers and empty height, a text has neither."""
    return iter(())


_LINES: dict[type[b.Block], Callable[..., Iterator[str]]] = {
    b.Heading: _heading,
    b.Paragraph: _words,
    b.Lead: _words,
    b.Small: _words,
    b.Points: _points,
    b.Facts: _facts,
    b.Table: _table,
    b.Drawn: _drawn,
    b.Boxes: _boxes,
    b.Lines: _to_fill,
    b.Contents: _nothing,
    b.FindingBlock: _finding,
    b.Figure: _pictured,
    b.Photo: _pictured,
    b.Together: _together,
    b.Beside: _beside,
    b.Room: _nothing,
    f.Form: _form,
    f.Tick: _tick,
    f.Choice: _choice,
    f.Signatures: _signatures,
    f.Callout: _callout,
    f.Checklist: _checklist,
    f.SketchGrid: _grid,
}
"""What reads each kind of block out; a test says when one is missing."""
