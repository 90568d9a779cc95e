"""Price lists of suppliers: rows of a CSV file or a workbook as lines with a unit of sale and a price before tax."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any

from pavewright.files._price_amounts import NoAmountError
from pavewright.files._price_columns import head_row
from pavewright.files._price_goods import ListedPrice, goods_line, shown
from pavewright.files._price_how import how_read, list_of
from pavewright.files._price_rates import ListedRate, rate_line
from pavewright.files._price_rows import price_rows
from pavewright.files._read import FileRefusedError
from pavewright.firm import ListColumnKind, ListKind

if TYPE_CHECKING:
    from pavewright.files._price_how import ListColumns
    from pavewright.files._price_rows import PriceRow

_SHOWN = 6


@dataclass(frozen=True, slots=True)
class PriceList:
    """A price list as it was read.

    Attributes:
        lines: Lines of goods that can be taken.
        rates: Lines of plant, loads or labour that can be taken.
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
    rates: tuple[ListedRate, ...]
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
        asked: How it is read, as far as a person said: ``of`` (what is listed), ``per`` (by what it is charged),
            ``sheet``, ``columns`` (kind to place or to head), ``decimal``, ``tax_percent``, ``per_unit``, ``currency``.
            What is left out is guessed from heads and content, and shown.

    Raises:
        FileRefusedError: the file is no price list at all.
    """
    said = asked or {}
    found = price_rows(content, str(said.get("sheet") or ""))
    if not found.rows:
        message = "The file holds no row." if not found.broken else f"Row {found.broken[0][0]}: {found.broken[0][1]}"
        raise FileRefusedError(message)
    head = head_row(found.rows, list_of(said))
    how, questions = how_read(found.rows, head, said)
    body = found.rows[(head + 1) if head is not None else 0 :]
    read = _Read([], list(found.broken), [])
    if ListColumnKind.NAME in how.columns and {ListColumnKind.PRICE, ListColumnKind.WEEK_PRICE} & set(how.columns):
        read.all_of(body, how)
    heads = () if head is None else tuple(str(each) for each in found.rows[head].cells)
    sample = tuple(tuple(shown(cell) for cell in row.cells) for row in body[:_SHOWN])
    goods = tuple(each for each in read.lines if isinstance(each, ListedPrice))
    rates = tuple(each for each in read.lines if isinstance(each, ListedRate))
    return PriceList(
        *(goods, rates, tuple(sorted(read.bad)), tuple(read.headings), heads, sample, how, tuple(questions)),
        *(found.sheets, found.sheet),
    )


@dataclass(slots=True)
class _Read:
    """Lines that can be taken, rows that cannot, and headings."""

    lines: list[ListedPrice | ListedRate]
    bad: list[tuple[int, str]]
    headings: list[int]

    def all_of(self, body: list[PriceRow], how: ListColumns) -> None:
        """Read all rows below the heads."""
        read = goods_line if how.of is ListKind.GOODS else rate_line
        seen: dict[tuple[str, str], int] = {}
        for row in body:
            if sum(cell != "" for cell in row.cells) == 1:
                self.headings.append(row.number)
                continue
            try:
                line: ListedPrice | ListedRate = read(row, how)
            except NoAmountError as problem:
                self.bad.append((row.number, str(problem)))
                continue
            key = (line.code, "" if line.code else line.name)
            if key in seen:
                words = f"{line.code or line.name} stands in row {seen[key]} already: keep one of the two."
                self.bad.append((row.number, words))
                continue
            seen[key] = row.number
            self.lines.append(line)


def price_list_told(found: PriceList) -> dict[str, Any]:
    """Return a price list as JSON holds it."""
    how = found.columns
    lines = [asdict(each) | {"pack_unit": each.pack_unit.value} for each in found.lines]
    lines += [asdict(each) | {"per": each.per.value} for each in found.rates]
    return {
        "of": how.of.value,
        "per": None if how.per is None else how.per.value,
        "by_count": how.by_count,
        "lines": lines,
        "bad": [{"row": row, "words": words} for row, words in found.bad],
        "headings": list(found.headings),
        "heads": list(found.heads),
        "sample": [list(row) for row in found.sample],
        "columns": {kind.value: place for kind, place in how.columns.items()},
        "decimal": how.decimal,
        "tax_percent": None if how.tax_percent is None else float(how.tax_percent),
        "per_unit": how.per_unit,
        "asked": list(found.questions),
        "sheets": list(found.sheets),
        "sheet": found.sheet,
    }
