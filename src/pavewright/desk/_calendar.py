"""The calendar of the firm at the desk: shown, arranged, moved by hand, each person's day on one sheet."""

from __future__ import annotations

import datetime as dt
import json
import time
from typing import TYPE_CHECKING, Any

from pavewright.crew_calendar import (
    EMPTY_CALENDAR,
    NoSuchStretchError,
    Searching,
    Sending,
    arrange,
    break_words,
    breaks_of,
    cost_of,
    move,
    not_placed_words,
    read,
    sent_words,
    shift_words,
    to_text,
)
from pavewright.desk._better_asked import PART
from pavewright.desk._book_verbs import BOOK, ScreenRefusalError, book_at_hand, plan_with_book
from pavewright.desk._calendar_asked import asked_of, booked, bookings_of, crew_of, to_settle
from pavewright.desk._calendar_needs import needs_of, with_a_start
from pavewright.desk._calendar_sheet import sheet_of
from pavewright.desk._plain import plain
from pavewright.job import JobInvalid
from pavewright.order_book import OPEN_STATES, PRICING_STATES

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from pavewright.crew_calendar import (
        Arrangement,
        ArrangingStep,
        Break,
        CalendarAsked,
        CalendarCost,
        CalendarDocument,
        Placed,
    )
    from pavewright.firm import FirmBook

    Report = Callable[[str], None]
    Verb = Callable[[bytes, Report], bytes]

_SEARCHING = {
    Searching.TURNS: "Trying one order of the jobs after another",
    Searching.BOUND: "Working out what no calendar can beat",
    Searching.AGAIN: "Trying orders of the jobs by the price of their days",
    Searching.SOME: "Moving some jobs at a time",
    Searching.ALL: "Looking at all jobs at once",
    Searching.WAYS: "Putting jobs of one place after each other",
}

_TELL_S = 0.5
"""How long the best so far may lag behind what is found. [s]"""


class CalendarAtHand:
    """What a question of the calendar brings along, read once."""

    def __init__(self, asked: dict[str, Any], book: FirmBook | None) -> None:
        """Read it.

        Raises:
            ScreenRefusalError: the calendar cannot be read.
        """
        try:
            self.document: CalendarDocument = read(asked["calendar"])
        except JobInvalid as invalid:
            raise ScreenRefusalError(" ".join(fault.message for fault in invalid.faults[:3])) from invalid
        self.book = book
        self.needs: dict[str, Any] = asked["needs"]
        self.today = dt.date.fromisoformat(asked["today"])
        self.asked: CalendarAsked = asked_of(self.document, book, self.needs, self.today)
        self._names = {each.id: each.name for each in (() if book is None else book.people)}

    def person(self, name: str) -> str:
        """Return what somebody is called."""
        return self._names.get(name) or "Somebody who is not in the book"

    def place(self, name: str) -> int:
        """Return at which place of the book somebody stands."""
        return list(self._names).index(name)

    def job(self, name: str) -> str:
        """Return what a job is called."""
        need = self.needs.get(name)
        return "a job that is not on the calendar" if need is None else str(need["title"])

    def placed(self) -> tuple[Placed, ...]:
        """Return what stands there of the jobs at hand."""
        return tuple(each for each in bookings_of(self.document) if each.job in self.needs)

    def broken(self, breaks: Sequence[Break]) -> list[dict[str, Any]]:
        """Return what breaks, with words."""
        return [plain(each) | {"soft": each.soft, "words": break_words(each, self.person, self.job)} for each in breaks]


EMPTY_CALENDAR_TEXT = to_text(EMPTY_CALENDAR)
"""The document of a calendar in which nobody has written yet."""


def read_calendar(document: str) -> CalendarDocument:
    """Return the calendar of a document; an empty one where there is none yet.

    Raises:
        JobInvalid: it is no calendar; carries every fault.
    """
    return read(document or EMPTY_CALENDAR_TEXT)


def on_calendar(document: CalendarDocument, needs: Mapping[str, dict[str, Any]]) -> dict[str, dict[str, Any]]:
    """Return the jobs that take days of the crew: accepted, planned or on site, and those that are pencilled in."""
    pencilled = {each.job for each in document.jobs if each.pencilled}
    taken = {state.value for state in OPEN_STATES}
    offered = {state.value for state in PRICING_STATES}
    return {
        name: need
        for name, need in needs.items()
        if need.get("state") in taken or (name in pencilled and need.get("state") in offered)
    }


def numbered(book: str, numbers: Callable[[], str]) -> str | None:
    """Return the firm's book with a number for everybody who has none; None where all have one.

    Args:
        book: The book.
        numbers: Gives a fresh number.
    """
    document = json.loads(book) if book else {}
    people = [each for each in document.get("people", []) if isinstance(each, dict)]
    without = [each for each in people if not each.get("id")]
    for each in without:
        each["id"] = numbers()
    return json.dumps(document, ensure_ascii=False, indent=1) if without else None


def needs_told(payload: bytes, report: Report, book: bytes) -> dict[str, Any]:
    """Return what the calendar needs of a job: of a day, a line feed and a job document."""
    day, _, document = payload.partition(b"\n")
    today = dt.date.fromisoformat(day.decode())
    try:
        begun, assumed = with_a_start(document, today)
        return needs_of(plan_with_book(begun, report, book), today, start_assumed=assumed)
    except JobInvalid as invalid:
        return {"title": "", "known": False, "missing": [fault.message for fault in invalid.faults[:3]]}


def calendar_told(asked: dict[str, Any], book: FirmBook | None) -> dict[str, Any]:
    """Return the calendar as a screen shows it: who, which jobs, what stands where, what breaks, what it costs."""
    at_hand = CalendarAtHand(asked, book)
    placed = at_hand.placed()
    return {
        "people": [
            {"id": one.id, "name": at_hand.person(one.id), "skills": [skill.value for skill in one.skills]}
            for one in sorted(crew_of(at_hand.document, book), key=lambda one: at_hand.place(one.id))
        ],
        "unnumbered": sum(each.id is None for each in (() if book is None else book.people)),
        "broken": at_hand.broken(breaks_of(at_hand.asked, placed)),
        "cost": _cost(at_hand, cost_of(at_hand.asked, placed)),
        "not_placed": _without_a_place(at_hand, placed),
    }


def _without_a_place(at_hand: CalendarAtHand, placed: Sequence[Placed]) -> list[dict[str, Any]]:
    """Return jobs that stand nowhere, with what is missing where their length is not known."""
    standing = {each.job for each in placed}
    out = {each.job for each in at_hand.document.jobs if each.left_out}
    return [
        {"job": name, "missing": need.get("missing", []), "known": need["known"], "left_out": name in out}
        for name, need in sorted(at_hand.needs.items())
        if name not in standing and (not need["known"] or need["stretches"])
    ]


def _cost(at_hand: CalendarAtHand, cost: CalendarCost) -> dict[str, Any]:
    sums = [plain(each) | {"known_minor": each.known_minor} for each in cost.sums]
    return dict(plain(cost), sums=sums, currency=at_hand.asked.currency)


def arranged_told(asked: dict[str, Any], book: FirmBook | None, report: Report) -> dict[str, Any]:
    """Return the calendar arranged anew round what is pinned, with how good it is at the least.

    The best so far is reported on the way: who stops the search keeps it.
    """
    at_hand = CalendarAtHand(asked, book)
    money = bool(asked.get("money", True))
    quick = asked.get("effort") == "quick"
    so_far = _SoFar(at_hand, report, money=money)

    def step(each: ArrangingStep) -> bool:
        gap = 100.0 * max(0.0, 1.0 - each.bound_job_days / max(each.job_days, 1e-9))
        report(
            f"{_SEARCHING[each.searching]}: {each.job_days:.1f} job-days, "
            f"no calendar is below {each.bound_job_days:.1f} (gap {gap:.1f} %)"
        )
        so_far.tell(each)
        return not quick or each.searching in {Searching.TURNS, Searching.BOUND}

    found = arrange(to_settle(at_hand.asked, at_hand.document, at_hand.today), step)
    return _arranged(at_hand, found, money=money)


def _arranged(at_hand: CalendarAtHand, found: Arrangement, *, money: bool) -> dict[str, Any]:
    return {
        "document": to_text(booked(at_hand.document, found.placed)),
        "job_days": found.job_days,
        "bound_job_days": found.bound_job_days,
        "gap_percent": found.gap_percent,
        "weighed": plain(found.weighed),
        "not_placed": [plain(each) | {"words": not_placed_words(each)} for each in found.not_placed],
        "skills_nobody_has": [skill.value for skill in found.skills_nobody_has],
        "broken": at_hand.broken(breaks_of(at_hand.asked, found.placed)),
    } | ({"cost": _cost(at_hand, cost_of(at_hand.asked, found.placed))} if money else {})


class _SoFar:
    """Tells the best so far while a search goes on, not more often than somebody could stop it."""

    def __init__(self, at_hand: CalendarAtHand, report: Report, *, money: bool) -> None:
        self._at_hand, self._report, self._money = at_hand, report, money
        self._told: tuple[float, float] | None = None
        self._next_s = 0.0

    def tell(self, step: ArrangingStep) -> None:
        """Tell it where it is better than what was told, or more is shown of it."""
        mark = step.job_days, step.bound_job_days
        if mark == self._told or time.monotonic() < self._next_s:
            return
        made = _arranged(self._at_hand, step.best(), money=self._money)
        self._report(PART + json.dumps({"so_far": made, "answers": {}}, ensure_ascii=False))
        self._told, self._next_s = mark, time.monotonic() + _TELL_S


def moved_told(asked: dict[str, Any], book: FirmBook | None) -> dict[str, Any]:
    """Return the calendar with a stretch moved by hand, what goes along, what breaks and what it costs.

    Raises:
        ScreenRefusalError: there is no such stretch, or no day of work from there on.
    """
    at_hand = CalendarAtHand(asked, book)
    to, sending = dt.date.fromisoformat(asked["to"]), _sending(asked)
    try:
        moved = move(at_hand.asked, at_hand.placed(), asked["job"], asked["stretch"], to, sending)
    except NoSuchStretchError:
        message = "That cannot be moved there: it does not stand on the calendar, or its days run past its end."
        raise ScreenRefusalError(message) from None
    return {
        "document": to_text(booked(at_hand.document, moved.placed)),
        "shifts": [plain(each) for each in moved.shifts],
        "shift_words": shift_words(moved.shifts),
        "sent_days": moved.sent_days,
        "sent_words": "" if sending is None else _sent_words(at_hand, sending, moved.sent_days),
        "broken": at_hand.broken(moved.broken),
        "mended": at_hand.broken(moved.mended),
        "before": _cost(at_hand, moved.before),
        "after": _cost(at_hand, moved.after),
    }


def _sending(asked: Mapping[str, Any]) -> Sending | None:
    if "comes" not in asked:
        return None
    leaves = asked.get("leaves")
    return Sending(tuple(asked["comes"]), None if leaves is None else tuple(leaves))


def _sent_words(at_hand: CalendarAtHand, sending: Sending, days: int) -> str:
    leaves = None if sending.leaves is None else [at_hand.person(each) for each in sending.leaves]
    return sent_words([at_hand.person(each) for each in sending.comes], leaves, days)


def _json(value: Any) -> bytes:  # noqa: ANN401 - anything that JSON holds
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()


def _sheets(payload: bytes, _report: Report) -> bytes:
    """Answer the sheet of one person on one day."""
    asked = json.loads(payload)
    at_hand = CalendarAtHand(asked, book_at_hand())
    on = dt.date.fromisoformat(asked["on"])
    return _json(sheet_of(at_hand.document, at_hand.needs, at_hand.person, asked["person"], on))


CALENDAR_VERBS: dict[str, Verb] = {
    "calendar_needs": lambda payload, report: _json(needs_told(payload, report, BOOK.get())),
    "calendar_told": lambda payload, _report: _json(calendar_told(json.loads(payload), book_at_hand())),
    "calendar_arrange": lambda payload, report: _json(arranged_told(json.loads(payload), book_at_hand(), report)),
    "calendar_move": lambda payload, _report: _json(moved_told(json.loads(payload), book_at_hand())),
    "calendar_sheet": _sheets,
}
"""What of the calendar a worker can be asked, by name."""
