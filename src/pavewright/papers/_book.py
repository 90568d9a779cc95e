"""A workbook: the head of the job on every sheet, figures with their units, pages that fit."""

from __future__ import annotations

import datetime as dt
import io
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import xlsxwriter
from xlsxwriter.worksheet import Worksheet

from pavewright.papers._words import day
from pavewright.writing import told

if TYPE_CHECKING:
    from collections.abc import Sequence

    from xlsxwriter.format import Format

    from pavewright.pipeline import Plan

_NO_GUESSING = {"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
HEAD_ROWS = 4
"""Rows of the head of the job over each table."""
_DECIMALS = {"kg": 0, "": 0, "each": 0, "h": 2, "litre": 1, "m³": 2, "m²": 2, "m": 2}


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its head and its width.

    Attributes:
        head: Its head.
        wide: Its width. [characters]
    """

    head: str
    wide: float = 12.0


class _ToldSheet(Worksheet):  # type: ignore[misc]
    """A sheet whose words are written as where the job is; its numbers get the marks of whoever opens it."""

    def write_string(self, row: int, col: int, string: str, cell_format: Format | None = None) -> Any:  # noqa: ANN401
        """Write words into a cell."""
        return super().write_string(row, col, told(string), cell_format)


class Book:
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

    def sheet(self, name: str, columns: Sequence[Column]) -> Worksheet:
        """Return a new sheet with the head of the job, its columns, and pages that fit."""
        who = self._plan.job.identity
        sheet = self.book.add_worksheet(name, _ToldSheet)
        sheet.write_string(0, 0, f"{who.job} {who.title}: {name}", self.bold)
        sheet.write_string(1, 0, ", ".join(filter(None, (who.client, who.address, who.contractor))))
        invented = " Invented example: names and prices are invented." if who.invented else ""
        sheet.write_string(2, 0, f"{day(who.date)}, revision {who.revision}.{invented}")
        for number, column in enumerate(columns):
            sheet.write_string(HEAD_ROWS - 1, number, column.head, self.head)
            sheet.set_column(number, number, column.wide)
        sheet.freeze_panes(HEAD_ROWS, 0)
        sheet.set_landscape()
        sheet.set_paper(9)
        sheet.fit_to_pages(1, 0)
        sheet.repeat_rows(0, HEAD_ROWS - 1)
        sheet.set_footer(f"&L{_plain(who.job)} {_plain(self._what)}, {day(who.date)}&Rpage &P of &N")
        return sheet

    def content(self) -> bytes:
        """Return the bytes."""
        self.book.close()
        return self._stream.getvalue()


def _plain(text: str) -> str:
    """Return words of a user for a footer, where ``&`` gives orders."""
    return text.replace("&", "&&")[:60]
