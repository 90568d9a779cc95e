"""Roles, and the rights that each of them has."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable


class Role(StrEnum):
    """What somebody is in a firm."""

    OWNER = "owner"
    OFFICE = "office"
    CREW = "crew"
    AUDITOR = "auditor"


class Right(StrEnum):
    """One thing that somebody may do."""

    READ_JOBS = "read_jobs"
    """See jobs, their plans, papers and records."""
    CHANGE_JOBS = "change_jobs"
    """Make jobs, change them, put them away."""
    SITE = "site"
    """Send what is read, laid and seen on site."""
    SEE_MONEY = "see_money"
    """See prices, rates, wages and what a customer pays."""
    CHANGE_MONEY = "change_money"
    """Change what a job costs or what is paid."""
    QUOTE = "quote"
    """Make quotations and open them to customers."""
    FIRM_BOOK = "firm_book"
    """Change the firm's book."""
    CALENDAR = "calendar"
    """Change the calendar."""
    PEOPLE = "people"
    """Invite people, change what they may do, end their membership."""
    TOKENS = "tokens"
    """Let other programs in."""
    BACKUP = "backup"
    """Take everything away in one file, or bring it back."""
    AUDIT = "audit"
    """Read who did what."""
    DEVICES = "devices"
    """Pair devices and withdraw them."""
    METRICS = "metrics"
    """Read what the server counts of itself."""
    RUN_LONG = "run_long"
    """Start work that takes minutes."""


GRANTS = frozenset({Right.SEE_MONEY, Right.CALENDAR, Right.DEVICES})
"""Rights that an owner may grant to one person beyond the role."""

_READS = frozenset({Right.READ_JOBS, Right.SEE_MONEY})
_OFFICE = _READS | {
    Right.CHANGE_JOBS,
    Right.SITE,
    Right.CHANGE_MONEY,
    Right.QUOTE,
    Right.FIRM_BOOK,
    Right.CALENDAR,
    Right.DEVICES,
    Right.RUN_LONG,
}
_OF: dict[Role, frozenset[Right]] = {
    Role.OWNER: frozenset(Right),
    Role.OFFICE: _OFFICE,
    Role.CREW: frozenset({Right.READ_JOBS, Right.CHANGE_JOBS, Right.SITE, Right.RUN_LONG}),
    Role.AUDITOR: _READS | {Right.AUDIT},
}


def rights_of(role: Role, grants: Iterable[str] = ()) -> frozenset[Right]:
    """Return what somebody may do.

    Args:
        role: What he or she is in the firm.
        grants: Rights granted beyond the role, by their keys; only a crew is granted any, and one that nobody may
            grant is left out.

    Source: common practice

    >>> Right.SEE_MONEY in rights_of(Role.CREW)
    False
    >>> Right.SEE_MONEY in rights_of(Role.CREW, ["see_money"])
    True
    >>> Right.PEOPLE in rights_of(Role.CREW, ["people"])
    False
    """
    granted = {right for right in GRANTS if right.value in set(grants)} if role is Role.CREW else set()
    return _OF[role] | granted
