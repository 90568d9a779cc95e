"""Reading a job, and the rulebook of its place."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any

from pavewright import firm, rulebook
from pavewright.job import Fault, JobInvalid, load_document, parse, parse_so_far, schema

if TYPE_CHECKING:
    from pavewright.firm import FirmBook
    from pavewright.job import Job
    from pavewright.rules import Rulebook


def read_job(document: str | bytes) -> tuple[Job, Rulebook]:
    """Return the job of a document and the rulebook of its place.

    Raises:
        JobInvalid: the document is not a job, or the rulebook of its place cannot be read; carries every fault.
    """
    try:
        job = parse(load_document(document), rulebook.localities())
        who = job.identity
        return job, rulebook.load(rulebook.edition_of(who.locality, who.edition))
    except rulebook.RulebookError as problem:
        raise JobInvalid((Fault("identity.locality", f"The rulebook cannot be read: {problem}."),)) from problem


def read_job_so_far(document: str | bytes) -> tuple[Job, Rulebook, tuple[Fault, ...]]:
    """Return the job of a document without level books that cannot be reduced, its rulebook, and what is wrong there.

    Raises:
        JobInvalid: the document is not a job, or the rulebook of its place cannot be read; carries every fault.
    """
    try:
        job, unread = parse_so_far(load_document(document), rulebook.localities())
        who = job.identity
        return job, rulebook.load(rulebook.edition_of(who.locality, who.edition)), unread
    except rulebook.RulebookError as problem:
        raise JobInvalid((Fault("identity.locality", f"The rulebook cannot be read: {problem}."),)) from problem


def read_firm(document: str | bytes | None) -> FirmBook | None:
    """Return the book of a document; None where there is none yet.

    Raises:
        JobInvalid: the document is no firm's book; carries every fault.
    """
    return None if document is None else _book(document)


@lru_cache(maxsize=2)
def _book(document: str | bytes) -> FirmBook:
    """Return the book of a document, read once: thousands of prices take longer to read than a job to plan."""
    return firm.read(document)


def newer_rules(rules: Rulebook) -> Rulebook | None:
    """Return the newest edition of a place, where it is not the one at hand.

    Raises:
        JobInvalid: it cannot be read.
    """
    try:
        newest = rulebook.newest(rules.locality)
        return rulebook.load(newest) if newest != rules.edition else None
    except rulebook.RulebookError as problem:
        raise JobInvalid((Fault("identity.locality", f"The rulebook cannot be read: {problem}."),)) from problem


def job_schema() -> dict[str, Any]:
    """Return the JSON Schema of the job document, with the localities of which there is an edition."""
    return schema(rulebook.place_names())


def firm_schema() -> dict[str, Any]:
    """Return the JSON Schema of the firm's book."""
    return firm.schema()


EMPTY_BOOK = '{"format": "pavewright.firm", "version": 1}'
"""The book of a firm that has written nothing in it yet."""


def read_book(document: str | bytes | None) -> FirmBook:
    """Return the book in a document; an empty one where there is none.

    Raises:
        JobInvalid: the document is no firm's book; carries every fault.
    """
    return firm.read(document or EMPTY_BOOK)
