"""What is noticed of deliveries: what cannot come in time, and room that is short or not known where it is set down."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from pavewright.cost import carried, terms_of
from pavewright.findings import FieldChange, Finding, Option, OptionFacts, OptionKind, Severity
from pavewright.programme import _delivery_words as words
from pavewright.programme._codes import Code
from pavewright.programme._deliveries import comes_on, supplied_on
from pavewright.units import minor_to_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.cost import Hire
    from pavewright.job import Job, SupplierKind
    from pavewright.programme._clock import WorkingTime
    from pavewright.programme._figures import ProgrammeFigures
    from pavewright.programme._supply_types import Delivery


def delivery_notices(
    job: Job,
    found: Sequence[Delivery],
    hires: Sequence[Hire],
    clock: WorkingTime,
    start: dt.date,
    figures: ProgrammeFigures,
) -> Iterator[Finding]:
    """Give lead times that cannot be met from the date of the job, and days on which the room is short or not known."""
    for each in found:
        if each.order_by is not None and each.lead_days is not None and not each.begun:
            slow = [line.description for line in each.items if line.lead_days == each.lead_days]
            yield from _late(job, words.what(slow, each.supplier), each.on, each.lead_days, clock, start)
    for hire in hires:
        entry = job.rates.plant[hire.key.number]
        if hire.on is not None and entry.lead_days is not None:
            name = entry.name or hire.key.kind.value.capitalize()
            yield from _late(job, words.what([name], entry.supplier), hire.on, entry.lead_days, clock, start)
    yield from _room(job, found, figures)
    yield from _same_day(found)
    yield from _carriage(job, found)


def _same_day(found: Sequence[Delivery]) -> Iterator[Finding]:
    """Give the days on which several suppliers come, whether there is room for what they bring or not."""
    by_day: dict[dt.date, dict[tuple[str, SupplierKind | None], None]] = {}
    for each in found:
        if not each.begun:
            by_day.setdefault(each.on, {})[each.supplier, each.supplier_kind] = None
    busy = {on: [supplier for supplier, _ in whom] for on, whom in sorted(by_day.items()) if len(whom) > 1}
    if busy:
        options = tuple(Option(each) for each in words.keep_apart())
        yield Finding(Code.TWO_DELIVERIES, Severity.NOTE, "programme", words.same_day(busy), options=options)


def _carriage(job: Job, found: Sequence[Delivery]) -> Iterator[Finding]:
    """Give suppliers who are paid to come on more than one day, with what one delivery saves."""
    by_whom: dict[tuple[str, SupplierKind | None], list[Delivery]] = {}
    for each in found:
        by_whom.setdefault((each.supplier, each.supplier_kind), []).append(each)
    for (supplier, _), theirs in by_whom.items():
        comes = {line.key: each.on for each in theirs for line in each.items}
        paid = [each for each in carried([(key, terms_of(key, job)) for key in comes], comes) if each.carriage_minor]
        if len(paid) > 1:
            amounts = [each.carriage_minor or 0 for each in paid]
            money = [minor_to_text(each, job.identity.currency) for each in (sum(amounts), sum(amounts) - max(amounts))]
            days = [each.on for each in paid if each.on is not None]
            said, option = words.carriage_again(supplier, days, *money), Option(words.bring_at_once(days[0]))
            yield Finding(Code.CARRIAGE_AGAIN, Severity.NOTE, "programme", said, options=(option,))


def _late(job: Job, what: str, on: dt.date, lead_days: int, clock: WorkingTime, start: dt.date) -> Iterator[Finding]:
    """Give what comes too late if it is ordered on the date of the job; what is done since shows that it came."""
    ordered = job.identity.date
    comes = comes_on(job, ordered, lead_days)
    if comes <= on or any(each.on >= on for each in job.done):
        return
    left = sum(supplied_on(job, ordered + dt.timedelta(days=number)) for number in range(1, (on - ordered).days + 1))
    late = sum(clock.works_on(on + dt.timedelta(days=number)) for number in range(1, (comes - on).days + 1))
    begins = start
    for _ in range(max(late, 1)):
        begins = clock.first_moment(dt.datetime.combine(begins + dt.timedelta(days=1), dt.time())).date()
    later = Option(
        words.begin_later(begins),
        () if job.done else (FieldChange("calendar.start", begins.isoformat()),),
        OptionFacts(OptionKind.WISH),
    )
    said = words.lead_too_long(what, lead_days, ordered, comes, on)
    yield Finding(
        *(Code.LEAD_TOO_LONG, Severity.CHECK, "programme", said, float(lead_days), float(left), "days"),
        options=(later, Option(words.another_supplier(left)), Option(words.ordered_already(on))),
    )


def _room(job: Job, found: Sequence[Delivery], figures: ProgrammeFigures) -> Iterator[Finding]:
    """Give days on which more comes than there is room for; where nobody has said how much there is, ask once."""
    room_m2 = job.arrangements.drop_space_m2
    by_day: dict[dt.date, list[Delivery]] = {}
    for each in found:
        if not each.begun:
            by_day.setdefault(each.on, []).append(each)
    most = max(by_day.items(), key=lambda day: sum(each.room_m2 for each in day[1]), default=None)
    figure = figures.drop_kg_per_m2
    if room_m2 is None:
        if most is not None and sum(each.room_m2 for each in most[1]) > 0.0:
            said = words.room_not_known(*_day(most))
            options: tuple[Option, ...] = (Option(words.ask_room()),)
            wanted = sum(each.room_m2 for each in most[1])
            yield Finding(
                *(Code.DROP_SPACE_ASKED, Severity.NOTE, "programme", said, wanted, None, "m²", figure), options=options
            )
        return
    for day in by_day.items():
        wanted = sum(each.room_m2 for each in day[1])
        if wanted > room_m2:
            said = words.room_short(*_day(day), room_m2)
            ways = tuple(Option(each) for each in words.make_room(suppliers=_day(day)[1]))
            yield Finding(
                *(Code.DROP_SPACE, Severity.CHECK, "programme", said, wanted, room_m2, "m²", figure), options=ways
            )


def _day(day: tuple[dt.date, list[Delivery]]) -> tuple[dt.date, int, float, bool]:
    """Return a day with how many suppliers come, the room that they take, and whether all of that is known."""
    on, found = day
    suppliers = len({(each.supplier, each.supplier_kind) for each in found})
    return on, suppliers, sum(each.room_m2 for each in found), all(each.kg_known for each in found)
