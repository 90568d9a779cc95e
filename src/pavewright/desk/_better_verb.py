"""What the screens ask of a search for better ways: bytes in, bytes out, and what is found meanwhile."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from pavewright.desk._better import Here, find_better
from pavewright.desk._better_asked import PART, AskedNothingError, better_asked
from pavewright.desk._book_verbs import BOOK, ScreenRefusalError
from pavewright.engine import LocalCores
from pavewright.job import JobInvalid

if TYPE_CHECKING:
    from collections.abc import Callable

    Report = Callable[[str], None]
    Verb = Callable[[bytes, Report], bytes]


def _better(payload: bytes, report: Report) -> bytes:
    """Answer ``{"aims", "plans", "done"}``, a line feed and a document with better ways to build it.

    What is found after every batch, and its answers by their keys, are reported as parts: a search that is stopped has
    them, and one that goes on takes them.
    """
    head, _, document = payload.partition(b"\n")
    asked = json.loads(head)
    done = {key: text.encode() for key, text in asked.get("done", {}).items()}
    fresh: dict[str, str] = {}

    def keep(key: str, answer: bytes) -> None:
        fresh[key] = answer.decode()

    def so_far(told: dict[str, Any]) -> None:
        report(PART + json.dumps({"so_far": told, "answers": fresh}, ensure_ascii=False))
        fresh.clear()

    with LocalCores() as engine:
        here = Here(engine, lambda planned, of: report(f"{planned} of {of} plans"), lambda: False, done, keep, so_far)
        try:
            found = find_better(document, BOOK.get() or None, better_asked(asked), here)
        except AskedNothingError as refusal:
            raise ScreenRefusalError(str(refusal)) from refusal
        except JobInvalid as invalid:
            raise ScreenRefusalError(" ".join(fault.message for fault in invalid.faults[:3])) from invalid
    return json.dumps(found, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()


BETTER_VERBS: dict[str, Verb] = {"better": _better}
"""What of better ways a worker can be asked, by name."""
