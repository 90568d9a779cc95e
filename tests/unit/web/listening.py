"""A stream of the live door as the tests read it, and the server that it comes from."""

from __future__ import annotations

import asyncio
import contextlib
import json

from pavewright.desk import demo_document
from pavewright.store import Batch
from pavewright.web import Workers, make_app

PATIENT_s = 30.0
HERE = ("127.0.0.1", 8321)


class Stream:
    """A request of its own to the application, read event by event."""

    def __init__(self, app, path, headers=(), client=("127.0.0.1", 40000), server=HERE):
        path, _, query = path.partition("?")
        given = {"host": f"{server[0]}:{server[1]}", "accept": "text/event-stream"} | dict(headers)
        self.scope = {
            "type": "http", "asgi": {"version": "3.0", "spec_version": "2.3"}, "http_version": "1.1", "method": "GET",
            "scheme": "http", "path": path, "raw_path": path.encode(), "query_string": query.encode(), "root_path": "",
            "headers": [(name.encode(), value.encode()) for name, value in given.items()], "client": client, "server": server,
        }  # fmt: skip
        self.app, self.status, self.text = app, 0, ""
        self.answered = asyncio.Event()
        self.came, self.left = asyncio.Event(), asyncio.Event()
        self.reads = asyncio.Event()
        self.reads.set()

    async def __aenter__(self):
        self.task = asyncio.create_task(self.app(self.scope, self._receive, self._send))
        async with asyncio.timeout(PATIENT_s):
            await self.answered.wait()
        return self

    async def __aexit__(self, *_):
        self.left.set()
        self.task.cancel()
        with contextlib.suppress(asyncio.CancelledError):
            await self.task

    async def _receive(self):
        await self.left.wait()
        return {"type": "http.disconnect"}

    async def _send(self, message):
        if message["type"] == "http.response.start":
            self.status = message["status"]
            self.answered.set()
            return
        await self.reads.wait()
        self.text += message.get("body", b"").decode()
        self.came.set()

    @property
    def events(self):
        """Each event: its name, its number and what it says."""
        found = []
        for block in self.text.split("\n\n"):
            lines = dict(
                line.split(": ", 1) for line in block.splitlines() if ": " in line and not line.startswith(":")
            )
            if "event" in lines:
                found.append((lines["event"], lines.get("id", ""), json.loads(lines["data"])))
        return found

    async def until(self, done):
        """Wait until the events are as they should be."""
        async with asyncio.timeout(PATIENT_s):
            while not done(self.events):
                self.came.clear()
                if not done(self.events):
                    await self.came.wait()
        return self.events

    async def event(self, name):
        return next(each for each in await self.until(lambda all_: any(e[0] == name for e in all_)) if each[0] == name)

    async def ended(self):
        async with asyncio.timeout(PATIENT_s):
            await self.task


@contextlib.asynccontextmanager
async def serving(kept, **wishes):
    app = make_app(kept, Workers({}), **wishes)
    async with app.router.lifespan_context(app):
        yield app


def add(store):
    return store.add(demo_document().decode()).id


def change(store, job, title, key):
    operation = {"op": "set", "at": ["identity", "title"], "was": None, "to": title}
    rev = store.job(job).rev
    return store.operations.take(job, Batch(key, rev, "", (operation,), "titled")).rev
