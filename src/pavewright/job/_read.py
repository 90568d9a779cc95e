"""Reading a document: text to a job, or every fault with its place and a sentence."""

from __future__ import annotations

import copy
import json
from typing import TYPE_CHECKING, Any, NoReturn

from pydantic import ValidationError

from pavewright.job._checks import cross_faults
from pavewright.job._document import CURRENT_VERSION, FORMAT, Job
from pavewright.job._entries import entry_words, path_within
from pavewright.job._faults import Fault, JobInvalid
from pavewright.job._migrate import migrated
from pavewright.job._strict_json import NotJobJsonError, strict_json
from pavewright.job._trade import LOCALITIES

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

_MAX_BYTES = 5_000_000

_MAY_BE_NULL = frozenset({"rates", "crew", "calendar", "terms"})
"""Groups of fields of which nothing is known may be null as well as left out."""
_SENTENCES = {
    "missing": "{field} is missing: measure it or write it down.",
    "extra_forbidden": "The document knows no field {raw} here: check its spelling.",
    "finite_number": "{field} is not a number: read it again.",
    "greater_than": "{field} is {input}; it must be more than {gt}: read it again.",
    "greater_than_equal": "{field} is {input}; it may not be less than {ge}: read it again.",
    "less_than": "{field} is {input}; it must be less than {lt}: read it again, and check its unit.",
    "less_than_equal": "{field} is {input}; it may not be more than {le}: read it again, and check its unit.",
    "float_type": "{field} takes a number, without quotation marks.",
    "int_type": "{field} takes a whole number, without quotation marks.",
    "int_parsing_size": "{field} has more figures than any measure: read it again.",
    "int_from_float": "{field} takes a whole number, not {input}.",
    "string_type": "{field} takes words in quotation marks.",
    "string_too_short": "{field} is empty: write something.",
    "string_too_long": "{field} is longer than {max_length} characters: shorten it.",
    "string_pattern_mismatch": "{field} is {input}, which is none of the words that may stand here ({pattern}).",
    "level_or_point": "{field} takes a number, or the name of a point in quotation marks, or null while it is not read.",
    "bool_type": "{field} takes true or false.",
    "enum": "{field} is {input}; it takes one of {expected}.",
    "literal_error": "{field} is {input}; it takes {expected}.",
    "tuple_type": "{field} takes a list.",
    "too_short": "{field} needs at least {min_length} entries.",
    "too_long": "{field} takes at most {max_length} entries.",
    "model_type": "{field} takes a group of fields in curly brackets.",
    "date_type": "{field} takes a date as year-month-day, such as 2027-04-12.",
    "date_parsing": "{field} takes a date as year-month-day, such as 2027-04-12.",
    "date_from_datetime_parsing": "{field} takes a date as year-month-day, such as 2027-04-12.",
    "date_from_datetime_inexact": "{field} takes a date without a time of day.",
}


def _refuse(message: str, path: str = "") -> NoReturn:
    raise JobInvalid((Fault(path, message),))


def load_document(text: str | bytes, what: str = "job document") -> dict[str, Any]:
    """Return the document as a plain dictionary, capped in size and depth before it is read.

    Args:
        text: The text of it.
        what: What it should be, in words.

    Raises:
        JobInvalid: too large, too deep, not UTF-8, not JSON, not an object, a field given twice, or not a number.
    """
    if len(text) > _MAX_BYTES:
        _refuse(f"The file holds {len(text)} bytes; a {what} has at most {_MAX_BYTES}. Is it the right file?")
    if isinstance(text, bytes):
        try:
            text = text.decode("utf-8")
        except UnicodeDecodeError:
            _refuse("The file is not text in UTF-8: save it as UTF-8 and try again.")
    try:
        document = strict_json(text)
    except NotJobJsonError as problem:
        _refuse(problem.message, problem.field)
    if not isinstance(document, dict):
        _refuse(f"The file does not hold a {what}: it should start with a curly bracket.")
    return document


def parse(document: dict[str, Any], localities: Collection[str] = ()) -> Job:
    """Return the job in a document.

    Args:
        document: The document.
        localities: The editions of the rulebook that there are; none where the job is not planned.

    Raises:
        JobInvalid: with every fault found.
    """
    if document.get("format") != FORMAT:
        _refuse(f"This is not a job document: its field format should be {FORMAT}.", "format")
    present = migrated(document, CURRENT_VERSION)
    present = {name: part for name, part in present.items() if part is not None or name not in _MAY_BE_NULL}
    try:
        job = Job.model_validate_json(json.dumps(present), context={LOCALITIES: tuple(localities)})
    except ValidationError as problem:
        raise JobInvalid(field_faults(problem, present)) from None
    across = cross_faults(job)
    if across:
        raise JobInvalid(across)
    return job


def parse_so_far(document: dict[str, Any], localities: Collection[str] = ()) -> tuple[Job, tuple[Fault, ...]]:
    """Return the job in a document without the level books that cannot be reduced, and what is wrong with those.

    Raises:
        JobInvalid: with every fault found, where any of them lies elsewhere.
    """
    try:
        return parse(document, localities), ()
    except JobInvalid as invalid:
        spoilt = {_book_of(fault.path) for fault in invalid.faults}
        if None in spoilt:
            raise
        less = copy.deepcopy(document)
        books = less["measurements"]["level_books"]
        less["measurements"]["level_books"] = [book for number, book in enumerate(books) if number not in spoilt]
        return parse(less, localities), invalid.faults


def _book_of(path: str) -> int | None:
    """Return the number of the level book in which a place lies; None for a place elsewhere.

    >>> _book_of("measurements.level_books.2.rows.0"), _book_of("measurements.level_books"), _book_of("areas.0")
    (2, None, None)
    """
    room, field, number, *_ = (*path.split("."), "", "", "")
    return int(number) if (room, field) == ("measurements", "level_books") and number.isdigit() else None


def up_to_date(document: dict[str, Any]) -> dict[str, Any]:
    """Return a document in the present version; as it is where no way leads there, and reading it says why."""
    if document.get("format") != FORMAT:
        return document
    try:
        return migrated(document, CURRENT_VERSION)
    except JobInvalid:
        return document


def field_faults(problem: ValidationError, document: dict[str, Any]) -> tuple[Fault, ...]:
    """Return what is wrong with fields of a document, each with its place and a sentence."""
    found: list[dict[str, Any]] = [{**error} for error in problem.errors()]
    found = _one_for_each_place(found, document)
    # a list is called too short when one of its entries is at fault: that is the entry's fault alone
    inner = {error["loc"][:cut] for error in found for cut in range(len(error["loc"]))}
    return tuple(
        _fault(error, document) for error in found if error["type"] != "too_short" or error["loc"] not in inner
    )


def _one_for_each_place(found: list[dict[str, Any]], document: dict[str, Any]) -> list[dict[str, Any]]:
    """Return one error for each field that takes a number or a name, instead of one for each of the two."""
    kept: dict[tuple[str | int, ...], list[dict[str, Any]]] = {}
    for error in found:
        place = path_within(document, error["loc"])
        kept.setdefault(place, []).append({**error, "loc": place, "for": error["loc"][len(place) :]})
    return [_of_one_place(errors) for errors in kept.values()]


def _of_one_place(errors: list[dict[str, Any]]) -> dict[str, Any]:
    """Return the error that fits what was written, or that neither a number nor a name was."""
    if len(errors) == 1:
        return errors[0]
    value = errors[0].get("input")
    if isinstance(value, int | float) and not isinstance(value, bool):
        return next((error for error in errors if error["type"] != "string_type"), errors[0])
    if isinstance(value, str):
        return next((error for error in errors if error["type"] != "float_type"), errors[0])
    return {**errors[0], "type": "level_or_point"}


def _fault(error: dict[str, Any], document: dict[str, Any]) -> Fault:
    """Return one fault in our own words, with its place and the name of its entry."""
    path = error["loc"]
    words = {
        "field": entry_words(document, path),
        "raw": path[-1] if path else "",
        "input": repr(error.get("input")),
        **error.get("ctx", {}),
    }
    sentence = _SENTENCES.get(error["type"], "{field} cannot be read: write it again.")
    return Fault(".".join(str(part) for part in path), sentence.format(**words))


def schema(localities: Mapping[str, str] | None = None) -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of the job document, with the localities that there are.

    Args:
        localities: What people call each; screens show these words (``x-words``), the document keeps the key.
    """
    tree = {"$schema": "https://json-schema.org/draft/2020-12/schema"} | Job.model_json_schema()
    if localities:
        tree["$defs"]["Identity"]["properties"]["locality"] |= {"enum": list(localities), "x-words": dict(localities)}
    return tree


def to_text(job: Job) -> str:
    """Return the job as a document, keys in the order of the schema."""
    return job.model_dump_json(indent=1, exclude_none=True) + "\n"
