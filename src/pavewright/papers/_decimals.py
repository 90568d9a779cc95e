"""Numbers of a table under each other at the decimal: what stands behind the whole part of each."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from pavewright.writing import marks_of

_GAPS = ",. \u202f\u2009\u00a0'"


def with_tails(data: Any, region: str) -> None:  # noqa: ANN401 - plain data of a page
    """Put beside the rows of every table what stands behind the whole part of its numbers, by column.

    A column whose numbers all end alike is left out: nothing in it is to be moved.
    """
    if isinstance(data, list):
        for each in data:
            with_tails(each, region)
    elif isinstance(data, dict):
        if data.get("kind") == "table":
            data["tails"] = _tails(data, region)
            return
        for each in data.values():
            if isinstance(each, list | dict):
                with_tails(each, region)


def _tails(table: dict[str, Any], region: str) -> dict[str, list[str | None]]:
    found = {}
    for place, column in enumerate(table["columns"]):
        if column["align"] == "decimal":
            tails = [tail(row[place], region) for row in table["rows"]]
            if len({each for each in tails if each is not None}) > 1:
                found[str(place)] = tails
    return found


def tail(cell: str, region: str) -> str | None:
    """Return what stands behind the whole part of the one number of a cell; None where there is no such number.

    >>> tail("12.50 m\u00b2", "GB"), tail("1,234", "GB"), tail("3 to 5", "GB"), tail("1.234,50", "DE")
    ('.50 m\u00b2', '', None, ',50')
    """
    found = _number(marks_of(region)[1]).fullmatch(cell.split("\n", 1)[0])
    return None if found is None else (found[1] or "") + found[2]


@lru_cache(maxsize=8)
def _number(mark: str) -> re.Pattern[str]:
    gaps = re.escape(_GAPS.replace(mark, ""))
    return re.compile(rf"[^0-9]*[0-9]+(?:[{gaps}][0-9]{{3}})*({re.escape(mark)}[0-9]+)?([^0-9]*)")
