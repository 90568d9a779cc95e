"""The list of jobs: found, filtered, counted, a page at a time; and its lines, worked out beside everything else."""

from __future__ import annotations

import asyncio
import contextlib
import datetime as dt
import json
from typing import TYPE_CHECKING, Any, TypeVar

from starlette.routing import Route

from pavewright.desk import order_words, state_told, summary_without_money
from pavewright.order_book import JobState
from pavewright.people import Right
from pavewright.store import JobsAsked, Shelf, SortedBy, StoreTroubleError
from pavewright.web._answers import AskedWrongError, answer
from pavewright.web._customer_routes import today_here
from pavewright.web._signed_in import store_of
from pavewright.web._who_asks import context_of_firm, firm_at_hand, may
from pavewright.web._workers import LeftError, Refusal, WorkFailedError, WorkStoppedError

if TYPE_CHECKING:
    from enum import StrEnum

    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.store import ListedJob, Store
    from pavewright.web._workers import Workers

    _Word = TypeVar("_Word", bound=StrEnum)

_SUMMARY_S = 60.0
_PAGE = 100
"""Jobs of one page."""
_AHEAD_DAYS = 7
"""A price lapses soon where it holds no longer than so many days from today. [days]"""


def _asked(request: Request) -> JobsAsked:
    """Return which jobs a browser wants."""
    given = request.query_params
    words = {name: given.get(name, "")[:200].replace("\x00", "") for name in ("words", "person", "place")}
    shelf = next((each for each in (Shelf.ARCHIVED, Shelf.DELETED) if given.get(each.value) == "1"), Shelf.JOBS)
    state, today = given.get("state", ""), today_here()
    unsaid = state == "unsaid"
    until = today + dt.timedelta(days=_AHEAD_DAYS) if given.get("lapsing") == "1" else None
    start = given.get("start", "0")
    if not (start.isascii() and start.isdecimal() and len(start) < 8):  # noqa: PLR2004 - figures of a number
        raise AskedWrongError(400, "start is to be a whole number.")
    return JobsAsked(
        today,
        words["words"],
        shelf,
        None if unsaid or not state else _one_of(JobState, state),
        unsaid,
        words["place"] if "place" in given else None,
        words["person"],
        given.get("owing") == "1" and may(Right.SEE_MONEY),
        until,
        _order_in(given.get("sort", SortedBy.CHANGED)),
        int(start),
        _PAGE,
    )


def _order_in(word: str) -> SortedBy:
    """Return the order that was asked for; that of prices tells of them, and is for who sees money."""
    found = _one_of(SortedBy, word)
    return SortedBy.CHANGED if found is SortedBy.PRICE and not may(Right.SEE_MONEY) else found


def _one_of(kind: type[_Word], word: str) -> _Word:
    try:
        return kind(word)
    except ValueError:
        raise AskedWrongError(400, "Jobs are not listed by that.") from None


async def _list(request: Request) -> Response:
    store, asked = store_of(request), _asked(request)
    page = await asyncio.to_thread(store.orders.page, asked)
    waiting = await asyncio.to_thread(store.quotations.waiting)
    accepted = await asyncio.to_thread(store.quotations.accepted_jobs)
    behind = {one.row.id: one.row.rev for one in page.jobs if one.row.summary_rev != one.row.rev}
    stale = await asyncio.to_thread(store.orders.stale, _PAGE)
    for job_id, rev in (behind | dict(stale)).items():
        _sum_up(request, job_id, rev)
    money = may(Right.SEE_MONEY)
    jobs = [_told(one, waiting.get(one.row.id, 0), one.row.id in accepted, money=money) for one in page.jobs]
    states = {"unsaid" if state is None else state.value: count for state, count in page.states.items()}
    told = {"jobs": jobs, "total": page.total, "start": asked.start, "states": states, "behind": len(stale)}
    return answer(told | {"money": money, "order": order_words()})


def _told(one: ListedJob, questions: int, accepted: bool, *, money: bool) -> dict[str, Any]:  # noqa: FBT001 - a fact
    row = one.row
    summary = json.loads(row.summary) if row.summary else None
    if summary is not None and not money:
        summary = summary_without_money(summary)
    return {
        "id": row.id,
        "rev": row.rev,
        "title": row.title,
        "archived": row.archived,
        "changed": row.changed,
        "summary": summary,
        "fresh": row.summary_rev == row.rev,
        "questions": questions,
        "accepted": accepted,
        "standing": None if one.facts is None else state_told(one.facts),
        "place": one.place,
        "holds_until": None if one.holds_until is None else one.holds_until.isoformat(),
        "owing_minor": one.owing_minor if money else None,
    }


def _sum_up(request: Request, job_id: str, rev: int) -> None:
    """Have the line of the list worked out beside everything else, once for each revision."""
    under_way: dict[tuple[str | None, str, int], asyncio.Task[None]] = request.app.state.summaries
    key = (firm_at_hand(), job_id, rev)
    if key not in under_way:
        state = request.app.state
        summing = _summed(store_of(request), state.workers, state.summing, job_id, rev)
        # the line is kept for everybody: it is worked out with the money, whoever asked first
        task = asyncio.create_task(summing, context=context_of_firm())
        under_way[key] = task
        task.add_done_callback(lambda _: under_way.pop(key, None))


async def _summed(store: Store, workers: Workers, summing: asyncio.Lock, job_id: str, rev: int) -> None:
    """Work out one line, one job after the other: of a thousand jobs one document is in memory."""
    with contextlib.suppress(StoreTroubleError, LeftError):  # the list asks again
        async with summing:
            kept = await asyncio.to_thread(store.job, job_id)
            book = await asyncio.to_thread(store.firm.mark)
            if kept.rev != rev:
                return
            try:
                reported = await workers.ask_kept("plan", "summary", kept.document.encode(), seconds=_SUMMARY_S)
            except (Refusal, WorkStoppedError, WorkFailedError):
                reported = b'{"stage":"measure","next":"This job takes too long to work out.","stops":1,"outlines":[]}'
            told = json.loads(reported)
            line = told.pop("book", None)
            if await asyncio.to_thread(store.firm.mark) == book:  # else the list asks again
                await asyncio.to_thread(store.keep_summary, job_id, rev, json.dumps(told, ensure_ascii=False), line)


async def _places(request: Request) -> Response:
    """Answer with the places of jobs: how many jobs are in each, and how many things are due there."""
    store, today = store_of(request), today_here()
    found = await asyncio.to_thread(store.orders.places)
    due = await asyncio.to_thread(store.orders.due_places, today, money=may(Right.SEE_MONEY))
    told = [{"place": place, "jobs": count, "due": due.get(place, 0)} for place, count in found.items()]
    return answer({"places": told})


ROUTES = (
    Route("/api/jobs", _list, methods=["GET"]),
    Route("/api/places", _places, methods=["GET"]),
)
