"""Workbooks: the taking-off with its orders, and the same with the price, every sum live from the measure to the total.

The workbook of quantities may be handed to a merchant: it holds no price. The workbook of the cost stays inside.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.laying import PieceKind
from pavewright.papers._book import HEAD_ROWS, Book, Column
from pavewright.papers._cost_book import write_cost
from pavewright.papers._sheets_dimensions import dimension_columns, write_dimensions
from pavewright.quantities import ItemKey, ItemKind
from pavewright.writing import feet, imperial_unit, now

if TYPE_CHECKING:
    from xlsxwriter.worksheet import Worksheet

    from pavewright.pipeline import Plan
    from pavewright.quantities import Item

_SAME = 1e-9
"""Two numbers this near to each other, as a part of them, are the same. [-]"""
_COUNTED = frozenset({ItemKind.UNITS, ItemKind.MIXED_PACK})
"""Items whose amount with spares is counted, not net times an allowance."""
_ALL = 100


_QUANTITIES = (
    *(Column("Item", 44.0), Column("Group", 10.0), Column("Net"), Column("Allowance", 10.0)),
    *(Column("With allowance", 14.0), Column("Order"), Column("Of", 18.0), Column("One holds")),
    *(Column("Ordered amount", 14.0), Column("Low"), Column("High"), Column("Mass, kg")),
)
_IMPERIAL = (Column("Net, imperial", 14.0), Column("Ordered, imperial", 16.0))
"""Columns of the taking-off where feet are read: each a formula over the metric one."""


def quantities_workbook(plan: Plan) -> bytes:
    """Return the taking-off with its orders, packs and cuts, without a price."""
    book = Book(plan, "quantities")
    _quantities(book, plan)
    dimensions = book.sheet("Dimension book", [Column(head, wide) for head, wide in dimension_columns()])
    write_dimensions(dimensions, plan.quantities.items, HEAD_ROWS, book.number, book.words)
    _packs(book, plan)
    _cuts(book, plan)
    return book.content()


def cost_workbook(plan: Plan) -> bytes:
    """Return the taking-off and from it the cost and the price: what is changed in it moves the total."""
    book = Book(plan, "cost")
    rows = _quantities(book, plan)
    write_cost(book, plan, rows)
    return book.content()


def _quantities(book: Book, plan: Plan) -> dict[ItemKey, int]:
    """Write the items and return the row of each, as a table program counts it."""
    sheet = book.sheet("Quantities", (*_QUANTITIES, *(_IMPERIAL if now().imperial else ())))
    rows: dict[ItemKey, int] = {}
    for row, item in enumerate(plan.quantities.items, start=HEAD_ROWS):
        rows[item.key] = row + 1
        _item(book, sheet, row, item)
    last = HEAD_ROWS + len(plan.quantities.items)
    mass = sum(item.kg or 0.0 for item in plan.quantities.items)
    sheet.write_string(last, 0, "All together", book.bold)
    total = f"=SUM(L{HEAD_ROWS + 1}:L{last})"
    sheet.write_formula(last, 11, total, book.number("kg", total=True), mass)
    return rows


def _item(book: Book, sheet: Worksheet, row: int, item: Item) -> None:
    """Write one item: what is measured as numbers, what follows from it as formulas with their answers."""
    measured, at = book.number(item.unit), row + 1
    sheet.write_string(row, 0, item.description, book.words)
    sheet.write_string(row, 1, item.group.value, book.words)
    sheet.write_number(row, 2, item.net, measured)
    sheet.write_number(row, 3, item.allowance_percent, book.number("%", decimals=1))
    if item.key.kind in _COUNTED or not _same(item.net * (1.0 + item.allowance_percent / _ALL), item.gross):
        sheet.write_number(row, 4, item.gross, measured)
    else:
        sheet.write_formula(row, 4, f"=C{at}*(1+D{at}/100)", measured, item.gross)
    sheet.write_string(row, 6, item.order_unit, book.words)
    holds = item.ordered_amount / item.ordered if item.ordered else 1.0
    sheet.write_number(row, 7, holds, measured)
    ordered = book.number("", decimals=0 if item.ordered == round(item.ordered) else 2)
    if _same(item.ordered, item.gross):
        sheet.write_formula(row, 5, f"=E{at}", ordered, item.ordered)
    elif math.ceil(item.gross / holds - _SAME) == item.ordered:
        sheet.write_formula(row, 5, f"=ROUNDUP(E{at}/H{at}-0.000000001,0)", ordered, item.ordered)
    else:
        sheet.write_number(row, 5, item.ordered, ordered)
    sheet.write_formula(row, 8, f"=F{at}*H{at}", measured, item.ordered_amount)
    for column, number, unit in ((9, item.low, item.unit), (10, item.high, item.unit), (11, item.kg, "kg")):
        if number is not None:
            sheet.write_number(row, column, number, book.number(unit))
    other = imperial_unit(item.unit) if now().imperial else None
    if other is not None:
        times, sign = other
        looks = book.number(sign, decimals=2)
        for column, letter, amount in ((12, "C", item.net), (13, "I", item.ordered_amount)):
            sheet.write_formula(row, column, f"={letter}{at}*{times:.9g}", looks, amount * times)


def _same(one: float, other: float) -> bool:
    return math.isclose(one, other, rel_tol=_SAME, abs_tol=_SAME)


def _packs(book: Book, plan: Plan) -> None:
    """Write what mixed packs hold, where any are ordered."""
    holding = [(item, each) for item in plan.quantities.items for each in item.holds]
    if not holding:
        return
    numbers_of = ("In one pack", "Packs", "Needed", "With spares", "Ordered", "Over")
    sheet = book.sheet("Mixed packs", [Column("Size", 30.0), *(Column(head, 12.0) for head in numbers_of)])
    each_one = book.number("each")
    for row, (item, each) in enumerate(holding, start=HEAD_ROWS):
        sheet.write_string(row, 0, each.unit, book.words)
        numbers = (each.per_pack, item.ordered, each.needed, each.with_spares)
        for column, number in enumerate(numbers, start=1):
            sheet.write_number(row, column, number, each_one)
        sheet.write_formula(row, 5, f"=B{row + 1}*C{row + 1}", each_one, each.ordered)
        sheet.write_formula(row, 6, f"=F{row + 1}-D{row + 1}", each_one, each.left)


def _cuts(book: Book, plan: Plan) -> None:
    """Write every cut piece, with their sums."""
    heads = ("Piece", "Course", "Place", "Along, mm", "Across, mm", "Area of it, m²", "Mass, kg", "Sawing, m")
    kinds = (("", 0), ("", 0), ("", 0), ("mm", 0), ("mm", 0), ("m²", 3), ("kg", 1), ("m", 2))
    narrow = [Column(head, 11.0) for head in heads]
    feet_heads = [Column("Along, ft in", 16.0), Column("Across, ft in", 16.0)] if now().imperial else []
    sheet = book.sheet("Cuts", [Column("Area", 22.0), *narrow, Column("Unit", 22.0), *feet_heads])
    row = HEAD_ROWS
    totals = [0.0, 0.0, 0.0]
    for laid in plan.laying.areas:
        for piece in laid.pieces:
            if piece.kind is PieceKind.WHOLE:
                continue
            sheet.write_string(row, 0, laid.area, book.words)
            summed = piece.area_m2, piece.kg, piece.saw_m
            numbers = (piece.number, piece.course, piece.place, piece.along_mm, piece.across_mm, *summed)
            for column, (number, (unit, places)) in enumerate(zip(numbers, kinds, strict=True), start=1):
                sheet.write_number(row, column, number, book.number(unit, decimals=places))
            sheet.write_string(row, len(heads) + 1, piece.unit, book.words)
            for number, (_, size_mm) in enumerate(zip(feet_heads, (piece.along_mm, piece.across_mm), strict=False)):
                sheet.write_string(row, len(heads) + 2 + number, feet(round(size_mm)), book.words)
            totals = [total + number for total, number in zip(totals, summed, strict=True)]
            row += 1
    if row == HEAD_ROWS:
        return
    sheet.write_string(row, 0, "All together", book.bold)
    for column, total, (unit, places) in zip((6, 7, 8), totals, kinds[5:], strict=True):
        letter = "ABCDEFGHI"[column]
        looks = book.number(unit, decimals=places, total=True)
        sheet.write_formula(row, column, f"=SUM({letter}{HEAD_ROWS + 1}:{letter}{row})", looks, total)
