"""The live door: ``GET /api/live`` tells what happens to every job of the firm, ``?job=…`` what happens to one.

Whoever takes ``text/event-stream`` gets a stream: ``stand`` first, then ``change`` with the name of the job, its
revision and what happened, ``here`` where somebody came or left, ``anew`` where not everything could be told and the
job or the list is to be read again, ``quiet`` where nothing happened for a while, and ``over`` where the stream ends
and the right to it may have ended too. Each that was told of has a number: whoever comes back with ``Last-Event-ID``,
or ``after`` in the address, is told what he missed. Whoever takes anything else gets where it stands now, once, as
JSON.
"""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

import anyio
from starlette.responses import StreamingResponse
from starlette.routing import Route

from pavewright.store import UnknownJob
from pavewright.web._answers import answer, name_in, sent, text_in
from pavewright.web._door import DEVICE
from pavewright.web._people import ASKER
from pavewright.web._signed_in import store_of
from pavewright.web._who_asks import SIGNED_IN, firm_at_hand
from pavewright.web.live._events import Kind, written
from pavewright.web.live._listener import Listener, Whose

if TYPE_CHECKING:
    from collections.abc import AsyncIterator

    from starlette.requests import Request
    from starlette.responses import Response
    from starlette.types import Receive, Scope, Send

    from pavewright.web.live._events import Told
    from pavewright.web.live._hub import Feed, Live

_STREAM = "text/event-stream"
_AGAIN_MS = 3_000
"""After how long a browser that was cut off comes back where its page says nothing else. [ms]"""


def live_of(request: Request) -> Live:
    """Return who listens at an application."""
    found: Live = request.app.state.live
    return found


def whose_is_it() -> Whose:
    """Return whose request this is: the person, else the paired device, else the browser."""
    asks, device, asker = SIGNED_IN.get(), DEVICE.get(), ASKER.get().person
    browser = f"browser {asker.address} {asker.name}"
    if asks is not None:
        return Whose(asks.person_id, asks.sign_in_id or asks.token_id or browser, asks)
    if device is not None:
        return Whose(f"device {device.id}", f"device {device.id}", device_id=device.id)
    return Whose(browser, browser)


async def _listen(request: Request) -> Response:
    live, feed = live_of(request), live_of(request).feed(firm_at_hand())
    given = request.query_params.get("job", "")
    job = name_in(given) if given else None
    seen = await feed.look()
    if job is not None and job not in seen.marks:
        raise UnknownJob(job)
    if request.method == "HEAD" or _STREAM not in request.headers.get("accept", ""):
        told = {"number": feed.events.id_of(feed.events.last)}
        return answer(told if job is None else told | {"job": job, "rev": seen.marks[job].rev})
    whose = whose_is_it()
    live.must_have_room(whose)
    last_id = request.headers.get("last-event-id") or request.query_params.get("after", "")
    return _Stream(live, feed, Listener(whose, job), last_id)


class _Stream(StreamingResponse):
    """A stream of events, counted from its beginning to its end."""

    def __init__(self, live: Live, feed: Feed, listener: Listener, last_id: str) -> None:
        super().__init__(
            _told(feed, listener, last_id),
            media_type=_STREAM,
            headers={"Cache-Control": "no-store", "X-Accel-Buffering": "no"},
        )
        self._live, self._feed, self._listener = live, feed, listener
        live.join(feed, listener)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        try:
            with anyio.CancelScope() as cancel:
                self._listener.scope = cancel
                await super().__call__(scope, receive, send)
        finally:
            self._feed.listeners.discard(self._listener)


async def _told(feed: Feed, listener: Listener, last_id: str) -> AsyncIterator[str]:
    """Give what is told to one listener, line by line, until his stream ends."""
    yield f"retry: {_AGAIN_MS}\n\n" + _opening(feed, listener, last_id)
    while not listener.over:
        told, behind = await listener.take()
        if behind:
            yield _stand(feed, listener, "anew")
        elif told:
            yield "".join(_line(feed, each) for each in told)
        elif not listener.over:
            yield written("quiet", {})
    yield written("over", {})


def _opening(feed: Feed, listener: Listener, last_id: str) -> str:
    """Return where it stands, and what was missed since an event."""
    if not last_id:
        return _stand(feed, listener, "stand")
    missed = feed.events.since(last_id)
    if missed is None:
        return _stand(feed, listener, "anew")
    mine = [each for each in missed if listener.job in {None, each.job}]
    return "".join(_line(feed, each) for each in mine) or _stand(feed, listener, "stand")


def _stand(feed: Feed, listener: Listener, event: str) -> str:
    mark = None if feed.seen is None or listener.job is None else feed.seen.marks.get(listener.job)
    stands: dict[str, str | int] = {} if listener.job is None else {"job": listener.job}
    return written(event, stands | ({"rev": mark.rev} if mark is not None else {}), feed.events.id_of(feed.events.last))


def _line(feed: Feed, told: Told) -> str:
    facts: dict[str, str | int] = {"job": told.job, "rev": told.rev}
    if told.kind is Kind.HERE:
        return written("here", facts)
    return written("change", facts | {"kind": told.kind.value}, feed.events.id_of(told.number))


async def _here(request: Request) -> Response:
    """Note that a page is open at a stage, or that it was closed, and answer who else is there."""
    live, firm_id, job = live_of(request), firm_at_hand(), name_in(request.path_params["job"])
    asked = await sent(request)
    page, stage = name_in(text_in(asked, "page", 64)), text_in(asked, "stage", 40, default="")
    stage = name_in(stage) if stage else ""
    await asyncio.to_thread(store_of(request).job, job)
    asks, device, whose = SIGNED_IN.get(), DEVICE.get(), whose_is_it()
    name = asks.name if asks is not None else "" if device is None else device.name
    firm = firm_id or live.first_id
    if asked.get("left") is True:
        is_new = live.presence.leave(firm, job, page, whose.person)
    else:
        is_new = live.presence.say(firm, job, page, (whose.person, name), stage)
    if is_new:
        live.say_here(firm, job)
    return answer({"here": live.presence.others(firm, job, page, whose.person)})


ROUTES = (
    Route("/api/live", _listen, methods=["GET"]),
    Route("/api/jobs/{job}/here", _here, methods=["POST"]),
)
"""Routes of the live door."""
