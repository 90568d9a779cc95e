"""What a link to the customer needs of a job: it is quoted first, and what he accepted is written into it."""

from __future__ import annotations

import copy
import datetime as dt
import json
from typing import TYPE_CHECKING, Any

from pavewright.desk._accepting import Acceptance, accept_operations
from pavewright.desk._repricing import quoted_document
from pavewright.job import AgreementPlace, JobInvalid, load_document
from pavewright.job.agreed import AcceptedMeans
from pavewright.job.operations import apply, between
from pavewright.pipeline import NotAcceptedError

if TYPE_CHECKING:
    from pavewright.job.operations import Operation


def quoted_for_link(document: bytes, book: bytes | None, on: dt.date) -> dict[str, Any]:
    """Return a job document as it is quoted to a customer by a link: with prices that it keeps, agreed at a distance.

    What the job says itself of its quotation or of where it is agreed stays.

    Raises:
        JobInvalid: the job has no price that could be quoted.
    """
    found = load_document(document)
    if found.get("quoted") is None:
        found = quoted_document(document, book, on)
    agreement = found.get("agreement") or {}
    if agreement.get("place") is None:
        found = found | {"agreement": agreement | {"place": AgreementPlace.DISTANCE.value}}
    return found


def operations_to(document: bytes, after: dict[str, Any]) -> list[Operation]:
    """Return the operations that make one document of another."""
    return between(load_document(document), after)


def accepted_by_link(document: bytes, book: bytes | None, head: bytes) -> dict[str, Any]:
    """Return the operations that write into a job what its customer accepted, or why they cannot be written.

    Args:
        document: The job as it was quoted.
        book: The book of the firm; None where there is none.
        head: JSON with ``by``, ``at``, ``numbers`` and ``names`` of the options, ``rev``, ``sha256``, ``total_minor``.
    """
    asked = json.loads(head)
    given = Acceptance(
        by=asked["by"],
        at=dt.datetime.fromisoformat(asked["at"]),
        means=AcceptedMeans.LINK,
        options=tuple(asked["names"]),
        stored_revision=asked["rev"],
        paper_sha256=asked["sha256"],
    )
    try:
        operations = accept_operations(document, book, given)
    except NotAcceptedError as refusal:
        return {"operations": None, "why": refusal.why.value}
    except JobInvalid as invalid:
        return {"operations": None, "why": " ".join(fault.message for fault in invalid.faults[:3])}
    before = load_document(document)
    after: dict[str, Any] = apply(copy.deepcopy(before), operations).document
    if _total_of(after["accepted"]) != asked["total_minor"]:
        return {"operations": None, "why": "total"}
    return {"operations": between(before, after), "why": ""}


def _total_of(accepted: dict[str, Any]) -> int:
    parts = [*accepted["sums"], *(part for option in accepted.get("options", ()) for part in option["sums"])]
    return sum(int(part["net_minor"]) + int(part.get("tax_minor", 0)) for part in parts)
