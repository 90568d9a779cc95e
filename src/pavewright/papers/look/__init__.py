"""The look of the papers: the small set of parts that every sheet is made of.

A sheet is a title and blocks; a document is sheets in order. Blocks are frozen data: words, tables, forms to fill in,
boxes to tick, room to sign, callouts, checklists, photos and figures with captions. One template draws them, one text
twin reads them out. Nothing here knows a job.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.papers.look._accent import contrast_with_white, printed_accent
    from pavewright.papers.look._blocks import Block, Drawn, FindingBlock, as_data
    from pavewright.papers.look._form_blocks import CalloutKind, CheckRow, FormLine
    from pavewright.papers.look._make import (
        Head,
        Width,
        beside,
        boxes,
        callout,
        checklist,
        choice,
        contents,
        decimal,
        drawing,
        facts,
        figure,
        form,
        heading,
        lead,
        lines,
        paragraph,
        pencil,
        photo,
        picture,
        points,
        rest,
        right,
        room,
        signatures,
        sketch_grid,
        small,
        table,
        tick,
        together,
    )
    from pavewright.papers.look._sheet import PACK_FRAME, Document, SheetOfPaper, SheetSize, drawing_sheet
    from pavewright.papers.look._text import text_lines
else:
    __getattr__ = face(__name__)

__all__ = [
    "PACK_FRAME",
    "Block",
    "CalloutKind",
    "CheckRow",
    "Document",
    "Drawn",
    "FindingBlock",
    "FormLine",
    "Head",
    "SheetOfPaper",
    "SheetSize",
    "Width",
    "as_data",
    "beside",
    "boxes",
    "callout",
    "checklist",
    "choice",
    "contents",
    "contrast_with_white",
    "decimal",
    "drawing",
    "drawing_sheet",
    "facts",
    "figure",
    "form",
    "heading",
    "lead",
    "lines",
    "paragraph",
    "pencil",
    "photo",
    "picture",
    "points",
    "printed_accent",
    "rest",
    "right",
    "room",
    "signatures",
    "sketch_grid",
    "small",
    "table",
    "text_lines",
    "tick",
    "together",
]
