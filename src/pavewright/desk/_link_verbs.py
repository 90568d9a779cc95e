"""What a link to the customer needs of a job: it is quoted first, and what he accepted is written into it."""

from __future__ import annotations

import copy
import datetime as dt
import json
from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.desk._accepting import Acceptance, accept_operations, told
from pavewright.desk._repricing import quoted_document
from pavewright.job import AgreementPlace, JobInvalid, load_document
from pavewright.job.agreed import AcceptedMeans, AcceptedOption, TaxedSum
from pavewright.job.operations import apply, between
from pavewright.pipeline import NotAcceptedError, taken_together

if TYPE_CHECKING:
    from pavewright.job.operations import Operation
    from pavewright.pipeline import Plan

TOGETHER = "Options taken together"
"""What the difference is called between options that are priced together and their single differences added up."""


class NotWrittenError(Exception):
    """What was accepted cannot be written into the job as it stands; the message says why."""


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


def accepted_by_link(document: bytes, book: bytes | None, head: bytes, plan: Plan) -> dict[str, Any]:
    """Return the operations that write into a job what its customer accepted, or why they cannot be written.

    Args:
        document: The job as it was quoted.
        book: The book of the firm; None where there is none.
        head: JSON with ``by``, ``at``, ``numbers`` and ``names`` of the options, ``rev``, ``sha256``, ``total_minor``.
        plan: The plan of that job.
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
    after = _with_difference(after, tuple(asked["numbers"]), plan)
    if _total_of(after["accepted"]) != asked["total_minor"]:
        return {"operations": None, "why": "total"}
    return {"operations": between(before, after), "why": ""}


def _with_difference(document: dict[str, Any], chosen: tuple[int, ...], plan: Plan) -> dict[str, Any]:
    """Return a document in which several options come to their price together, by a line of its own."""
    if len(chosen) < _SEVERAL:
        return document
    found = taken_together(plan, rulebook.load(plan.edition), only=chosen)
    together = next((each for each in found if each.options == chosen), None)
    if together is None:
        return document
    left = {(share.taxed.regime, share.taxed.percent): [share.net_minor, share.tax_minor] for share in together.shares}
    for each in (plan.offered[number] for number in chosen):
        for share in each.shares:
            sums = left.setdefault((share.taxed.regime, share.taxed.percent), [0, 0])
            sums[0] -= share.net_minor
            sums[1] -= share.tax_minor
    parts = tuple(
        TaxedSum(regime=regime, percent=percent, net_minor=net, tax_minor=tax)
        for (regime, percent), (net, tax) in left.items()
        if net or tax
    )
    if not parts:
        return document
    accepted = document["accepted"]
    line = told(AcceptedOption(name=TOGETHER, sums=parts))
    return document | {"accepted": accepted | {"options": [*accepted.get("options", ()), line]}}


_SEVERAL = 2


def _total_of(accepted: dict[str, Any]) -> int:
    parts = [*accepted["sums"], *(part for option in accepted.get("options", ()) for part in option["sums"])]
    return sum(int(part["net_minor"]) + int(part.get("tax_minor", 0)) for part in parts)
