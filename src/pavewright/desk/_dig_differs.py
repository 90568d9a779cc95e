"""The dig differs: what was found goes into the job, the plan, the price and the days in one step, undone in one."""

from __future__ import annotations

import copy
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright.desk._accepting import told
from pavewright.desk._varying import VariationHead, found_variation
from pavewright.job import load_document, parse, up_to_date
from pavewright.job.agreed import VariationCause
from pavewright.job.on_site import FoundKind
from pavewright.job.operations import between
from pavewright.pipeline import NotVaried, NotVariedError

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Mapping

    from pavewright.job.agreed import Variation
    from pavewright.job.operations import Operation

CAUSES: Mapping[FoundKind, VariationCause] = {
    FoundKind.DEEPER: VariationCause.GROUND,
    FoundKind.SOFT_SPOT: VariationCause.GROUND,
    FoundKind.CONCRETE: VariationCause.HIDDEN,
    FoundKind.DRAIN: VariationCause.HIDDEN,
}
"""Why the job changes, by what was found."""
_ASKED = ("area_m2", "outline", "length_mm", "new_pipe")


@dataclass(frozen=True, slots=True)
class DigDiffers:
    """What a find does to a job.

    Attributes:
        operations: What writes it into the job; their inverse takes all of it back.
        variation: What it adds, compared with the job before; None where one of the two has no price to compare.
        is_agreed_work: Whether the job was accepted before: then the variation stands in its register, to be signed.
    """

    operations: list[Operation]
    variation: Variation | None
    is_agreed_work: bool


def dig_differs(
    document: str | bytes,
    asked: Mapping[str, Any],
    on: dt.date,
    book: str | bytes | None = None,
    report: Callable[[str], None] | None = None,
) -> DigDiffers:
    """Return what a find does to a job: the operations that enter it, and what it adds to price and days.

    Before the customer has accepted it changes the job and its quotation; after that it is a variation, entered in the
    same step. Who pays is not known to the program: that stands in the contract.

    Args:
        document: The job as it is.
        asked: What was found: ``kind``, ``name``, ``area``, ``depth_mm``, and its size.
        on: Day on which it was found.
        book: The firm's book.
        report: Takes a word before each of the two plans; may raise to stop the work.

    Raises:
        JobInvalid: the job cannot be read, or the find says too little.
        NotVariedError: it changes nothing.
    """
    now = up_to_date(load_document(document))
    job = parse(now)
    found = _entry(asked, on, {each.name for each in job.dig_found})
    kind = FoundKind(found["kind"])
    head = VariationHead(
        name=found["name"],
        cause=CAUSES[kind],
        reason=str(asked.get("reason", "")),
        asked_by=str(asked.get("asked_by", "")),
        on=on,
        stored_revision=asked.get("stored_revision"),
    )
    after = copy.deepcopy(now)
    after["dig_found"] = [*now.get("dig_found", []), found]
    parse(copy.deepcopy(after))
    agreed = job.accepted is not None
    variation = _variation(now, after, book, head, report, agreed=agreed)
    if agreed and variation is not None:
        after["variations"] = [*now.get("variations", []), told(variation)]
    return DigDiffers(between(now, after), variation, agreed)


def variation_of_find(
    document: str | bytes,
    name: str,
    on: dt.date,
    book: str | bytes | None = None,
    report: Callable[[str], None] | None = None,
    *,
    stored_revision: int | None = None,
) -> DigDiffers:
    """Return the variation of a find that stands in the job already, as a phone writes it there without prices.

    Args:
        document: The job as it is.
        name: Name of the find.
        on: Day on which the variation is written.
        book: The firm's book.
        report: Takes a word before each of the two plans; may raise to stop the work.
        stored_revision: Under which number the document as it is is kept with the jobs.

    Raises:
        JobInvalid: the job cannot be read.
        LookupError: there is no such find.
        NotVariedError: one of the two plans has no price, or the find changes nothing.
    """
    now = up_to_date(load_document(document))
    job = parse(now)
    found = next(each for each in job.dig_found if each.name == name)
    before = copy.deepcopy(now)
    before["dig_found"] = [each for each in now["dig_found"] if each["name"] != name]
    head = VariationHead(name, CAUSES[found.kind], found.note, found.found_by, on, stored_revision)
    variation = found_variation(before, now, book, head, report)
    after = {**now, "variations": [*now.get("variations", []), told(variation)]}
    return DigDiffers(between(now, after), variation, job.accepted is not None)


def _entry(asked: Mapping[str, Any], on: dt.date, taken: set[str]) -> dict[str, Any]:
    """Return a find as it stands in the job, under a name that no other find has."""
    name = str(asked["name"]).strip()
    fresh, number = name, 2
    while fresh in taken:
        fresh, number = f"{name} {number}", number + 1
    found = {
        "name": fresh,
        "kind": FoundKind(asked["kind"]).value,
        "area": str(asked["area"]),
        "found_on": on.isoformat(),
        "found_by": str(asked.get("asked_by", "")),
        "depth_mm": float(asked["depth_mm"]),
        "note": str(asked.get("reason", "")),
    }
    return found | {field: asked[field] for field in _ASKED if asked.get(field) not in (None, "", [], False)}


def _variation(
    now: dict[str, Any],
    after: dict[str, Any],
    book: str | bytes | None,
    head: VariationHead,
    report: Callable[[str], None] | None,
    *,
    agreed: bool,
) -> Variation | None:
    """Return what a find adds; None where a job that nobody has accepted has no price yet."""
    try:
        return found_variation(now, after, book, head, report)
    except NotVariedError as refused:
        if agreed or refused.why not in {NotVaried.NO_PRICE_BEFORE, NotVaried.NO_PRICE_NOW}:
            raise
        return None
