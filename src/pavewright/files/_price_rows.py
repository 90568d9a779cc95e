"""The cells of a price list: a CSV file or a workbook as rows of words, read with limits."""

from __future__ import annotations

import csv
import io
import itertools
import re
import zipfile
from collections import Counter
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from pavewright.files._read import FileRefusedError, refuse_large

if TYPE_CHECKING:
    from collections.abc import Iterable

MAX_ROWS = 20_000
"""Rows of a price list that are taken at once."""
_MAX_COLUMNS = 60
_MAX_CELL = 500
_MAX_PARTS, _MAX_OPENED_BYTES, _MAX_RATIO = 1000, 100_000_000, 100
"""What a workbook may hold: parts, bytes once opened, and how many times larger it becomes."""
_SMALL_BYTES = 200_000
"""A part of this size does no harm however tightly it was packed."""
_SAMPLE = 60
_PARTERS = ",;\t|"
_FORMULA = re.compile(r"'+[=+\-@\t\r]")
_ZIP, _OLD_BOOK = b"PK\x03\x04", b"\xd0\xcf\x11\xe0"


@dataclass(frozen=True, slots=True)
class PriceRow:
    """One row of a list.

    Attributes:
        number: Its number in the file, as an editor or a spreadsheet shows it.
        cells: What stands in it; numbers of a workbook as they are kept there. [as listed]
    """

    number: int
    cells: tuple[str | float, ...]


@dataclass(slots=True)
class PriceRows:
    """The rows of a list.

    Attributes:
        rows: Rows that hold something.
        broken: Rows that cannot be read, each with a sentence.
        sheets: Names of the sheets of a workbook; none of a CSV file.
        sheet: The sheet that was read.
    """

    rows: list[PriceRow] = field(default_factory=list)
    broken: list[tuple[int, str]] = field(default_factory=list)
    sheets: tuple[str, ...] = ()
    sheet: str = ""


def price_rows(content: bytes, sheet: str = "") -> PriceRows:
    """Return the rows of a price list.

    Args:
        content: A CSV file or a workbook (XLSX).
        sheet: The sheet of a workbook; the first that holds something where none is named.

    Raises:
        FileRefusedError: it is neither, is cut short, or holds more than a price list does.
    """
    refuse_large(content)
    if content.startswith(_ZIP):
        return _of_workbook(content, sheet)
    if content.startswith(_OLD_BOOK):
        message = "This is a workbook of an old kind: save it as XLSX or as CSV."
        raise FileRefusedError(message)
    return _of_text(_decoded(content))


def _decoded(content: bytes) -> str:
    wide = content.startswith((b"\xff\xfe", b"\xfe\xff"))
    for encoding in ("utf-16",) if wide else ("utf-8-sig", "cp1252", "latin-1"):
        try:
            text = content.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\0" not in text:
            return text
        break
    message = "The file is neither text nor a workbook: save the price list as CSV or XLSX."
    raise FileRefusedError(message)


def _parter(lines: list[str]) -> str:
    """Return what parts the columns: the sign by which most lines fall into the same number of columns."""

    def agreement(sign: str) -> tuple[int, int]:
        counts = Counter(len(row) for row in csv.reader(lines, delimiter=sign) if len(row) > 1)
        columns, rows = max(counts.items(), key=lambda each: (each[1], each[0]), default=(0, 0))
        return rows, columns

    return max(_PARTERS, key=agreement)


def _of_text(text: str) -> PriceRows:
    lines = text.splitlines()
    sample = list(itertools.islice((line for line in lines if line.strip()), _SAMPLE))
    if sample and sample[0].lower().startswith("sep=") and len(sample[0].strip()) == len("sep=") + 1:
        parter = sample[0].strip()[-1]
        lines[lines.index(sample[0])] = ""
    else:
        parter = _parter(sample)
    found = PriceRows()
    try:
        reader = csv.reader(io.StringIO("\n".join(lines)), delimiter=parter, strict=True)
        before = 0
        for cells in reader:
            _take(found, before + 1, [_as_read(each) for each in cells])
            before = reader.line_num
    except csv.Error:  # quotes that do not close would swallow all that follows: each line by itself
        found = PriceRows()
        for number, line in enumerate(lines, start=1):
            try:
                rows = list(csv.reader([line], delimiter=parter, strict=True))
            except csv.Error:
                found.broken.append((number, "A quotation mark is not closed, or stands in the middle of a cell."))
                continue
            _take(found, number, [_as_read(each) for cells in rows for each in cells])
    return found


def _as_read(words: str) -> str:
    """Return words as they were before a sign was put before what a spreadsheet would work out."""
    return words[1:] if words.startswith("'") and _FORMULA.match(words) else words


def _take(found: PriceRows, number: int, cells: Iterable[Any]) -> None:
    """Take a row that holds something."""
    kept = tuple(each if isinstance(each, float) else " ".join(str(each).split()) for each in cells)
    while kept and kept[-1] == "":
        kept = kept[:-1]
    if not kept:
        return
    if len(kept) > _MAX_COLUMNS or any(isinstance(each, str) and len(each) > _MAX_CELL for each in kept):
        found.broken.append((number, f"More than {_MAX_COLUMNS} columns, or a cell of more than {_MAX_CELL} letters."))
        return
    found.rows.append(PriceRow(number, kept))
    if len(found.rows) > MAX_ROWS:
        message = f"The list has more than {MAX_ROWS} rows: take out what you never buy, or bring it in in parts."
        raise FileRefusedError(message)


def _refuse_bomb(content: bytes) -> None:
    """Refuse an archive that becomes much larger than it is."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            parts = archive.infolist()
    except (zipfile.BadZipFile, ValueError, OSError) as problem:
        message = "The workbook is damaged or cut short: save it again."
        raise FileRefusedError(message) from problem
    opened = sum(part.file_size for part in parts)
    tight = any(
        part.file_size > _SMALL_BYTES and part.file_size > _MAX_RATIO * max(part.compress_size, 1) for part in parts
    )
    if len(parts) > _MAX_PARTS or opened > _MAX_OPENED_BYTES or tight:
        message = "The workbook becomes far larger when it is opened than a price list is: it is not opened."
        raise FileRefusedError(message)
    if "xl/workbook.xml" not in {part.filename for part in parts}:
        message = "The file is an archive and no workbook: save the price list as XLSX or CSV."
        raise FileRefusedError(message)


def _of_workbook(content: bytes, sheet: str) -> PriceRows:
    _refuse_bomb(content)
    from openpyxl import load_workbook  # noqa: PLC0415 - slow to load, and few lists are workbooks

    try:
        book = load_workbook(io.BytesIO(content), read_only=True, data_only=True, keep_links=False)
        names = tuple(each.title for each in book.worksheets)
        return _first_of(book, names, sheet)
    except FileRefusedError:
        raise
    except Exception as problem:  # whatever a damaged workbook breaks in its reader
        message = "The workbook cannot be read: it is damaged. Save it again, or save the sheet as CSV."
        raise FileRefusedError(message) from problem


def _first_of(book: Any, names: tuple[str, ...], sheet: str) -> PriceRows:  # noqa: ANN401 - the library has no types
    """Return the rows of a sheet that is named, else of the first that holds something."""
    if sheet and sheet not in names:
        message = f"The workbook has no sheet {sheet[:40]}; it has {', '.join(names)}."
        raise FileRefusedError(message)
    found = PriceRows(sheets=names)
    for name in (sheet,) if sheet else names:
        found = PriceRows(sheets=names, sheet=name)
        _rows_of_sheet(book[name], found)
        if found.rows:
            break
    return found


def _rows_of_sheet(sheet: Any, found: PriceRows) -> None:  # noqa: ANN401 - the library has no types
    sheet.reset_dimensions()
    number = 0
    for number, cells in enumerate(sheet.iter_rows(max_col=_MAX_COLUMNS, max_row=2 * MAX_ROWS, values_only=True), 1):
        if any(each is not None for each in cells):
            _take(found, number, [_of_cell(each) for each in cells])
    if number == 2 * MAX_ROWS:
        found.broken.append((number, f"Nothing below row {number} is read."))


def _of_cell(value: object) -> str | float:
    """Return a cell as a number or as words."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value)
    if isinstance(value, int | float):
        return float(value) if abs(value) < _MAX_NUMBER else str(value)[:_MAX_CELL]
    return str(value)


_MAX_NUMBER = 1e300
