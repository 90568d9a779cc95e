"""Where to begin the pattern."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.buildup import depth_under
from pavewright.desk._read import read_job
from pavewright.laying import best_starts, lay
from pavewright.levels import finished_levels
from pavewright.survey import survey

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.laying import AreaStarts


def find_starts(document: str | bytes, report: Callable[[str], None] | None = None) -> tuple[AreaStarts, ...]:
    """Return the best starts of every area of a job document.

    Raises:
        JobInvalid: the document is not a job, or its readings make no plan; carries every fault.
    """
    job, rules = read_job(document)
    measured = survey(job, rules)
    # an area that cannot be laid as it stands is reported before anything is searched
    levels = finished_levels(job, measured, rules, depth_under(job, rules))
    lay(job, measured, rules, levels)
    return best_starts(job, measured, rules, report, levels)
