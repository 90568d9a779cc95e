"""What is noticed in this room, by its short name."""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """Codes of findings."""

    BOOKED_MORE = "site_log.booked_more"
    PERSON_TWICE = "site_log.person_twice"
    NO_SUCH_TASK = "site_log.no_such_task"
    DONE_DIFFERS = "site_log.done_differs"
    LESS_DONE = "site_log.less_done"
    SLOWER = "site_log.slower"
