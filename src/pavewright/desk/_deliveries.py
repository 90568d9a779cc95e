"""What a phone or a site sheet sends: readings that change a job document, whole or not at all.

Each kind of entry has one function that changes a copy of the document. A change that brings a fault which the document
did not have before is refused, with the sentence that says what to measure again.
"""

from __future__ import annotations

import copy
import json
from typing import Any

from pavewright.desk._level_readings import staff, take_back_staff
from pavewright.desk._sent_entries import (
    DeliveryRefusedError,
    length_in,
    name_in,
    named,
    number_in,
    one_of,
    refuse,
    text_in,
    these,
)
from pavewright.job import JobInvalid, NotJobJsonError, load_document, parse, strict_json, up_to_date

__all__ = ["DELIVERY_KINDS", "DeliveryRefusedError", "deliver_into"]

_ENTRIES_MAX = 200


def deliver_into(document: str, delivery: dict[str, Any]) -> str:
    """Return a job document with a delivery in it.

    Args:
        document: The document as text.
        delivery: ``{"kind", "entries"}`` and, where readings need a day, ``"date"``.

    Raises:
        DeliveryRefusedError: it makes no sense; nothing of it is applied.
    """
    kind, entries = delivery.get("kind"), delivery.get("entries")
    if not isinstance(kind, str) or kind not in DELIVERY_KINDS:
        refuse(f"This program knows {', '.join(DELIVERY_KINDS)}, not {kind!r:.40}: update the page.")
    if not isinstance(entries, list) or not 1 <= len(entries) <= _ENTRIES_MAX:
        refuse(f"A delivery holds 1 to {_ENTRIES_MAX} readings.")
    before = _read(document)
    after = copy.deepcopy(before)
    for entry in entries:
        if not isinstance(entry, dict):
            refuse("A reading is an object of its fields.")
        try:
            DELIVERY_KINDS[kind](after, entry | {"date": delivery.get("date", "")})
        except (AttributeError, TypeError, KeyError) as problem:
            if not _faults(json.dumps(before)):
                raise
            raise DeliveryRefusedError(_UNREADABLE) from problem
    text = json.dumps(after, ensure_ascii=False, indent=1)
    _refuse_new_faults(before, text)
    return text


_UNREADABLE = "This job cannot be read as it is: put it right on the working screen."


def _read(document: str) -> dict[str, Any]:
    """Return the fields of the document in the present version, or refuse where it cannot be read."""
    try:
        value = strict_json(document)
    except NotJobJsonError as problem:
        raise DeliveryRefusedError(_UNREADABLE) from problem
    if not isinstance(value, dict):
        refuse(_UNREADABLE)
    return up_to_date(value)


def _refuse_new_faults(before: dict[str, Any], after: str) -> None:
    """Refuse where the document now says something impossible that it did not say before."""
    found = _faults(after)
    had = set(_faults(json.dumps(before))) if found else set()
    new = [message for message in found if message not in had]
    if new:
        refuse(" ".join(new[:2]))


def _faults(document: str) -> list[str]:
    try:
        parse(load_document(document))
    except JobInvalid as invalid:
        return [fault.message for fault in invalid.faults]
    return []


def _tape(document: dict[str, Any], entry: dict[str, Any]) -> None:
    """Add one tape; the first of a job makes its base line. A side tells where a new point lies."""
    start, end = name_in(entry, "start"), name_in(entry, "end")
    if start == end:
        refuse(f"A tape runs between two points: {start} is named twice.")
    tape = {"start": start, "end": end, "length_mm": length_in(entry, "length_mm")}
    plan = these(document, "measurements", {}).get("tape_plan")
    if plan is None:
        plan = document["measurements"]["tape_plan"] = {"base_from": start, "base_to": end, "tapes": [], "sides": []}
    plan.setdefault("tapes", []).append(tape)
    side = entry.get("side")
    if side is None:
        return
    if not isinstance(side, dict):
        refuse("side is to name a point, a line and left or right.")
    point = name_in(side, "point")
    sides = plan.setdefault("sides", [])
    if point not in {each.get("point") for each in sides}:
        reported = {"point": point, "line_from": name_in(side, "line_from"), "line_to": name_in(side, "line_to")}
        sides.append(reported | {"side": one_of(side, "side", ("left", "right"))})


def _as_laid(document: dict[str, Any], entry: dict[str, Any]) -> None:
    """Add a level read on the finished paving; the first one opens the check with its day."""
    area = name_in(entry, "area")
    if area not in {each.get("name") for each in document.get("areas", [])}:
        refuse(f"There is no area {area} in this job: choose the area that was read on.")
    reading = {name: number_in(entry, name) for name in ("x_mm", "y_mm", "level_mm")}
    taken = document.get("as_laid")
    if taken is None:
        taken = document["as_laid"] = {"date": text_in(entry, "date", 10), "readings": []}
    taken.setdefault("readings", []).append(reading | {"area": area, "label": text_in(entry, "label", 60)})


def _walk_round(document: dict[str, Any], entry: dict[str, Any]) -> None:
    """Keep an answer of the walk round the house; a later answer to the same question takes its place."""
    reported = {"question": text_in(entry, "question", 500), "answer": one_of(entry, "answer", _ANSWERS)}
    if not reported["question"].strip():
        refuse("The answer has no question.")
    if reported["answer"] == "value":
        reported["value"] = text_in(entry, "value", 500)
        if not reported["value"].strip():
            refuse(f"{reported['question']} Write what was seen, or choose none or could not see.")
    answers = these(these(document, "site", {}), "walk_round", [])
    for index, each in enumerate(answers):
        if each.get("question") == reported["question"]:
            answers[index] = reported
            return
    answers.append(reported)


_ANSWERS = ("value", "none", "could_not_see")


def _take_back(document: dict[str, Any], entry: dict[str, Any]) -> None:
    """Take a reading back that was delivered before: the last one that is just like it."""
    of, given = one_of(entry, "of", tuple(_TAKING_BACK)), entry.get("entry")
    if not isinstance(given, dict):
        refuse("entry is to be the reading that is taken back.")
    _TAKING_BACK[of](document, given)


def _take_back_tape(document: dict[str, Any], given: dict[str, Any]) -> None:
    plan = these(document, "measurements", {}).get("tape_plan") or {}
    _drop_last(plan.get("tapes"), named(given, "start", "end", "length_mm"))
    if not plan["tapes"]:
        document["measurements"]["tape_plan"] = None


def _take_back_as_laid(document: dict[str, Any], given: dict[str, Any]) -> None:
    taken = document.get("as_laid") or {}
    _drop_last(taken.get("readings"), named(given, "x_mm", "y_mm", "level_mm", "area", "label"))


def _take_back_walk_round(document: dict[str, Any], given: dict[str, Any]) -> None:
    _drop_last(these(document, "site", {}).get("walk_round"), named(given, "question", "answer"))


def _drop_last(found: list[dict[str, Any]] | None, wanted: dict[str, Any]) -> None:
    """Take the last entry out that holds what is wanted."""
    for index in range(len(found or ()) - 1, -1, -1):
        assert found is not None  # noqa: S101 - it has an entry
        if all(found[index].get(name) == value for name, value in wanted.items()):
            del found[index]
            return
    refuse("That reading is not in the job any more: somebody changed it. Look at the job itself.")


_TAKING_BACK = {
    "tapes": _take_back_tape,
    "staff": take_back_staff,
    "level_by_datum": take_back_staff,
    "as_laid": _take_back_as_laid,
    "walk_round": _take_back_walk_round,
}


def _level_by_datum(document: dict[str, Any], entry: dict[str, Any]) -> None:
    """Book a height that was given as higher or lower than the datum, as a staff that reads nothing on the datum."""
    by = number_in(entry, "by_mm")
    if by < 0.0:
        refuse("Say lower or higher in words, and by how much without a sign.")
    lower = one_of(entry, "way", ("lower", "higher")) == "lower"
    datum, book = name_in(entry, "datum"), name_in(entry, "book")
    books = these(these(document, "measurements", {}), "level_books", [])
    if book not in {each.get("name") for each in books}:
        books.append({"name": book, "rows": []})
        staff(document, {"book": book, "point": datum, "reading_mm": 0.0, "sight": "first", "setup": 1})
    reading = by if lower else -by
    point = name_in(entry, "point")
    staff(document, {"book": book, "point": point, "reading_mm": reading, "sight": "next", "setup": 1})


DELIVERY_KINDS = {
    "tapes": _tape,
    "staff": staff,
    "level_by_datum": _level_by_datum,
    "as_laid": _as_laid,
    "walk_round": _walk_round,
    "take_back": _take_back,
}
"""What can be delivered, by name."""
