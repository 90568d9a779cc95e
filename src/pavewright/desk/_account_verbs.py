"""What screens ask of an account: bytes in, bytes out."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from pavewright.desk._account import account_told
from pavewright.desk._account_steps import AccountRefusedError, AccountStep, account_step, dig_step
from pavewright.desk._book_verbs import BOOK, ScreenRefusalError
from pavewright.job import JobInvalid

if TYPE_CHECKING:
    from collections.abc import Callable

    Report = Callable[[str], None]
    Verb = Callable[[bytes, Report], bytes]


def _json(value: Any) -> bytes:  # noqa: ANN401 - anything that JSON holds
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()


def _account(payload: bytes, _report: Report) -> bytes:
    """Answer a document with its account."""
    try:
        return _json(account_told(payload))
    except JobInvalid as invalid:
        raise ScreenRefusalError(" ".join(fault.message for fault in invalid.faults[:3])) from invalid


def _step(payload: bytes, report: Report) -> bytes:
    """Answer what is asked, a line feed and a document with the operations that write it into the job."""
    head, _, document = payload.partition(b"\n")
    asked = json.loads(head)
    try:
        step = AccountStep(asked["step"])
        if step in {AccountStep.DIG_DIFFERS, AccountStep.DIG_FIND}:
            return _json(dig_step(document, asked, BOOK.get() or None, report))
        found = account_step(document, step, asked, BOOK.get() or None, report)
    except AccountRefusedError as refusal:
        raise ScreenRefusalError(str(refusal)) from refusal
    return _json({"operations": found})


ACCOUNT_VERBS: dict[str, Verb] = {"account": _account, "account_step": _step}
"""What of an account a worker can be asked, by name."""
