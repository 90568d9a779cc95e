"""Staff readings into a level book as they are read, one by one.

The last reading before the instrument is moved is a foresight. So the newest row of a book is always booked as one, and
becomes an intermediate sight when another reading follows from the same set-up: the book can be reduced at any moment.
A first backsight, and one to a change point, therefore come together with the reading that follows them.
"""

from __future__ import annotations

from typing import Any

from pavewright.desk._sent_entries import name_in, number_in, one_of, refuse, these

_SIGHTS = ("first", "next", "moved")


def staff(document: dict[str, Any], entry: dict[str, Any]) -> None:
    """Book one staff reading.

    Args:
        document: Changed in place.
        entry: ``book``, ``point``, ``reading_mm`` [mm], ``sight`` (``first`` on the datum, ``next``, or ``moved``: back
            to the point read last, after the instrument was moved) and ``setup``, the count of set-ups so far.
    """
    name, point, reading = name_in(entry, "book"), name_in(entry, "point"), number_in(entry, "reading_mm")
    sight, setup = one_of(entry, "sight", _SIGHTS), entry.get("setup")
    books = these(these(document, "measurements", {}), "level_books", [])
    book = next((each for each in books if each.get("name") == name), None)
    if sight == "first":
        if book is None:
            book = {"name": name, "rows": []}
            books.append(book)
        if book.get("rows"):
            refuse(f"There is a level book {name} already: begin a new one.")
        book["rows"] = [{"point": point, "backsight_mm": reading}]
        return
    if book is None or not book.get("rows"):
        refuse(f"The reading on the datum that begins {name} is missing: send it first.")
    _follow(name, book["rows"], point, reading, moved=sight == "moved", setup=setup)


def _follow(name: str, rows: list[dict[str, Any]], point: str, reading: float, *, moved: bool, setup: object) -> None:
    """Book a reading after others."""
    last = rows[-1]
    setups = sum(row.get("backsight_mm") is not None for row in rows)
    if setup != setups + moved:
        refuse(
            f"In {name} the instrument was moved before this reading on {point}, and the reading back to the change "
            f"point is missing: send that one first."
        )
    if not moved:
        if last.get("foresight_mm") is not None and last.get("backsight_mm") is None:
            last["intermediate_mm"] = last.pop("foresight_mm")
        rows.append({"point": point, "foresight_mm": reading})
        return
    if last.get("point") != point or last.get("foresight_mm") is None or last.get("backsight_mm") is not None:
        refuse(f"After the instrument is moved, read back to {last.get('point')}, the point that was read last.")
    last["backsight_mm"] = reading


def take_back_staff(document: dict[str, Any], given: dict[str, Any]) -> None:
    """Take the last reading of a book back, with the backsight from which nothing else was read."""
    name, point = name_in(given, "book"), name_in(given, "point")
    books = these(these(document, "measurements", {}), "level_books", [])
    book = next((each for each in books if each.get("name") == name), None)
    rows = book.get("rows") or [] if book else []
    if not rows or rows[-1].get("point") != point or rows[-1].get("foresight_mm") is None:
        refuse(f"The reading on {point} is not the last one of {name} any more: change it in the level book.")
    rows.pop()
    _end_with_foresight(books, book or {}, rows)


def _end_with_foresight(books: list[dict[str, Any]], book: dict[str, Any], rows: list[dict[str, Any]]) -> None:
    """Let a book end as a book ends; one that holds its first backsight alone goes away."""
    last = rows[-1] if rows else {}
    if len(rows) <= 1:
        books.remove(book)
    elif last.get("backsight_mm") is not None:
        del last["backsight_mm"]
    elif last.get("intermediate_mm") is not None:
        last["foresight_mm"] = last.pop("intermediate_mm")
