"""Price lists of suppliers: rows of a CSV file or a workbook as lines with a unit of sale and a price before tax."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING, Any

from pavewright import units
from pavewright.files._price_amounts import NoAmountError, amount_in_name, number_told, sold_by
from pavewright.files._price_columns import PriceColumn, head_row
from pavewright.files._price_how import how_read
from pavewright.files._price_rows import price_rows
from pavewright.files._read import FileRefusedError
from pavewright.job import PackUnit

if TYPE_CHECKING:
    from pavewright.files._price_how import ListColumns
    from pavewright.files._price_rows import PriceRow

_ALL_PERCENT = Decimal(100)
_MAX_MINOR = 1_000_000_000
_MAX_PACK = Decimal(100_000)
_MAX_NAME = 60
_SHOWN = 6


@dataclass(frozen=True, slots=True)
class ListedPrice:
    """A line of a price list.

    Attributes:
        row: Its row in the file.
        code: What the supplier calls it in short; empty where the list has no such column.
        name: What it is.
        pack_amount: How much one pack holds. [pack_unit]
        pack_unit: Unit in which a pack is measured.
        price_minor: Price of one pack before tax. [minor units]
        min_packs: Fewest packs that are delivered; None where the list does not say.
        lead_days: Working days to the delivery; None where the list does not say.
        note: What was taken for granted or rounded, in a sentence; empty where nothing was.
    """

    row: int
    code: str
    name: str
    pack_amount: float
    pack_unit: PackUnit
    price_minor: int
    min_packs: int | None
    lead_days: int | None
    note: str


@dataclass(frozen=True, slots=True)
class PriceList:
    """A price list as it was read.

    Attributes:
        lines: Lines that can be taken.
        bad: Rows that cannot, each with a sentence.
        headings: Rows that hold a single cell, as headings between lines do.
        heads: What stands over the columns; empty where nothing does.
        sample: The first rows below the heads.
        columns: How it was read.
        questions: What a person has to say first, in sentences; empty where all is known.
        sheets: Sheets of the workbook.
        sheet: The sheet that was read.
    """

    lines: tuple[ListedPrice, ...]
    bad: tuple[tuple[int, str], ...]
    headings: tuple[int, ...]
    heads: tuple[str, ...]
    sample: tuple[tuple[str, ...], ...]
    columns: ListColumns
    questions: tuple[str, ...]
    sheets: tuple[str, ...]
    sheet: str


def read_price_list(content: bytes, asked: dict[str, Any] | None = None) -> PriceList:
    """Return a price list; good lines are kept whatever the others are.

    Args:
        content: A CSV file or a workbook.
        asked: How it is read, as far as a person said: ``sheet``, ``columns`` (kind to place or to head), ``decimal``,
            ``tax_percent``, ``per_unit``, ``currency``. What is left out is guessed from heads and content, and shown.

    Raises:
        FileRefusedError: the file is no price list at all.
    """
    said = asked or {}
    found = price_rows(content, str(said.get("sheet") or ""))
    if not found.rows:
        message = "The file holds no row." if not found.broken else f"Row {found.broken[0][0]}: {found.broken[0][1]}"
        raise FileRefusedError(message)
    head = head_row(found.rows)
    how, questions = how_read(found.rows, head, said)
    lines, bad, headings = ([], list(found.broken), [])  # type: tuple[list[ListedPrice], list[tuple[int, str]], list[int]]
    body = found.rows[(head + 1) if head is not None else 0 :]
    if not _missing(how):
        _read_lines(body, how, lines, bad, headings)
    heads = () if head is None else tuple(str(each) for each in found.rows[head].cells)
    sample = tuple(tuple(_shown(cell) for cell in row.cells) for row in body[:_SHOWN])
    return PriceList(
        *(tuple(lines), tuple(sorted(bad)), tuple(headings), heads, sample, how, tuple(questions)),
        *(found.sheets, found.sheet),
    )


def _missing(how: ListColumns) -> list[PriceColumn]:
    return [each for each in (PriceColumn.NAME, PriceColumn.PRICE) if each not in how.columns]


def _shown(cell: str | float) -> str:
    return f"{cell:.10g}" if isinstance(cell, float) else cell


def _read_lines(
    body: list[PriceRow],
    how: ListColumns,
    lines: list[ListedPrice],
    bad: list[tuple[int, str]],
    headings: list[int],
) -> None:
    seen: dict[tuple[str, str], int] = {}
    for row in body:
        if sum(cell != "" for cell in row.cells) == 1:
            headings.append(row.number)
            continue
        try:
            line = _line(row, how)
        except NoAmountError as problem:
            bad.append((row.number, str(problem)))
            continue
        key = (line.code, "" if line.code else line.name)
        if key in seen:
            bad.append(
                (row.number, f"{line.code or line.name} stands in row {seen[key]} already: keep one of the two.")
            )
            continue
        seen[key] = row.number
        lines.append(line)


def _line(row: PriceRow, how: ListColumns) -> ListedPrice:
    """Return one line.

    Raises:
        NoAmountError: what is wrong with it, in a sentence.
    """

    def cell(column: PriceColumn) -> str | float:
        place = how.columns.get(column)
        return row.cells[place] if place is not None and place < len(row.cells) else ""

    name = _shown(cell(PriceColumn.NAME))
    if not name:
        message = "It has no name."
        raise NoAmountError(message)
    note = ""
    if len(name) > _MAX_NAME:
        name, note = name[: _MAX_NAME - 1].rstrip() + "…", f"The name is shortened to {_MAX_NAME} letters. "
    amount, unit, words = _pack(cell(PriceColumn.SOLD_BY), cell(PriceColumn.PACK_AMOUNT), name, how)
    price, rounded = _price(number_told(cell(PriceColumn.PRICE), how.decimal), amount, how)
    least, days = (_whole(cell(each), how, each) for each in (PriceColumn.MIN_PACKS, PriceColumn.LEAD_DAYS))
    code = _shown(cell(PriceColumn.CODE))[:_MAX_NAME]
    return ListedPrice(
        row.number, code, name, float(amount), unit, price, least or None, days, f"{note}{words}{rounded}".strip()
    )


def _pack(sold: str | float, size: str | float, name: str, how: ListColumns) -> tuple[Decimal, PackUnit, str]:
    """Return how much a pack holds, in what, and what was taken for granted."""
    words = _shown(sold)
    found = sold_by(words, how.decimal) if words else None
    counted = None
    if size != "":
        said = sold_by(_shown(size), how.decimal)
        counted = said[0] if said is not None else number_told(size, how.decimal)
        if said is not None and found is None and said[1] is not PackUnit.EACH:
            return said[0], said[1], ""
        if not counted or counted < 0:
            message = f"{_shown(size)!r} is no size of a pack."
            raise NoAmountError(message)
    if found is None:
        inside = amount_in_name(name)
        if inside is not None:
            return inside[0], inside[1], "How much a pack holds is taken from the name. "
        if words and counted is None:
            message = f"Sold by {words!r} does not say how much that is: give its size in a column, such as 25 kg."
            raise NoAmountError(message)
        return counted or Decimal(1), PackUnit.EACH, "" if words else "Taken as sold by the piece. "
    amount = found[0] * (counted or 1)
    if not 0 < amount <= _MAX_PACK:
        message = f"A pack of {amount:f} {found[1].value} is none that is sold."
        raise NoAmountError(message)
    return amount, found[1], ""


def _price(told: Decimal | None, amount: Decimal, how: ListColumns) -> tuple[int, str]:
    """Return the price of a pack before tax in minor units, and whether it was rounded."""
    if told is None:
        message = "It has no price."
        raise NoAmountError(message)
    if told <= 0:
        message = f"A price of {told:f} is not taken: what has no price stays unknown."
        raise NoAmountError(message)
    coins = Decimal(units.minor_per_major(how.currency))
    exact = told * coins * (amount if how.per_unit else 1)
    if how.tax_percent is not None:
        exact = exact * _ALL_PERCENT / (_ALL_PERCENT + how.tax_percent)
    minor = int(exact.quantize(Decimal(1), ROUND_HALF_UP))
    if not 0 < minor <= _MAX_MINOR:
        message = f"A price of {told:f} is smaller or larger than a price can be."
        raise NoAmountError(message)
    rounded = how.tax_percent is None and exact != minor
    return minor, f"Rounded from {(exact / coins).normalize():f}. " if rounded else ""


def _whole(cell: str | float, how: ListColumns, column: PriceColumn) -> int | None:
    value = number_told(cell, how.decimal)
    if value is None:
        return None
    most = 400 if column is PriceColumn.LEAD_DAYS else 100_000
    if value != int(value) or not 0 <= value <= most:
        message = f"{_shown(cell)!r} is to be a whole number up to {most}."
        raise NoAmountError(message)
    return int(value)


def price_list_told(found: PriceList) -> dict[str, Any]:
    """Return a price list as JSON holds it."""
    lines = [asdict(each) | {"pack_unit": each.pack_unit.value} for each in found.lines]
    return {
        "lines": lines,
        "bad": [{"row": row, "words": words} for row, words in found.bad],
        "headings": list(found.headings),
        "heads": list(found.heads),
        "sample": [list(row) for row in found.sample],
        "columns": {kind.value: place for kind, place in found.columns.columns.items()},
        "decimal": found.columns.decimal,
        "tax_percent": None if found.columns.tax_percent is None else float(found.columns.tax_percent),
        "per_unit": found.columns.per_unit,
        "asked": list(found.questions),
        "sheets": list(found.sheets),
        "sheet": found.sheet,
    }
