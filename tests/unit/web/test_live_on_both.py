"""The live door on a file and on a database server: told alike, also by another program; who does not read is cut off."""

from __future__ import annotations

import asyncio
import shutil

import pytest

from pavewright.store import open_store
from pavewright.web.live import _hub, _listener

from tests.a_database_server import ended, started
from tests.unit.web.listening import PATIENT_s, Stream, add, change, serving


@pytest.fixture(scope="module")
def server():
    """A database server, started for the first test that wants one."""
    running = started()
    yield running
    ended(running)


@pytest.fixture(scope="module")
def empty(tmp_path_factory):
    path = tmp_path_factory.mktemp("live") / "empty.sqlite"
    open_store(f"sqlite:///{path}").close()
    return path


@pytest.fixture(params=["file", "server"])
def url(request, tmp_path):
    """Where the jobs are kept: once in a file, once on a database server."""
    if request.param == "file":
        yield f"sqlite:///{shutil.copy(request.getfixturevalue('empty'), tmp_path / 'jobs.sqlite')}"
        return
    made = request.getfixturevalue("server").new_database()
    yield made
    request.getfixturevalue("server").drop(made)


@pytest.fixture
def store(url):
    opened = open_store(url)
    yield opened
    opened.close()


@pytest.fixture
def beside(url, store):
    """Another program on the same jobs."""
    opened = open_store(url)
    yield opened
    opened.close()


def test_changes_of_two_programs_are_told_once_each_and_whoever_was_cut_off_goes_on(store, beside):
    job = add(store)

    async def run():
        async with serving(store) as app, Stream(app, "/api/live") as every:
            async with Stream(app, f"/api/live?job={job}") as one:
                await one.event("stand")
                await every.event("stand")
                revs = []
                for number, who in enumerate((store, beside, store, beside)):
                    revs.append(await asyncio.to_thread(change, who, job, f"Change {number}", f"k{number}"))
                    await one.until(lambda told: told[-1][2]["rev"] == revs[-1])
                assert [each[2]["rev"] for each in one.events if each[0] == "change"] == revs
                last = one.events[-1][1]
            rev = await asyncio.to_thread(change, beside, job, "While cut off", "k9")
            await every.until(lambda told: told[-1][2].get("rev") == rev)
            async with Stream(app, f"/api/live?job={job}&after={last}") as again:
                assert (await again.event("change"))[2] == {"job": job, "rev": rev, "kind": "changed"}
            made = await asyncio.to_thread(add, beside)
            await every.until(lambda told: (told[-1][2].get("job"), told[-1][2].get("kind")) == (made, "made"))
            await asyncio.to_thread(beside.deleted.put, made)
            await every.until(lambda told: (told[-1][2].get("job"), told[-1][2].get("kind")) == (made, "moved"))
            await asyncio.to_thread(beside.deleted.remove, made)
            await every.until(lambda told: (told[-1][2].get("job"), told[-1][2].get("kind")) == (made, "gone"))

    asyncio.run(run())


def test_who_does_not_read_is_cut_off_and_whoever_does_is_not(store, monkeypatch):
    monkeypatch.setattr(_hub, "STILL_S", 0.1)
    monkeypatch.setattr(_hub, "_STUCK_S", 3.0)
    monkeypatch.setattr(_listener, "HEARTBEAT_S", 0.05)
    job = add(store)

    async def run():
        async with serving(store) as app:
            async with Stream(app, f"/api/live?job={job}") as reads, Stream(app, f"/api/live?job={job}") as stuck:
                await reads.event("stand")
                await stuck.event("stand")
                stuck.reads.clear()
                async with asyncio.timeout(PATIENT_s):
                    await asyncio.wait({stuck.task})
                assert not stuck.reads.is_set()
                assert len(app.state.live.listeners) == 1
                rev = await asyncio.to_thread(change, store, job, "Still told", "k1")
                assert (await reads.event("change"))[2]["rev"] == rev

    asyncio.run(run())
