"""The account of a job in plain values, for screens and the command line."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.account import AgreedKind, account
from pavewright.desk._accepting import told
from pavewright.desk._plain import plain
from pavewright.job import load_document, parse, up_to_date

if TYPE_CHECKING:
    from pavewright.account import Account, AgreedLine, BillStanding
    from pavewright.job import Job


_WORKINGS = ("agreed", "billed", "to_bill", "due", "owing")
"""What the workings of an account end in, in their order."""


def find_account(document: str | bytes) -> Account:
    """Return the account of a job document.

    Raises:
        JobInvalid: the document is not a job; carries every fault.
    """
    return account(parse(up_to_date(load_document(document))))


def account_told(document: str | bytes) -> dict[str, Any]:
    """Return the account of a job document as plain values.

    Raises:
        JobInvalid: the document is not a job; carries every fault.
    """
    job = parse(up_to_date(load_document(document)))
    found = account(job)
    return {
        "accepted": None if job.accepted is None else told(job.accepted),
        "currency": found.currency,
        "tax_name": found.tax_name,
        "agreed": [_line(each) for each in found.agreed],
        "proposed": [_line(each) for each in found.proposed],
        "unsettled": [told(each) for each in found.unsettled],
        "to_settle": [] if job.accepted is None else [told(each) for each in job.accepted.to_settle],
        "kinds": {kind.value: found.of_kind(kind) for kind in AgreedKind},
        "agreed_minor": found.agreed_minor,
        "billed_minor": found.billed_minor,
        "to_bill_minor": found.to_bill_minor,
        "held_minor": found.held_minor,
        "due_minor": found.due_minor,
        "paid_minor": found.paid_minor,
        "owing_minor": found.owing_minor,
        "is_final": found.is_final,
        "variations": [told(each) for each in job.variations],
        "bills": [_bill(each) for each in found.bills],
        "received": [told(each) for each in job.received],
        "stages": _stages(job),
        "workings": dict(zip(_WORKINGS, plain(found.workings), strict=False)),
        "findings": plain(found.all_findings),
    }


def _line(line: AgreedLine) -> dict[str, Any]:
    return {
        "kind": line.kind.value,
        "number": line.number,
        "name": line.name,
        "net_minor": line.net_minor,
        "tax_minor": line.tax_minor,
        "gross_minor": line.gross_minor,
        "working": plain(line.working),
    }


def _bill(standing: BillStanding) -> dict[str, Any]:
    fields = ("net_minor", "tax_minor", "gross_minor", "due_minor", "billed_before_minor", "paid_minor", "owing_minor")
    kept: dict[str, Any] = told(standing.bill)
    return kept | {name: getattr(standing, name) for name in fields}


def _stages(job: Job) -> list[dict[str, Any]]:
    """Return the payments that were agreed, and which bills ask for them."""
    if job.accepted is None:
        return []
    return [
        {
            "number": number,
            "event": stage.event.value,
            "percent": stage.percent,
            "amount_minor": stage.amount_minor,
            "bills": [each.number for each in job.bills if each.stage == number],
        }
        for number, stage in enumerate(job.accepted.stages, 1)
    ]
