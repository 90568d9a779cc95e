"""Live: one poller for all who listen. It looks into the database, and tells each what concerns him."""

from __future__ import annotations

import asyncio
import contextlib
import time
from collections import Counter
from typing import TYPE_CHECKING

from pavewright.store import StoreTroubleError
from pavewright.web._answers import AskedWrongError
from pavewright.web.live import _live_words as words
from pavewright.web.live._events import Kind, Numbered, Told, differences
from pavewright.web.live._listener import HEARTBEAT_S, LONGEST_S
from pavewright.web.live._presence import Presence
from pavewright.web.live._still_in import out_by_now

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.store import Installation, Seen, Store
    from pavewright.web.live._listener import Listener, Whose
    from pavewright.web.sign_in import Guard

LOOK_S = 0.4
"""How often the database is looked into where this server changed nothing itself: others write too. [s]"""
_REST_S = 0.05
"""How long the poller rests after a look, so that many changes are told together. [s]"""
STILL_S = 2.0
"""How often it is asked whether those who listen may do so. [s]"""
_STUCK_S = 4 * HEARTBEAT_S
"""A stream of which nothing was taken for so long is ended. [s]"""
FOR_A_BROWSER = 4
"""Streams of one browser: it holds six lines to a server, and the rest have to stay free for what is asked."""
FOR_A_PERSON = 12
"""Streams of one person."""
FOR_A_SERVER = 600
"""Streams of one server."""


class Feed:
    """What happens in one firm, and who listens to it."""

    def __init__(self, store: Store) -> None:
        """Keep the store."""
        self.store = store
        self.events = Numbered()
        self.listeners: set[Listener] = set()
        self.seen: Seen | None = None
        self._turn = asyncio.Lock()

    async def look(self) -> Seen:
        """Look what happened since the last look, and tell it."""
        async with self._turn:
            before, self.seen = self.seen, await asyncio.to_thread(self.store.standing.look, self.seen)
            if before is not None and before is not self.seen:
                for kind, job, rev in differences(before.marks, self.seen.marks):
                    self.tell(self.events.add(kind, job, rev))
            return self.seen

    def tell(self, told: Told) -> None:
        """Tell an event to everybody whom it concerns."""
        for each in self.listeners:
            each.offer(told)


class Live:
    """Everybody who listens at this server."""

    def __init__(self, installed: Installation, guard: Guard) -> None:
        """Begin without anybody."""
        self.presence = Presence()
        self._installed, self._guard = installed, guard
        self._feeds: dict[str, Feed] = {}
        self._woken = asyncio.Event()
        self._closed = False
        self._unhook: list[Callable[[], None]] = []

    def feed(self, firm_id: str | None) -> Feed:
        """Return the feed of a firm; of the first one where none is named."""
        name = firm_id or self._installed.first_id
        if name not in self._feeds:
            store = self._installed.store_of(name)
            self._feeds[name] = Feed(store)
            self._hook(store)
        return self._feeds[name]

    def _hook(self, store: Store) -> None:
        """Have the store say at once when this server wrote: no look is waited for."""
        loop = asyncio.get_running_loop()

        def woken() -> None:
            with contextlib.suppress(RuntimeError):  # the server is at its end
                loop.call_soon_threadsafe(self._woken.set)

        store.after_write.append(woken)
        self._unhook.append(lambda: store.after_write.remove(woken))

    @property
    def first_id(self) -> str:
        """The first firm of the installation."""
        return self._installed.first_id

    @property
    def listeners(self) -> list[Listener]:
        """Everybody who listens."""
        return [each for feed in self._feeds.values() for each in feed.listeners]

    def must_have_room(self, whose: Whose) -> None:
        """Look whether one more may listen.

        Raises:
            AskedWrongError: the server is at its end, or there are too many: 503.
        """
        if self._closed:
            raise AskedWrongError(503, words.STOPPING)
        browsers = Counter(each.whose.place for each in self.listeners)
        people = Counter(each.whose.person for each in self.listeners)
        if browsers[whose.place] >= FOR_A_BROWSER or people[whose.person] >= FOR_A_PERSON:
            raise AskedWrongError(503, words.TOO_MANY_OF_YOURS)
        if people.total() >= FOR_A_SERVER:
            raise AskedWrongError(503, words.TOO_MANY)

    def join(self, feed: Feed, listener: Listener) -> None:
        """Take somebody in who listens."""
        feed.listeners.add(listener)
        self._woken.set()

    def say_here(self, firm_id: str | None, job: str) -> None:
        """Tell that somebody came to a job or left it."""
        feed = self.feed(firm_id)
        mark = None if feed.seen is None else feed.seen.marks.get(job)
        feed.tell(Told(Kind.HERE, job, 0 if mark is None else mark.rev))

    async def watch(self) -> None:
        """Look and tell, again and again, while somebody listens; asleep while nobody does."""
        looked_s = 0.0
        while True:
            listening = self.listeners
            with contextlib.suppress(TimeoutError):
                async with asyncio.timeout(LOOK_S if listening else None):
                    await self._woken.wait()
            self._woken.clear()
            for feed in [each for each in self._feeds.values() if each.listeners]:
                with contextlib.suppress(StoreTroubleError):
                    await feed.look()
            if time.monotonic() - looked_s >= STILL_S:
                looked_s = time.monotonic()
                with contextlib.suppress(StoreTroubleError):
                    await self.look_who_is_out()
            await asyncio.sleep(_REST_S)

    async def look_who_is_out(self) -> None:
        """End the streams of those who may not listen any more, and of those that lasted long or are stuck."""
        now, listening = time.monotonic(), self.listeners
        for each in await out_by_now(listening, self._installed, self._guard):
            each.end()
        for each in listening:
            if now - each.begun_s > LONGEST_S:
                each.end()
            if now - each.taken_s > _STUCK_S and each.scope is not None:
                each.scope.cancel()
        for firm_id, job in self.presence.sweep():
            self.say_here(firm_id, job)

    def close(self) -> None:
        """End every stream: the server is being stopped, and waits for none of them."""
        self._closed = True
        for each in self.listeners:
            each.end()
        for unhook in self._unhook:
            unhook()
        self._unhook.clear()
