"""Reading a firm's book: text or a document to a book, or every fault with its place and a sentence."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from pavewright.firm._book import BOOK_FORMAT, BOOK_VERSION, FirmBook
from pavewright.job import Fault, JobInvalid, crew_faults, field_faults, load_document, rate_faults

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Iterator

_MAY_BE_NULL = frozenset({"rates", "crew", "firm"})
"""Groups of fields of which nothing is known may be null as well as left out."""


def read(document: str | bytes | dict[str, Any]) -> FirmBook:
    """Return the book in a document.

    Raises:
        JobInvalid: the document is no book; carries every fault.
    """
    if not isinstance(document, dict):
        document = load_document(document, "firm's book")
    if document.get("format") != BOOK_FORMAT:
        raise JobInvalid((Fault("format", f"This is not a firm's book: its field format should be {BOOK_FORMAT}."),))
    if document.get("version") != BOOK_VERSION:
        words = f"This book is of a version that this program does not know; it knows version {BOOK_VERSION}."
        raise JobInvalid((Fault("version", words),))
    present = {name: part for name, part in document.items() if part is not None or name not in _MAY_BE_NULL}
    try:
        book = FirmBook.model_validate_json(json.dumps(present))
    except ValidationError as problem:
        raise JobInvalid(field_faults(problem, present)) from None
    across = tuple(_across(book))
    if across:
        raise JobInvalid(across)
    return book


def _across(book: FirmBook) -> Iterator[Fault]:
    """Give what a book says twice, or in two ways that contradict each other."""
    rates = book.rates
    yield from rate_faults(rates, "rates")
    yield from crew_faults(book.crew, "crew")
    lists: tuple[tuple[str, str, Iterable[Hashable]], ...] = (
        ("units", "a paving unit of this name", (each.name for each in book.units)),
        ("mixed_packs", "a mixed pack of this name", (each.name for each in book.mixed_packs)),
        ("people", "somebody of this name", (each.name for each in book.people)),
        ("people", "somebody of this number", ((each.id or place) for place, each in enumerate(book.people))),
        ("outputs", "this output", ((each.kind, each.pattern) for each in book.outputs)),
        ("texts", "this text", (each.key for each in book.texts)),
        ("weather", "this month", (each.month for each in book.weather)),
        ("rates.materials", "this material", (each.key for each in rates.materials)),
        ("rates.plant", "plant of this kind and name", ((each.key, each.name) for each in rates.plant)),
        ("rates.changes", "this", (each.key for each in rates.changes)),
    )
    for path, what, keys in lists:
        seen: set[Hashable] = set()
        for number, key in enumerate(keys):
            if key in seen:
                yield Fault(f"{path}.{number}", f"There is {what} already: keep one of the two.")
            seen.add(key)
    for number, pack in enumerate(book.mixed_packs):
        if len(pack.units_in_pack) != len(pack.counts):
            held = f"{len(pack.units_in_pack)} units and {len(pack.counts)} counts"
            words = f"The mixed pack {pack.name} has {held}: one for each."
            yield Fault(f"mixed_packs.{number}.counts", words)
    yield from _overhead_twice(book)


def _overhead_twice(book: FirmBook) -> Iterator[Fault]:
    over = book.overhead
    if over is None:
        return
    if over.hours_sold is not None and over.direct_minor is not None:
        words = "Overhead is to go on hours sold and on the direct cost: keep one of the two."
        yield Fault("overhead.direct_minor", words)
    said = book.rates.overhead_percent is not None or book.rates.overhead_minor_per_hour is not None
    if over.yearly and said and (over.hours_sold is not None or over.direct_minor is not None):
        words = "Overhead follows from the yearly costs, and is written among the rates too: keep one of the two."
        yield Fault("rates.overhead_percent", words)


def schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of the book."""
    return {"$schema": "https://json-schema.org/draft/2020-12/schema"} | FirmBook.model_json_schema()


def to_text(book: FirmBook) -> str:
    """Return a book as a document, keys in the order of the schema."""
    return book.model_dump_json(indent=1, exclude_none=True) + "\n"
