"""Workbooks: the taking-off with its orders, and the same with the price, every sum live from the measure to the total.

The workbook of quantities may be handed to a merchant: it holds no price. The workbook of the cost stays inside.
"""

from __future__ import annotations

import datetime as dt
import io
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import xlsxwriter

from pavewright import units
from pavewright.cost import LineGroup
from pavewright.laying import PieceKind
from pavewright.papers._sheets_dimensions import COLUMNS, WIDTHS, write_dimensions
from pavewright.papers._words import day
from pavewright.quantities import ItemKey, ItemKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet

    from pavewright.cost import CostLine
    from pavewright.pipeline import Plan
    from pavewright.quantities import Item

_NO_GUESSING = {"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
_HEAD_ROWS = 4
"""Rows of the head of the job over each table."""
_SAME = 1e-9
"""Two numbers this near to each other, as a part of them, are the same. [-]"""
_DECIMALS = {"kg": 0, "": 0, "each": 0, "h": 2, "litre": 1, "m³": 2, "m²": 2, "m": 2}
_COUNTED = frozenset({ItemKind.UNITS, ItemKind.MIXED_PACK})
"""Items whose amount with spares is counted, not net times an allowance."""
_ALL = 100


@dataclass(frozen=True, slots=True)
class _Column:
    """A column: its head and its width.

    Attributes:
        head: Its head.
        wide: Its width. [characters]
    """

    head: str
    wide: float = 12.0


_QUANTITIES = (
    *(_Column("Item", 44.0), _Column("Group", 10.0), _Column("Net"), _Column("Allowance", 10.0)),
    *(_Column("With allowance", 14.0), _Column("Order"), _Column("Of", 18.0), _Column("One holds")),
    *(_Column("Ordered amount", 14.0), _Column("Low"), _Column("High"), _Column("Mass")),
)
_LINES = (
    *(_Column("Line", 52.0), _Column("Group", 10.0), _Column("How much", 18.0), _Column("Price of one", 16.0)),
    _Column("Amount", 16.0),
)


class _Book:
    """A workbook with the head of a job on every sheet."""

    def __init__(self, plan: Plan, what: str) -> None:
        self._plan = plan
        self._what = what
        self._stream = io.BytesIO()
        self.book = xlsxwriter.Workbook(self._stream, {"in_memory": True, **_NO_GUESSING})
        made = dt.datetime.combine(plan.job.identity.date, dt.time(), tzinfo=dt.UTC).replace(tzinfo=None)
        self.book.set_properties({"title": f"{plan.job.identity.job} {what}", "created": made})
        self.head = self.book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top"})
        self.bold = self.book.add_format({"bold": True})
        self.words = self.book.add_format({"text_wrap": True, "valign": "top"})
        self._formats: dict[tuple[int, str, bool], Format] = {}

    def number(self, unit: str, *, decimals: int | None = None, total: bool = False) -> Format:
        """Return the format of a figure with its unit."""
        places = _DECIMALS.get(unit, 2) if decimals is None else decimals
        key = places, unit, total
        if key not in self._formats:
            zeros = "." + "0" * places if places else ""
            said = f' "{unit.replace(chr(34), "")}"' if unit else ""
            looks = {"num_format": f"#,##0{zeros}{said}", "valign": "top"}
            self._formats[key] = self.book.add_format(looks | ({"bold": True, "top": 1} if total else {}))
        return self._formats[key]

    def sheet(self, name: str, columns: Sequence[_Column]) -> Worksheet:
        """Return a new sheet with the head of the job, its columns, and pages that fit."""
        who = self._plan.job.identity
        sheet = self.book.add_worksheet(name)
        sheet.write_string(0, 0, f"{who.job} {who.title}: {name}", self.bold)
        sheet.write_string(1, 0, ", ".join(filter(None, (who.client, who.address, who.contractor))))
        invented = " Invented example: names and prices are invented." if who.invented else ""
        sheet.write_string(2, 0, f"{day(who.date)}, revision {who.revision}.{invented}")
        for number, column in enumerate(columns):
            sheet.write_string(_HEAD_ROWS - 1, number, column.head, self.head)
            sheet.set_column(number, number, column.wide)
        sheet.freeze_panes(_HEAD_ROWS, 0)
        sheet.set_landscape()
        sheet.set_paper(9)
        sheet.fit_to_pages(1, 0)
        sheet.repeat_rows(0, _HEAD_ROWS - 1)
        sheet.set_footer(f"&L{_plain(who.job)} {_plain(self._what)}, {day(who.date)}&Rpage &P of &N")
        return sheet

    def content(self) -> bytes:
        """Return the bytes."""
        self.book.close()
        return self._stream.getvalue()


def _plain(text: str) -> str:
    """Return words of a user for a footer, where ``&`` gives orders."""
    return text.replace("&", "&&")[:60]


def quantities_workbook(plan: Plan) -> bytes:
    """Return the taking-off with its orders, packs and cuts, without a price."""
    book = _Book(plan, "quantities")
    _quantities(book, plan)
    dimensions = book.sheet("Dimension book", [_Column(head, wide) for head, wide in zip(COLUMNS, WIDTHS, strict=True)])
    write_dimensions(dimensions, plan.quantities.items, _HEAD_ROWS, book.number, book.words)
    _packs(book, plan)
    _cuts(book, plan)
    return book.content()


def cost_workbook(plan: Plan) -> bytes:
    """Return the taking-off and from it the cost and the price: what is changed in it moves the total."""
    book = _Book(plan, "cost")
    rows = _quantities(book, plan)
    _cost(book, plan, rows)
    return book.content()


def _quantities(book: _Book, plan: Plan) -> dict[ItemKey, int]:
    """Write the items and return the row of each, as a table program counts it."""
    sheet = book.sheet("Quantities", _QUANTITIES)
    rows: dict[ItemKey, int] = {}
    for row, item in enumerate(plan.quantities.items, start=_HEAD_ROWS):
        rows[item.key] = row + 1
        _item(book, sheet, row, item)
    last = _HEAD_ROWS + len(plan.quantities.items)
    mass = sum(item.kg or 0.0 for item in plan.quantities.items)
    sheet.write_string(last, 0, "All together", book.bold)
    total = f"=SUM(L{_HEAD_ROWS + 1}:L{last})"
    sheet.write_formula(last, 11, total, book.number("kg", total=True), mass)
    return rows


def _item(book: _Book, sheet: Worksheet, row: int, item: Item) -> None:
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


def _same(one: float, other: float) -> bool:
    return math.isclose(one, other, rel_tol=_SAME, abs_tol=_SAME)


def _cost(book: _Book, plan: Plan, rows: dict[ItemKey, int]) -> None:
    """Write the priced lines and the way from their sum to the price."""
    cost, rates, currency = plan.cost, plan.job.rates, plan.job.identity.currency
    sheet = book.sheet("Cost", _LINES)
    places, coins = units.money_places(currency), units.minor_per_major(currency)
    coin = book.number(currency, decimals=places)
    for row, line in enumerate(cost.lines, start=_HEAD_ROWS):
        at = row + 1
        sheet.write_string(row, 0, line.description, book.words)
        sheet.write_string(row, 1, line.group.value, book.words)
        source, much = _ordered_in(line, rows), book.number(line.unit, decimals=_places(line))
        if source:
            sheet.write_formula(row, 2, source, much, line.quantity)
        else:
            sheet.write_number(row, 2, line.quantity, much)
        sheet.write_number(row, 3, line.rate_minor / coins, coin)
        sheet.write_formula(row, 4, f"=ROUND(C{at}*D{at},{places})", coin, line.amount_minor / coins)
    first, last = _HEAD_ROWS + 1, _HEAD_ROWS + len(cost.lines)
    prime, overhead, net = last + 2, last + 3, last + 4
    chain = (
        ("Prime cost", "", f"=SUM(E{first}:E{last})", cost.prime_minor),
        ("Overhead", rates.overhead_percent, f"=ROUND(E{prime}*D{overhead}/100,{places})", cost.overhead_minor),
        (
            "Price before tax, with a margin on it of",
            rates.margin_percent,
            f"=ROUND((E{prime}+E{overhead})/(1-D{net}/100),{places})",
            cost.net_minor,
        ),
        (rates.tax_name or "Tax", rates.tax_percent, f"=ROUND(E{net}*D{net + 1}/100,{places})", cost.tax_minor),
        ("To pay", "", f"=E{net}+E{net + 1}", cost.total_minor),
    )
    total = book.number(currency, decimals=places, total=True)
    for row, (words, percent, formula, answer) in enumerate(chain, start=last + 1):
        sheet.write_string(row, 0, words, book.bold)
        if percent is None:
            sheet.write_string(row, 3, "not known, left out", book.words)
        elif not isinstance(percent, str):
            sheet.write_number(row, 3, percent, book.number("%", decimals=2))
        sheet.write_formula(row, 4, formula, total, answer / coins)
    for row, gap in enumerate(cost.gaps, start=last + 7):
        sheet.write_string(row, 0, f"Not in the price: {gap.words}", book.words)


def _places(line: CostLine) -> int:
    """Return decimals for how much of a line there is."""
    return 0 if line.quantity == round(line.quantity) else 2


def _ordered_in(line: CostLine, rows: dict[ItemKey, int]) -> str:
    """Return the formula that takes what is ordered of an item; nothing for work, hire and loads."""
    if line.group is not LineGroup.MATERIAL or not isinstance(line.key, ItemKey) or line.key not in rows:
        return ""
    return f"=Quantities!F{rows[line.key]}"


def _packs(book: _Book, plan: Plan) -> None:
    """Write what mixed packs hold, where any are ordered."""
    holding = [(item, each) for item in plan.quantities.items for each in item.holds]
    if not holding:
        return
    numbers_of = ("In one pack", "Packs", "Needed", "With spares", "Ordered", "Over")
    sheet = book.sheet("Mixed packs", [_Column("Size", 30.0), *(_Column(head, 12.0) for head in numbers_of)])
    each_one = book.number("each")
    for row, (item, each) in enumerate(holding, start=_HEAD_ROWS):
        sheet.write_string(row, 0, each.unit, book.words)
        numbers = (each.per_pack, item.ordered, each.needed, each.with_spares)
        for column, number in enumerate(numbers, start=1):
            sheet.write_number(row, column, number, each_one)
        sheet.write_formula(row, 5, f"=B{row + 1}*C{row + 1}", each_one, each.ordered)
        sheet.write_formula(row, 6, f"=F{row + 1}-D{row + 1}", each_one, each.left)


def _cuts(book: _Book, plan: Plan) -> None:
    """Write every cut piece, with their sums."""
    heads = ("Piece", "Course", "Place", "Along", "Across", "Area of it", "Mass", "Sawing")
    kinds = (("", 0), ("", 0), ("", 0), ("mm", 0), ("mm", 0), ("m²", 3), ("kg", 1), ("m", 2))
    narrow = [_Column(head, 11.0) for head in heads]
    sheet = book.sheet("Cuts", [_Column("Area", 22.0), *narrow, _Column("Unit", 22.0)])
    row = _HEAD_ROWS
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
            totals = [total + number for total, number in zip(totals, summed, strict=True)]
            row += 1
    if row == _HEAD_ROWS:
        return
    sheet.write_string(row, 0, "All together", book.bold)
    for column, total, (unit, places) in zip((6, 7, 8), totals, kinds[5:], strict=True):
        letter = "ABCDEFGHI"[column]
        looks = book.number(unit, decimals=places, total=True)
        sheet.write_formula(row, column, f"=SUM({letter}{_HEAD_ROWS + 1}:{letter}{row})", looks, total)
