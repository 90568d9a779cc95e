"""Who listens is told what changed, by whichever program, and nobody else is; nothing waits without end."""

from __future__ import annotations

import asyncio
import contextlib
import json

import argon2
import pytest
from starlette.testclient import TestClient

from pavewright.people import Right
from pavewright.store import open_installation, open_store
from pavewright.web import OnNetwork, Pairing, Workers, make_app
from pavewright.web.live import _hub
from pavewright.web.live._events import Kind, Numbered, Told
from pavewright.web.live._hub import FOR_A_BROWSER
from pavewright.web.live._listener import WAITING_MAX, Listener, Whose
from pavewright.web.live._presence import GONE_S, Presence
from pavewright.web.sign_in import Passwords

from tests.unit.web.listening import Stream, add, change, serving


@pytest.fixture(autouse=True)
def _asked_often(monkeypatch):
    monkeypatch.setattr(_hub, "STILL_S", 0.1)


@pytest.fixture(scope="module")
def empty(tmp_path_factory):
    """A store as it is made, to be copied: making one takes longer than a test."""
    path = tmp_path_factory.mktemp("live") / "empty.sqlite"
    open_store(f"sqlite:///{path}").close()
    return path


@pytest.fixture
def data(empty, tmp_path):
    path = tmp_path / "jobs.sqlite"
    path.write_bytes(empty.read_bytes())
    return path


@pytest.fixture
def store(data):
    opened = open_store(f"sqlite:///{data}")
    yield opened
    opened.close()


def test_a_change_is_told_with_numbers_alone(store):
    job, other = add(store), add(store)

    async def run():
        async with serving(store) as app, Stream(app, f"/api/live?job={job}") as one, Stream(app, "/api/live") as every:
            assert one.status == 200
            assert (await one.event("stand"))[2] == {"job": job, "rev": 1}
            await every.event("stand")
            change(store, other, "Secret words", "k0")
            rev = change(store, job, "Secret words", "k1")
            assert (await one.event("change"))[2] == {"job": job, "rev": rev, "kind": "changed"}
            told = await every.until(lambda all_: {e[2].get("job") for e in all_} >= {job, other})
            assert all(set(each[2]) <= {"job", "rev", "kind"} for each in told)
            assert "Secret" not in one.text + every.text
            assert other not in one.text
            await asyncio.to_thread(store.put_away, job, archived=True)
            await one.until(lambda all_: any(e[2].get("kind") == "moved" for e in all_))

    asyncio.run(run())


def test_what_another_program_does_with_the_same_database_is_told(store, data):
    job = add(store)
    beside = open_store(f"sqlite:///{data}")

    async def run():
        async with serving(store) as app, serving(beside) as second:
            async with Stream(app, f"/api/live?job={job}") as one, Stream(second, f"/api/live?job={job}") as two:
                await one.event("stand")
                await two.event("stand")
                rev = await asyncio.to_thread(change, beside, job, "By the other one", "k1")
                assert (await one.event("change"))[2]["rev"] == rev
                assert (await two.event("change"))[2]["rev"] == rev

    asyncio.run(run())
    beside.close()


def test_who_was_cut_off_goes_on_without_a_gap(store):
    job = add(store)

    async def run():
        async with serving(store) as app:
            async with Stream(app, f"/api/live?job={job}") as first:
                change(store, job, "One", "k1")
                last = (await first.event("change"))[1]
            revs = []
            async with Stream(app, f"/api/live?job={job}") as beside:
                for number in range(3):
                    revs.append(change(store, job, f"Meanwhile {number}", f"m{number}"))
                    await beside.until(lambda all_: all_[-1][2]["rev"] == revs[-1])
            last_rev = change(store, job, "While nobody listens", "k2")
            async with Stream(app, f"/api/live?job={job}", {"last-event-id": last}) as again:
                told = await again.until(lambda all_: all_ and all_[-1][2]["rev"] == last_rev)
                assert [each[2]["rev"] for each in told if each[0] == "change"] == [*revs, last_rev]
            async with Stream(app, f"/api/live?job={job}&after={last}") as by_address:
                assert (await by_address.event("change"))[2]["rev"] == revs[0]
            for unknown in ("f00.3", "nonsense", f"{last.partition('.')[0]}.99999"):
                async with Stream(app, f"/api/live?job={job}", {"last-event-id": unknown}) as lost:
                    assert (await lost.event("anew"))[2] == {"job": job, "rev": last_rev}

    asyncio.run(run())


def test_who_does_not_read_is_told_to_read_anew(store):
    job = add(store)

    async def run():
        async with serving(store) as app, Stream(app, f"/api/live?job={job}") as slow:
            await slow.event("stand")
            slow.reads.clear()
            feed = app.state.live.feed(None)
            for number in range(3 * WAITING_MAX):
                feed.tell(feed.events.add(Kind.CHANGED, job, number))
                if number % WAITING_MAX == 0:
                    await asyncio.sleep(0.01)
            listener = next(iter(feed.listeners))
            assert len(listener._waiting) <= WAITING_MAX
            slow.reads.set()
            await slow.event("anew")
            assert sum(each[0] == "change" for each in slow.events) <= 2 * WAITING_MAX

    asyncio.run(run())


def test_a_listener_keeps_a_little_and_only_what_concerns_him():
    async def run():
        listener = Listener(Whose("p", "b"), "j1")
        for number in range(WAITING_MAX):
            listener.offer(Told(Kind.CHANGED, "other", 1, number))
        listener.offer(Told(Kind.CHANGED, "j1", 2, 99))
        assert await listener.take() == ([Told(Kind.CHANGED, "j1", 2, 99)], False)
        for number in range(WAITING_MAX + 1):
            listener.offer(Told(Kind.CHANGED, "j1", number, number))
        assert await listener.take() == ([], True)

    asyncio.run(run())


def test_a_feed_says_where_it_remembers_no_more():
    numbered = Numbered()
    first = numbered.id_of(numbered.last)
    assert numbered.since(first) == []
    for number in range(1000):
        numbered.add(Kind.CHANGED, "j", number)
    assert numbered.since(first) is None
    assert [each.rev for each in numbered.since(numbered.id_of(997)) or ()] == [997, 998, 999]


@pytest.fixture
def house(data):
    installation = open_installation(data)
    yield installation
    installation.close()


def person(house, firm, role="office", grants=()):
    accounts = house.accounts
    made = accounts.add_person(f"{role}{firm}{len(accounts.people(firm))}", f"{role.title()} of {firm[:4]}")
    accounts.join(made.id, firm, role, grants)
    return made.id, signed(house, made.id, firm)


def signed(house, person_id, firm):
    device, token = house.accounts.begin_sign_in(person_id, firm, "test", 1)
    return device.id, {"cookie": f"pavewright-sign-in={token}"}


def quick():
    return Passwords(argon2.profiles.CHEAPEST)


def test_firms_are_apart(house):
    second = house.accounts.add_firm("Second").id
    one, two = house.first, house.store_of(second)
    job, theirs = add(one), add(two)
    (_, (_, ours)), (_, (_, others)) = person(house, house.first_id), person(house, second)

    async def run():
        async with serving(house, passwords=quick()) as app:
            async with Stream(app, f"/api/live?job={theirs}", ours) as refused, Stream(app, "/api/live") as stranger:
                assert (refused.status, stranger.status) == (404, 401)
            async with Stream(app, "/api/live", ours) as mine, Stream(app, "/api/live", others) as other:
                await mine.event("stand")
                await other.event("stand")
                change(two, theirs, "Theirs", "k1")
                change(one, job, "Ours", "k2")
                assert (await mine.event("change"))[2]["job"] == job
                assert (await other.event("change"))[2]["job"] == theirs
                assert theirs not in mine.text
                assert job not in other.text

    asyncio.run(run())


@pytest.mark.parametrize(
    "how", ["signed out", "out of the firm", "less may be done", "another firm", "token withdrawn"]
)
def test_who_may_not_any_more_loses_the_stream(house, how):
    firm, job = house.first_id, add(house.first)
    person(house, firm, "owner")
    person_id, (device, headers) = person(house, firm, "crew", [Right.CALENDAR])
    second = house.accounts.add_firm("Second").id
    house.accounts.join(person_id, second, "crew", ())
    if how == "token withdrawn":
        token, opens = house.accounts.make_token(firm, person_id, "Sums", ["read_jobs"])
        headers = {"authorization": f"Bearer {opens}"}
    end = {
        "signed out": lambda: house.accounts.end_sign_in(device),
        "out of the firm": lambda: house.accounts.end_member(person_id, firm),
        "less may be done": lambda: house.accounts.change_member(person_id, firm, role="crew"),
        "another firm": lambda: house.accounts.switch_firm(device, second),
        "token withdrawn": lambda: house.accounts.withdraw_token(firm, token.id),
    }[how]

    async def run():
        async with serving(house, passwords=quick()) as app, Stream(app, f"/api/live?job={job}", headers) as stream:
            assert stream.status == 200
            await stream.event("stand")
            await app.state.live.look_who_is_out()
            assert not stream.task.done()
            await asyncio.to_thread(end)
            await stream.ended()
            assert stream.events[-1][0] == "over"
            assert not app.state.live.listeners

    asyncio.run(run())


def test_the_first_person_who_is_entered_ends_what_was_open_to_everybody(house):
    async def run():
        async with serving(house, passwords=quick()) as app, Stream(app, "/api/live") as stream:
            await stream.event("stand")
            await asyncio.to_thread(person, house, house.first_id, "owner")
            await stream.ended()

    asyncio.run(run())


def test_a_device_that_is_withdrawn_loses_the_stream_and_one_that_is_not_paired_gets_none(store):
    network = OnNetwork(8321, secure=False, pairing=Pairing())
    device, token = store.devices.pair("Crew phone")
    outside = {"client": ("192.168.7.31", 50000), "server": ("192.168.7.20", 8321)}

    async def run():
        async with serving(store, on_network=network) as app:
            async with Stream(app, "/api/live", **outside) as stranger:
                assert stranger.status == 401
            async with Stream(app, "/api/live", {"cookie": f"pavewright-device={token}"}, **outside) as phone:
                await phone.event("stand")
                await asyncio.to_thread(store.devices.withdraw, device.id)
                await phone.ended()

    asyncio.run(run())


def test_there_is_room_for_a_few_of_one_browser_and_it_is_said_in_words(store):
    async def run():
        async with serving(store) as app, contextlib.AsyncExitStack() as streams:
            for _ in range(FOR_A_BROWSER):
                stream = await streams.enter_async_context(Stream(app, "/api/live"))
                assert stream.status == 200
            async with Stream(app, "/api/live") as refused:
                assert refused.status == 503
                await refused.ended()
                assert "streams of yours" in json.loads(refused.text)["message"]
            other = {"cookie": f"pavewright={'ab' * 16}"}
            async with Stream(app, "/api/live", other) as beside:
                assert beside.status == 200
            app.state.live.close()
            async with Stream(app, "/api/live", other) as late:
                assert late.status == 503
            for each in app.state.live.listeners:
                assert each.over

    asyncio.run(run())


def test_whoever_takes_anything_else_is_answered_once_and_pages_say_where_they_are(store):
    demo = add(store)
    with TestClient(make_app(store, Workers({})), base_url="http://127.0.0.1") as client:
        told = client.get(f"/api/live?job={demo}").json()
        assert told == {"number": told["number"], "job": demo, "rev": 1}
        assert client.head("/api/live", headers={"accept": "text/event-stream"}).status_code == 200
        assert client.get("/api/live?job=none").status_code == 404
        assert client.get("/api/live?job=a b").status_code == 404

        def here(page, stage, **more):
            return client.post(f"/api/jobs/{demo}/here", json={"page": page, "stage": stage} | more).json()["here"]

        assert here("a1", "levels") == []
        assert here("b2", "price") == [{"name": "", "stage": "levels", "own": True}]
        assert here("b2", "price", left=True) == [{"name": "", "stage": "levels", "own": True}]
        assert here("a1", "levels") == []
        assert client.post("/api/jobs/none/here", json={"page": "a1"}).status_code == 404
        assert client.post(f"/api/jobs/{demo}/here", json={"page": "a b"}).status_code == 404


def test_a_page_that_says_nothing_is_gone_after_a_minute():
    now = [0.0]
    presence = Presence(lambda: now[0])
    assert presence.say("f", "j", "p1", ("ann", "Ann"), "levels")
    assert not presence.say("f", "j", "p1", ("ann", "Ann"), "levels")
    assert presence.say("f", "j", "p1", ("ann", "Ann"), "price")
    assert presence.others("f", "j", "p2", "bob") == [{"name": "Ann", "stage": "price", "own": False}]
    assert presence.others("other", "j", "p2", "bob") == []
    now[0] = GONE_S + 1
    assert presence.others("f", "j", "p2", "bob") == []
    assert presence.sweep() == {("f", "j")}
    assert presence.sweep() == set()


def test_who_changed_a_job_is_named_to_whoever_takes_the_change_in(house):
    firm, job = house.first_id, add(house.first)
    one_id, (_, one) = person(house, firm, "owner")
    _, (_, other) = person(house, firm, "office")
    names = house.accounts.names()

    def titled(client, headers, title, was, rev):
        operation = {"op": "set", "at": ["identity", "title"], "was": was, "to": title}
        asked = {"key": title, "rev": rev, "operations": [operation], "note": "titled"}
        answer = client.post(f"/api/jobs/{job}/operations", json=asked, headers=headers)
        assert answer.status_code == 200
        return answer.json()

    with TestClient(make_app(house, Workers({}), passwords=quick()), base_url="http://127.0.0.1") as client:
        was = json.loads(house.first.job(job).document)["identity"]["title"]
        assert "by" not in titled(client, one, "one", was, 1)
        told = client.get(f"/api/jobs/{job}?known=1&clashes=0", headers=other).json()
        assert (told["rev"], told["by"]) == (2, [{"name": names[one_id], "own": False}])
        assert client.get(f"/api/jobs/{job}?known=1&clashes=0", headers=one).json()["by"][0]["own"] is True
        for known in ("2", "99", "-1", "x", "9" * 30):
            assert not client.get(f"/api/jobs/{job}?known={known}", headers=other).json().get("by")
        merged = titled(client, other, "two", was, 1)
        assert merged["by"] == [{"name": names[one_id], "own": False}]
        assert "by" not in titled(client, other, "two", was, 1)


def test_a_change_where_nobody_is_signed_in_has_no_name(store):
    job = add(store)
    with TestClient(make_app(store, Workers({})), base_url="http://127.0.0.1") as client:
        change(store, job, "By somebody", "k1")
        assert client.get(f"/api/jobs/{job}?known=1").json()["by"] == [{"name": "", "own": False}]
