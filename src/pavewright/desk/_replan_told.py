"""A re-planning as a table and as plain values."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING, Any

from pavewright.desk._replan_words import cause_words, details, headline
from pavewright.papers import harmless

if TYPE_CHECKING:
    from collections.abc import Sequence

_COLUMNS = (
    *("job_id", "title", "state", "standing", "currency", "old_minor", "new_minor", "extra_minor", "days"),
    *("finish_old", "finish_new", "take"),
)


def replan_csv(rows: Sequence[dict[str, Any]]) -> bytes:
    """Return a table with a line for each job; money in minor units.

    Args:
        rows: What differs in each job.
    """
    sink = io.StringIO(newline="")
    writer = csv.writer(sink)
    writer.writerow((*_COLUMNS, "findings_come", "findings_go", "what", "why"))
    for row in rows:
        codes = [" ".join(sorted({each["code"] for each in row.get(name, ())})) for name in ("came", "went")]
        why = "; ".join(cause_words(each, row) for each in row.get("causes", ()))
        cells = (*(row.get(name) for name in _COLUMNS), *codes, headline(row), why)
        writer.writerow([harmless(each) if isinstance(each, str) else each for each in cells])
    return sink.getvalue().encode("utf-8-sig")


def replan_told(rows: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return what a page shows of each job: the row itself, with its words.

    Args:
        rows: What differs in each job.
    """
    return [{**row, "headline": headline(row), "details": list(details(row))} for row in rows]
