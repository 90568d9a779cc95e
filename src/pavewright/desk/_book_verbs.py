"""What the screens ask of the firm's book, and how the book reaches what plans a job."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
from contextvars import ContextVar
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from pavewright.desk._beside import apart
from pavewright.desk._firm import book_told, prices_shown, prices_taken
from pavewright.desk._logo import clean_logo
from pavewright.desk._photos import PhotoRefusedError
from pavewright.desk._read import read_firm
from pavewright.desk._repricing import find_repricing, quote_operations, repricing_told
from pavewright.desk._verbs import make_plan_so_far
from pavewright.files import FileRefusedError
from pavewright.job import Fault, JobInvalid, load_document

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.firm import FirmBook
    from pavewright.pipeline import PlanSoFar

    Report = Callable[[str], None]
    Verb = Callable[[bytes, Report], bytes]

BOOK: ContextVar[bytes] = ContextVar("BOOK", default=b"")
"""The book that came with what is asked; empty where the firm has none."""
_BAD_KEPT: dict[str, str] = {}
"""Books that cannot be read, by their digest, and why: asked once, not at every plan."""


class ScreenRefusalError(Exception):
    """What was asked cannot be done as asked; the message says what to change."""


def with_its_book(verb: Verb) -> Verb:
    """Return a verb that takes the book off what is asked, and holds it while it works."""

    def asked(payload: bytes, report: Report) -> bytes:
        book, rest = apart(payload)
        token = BOOK.set(book)
        try:
            return verb(rest, report)
        finally:
            BOOK.reset(token)

    return asked


def plan_with_book(document: bytes, report: Report, book: bytes) -> PlanSoFar:
    """Return the plan of a job with the firm's book; a book that cannot be read is left out, and a fault says so.

    Raises:
        JobInvalid: the document is not a job; carries every fault.
    """
    why = _why_unread(book)
    if not why:
        return make_plan_so_far(document, report, book or None)
    made = make_plan_so_far(document, report)
    return replace(made, faults=(*made.faults, Fault("", f"The firm's book is not used: {why}")))


def book_at_hand() -> FirmBook | None:
    """Return the book that came with what is asked; None where there is none that can be read."""
    book = BOOK.get()
    return read_firm(book) if book and not _why_unread(book) else None


def without_idle_prices(made: PlanSoFar, document: bytes) -> PlanSoFar:
    """Return a plan whose job lists of the catalogue what its own document lists: a screen needs no more of it.

    A book of thousands of prices would otherwise go to the phone with every change of the job.
    """
    rates = load_document(document).get("rates")
    own = rates.get("catalogue") if isinstance(rates, dict) else None
    keys = {each.get("key") for each in own if isinstance(each, dict)} if isinstance(own, list) else set()
    job = made.job
    kept = tuple(each for each in job.rates.catalogue if each.key in keys)
    if len(kept) == len(job.rates.catalogue):
        return made
    return replace(made, job=job.model_copy(update={"rates": job.rates.model_copy(update={"catalogue": kept})}))


def _why_unread(book: bytes) -> str:
    if not book:
        return ""
    key = hashlib.sha256(book).hexdigest()
    if key not in _BAD_KEPT:
        _BAD_KEPT.clear()
        try:
            read_firm(book)
        except JobInvalid as invalid:
            _BAD_KEPT[key] = " ".join(fault.message for fault in invalid.faults[:3])
        else:
            _BAD_KEPT[key] = ""
    return _BAD_KEPT[key]


def _json(value: Any) -> bytes:  # noqa: ANN401 - anything that JSON holds
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()


def _check(payload: bytes, _report: Report) -> bytes:
    """Answer a book with its faults and its overhead."""
    return _json(book_told(payload))


def _prices(payload: bytes, _report: Report) -> bytes:
    """Answer a line of JSON and a price list with what it would change in the book; ``take`` with the book too."""
    head, _, content = payload.partition(b"\n")
    asked = json.loads(head)
    try:
        if asked.get("take") is True:
            document, shown = prices_taken(BOOK.get(), content, asked)
            return _json({"document": document, "changes": len(shown["changes"]), "lines": len(shown["lines"])})
        return _json(prices_shown(BOOK.get(), content, asked))
    except (FileRefusedError, JobInvalid) as refusal:
        words = str(refusal) if isinstance(refusal, FileRefusedError) else refusal.faults[0].message
        raise ScreenRefusalError(words) from None


def _logo(payload: bytes, _report: Report) -> bytes:
    """Answer a picture with the logo that is kept of it."""
    try:
        return _json(clean_logo(payload))
    except PhotoRefusedError as refusal:
        raise ScreenRefusalError(str(refusal)) from refusal


def _reprice(payload: bytes, report: Report) -> bytes:
    """Answer a quoted job with what the prices of today would change in it."""
    try:
        return _json({"repriced": repricing_told(find_repricing(payload, BOOK.get() or None, report))})
    except JobInvalid as invalid:
        raise ScreenRefusalError(" ".join(fault.message for fault in invalid.faults[:3])) from invalid


def _quote(payload: bytes, _report: Report) -> bytes:
    """Answer a day, a line feed and a job with the operations that put into it what it is quoted with."""
    day, _, document = payload.partition(b"\n")
    try:
        on = dt.date.fromisoformat(day.decode())
        return _json({"operations": quote_operations(document, BOOK.get() or None, on)})
    except JobInvalid as invalid:
        raise ScreenRefusalError(" ".join(fault.message for fault in invalid.faults[:3])) from invalid


BOOK_VERBS: dict[str, Verb] = {
    "firm_check": _check,
    "firm_prices": _prices,
    "logo": _logo,
    "quote": _quote,
    "reprice": _reprice,
}
"""What of the book a worker can be asked, by name."""
