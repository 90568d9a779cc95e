"""Where to begin the pattern."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.desk._read import read_job
from pavewright.job import Fault, JobInvalid
from pavewright.laying import best_starts
from pavewright.pipeline import Room, plan_rooms

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.laying import AreaStarts


def find_starts(document: str | bytes, report: Callable[[str], None] | None = None) -> tuple[AreaStarts, ...]:
    """Return the best starts of every area of a job document.

    Raises:
        JobInvalid: the document is not a job, or its readings make no plan; carries every fault.
    """
    job, rules = read_job(document)
    # an area that cannot be laid as it stands is reported before anything is searched
    made = plan_rooms(job, rules, (Room.LEVELS, Room.LAYING))
    if made.laying is None:
        raise JobInvalid(made.faults or tuple(Fault(each.path, each.words) for each in made.why_not((Room.LAYING,))))
    return best_starts(job, made.survey, rules, report, made.levels)
