"""Points as lines of text: name, two coordinates, level, note, in an order that the file itself does not state."""

from __future__ import annotations

import csv
import io
import math
import re

from pavewright.files._read import MAX_POINTS, TO_MM, FileRefusedError, ReadPoint, refuse_far, refuse_large

ORDERS = {
    "name,north,east,level": ("name", "y", "x", "level", "note"),
    "name,east,north,level": ("name", "x", "y", "level", "note"),
    "north,east,level": ("y", "x", "level", "note"),
    "east,north,level": ("x", "y", "level", "note"),
}
"""Orders of columns by their name; a note may follow, and the level may be empty."""
_LINES_SHOWN = 5


def read_csv_points(content: bytes, order: str, unit: str) -> tuple[ReadPoint, ...]:
    """Return the points of a file of lines.

    Commas, semicolons or tabs part the columns; a first line without a number where one should stand is a heading.
    Lines that begin with # are remarks; one that could be read as a point is asked about, never passed over. A name
    that begins with # stands in quotation marks.

    Args:
        content: The file.
        order: One of ``ORDERS``.
        unit: ``m``, ``mm``, ``ft`` or ``in``.

    Raises:
        FileRefusedError: an unknown order or unit, a line that is no point, a name twice, or too much of it.
    """
    if order not in ORDERS or unit not in TO_MM:
        message = f"Say in which order the columns stand ({'; '.join(ORDERS)}) and whether they are {', '.join(TO_MM)}."
        raise FileRefusedError(message)
    found: list[ReadPoint] = []
    seen: dict[str, int] = {}
    for number, row, remark in _rows(content):
        if remark:
            if _could_be_point(row, ORDERS[order]):
                message = (
                    f"Line {number} begins with # as a remark does, and could be the point {row[0]}: write its name in "
                    f"quotation marks to take it, or delete the line."
                )
                raise FileRefusedError(message)
            continue
        try:
            point = _point(row, ORDERS[order], TO_MM[unit], len(found) + 1)
        except ValueError as problem:
            if not found and not any(_is_number(cell) for cell in row[1:]):
                continue  # a heading
            message = f"Line {number} is not a point in the order {order}: {problem}."
            raise FileRefusedError(message) from None
        if point.name in seen:
            message = f"Line {number} names {point.name}, and line {seen[point.name]} does so too: rename one of them."
            raise FileRefusedError(message)
        seen[point.name] = number
        found.append(point)
        if len(found) > MAX_POINTS:
            message = f"The file holds more than {MAX_POINTS} points: take out those off the site."
            raise FileRefusedError(message)
    if not found:
        message = "The file holds no point."
        raise FileRefusedError(message)
    return tuple(found)


def _could_be_point(row: list[str], order: tuple[str, ...]) -> bool:
    """Return whether a remark reads as a named point."""
    try:
        _point(row, order, 1.0, 1)
    except ValueError:
        return False
    return True


def _rows(content: bytes) -> list[tuple[int, list[str], bool]]:
    """Return the rows that hold something, with the numbers of their lines and whether they look like remarks."""
    refuse_large(content)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = content.decode("latin-1")
    if "\0" in text:
        message = "The file is not text: save it as CSV."
        raise FileRefusedError(message)
    lines = text.splitlines()
    sample = next((line for line in lines if line.strip() and not line.lstrip().startswith("#")), "")
    parts = max(",;\t", key=sample.count)
    found = []
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        remark = line.lstrip().startswith("#")
        try:
            row = next(csv.reader(io.StringIO(line), delimiter=parts))
        except csv.Error:
            if remark:
                continue
            message = f"Line {number} cannot be read: it is too long, or its quotes do not close."
            raise FileRefusedError(message) from None
        found.append((number, [cell.strip() for cell in row], remark))
    return found


def _point(row: list[str], order: tuple[str, ...], to_mm: float, place: int) -> ReadPoint:
    """Return one point.

    Raises:
        ValueError: what is wrong with it, in words.
    """
    if len(row) < len(order) - 2:
        message = f"it has {len(row)} columns"
        raise ValueError(message)
    given = dict(zip(order, row, strict=False))
    x, y = (_number(given.get(axis, ""), words) * to_mm for axis, words in (("x", "east"), ("y", "north")))
    level = _number(given["level"], "level") * to_mm if given.get("level") else None
    refuse_far(x, y, level or 0.0)
    return ReadPoint(_as_read(given.get("name", "")) or str(place), x, y, level, _as_read(given.get("note", "")))


def _number(cell: str, words: str) -> float:
    try:
        value = float(cell)
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        message = f"{cell!r} stands for {words}"
        raise ValueError(message)
    return value


def _is_number(cell: str) -> bool:
    try:
        return math.isfinite(float(cell))
    except ValueError:
        return False


_FORMULA = re.compile(r"'*[=+\-@\t\r]")
"""A cell that a spreadsheet would take for a formula, with as many signs before it as were put there."""


def _as_written(words: str) -> str:
    """Return words as a cell that no spreadsheet works out."""
    return f"'{words}" if _FORMULA.match(words) else words


def _as_read(words: str) -> str:
    """Return words as they were before they became a cell."""
    return words[1:] if words.startswith("'") and _FORMULA.match(words) else words


def first_lines(content: bytes) -> str:
    """Return the first lines of a file, to see in which order its columns stand."""
    return "\n".join(content[:2000].decode("utf-8", "replace").splitlines()[:_LINES_SHOWN])


def write_csv_points(points: tuple[ReadPoint, ...]) -> bytes:
    """Return points as lines of name, east, north, level and note in millimetres; read again they are the same."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n", quoting=csv.QUOTE_MINIMAL)
    marked = csv.writer(stream, lineterminator="\n", quoting=csv.QUOTE_ALL)
    for point in points:
        level = "" if point.level_mm is None else repr(point.level_mm)
        name, note = _as_written(point.name), _as_written(" ".join(point.note.split()))
        # a line that began with # would be a remark
        line = marked if name.lstrip().startswith("#") else writer
        line.writerow((name, repr(point.x_mm), repr(point.y_mm), level, note))
    return stream.getvalue().encode("utf-8")
