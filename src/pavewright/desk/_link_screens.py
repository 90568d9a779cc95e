"""What the screens ask for links to customers: bytes in, bytes out."""

from __future__ import annotations

import base64
import datetime as dt
import json
from typing import TYPE_CHECKING, Any

from pavewright.desk._book_verbs import BOOK, book_at_hand
from pavewright.desk._link_verbs import accepted_by_link, operations_to, quoted_for_link
from pavewright.desk._quotation_shown import NoQuotation, NoQuotationError, quotation_shown
from pavewright.job import JobInvalid

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.pipeline import PlanSoFar

    Report = Callable[[str], None]
    Verb = Callable[[bytes, Report], bytes]


def link_verbs(planned: Callable[[bytes, Report], PlanSoFar]) -> dict[str, Verb]:
    """Return what a worker can be asked for links, by name.

    Args:
        planned: Plans a document with the book that came with it.
    """

    def quotation(payload: bytes, report: Report) -> bytes:
        """Answer days, a line feed and a document with what a link to its quotation opens, or why there is none."""
        head, _, document = payload.partition(b"\n")
        try:
            return _json(_opened(json.loads(head), document, planned, report))
        except NoQuotationError as refusal:
            return _json({"reason": refusal.reason.value, "words": str(refusal)})

    def accept(payload: bytes, report: Report) -> bytes:
        """Answer what was accepted, a line feed and the document that was quoted with operations on it."""
        head, _, document = payload.partition(b"\n")
        if planned(document, report).whole is None:
            return _json({"operations": None, "why": "This job is not whole."})
        return _json(accepted_by_link(document, BOOK.get() or None, head))

    return {"quotation": quotation, "accept": accept}


def _opened(
    asked: dict[str, Any], document: bytes, planned: Callable[[bytes, Report], PlanSoFar], report: Report
) -> dict[str, Any]:
    """Return what a link opens, with the operations that quote the job first."""
    today = dt.date.fromisoformat(asked["today"])
    last = dt.date.fromisoformat(asked["last"]) if asked.get("last") else None
    if planned(document, report).whole is None:
        raise NoQuotationError(NoQuotation.NOT_WHOLE, "This job is still being measured and has no price yet.")
    try:
        quoted = quoted_for_link(document, BOOK.get() or None, today)
    except JobInvalid as invalid:
        words = " ".join(fault.message for fault in invalid.faults[:3])
        raise NoQuotationError(NoQuotation.NO_PRICE, words) from invalid
    made = planned(json.dumps(quoted, ensure_ascii=False).encode(), report)
    found = quotation_shown(made, today, last, book_at_hand(), report)
    papers = {"pdf": found.papers.quotation, "notice": found.papers.notice}
    return {
        "reason": None,
        "expires": found.expires.isoformat(),
        "shown": found.shown,
        "operations": operations_to(document, quoted),
        **{name: content and base64.b64encode(content).decode("ascii") for name, content in papers.items()},
    }


def _json(value: Any) -> bytes:  # noqa: ANN401 - anything that JSON holds
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()
