"""The dimension book on paper and as a sheet of a workbook: deductions negative, each line with its drawing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing import DRAWINGS
from pavewright.papers._bench_words import DIMENSIONS as SAID
from pavewright.papers._blocks import SheetOfPaper, heading, rest, right, small, table
from pavewright.papers._words import amount, three, two
from pavewright.quantities import Drawn
from pavewright.writing import imperial_unit, in_imperial, now

if TYPE_CHECKING:
    from collections.abc import Callable

    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet

    from pavewright.pipeline import Plan
    from pavewright.quantities import Dimension, Item

_TITLES = {each.key: each.words for each in DRAWINGS}
_HEADS = (
    rest(SAID.what_where),
    right("times"),
    right("length m", "m"),
    right("width m", "m"),
    right("depth m", "m"),
    right("m², m³"),
    right("each"),
    right("amount"),
    "drawing",
)
COLUMNS = (
    *("Item", SAID.what_where_2, "Side", "Times", "Length m", "Width m", "Depth m", "Area m²", "Volume m³"),
    *("One takes", SAID.unit_that, "Amount", "Unit", "Drawing"),
)
"""Heads of the sheet in the workbook."""
WIDTHS = (36.0, 44.0, 10.0, 8.0, 9.0, 9.0, 9.0, 10.0, 10.0, 10.0, 11.0, 12.0, 9.0, 18.0)
"""Widths of its columns. [characters]"""
_FEET_COLUMNS = ((SAID.length_ft, 14.0), (SAID.width_ft, 14.0), (SAID.depth_ft, 14.0), ("Amount, imperial", 16.0))


def dimension_columns() -> list[tuple[str, float]]:
    """Return heads and widths of the sheet in the workbook, those in feet after the metric ones where they are read."""
    return [*zip(COLUMNS, WIDTHS, strict=True), *(_FEET_COLUMNS if now().imperial else ())]


def dimension_sheets(plan: Plan) -> list[SheetOfPaper]:
    """Return the dimension book: the lines of every item, which add up to its net amount."""
    sheet = SheetOfPaper("Dimension book", follows=True)
    sheet.add(small(SAID.times_length_width_depth))
    for item in plan.quantities.items:
        if item.dimensions:
            total = ("", "", "", "", "", "", "net", f"{two(item.net)} {item.unit}", "")
            rows = [_row(line) for line in item.dimensions]
            sheet.add(heading(item.description), table(_HEADS, [*rows, total], type_size=8.0))
    return [sheet]


def _row(line: Dimension) -> tuple[str, ...]:
    words = f"{line.words}, side {line.side}" if line.side else line.words
    shape = line.area_m2 if line.area_m2 is not None else line.volume_m3
    return (
        words,
        amount(line.times) if line.times != 1.0 else "",
        *("" if each is None else three(each) for each in (line.length_m, line.width_m, line.depth_m, shape)),
        f"{amount(line.each)} {line.each_unit}" if line.each_unit else "",
        two(line.amount),
        drawing_title(line),
    )


def drawing_title(line: Dimension) -> str:
    """Return the title of the drawing on which a line is found."""
    if line.drawing is Drawn.STEPS:
        return SAID.section_through_steps
    return _TITLES[line.drawing_key]


def write_dimensions(
    sheet: Worksheet, items: tuple[Item, ...], first: int, number: Callable[[str], Format], words: Format
) -> None:
    """Write the dimension book into a sheet, every amount as a formula over its own line, every net as their sum."""
    row = first
    for item in items:
        begun = row
        for line in item.dimensions:
            _write_line(sheet, row, item, line, number, words)
            row += 1
        if row > begun:
            sheet.write_string(row, 1, f"{item.description}: net", words)
            sheet.write_formula(row, 11, f"=SUM(L{begun + 1}:L{row})", number(item.unit), item.net)
            sheet.write_string(row, 12, item.unit, words)
            row += 1


_MEASURED = ("times", "m", "m", "m", "m²", "m³", "each")
_LETTERS = "DEFGHIJ"
"""Columns of what is multiplied."""


def _write_line(
    sheet: Worksheet, row: int, item: Item, line: Dimension, number: Callable[[str], Format], words: Format
) -> None:
    at = row + 1
    for column, text in ((0, item.description), (1, line.words), (2, line.side), (10, line.each_unit)):
        sheet.write_string(row, column, text, words)
    measured = (line.times, line.length_m, line.width_m, line.depth_m, line.area_m2, line.volume_m3, line.each)
    for column, (value, unit) in enumerate(zip(measured, _MEASURED, strict=True), start=3):
        if value is not None:
            sheet.write_number(row, column, value, number(unit))
    factors = "*".join(f"{_LETTERS[place]}{at}" for place, value in enumerate(measured) if value is not None)
    sheet.write_formula(row, 11, f"={factors}", number(item.unit), line.amount)
    sheet.write_string(row, 12, item.unit, words)
    sheet.write_string(row, 13, drawing_title(line), words)
    if not now().imperial:
        return
    for column, metres in enumerate((line.length_m, line.width_m, line.depth_m), start=len(COLUMNS)):
        if metres is not None:
            sheet.write_string(row, column, in_imperial(round(metres, 3), "m"), words)
    other = imperial_unit(item.unit)
    if other is not None:
        looks = number(other[1])
        sheet.write_formula(row, len(COLUMNS) + 3, f"=L{at}*{other[0]:.9g}", looks, line.amount * other[0])
