"""Whether the customer may cancel, until when, and why no notice of it is made where none is."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.job import AgreementPlace
from pavewright.job.agreed import AcceptedMeans
from pavewright.rules import Status

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.pipeline import Plan
    from pavewright.rules import Figure, Rulebook, TableRow

_RULES, _LAW = "papers.cancelling", "papers.cancelling_law"
_SUNDAY = 6


class WhyNoNotice(StrEnum):
    """Why no notice of a right to cancel is made."""

    PLACE_NOT_KNOWN = "place_not_known"
    AT_PREMISES = "at_premises"
    NO_RULE = "no_rule"


@dataclass(frozen=True, slots=True)
class CancellingRule:
    """How long a customer may cancel, by the rulebook of the place.

    Attributes:
        days: Days that count.
        working_days_only: Whether Sundays do not count; public holidays are not known here.
        from_last_goods: Whether they also count from the day on which the last goods came, where that is later.
        uncalled_days: Days where nobody asked the contractor to call; None where the place has no such rule.
        law: Where the words of the notice and of the form stand.
        law_is_read: Whether that place was read in the source.
    """

    days: Figure
    working_days_only: bool
    from_last_goods: bool
    uncalled_days: Figure | None
    law: str
    law_is_read: bool


@dataclass(frozen=True, slots=True)
class Cancelling:
    """The right to cancel as it stands for a job.

    Attributes:
        why_not: Why no notice is made; None where one is.
        rule: The rule of the place; None where no notice is made.
        agreed_on: Day on which the work is agreed, or the day of the quotation where that is not known yet.
        agreed_is_known: Whether that day is known.
        last_goods_on: Day by the programme on which the last goods come; None where none are delivered.
        starts_on: Day by the programme on which work begins.
    """

    why_not: WhyNoNotice | None
    rule: CancellingRule | None
    agreed_on: dt.date
    agreed_is_known: bool
    last_goods_on: dt.date | None
    starts_on: dt.date

    def last_day(self, agreed_on: dt.date) -> dt.date | None:
        """Return the last day on which the customer may cancel what is agreed on a day; None without a rule."""
        if self.rule is None:
            return None
        found = _counted(agreed_on, int(self.rule.days.value), skipping=self.rule.working_days_only)
        if not self.rule.from_last_goods or self.last_goods_on is None:
            return found
        return max(found, self.last_goods_on + dt.timedelta(days=int(self.rule.days.value)))

    @property
    def starts_early(self) -> bool:
        """Whether work begins, by the programme, while the customer may still cancel."""
        last = self.last_day(self.agreed_on)
        return last is not None and self.starts_on <= last


def cancelling(plan: Plan, rules: Rulebook) -> Cancelling:
    """Return the right to cancel of a job: a fact only where it is known where the work is agreed."""
    place, on = _agreed(plan.job, rules)
    quoted = plan.job.quoted
    why, rule = _rule(place, rules)
    return Cancelling(
        why_not=why,
        rule=rule,
        agreed_on=on or (plan.job.identity.date if quoted is None else quoted.on),
        agreed_is_known=on is not None,
        last_goods_on=max((each.on for each in plan.programme.deliveries), default=None),
        starts_on=plan.programme.start,
    )


def _agreed(job: Job, rules: Rulebook) -> tuple[AgreementPlace | None, dt.date | None]:
    """Return where and when a job is agreed: what was said of it, else what was accepted through the private link."""
    place, on, accepted = job.agreement.place, job.agreement.on, job.accepted
    if accepted is None:
        return place, on
    if place is None and accepted.means is AcceptedMeans.LINK:
        place = AgreementPlace.DISTANCE
    # the day on the site's own clock, not on that of a server
    return place, on or accepted.at.astimezone(rules.zone_in(job.identity.region) or accepted.at.tzinfo).date()


def _rule(place: AgreementPlace | None, rules: Rulebook) -> tuple[WhyNoNotice | None, CancellingRule | None]:
    if place is None:
        return WhyNoNotice.PLACE_NOT_KNOWN, None
    if place is AgreementPlace.PREMISES:
        return WhyNoNotice.AT_PREMISES, None
    rows = {row.key: row for row in rules.tables[_RULES].rows} if _RULES in rules.tables else {}
    if place.value not in rows:
        return WhyNoNotice.NO_RULE, None
    return None, _read(rows[place.value], rules)


def _read(row: TableRow, rules: Rulebook) -> CancellingRule:
    table, law = rules.table(_RULES), rules.table(_LAW).row("words")
    uncalled = "uncalled_days" in dict(row.values) and row.value("uncalled_days") != row.value("days")
    return CancellingRule(
        days=table.figure(row.key, "days"),
        working_days_only=bool(row.value("working_days_only")),
        from_last_goods=bool(row.value("from_last_goods")),
        uncalled_days=table.figure(row.key, "uncalled_days") if uncalled else None,
        law=law.label,
        law_is_read=law.status is Status.READ,
    )


def _counted(first: dt.date, days: int, *, skipping: bool) -> dt.date:
    """Return the last of so many days after a day, without Sundays where they do not count.

    >>> _counted(dt.date(2027, 5, 4), 14, skipping=False), _counted(dt.date(2027, 5, 7), 3, skipping=True)
    (datetime.date(2027, 5, 18), datetime.date(2027, 5, 11))
    """
    found = first
    while days:
        found += dt.timedelta(days=1)
        if not (skipping and found.weekday() == _SUNDAY):
            days -= 1
    return found
