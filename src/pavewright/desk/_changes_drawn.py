"""What differs between two documents of one job, drawn: a numbered cloud round every change."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from pavewright import drawing
from pavewright.desk._book_verbs import ScreenRefusalError
from pavewright.papers import written_where

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.pipeline import PlanSoFar

    Report = Callable[[str], None]
    Verb = Callable[[bytes, Report], bytes]


def changes_verb(planned: Callable[[bytes, Report], PlanSoFar]) -> Verb:
    """Return what a worker is asked for the drawing of what changed.

    Args:
        planned: Plans a document with the book that came with it.
    """

    def changes(payload: bytes, report: Report) -> bytes:
        """Answer ``{"before": document, "after": document}`` with SVG; nothing where no drawing changed."""
        try:
            asked = json.loads(payload)
        except (ValueError, RecursionError):
            asked = None
        if not isinstance(asked, dict) or not all(isinstance(asked.get(key), dict) for key in ("before", "after")):
            message = "Two documents of the job are compared: before and after."
            raise ScreenRefusalError(message)
        before, after = (planned(json.dumps(asked[key]).encode(), report) for key in ("before", "after"))
        one, other = before.with_rooms(()), after.with_rooms(())
        if one is None or other is None or not other.survey.points:
            return b""
        with written_where(other):
            scene = drawing.revision_plan(one, other)
            return b"" if scene is None else drawing.to_svg(scene).encode()

    return changes
