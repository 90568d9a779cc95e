"""A table program in small, for the workbooks."""

from __future__ import annotations

import io
import math
import re

import openpyxl

REF = re.compile(r"(?:(\w+)!)?([A-Z])(\d+)(?::([A-Z])(\d+))?")


class Recalculated:
    """A table program in small: the formulas of a workbook worked out from its numbers, none taken on trust."""

    def __init__(self, content):
        self.book = openpyxl.load_workbook(io.BytesIO(content))

    def value(self, sheet, cell):
        held = self.book[sheet][cell].value
        if not (isinstance(held, str) and held.startswith("=")):
            return held
        names = {
            "SUM": lambda cells: sum(v or 0.0 for v in cells),
            "ROUND": self.half_up,
            "ROUNDUP": self.up,
            "ROUNDDOWN": self.down,
        }
        return eval(REF.sub(lambda found: self._ref(sheet, found), held[1:]), {}, names | {"ref": self})  # noqa: S307

    def _ref(self, sheet, found):
        name, column, row, last_column, last_row = found.groups()
        name = name or sheet
        if last_row is None:
            return f"ref.value({name!r}, '{column}{row}')"
        cells = [f"ref.value({name!r}, '{column}{k}')" for k in range(int(row), int(last_row) + 1)]
        assert column == last_column
        return f"[{', '.join(cells)}]"

    @staticmethod
    def half_up(number, places):
        return math.floor(number * 10**places + 0.5 + 1e-9) / 10**places

    @staticmethod
    def down(number, places):
        return math.floor(number * 10**places) / 10**places

    @staticmethod
    def up(number, places):
        return math.ceil(number * 10**places) / 10**places
