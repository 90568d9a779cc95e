"""The document of a new job, which knows nothing."""

from __future__ import annotations

import datetime as dt
import json
from importlib.resources import files

from pavewright import rulebook
from pavewright.desk._read import read_book
from pavewright.job import JobInvalid


def starter_document(title: str, book: str | bytes | None = None) -> str:
    """Return the document of a new job, dated today and keeping the newest edition of the rulebook.

    It knows nothing else: no point, level, soil, price or person.

    Args:
        title: What it is called.
        book: The book of the firm: its place, its money and how it writes; a book that cannot be read says nothing.
    """
    job = json.loads((files("pavewright.desk") / "starter.json").read_text("utf-8"))
    today = dt.datetime.now(dt.UTC).date()
    job["identity"]["title"] = title.strip() or "New job"
    job["identity"]["date"] = today.isoformat()
    job["identity"].update(_of_the_firm(book))
    place = rulebook.load(rulebook.newest(job["identity"]["locality"]))
    job["identity"]["edition"] = place.dated.isoformat()
    return json.dumps(job, ensure_ascii=False, indent=1)


def _of_the_firm(document: str | bytes | None) -> dict[str, str]:
    """Return where the firm works, its money and how it writes, as far as its book says it."""
    if not document:
        return {}
    try:
        book = read_book(document)
    except JobInvalid:
        return {}
    said = {"currency": book.currency, "region": book.region, "measure": book.measure and book.measure.value}
    found = {name: word for name, word in said.items() if word}
    known = book.locality is not None and book.locality in rulebook.place_names()
    return found | {"locality": str(book.locality)} if known else found
