"""Two phones and an office on one job, with a server that may be killed at any step: what a model test drives.

Every fact has a number that no other has. The reference is the set of all facts that anybody ever wrote down: each is to
stand in the job, in a clash, or in the record of an operation by which somebody who saw it replaced it.
"""

from __future__ import annotations

import contextlib
import json

import sqlalchemy as sa
from sqlalchemy import event

from pavewright.desk import deliver_into
from pavewright.job.operations import Done, Following, apply, between
from pavewright.store import Batch, DocumentRefusedError, open_file
from pavewright.store._tables import CLASHES, OPERATIONS
from pavewright.web._site_routes import _deliver

JOB = {
    "identity": {"job": "1", "client": "nobody"},
    "measurements": {"points": [], "tape_plan": None},
    "site": {
        "walls": [{"name": f"W{n}", "start": "A", "end": "B", "dpc_level_mm": n, "openings": []} for n in range(3)],
        "walk_round": [],
    },
    "areas": [{"name": "Patio", "fall": {"away_from": "W0"}}],
    "as_laid": None,
}


class KilledError(Exception):
    """The server was killed."""


def copied(value):
    return json.loads(json.dumps(value))


class Server:
    """A store that is killed at a chosen statement: what was not committed is gone, and its connections with it."""

    def __init__(self, path):
        self.store = open_file(path)
        self.left = None
        engine = self.store._engine
        engine.dispose()
        # a power cut is tried elsewhere: here the disk need not be waited for
        event.listen(engine, "connect", lambda connection, _: connection.execute("PRAGMA synchronous=OFF"))
        event.listen(engine, "before_cursor_execute", self._count)
        event.listen(engine, "commit", lambda _: self._count())

    def start(self):
        self.store._engine.dispose()

    def _count(self, *_):
        if self.left is not None:
            self.left -= 1
            if self.left < 0:
                raise KilledError

    def ask(self, act, death):
        """Answer, unless the server is killed: at a statement, or after all is done and before the answer is out."""
        self.left = death if isinstance(death, int) else None
        try:
            found = act(self.store)
        except KilledError:
            self.start()
            raise
        finally:
            self.left = None
        if death == "after":
            self.start()
            raise KilledError
        return found


class Page:
    """Somebody with a screen: the job as it was last taken in, and what waits to be sent."""

    def __init__(self, server, job, name):
        self.server, self.job, self.name = server, job, name
        self.waiting = []
        self.made = 0
        self.look()

    def look(self):
        kept = self.server.store.job(self.job)
        self.rev, self.there = kept.rev, json.loads(kept.document)

    @property
    def view(self):
        seen = self.there
        for batch in self.waiting:
            seen = apply(seen, batch["operations"]).document
        return seen

    def change(self, act):
        before = self.view
        after = copied(before)
        act(after)
        made = copied(between(before, after))
        if made:
            self.made += 1
            key = f"{self.name}-{self.job}-{self.made}"
            self.waiting.append({"key": key, "rev": self.rev, "operations": made, "tried": False})


class Phone(Page):
    """A phone: its deliveries go out in their order; a new view is taken in when nothing of it is in the air."""

    def send(self, death=None):
        if not self.waiting:
            return
        batch = self.waiting[0]
        batch["tried"] = True
        delivery = {"id": batch["key"], "rev": batch["rev"], "from": self.name, "note": "from site"}
        delivery |= batch.get("readings") or {"kind": "operations", "entries": batch["operations"]}
        with contextlib.suppress(KilledError):
            told = self.server.ask(lambda store: _deliver(store, self.job, delivery), death)
            assert told["state"] in {"kept", "repeated"}, told
            self.waiting.pop(0)
            if not any(each["tried"] for each in self.waiting):
                self.look()

    def read(self, kind, entry):
        """A reading by its kind, as the keypad sends it."""
        self.made += 1
        key = f"{self.name}-{self.job}-{self.made}"
        sent = {"kind": kind, "entries": [entry], "date": "2027-05-01"}
        self.waiting.append({"key": key, "rev": self.rev, "operations": [], "tried": False, "readings": sent})


class Office(Page):
    """The working screen: what it sends is answered with what others did."""

    def send(self, death=None):
        if not self.waiting:
            return
        batch = self.waiting[0]
        batch["tried"] = True
        sent = Batch(batch["key"], batch["rev"], self.name, tuple(batch["operations"]), "office")
        with contextlib.suppress(KilledError):
            told = self.server.ask(lambda store: store.operations.take(self.job, sent), death)
            self.waiting.pop(0)
            believed = apply(self.there, batch["operations"]).document
            there = believed if told.document is None else json.loads(told.document)
            since = [Done(((each,),)) for each in between(believed, there)]
            for each in self.waiting:
                following = Following().after(since)
                each["operations"] = [following.followed(one) for one in each["operations"]]
                each["rev"] = told.rev
            self.rev, self.there = told.rev, there


def settle(server, job, chance, *, theirs):
    """A person picks one of the open clashes."""
    found = server.store.operations.clashes(job)
    if found:
        clash = found[chance % len(found)]
        with contextlib.suppress(DocumentRefusedError):
            server.store.operations.settle(job, clash.id, theirs=theirs, deliver=deliver_into)


def numbers_in(value):
    """All numbers of a JSON value, each as often as it stands there."""
    if isinstance(value, dict):
        return [found for each in value.values() for found in numbers_in(each)]
    if isinstance(value, list | tuple):
        return [found for each in value for found in numbers_in(each)]
    return [value] if isinstance(value, int | float) and not isinstance(value, bool) else []


def kept_beside(server, job):
    """What stands in clashes, and what somebody who saw it replaced or deleted."""
    with server.store._engine.connect() as connection:
        bodies = connection.execute(sa.select(CLASHES.c.body).where(CLASHES.c.job_id == job)).scalars().all()
        logs = connection.execute(sa.select(OPERATIONS.c.landed).where(OPERATIONS.c.job_id == job)).scalars().all()
    clashes = [json.loads(body) for body in bodies]
    gone = []
    for log in logs:
        for landed in json.loads(log):
            for one in landed:
                gone += numbers_in(one.get("was"))
                gone += numbers_in(one["item"]) if one["op"] == "remove" else []
    return clashes, set(gone)
