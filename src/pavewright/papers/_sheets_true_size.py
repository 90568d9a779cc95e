"""Templates at true size: a list of what is in the file, then each piece over as many A4 sheets as it takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing import true_size_sheets
from pavewright.laying import has_curve
from pavewright.papers._bench_words import TRUE_SIZE as SAID
from pavewright.papers._blocks import SheetOfPaper, drawing_sheet, points, rest, right, small, table

if TYPE_CHECKING:
    from pavewright.papers._blocks import Block
    from pavewright.pipeline import Plan

_MAX_ROWS = 30
"""A longer list is written by area, several pieces to a line."""

_HOW = (
    SAID.print_never_fitted_page,
    SAID.stick_sheets_together_cross,
    SAID.hold_template_gap_before,
    SAID.joints_are_already_taken,
    SAID.wet_cutting_or_extraction,
)

_SQUARE = SAID.curved_sides_only_pieces


def true_size_document(plan: Plan) -> list[SheetOfPaper]:
    """Return a list of templates and their sheets at true size; none where no piece has a curve."""
    odd = [(laid, piece) for laid in plan.laying.areas for piece in laid.pieces if has_curve(piece)]
    if not odd:
        return []
    sheets = true_size_sheets(odd)
    drawn: dict[tuple[str, int], list[int]] = {}
    for number, sheet in enumerate(sheets, start=2):
        for piece in sheet.pieces:
            drawn.setdefault(piece, []).append(number)
    first = SheetOfPaper(SAID.templates_true_size)
    first.add(points(_HOW, numbered=True))
    rows = [(area, str(piece), _pages(pages)) for (area, piece), pages in sorted(drawn.items())]
    first.add(
        *_columns(rows),
        small(_SQUARE),
    )
    return [first, *(drawing_sheet(sheet.scene, sheet.title, listed=False) for sheet in sheets)]


def _pages(pages: list[int]) -> str:
    """Return page numbers in words, pages in a row as from-to."""
    first, last = pages[0], pages[-1]
    return str(first) if first == last else f"{first}-{last}"


def _columns(rows: list[tuple[str, str, str]]) -> list[Block]:
    """Return a table of pieces and their pages: one piece to a row where they are few, else all pages of an area."""
    if len(rows) <= _MAX_ROWS:
        return [table((rest("area"), right("piece"), right("page")), rows, pad=2.0)]
    reported: dict[str, list[str]] = {}
    for area, piece, page in rows:
        reported.setdefault(area, []).append(f"{piece}: {page}")
    return [table(("area", rest("piece: page")), [(area, ", ".join(each)) for area, each in reported.items()], pad=2.0)]
