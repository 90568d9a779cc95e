"""Site log: what the days on site say of the work, read from the logs that each phone wrote.

All logs of a date are one day. The hours of a task against what the plan gives it say how it goes, and what it will
take in all where somebody looked how much is done. A task that is done whole says what the firm's own people take for a
unit of its work: the firm takes that into its book by a touch, never by itself.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.site_log._bays import STAGES, BaySeen, bays_seen
    from pavewright.site_log._done import done_by_log, done_with_log
    from pavewright.site_log._learning import NotLearnt, OwnHours, own_hours
    from pavewright.site_log._log import site_log
    from pavewright.site_log._sums_log import SUMS
    from pavewright.site_log._types import (
        LoggedDay,
        LoggedHours,
        LoggedPerson,
        SiteLog,
        TaskLog,
        TaskPace,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "STAGES",
    "SUMS",
    "BaySeen",
    "LoggedDay",
    "LoggedHours",
    "LoggedPerson",
    "NotLearnt",
    "OwnHours",
    "SiteLog",
    "TaskLog",
    "TaskPace",
    "bays_seen",
    "done_by_log",
    "done_with_log",
    "own_hours",
    "site_log",
]
