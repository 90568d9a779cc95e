"""The firm's calendar: shown, kept, arranged, moved by hand; the day of each person; feeds for phones."""

from __future__ import annotations

import asyncio
import datetime as dt
import hashlib
import json
import secrets
from typing import TYPE_CHECKING, Any

from starlette.responses import Response
from starlette.routing import Route

from pavewright.desk import EMPTY_CALENDAR_TEXT, feed_of, numbered, on_calendar, order_words, read_calendar
from pavewright.job import JobInvalid
from pavewright.people import Right
from pavewright.store import StaleBookError, StaleCalendarError
from pavewright.web._answers import AskedWrongError, answer, document_in, name_in, sent, text_in, whole_in
from pavewright.web._customer_routes import today_here
from pavewright.web._customers import FEEDS, WrongTokens
from pavewright.web._people import ASKER
from pavewright.web._signed_in import store_of
from pavewright.web._who_asks import FIRM, may

if TYPE_CHECKING:
    from starlette.requests import Request

    from pavewright.store import KeptCalendar, Store
    from pavewright.web._calendar_at_hand import NeedsAtHand
    from pavewright.web._firms import Firms
    from pavewright.web._long_tasks import LongTasks
    from pavewright.web._workers import Workers

_TOLD_S, _MOVE_S = 20.0, 20.0
_ARRANGE = "calendar_arrange"
_CREW = 50
"""People of a day of a part at the most, as a calendar holds them."""
_CHANGED = "The calendar was changed elsewhere meanwhile. Look at it again, then change it."
_MONEY = ("cost", "before", "after")
"""Parts of an answer that hold money."""
_FEED_HEADERS = {"Cache-Control": "private, no-cache", "X-Robots-Tag": "noindex"}


def _plain(document: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(document or EMPTY_CALENDAR_TEXT)
    return found


async def _at_hand(request: Request, kept: KeptCalendar) -> tuple[dict[str, Any], dict[str, Any], int]:
    """Return what is asked of a worker, every job that is known, and how many are still to be planned."""
    needs_at_hand: NeedsAtHand = request.app.state.calendar_needs
    today = today_here()
    needs, waiting = await needs_at_hand.of(store_of(request), today)
    shown = on_calendar(read_calendar(kept.document), needs)
    asked = {"calendar": _plain(kept.document), "needs": shown, "today": today.isoformat()}
    return asked, needs, waiting


async def _ask(request: Request, verb: str, asked: dict[str, Any], seconds: float) -> dict[str, Any]:
    workers: Workers = request.app.state.workers
    told: dict[str, Any] = json.loads(await workers.ask("plan", verb, json.dumps(asked).encode(), seconds=seconds))
    return told if may(Right.SEE_MONEY) else {name: part for name, part in told.items() if name not in _MONEY}


def _job_told(need: dict[str, Any]) -> dict[str, Any]:
    """Return what a screen needs of a job: no money is in it."""
    names = ("title", "number", "address", "state", "known", "missing", "start", "start_assumed", "weather_known")
    told = {name: need.get(name) for name in names}
    told["stretches"] = [
        [{"hands": day["hands"], "rain": day["rain"], "skills": day["skills"]} for day in each["days"]]
        for each in need.get("stretches", [])
    ]
    told["links"] = need.get("links", [])
    told["state_words"] = order_words()["states"].get(need.get("state") or "", "")
    return told


async def _open(request: Request) -> Response:
    store = store_of(request)
    kept = await asyncio.to_thread(store.calendar.standing)
    asked, needs, waiting = await _at_hand(request, kept)
    told = await _ask(request, "calendar_told", asked, _TOLD_S)
    jobs = {name: _job_told(need) | {"on": name in asked["needs"]} for name, need in sorted(needs.items())}
    head = {"rev": kept.rev, "document": asked["calendar"], "today": asked["today"], "waiting": waiting}
    return answer(head | {"jobs": jobs, "may_change": may(Right.CALENDAR)} | told)


async def _save(request: Request) -> Response:
    """Keep a change of the calendar; one that cannot be read is refused with its faults."""
    asked = await sent(request)
    document, rev, note = document_in(asked), whole_in(asked, "rev"), text_in(asked, "note", 200, default="")
    key = name_in(text_in(asked, "key", 64)) if "key" in asked else None
    try:
        read_calendar(document)
    except JobInvalid as invalid:
        faults = [{"path": each.path, "message": each.message} for each in invalid.faults]
        return answer({"message": faults[0]["message"], "faults": faults}, 422)
    return await _kept(store_of(request), rev, document, note, key)


async def _kept(store: Store, rev: int, document: str, note: str, key: str | None = None) -> Response:
    try:
        return answer({"rev": await asyncio.to_thread(store.calendar.save, rev, document, note, key)})
    except StaleCalendarError as stale:
        return answer({"message": _CHANGED, "rev": stale.kept.rev, "document": _plain(stale.kept.document)}, 409)


async def _move(request: Request) -> Response:
    """Answer what a move by hand breaks and costs; ``keep`` keeps it."""
    store, asked = store_of(request), await sent(request)
    rev, stretch = whole_in(asked, "rev"), whole_in(asked, "stretch")
    job, to = name_in(text_in(asked, "job", 64)), _day_in(text_in(asked, "to", 10))
    kept = await asyncio.to_thread(store.calendar.standing)
    if kept.rev != rev:
        return answer({"message": _CHANGED, "rev": kept.rev, "document": _plain(kept.document)}, 409)
    question, _, _ = await _at_hand(request, kept)
    question |= {"job": job, "stretch": stretch, "to": to.isoformat()} | _people_in(asked)
    told = await _ask(request, "calendar_move", question, _MOVE_S)
    document = told.pop("document")
    if asked.get("keep") is not True:
        return answer(told)
    saved = await _kept(store, rev, document, "moved")
    return saved if saved.status_code != 200 else answer(told | json.loads(bytes(saved.body)))  # noqa: PLR2004 - OK


def _people_in(asked: dict[str, Any]) -> dict[str, list[str]]:
    """Return who is sent and who is not any more, as far as that was said."""
    found = {}
    for name in ("comes", "leaves"):
        people = asked.get(name)
        if people is None:
            continue
        if not isinstance(people, list) or len(people) > _CREW or not all(isinstance(one, str) for one in people):
            raise AskedWrongError(400, f"{name} is to be a list of people by their numbers in the firm's book.")
        found[name] = [name_in(one) for one in people]
    if "leaves" in found and "comes" not in found:
        raise AskedWrongError(400, "leaves is to come with comes: who goes instead.")
    return found


async def _arrange(request: Request) -> Response:
    """Begin to arrange the calendar anew; the long task brings the document, which is kept when somebody says so."""
    long_tasks: LongTasks = request.app.state.long_tasks
    asked = await sent(request)
    effort = text_in(asked, "effort", 10, default="usual")
    if effort not in {"quick", "usual"}:
        raise AskedWrongError(400, "effort is to be quick or usual.")
    kept = await asyncio.to_thread(store_of(request).calendar.standing)
    question, _, waiting = await _at_hand(request, kept)
    if waiting:
        raise AskedWrongError(409, "Some jobs are still being worked out: wait a moment.")
    payload = json.dumps(question | {"effort": effort, "money": may(Right.SEE_MONEY)}).encode()
    name = long_tasks.begin(_ARRANGE, payload, ASKER.get().person)
    return answer({"long_task": name, "rev": kept.rev}, 202)


async def _arranged_so_far(request: Request) -> Response:
    """Answer how far it is with the best calendar so far, also once it was stopped."""
    long_tasks: LongTasks = request.app.state.long_tasks
    name = name_in(request.path_params["long_task"])
    reported = long_tasks.reported(name)
    if reported["verb"] != _ARRANGE:
        raise AskedWrongError(404, "There is no such search of the calendar.")
    return answer(reported | {"so_far": long_tasks.so_far(name)})


async def _sheet(request: Request) -> Response:
    store = store_of(request)
    person, on = request.query_params.get("person", ""), _day_in(request.query_params.get("on", ""))
    kept = await asyncio.to_thread(store.calendar.standing)
    needs_at_hand: NeedsAtHand = request.app.state.calendar_needs
    jobs = {each.job for each in read_calendar(kept.document).bookings}
    needs = await needs_at_hand.whole(store, today_here(), jobs)
    question = {"calendar": _plain(kept.document), "needs": needs, "today": today_here().isoformat()}
    told = await _ask(request, "calendar_sheet", question | {"person": name_in(person), "on": on.isoformat()}, _TOLD_S)
    return answer(told)


def _day_in(text: str) -> dt.date:
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        raise AskedWrongError(400, "A day is to be written as 2027-05-10.") from None


async def _number(request: Request) -> Response:
    """Give everybody in the firm's book a number who has none: the calendar goes by numbers, not by names."""
    store = store_of(request)
    book = await asyncio.to_thread(store.firm.book)
    document = numbered(book.document, lambda: secrets.token_hex(6))
    if document is None:
        return answer({"rev": book.rev, "numbered": False})
    try:
        rev = await asyncio.to_thread(store.firm.save, book.rev, document, "people numbered for the calendar")
    except StaleBookError:
        raise AskedWrongError(409, "Somebody changed the firm's book in this very moment: try again.") from None
    return answer({"rev": rev, "numbered": True})


async def _revisions(request: Request) -> Response:
    found = await asyncio.to_thread(store_of(request).calendar.revisions)
    return answer({"revisions": [{"rev": one.rev, "at": one.at, "note": one.note} for one in found]})


async def _revision(request: Request) -> Response:
    rev = request.path_params["rev"]
    one = await asyncio.to_thread(store_of(request).calendar.revision, rev) if 0 < rev < 2**31 else None
    if one is None:
        raise AskedWrongError(404, "There is no such revision.")
    return answer({"rev": one.rev, "at": one.at, "note": one.note, "document": json.loads(one.document)})


async def _feeds(request: Request) -> Response:
    found = await asyncio.to_thread(store_of(request).calendar.feeds)
    return answer({"feeds": [{"id": each.id, "person": each.person, "made": each.made} for each in found]})


async def _make_feed(request: Request) -> Response:
    """Make a feed of somebody's days; its address is shown this once."""
    asked = await sent(request)
    person = name_in(text_in(asked, "person", 12))
    feed, token = await asyncio.to_thread(store_of(request).calendar.make_feed, person)
    firms: Firms = request.app.state.firms
    return answer({"id": feed.id, "person": person, "path": f"{FEEDS}{firms.name_at_hand()}/{token}.ics"}, 201)


async def _withdraw_feed(request: Request) -> Response:
    done = await asyncio.to_thread(store_of(request).calendar.withdraw_feed, name_in(request.path_params["feed"]))
    if not done:
        raise AskedWrongError(404, "There is no such feed.")
    return answer({"withdrawn": True})


async def _feed(request: Request) -> Response:
    """Answer the days of somebody by the token of the feed alone; a wrong one is answered like a withdrawn one."""
    firms: Firms = request.app.state.firms
    firm = str(request.path_params["firm"])
    store = await asyncio.to_thread(firms.named, firm)
    if store is not None and store is not firms.installed.first:
        FIRM.set(firm)  # jobs are planned with the book of their own firm
    feed = None if store is None else await asyncio.to_thread(store.calendar.feed_of, request.path_params["token"])
    if store is None or feed is None:
        return _no_feed(request)
    kept = await asyncio.to_thread(store.calendar.standing)
    needs_at_hand: NeedsAtHand = request.app.state.calendar_needs
    jobs = {each.job for each in read_calendar(kept.document).bookings}
    needs = await needs_at_hand.whole(store, today_here(), jobs)
    content = await asyncio.to_thread(feed_of, kept.document, needs, feed.person, kept.rev, kept.at)
    mark = f'"{hashlib.sha256(content).hexdigest()[:32]}"'
    headers = _FEED_HEADERS | {"ETag": mark}
    if request.headers.get("if-none-match") == mark:
        return Response(status_code=304, headers=headers)
    return Response(content, media_type="text/calendar; charset=utf-8", headers=headers)


def _no_feed(request: Request) -> Response:
    wrong: WrongTokens = request.app.state.wrong_tokens
    if wrong.is_too_many(request.client.host if request.client else ""):
        return answer({"message": "Too many wrong addresses: wait a minute."}, 429)
    return answer({"message": "There is no such calendar, or it was withdrawn."}, 404)


ROUTES = (
    Route("/api/calendar", _open, methods=["GET"]),
    Route("/api/calendar", _save, methods=["PUT"]),
    Route("/api/calendar/move", _move, methods=["POST"]),
    Route("/api/calendar/arrange", _arrange, methods=["POST"]),
    Route("/api/calendar/arrange/{long_task}", _arranged_so_far, methods=["GET"]),
    Route("/api/calendar/sheet", _sheet, methods=["GET"]),
    Route("/api/calendar/people", _number, methods=["POST"]),
    Route("/api/calendar/revisions", _revisions, methods=["GET"]),
    Route("/api/calendar/revisions/{rev:int}", _revision, methods=["GET"]),
    Route("/api/calendar/feeds", _feeds, methods=["GET"]),
    Route("/api/calendar/feeds", _make_feed, methods=["POST"]),
    Route("/api/calendar/feeds/{feed}", _withdraw_feed, methods=["DELETE"]),
    Route(FEEDS + "{firm}/{token}.ics", _feed, methods=["GET"]),
)
