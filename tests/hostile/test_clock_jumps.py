"""The clock of the machine jumps, a day forwards and back: nobody is shut out, nothing opens twice, nothing is late."""

from __future__ import annotations

import datetime as dt
import json
import time

import argon2
import pyotp
import pytest
from starlette.testclient import TestClient

from pavewright.desk import demo_document
from pavewright.record import check_record
from pavewright.store import Batch, Event, StaleRevision, open_file, open_installation
from pavewright.store._runs import _KEPT_RUNS
from pavewright.web import Workers, make_app
from pavewright.web.sign_in import Passwords

DAY_S = 86_400
PASSWORD = "wet gloves twice a day"
REAL, TIME = dt.datetime, time.time


@pytest.fixture
def jump(monkeypatch):
    """How the clock is set: by so many seconds ahead of the machine's."""
    ahead = [0.0]

    class Jumping(REAL):
        @classmethod
        def now(cls, tz=None):
            return REAL.now(tz) + dt.timedelta(seconds=ahead[0])

    monkeypatch.setattr(dt, "datetime", Jumping)
    monkeypatch.setattr(time, "time", lambda: TIME() + ahead[0])
    return lambda seconds: ahead.__setitem__(0, seconds)


@pytest.fixture
def store(tmp_path):
    opened = open_file(tmp_path / "jobs.sqlite")
    yield opened
    opened.close()


@pytest.fixture
def house(tmp_path):
    """An installation with an owner, served."""
    installation = open_installation(tmp_path / "house.sqlite")
    accounts = installation.accounts
    person = accounts.add_person("ada", "Ada")
    hasher = argon2.PasswordHasher.from_parameters(argon2.profiles.CHEAPEST)
    accounts.keep_password(person.id, hasher.hash(PASSWORD))
    accounts.join(person.id, installation.first_id, "owner")
    app = make_app(installation, Workers({}), passwords=Passwords(argon2.profiles.CHEAPEST))
    with TestClient(app, base_url="http://127.0.0.1", raise_server_exceptions=False) as opened:
        opened.app, opened.accounts, opened.person, opened.installation = app, accounts, person, installation
        yield opened
    installation.close()


def sign_in(browser, password=PASSWORD, code=""):
    form = {"sign_in": "ada", "password": password, "code": code}
    return browser.post("/sign-in", data=form, follow_redirects=False).status_code


def another(house):
    return TestClient(house.app, base_url="http://127.0.0.1", raise_server_exceptions=False)


def test_who_is_signed_in_stays_so_whichever_way_the_clock_jumps(house, jump):
    assert sign_in(house) == 303
    for ahead_s in (DAY_S, -DAY_S, 0):
        jump(ahead_s)
        assert house.get("/api/you").json()["signed_in"], ahead_s
    jump(DAY_S)
    late = another(house)
    assert sign_in(late) == 303
    jump(0)
    assert late.get("/api/you").json()["signed_in"] and house.get("/api/you").json()["signed_in"]


def test_wrong_tries_under_a_clock_that_was_ahead_keep_nobody_out_once_it_is_right(house, jump):
    jump(DAY_S)
    assert [sign_in(house, "wrong") for _ in range(6)] == [401] * 5 + [429]
    jump(0)
    assert sign_in(house) == 303


def test_wrong_tries_count_as_ever_after_a_jump(house, jump):
    jump(DAY_S)
    sign_in(house, "wrong")
    jump(0)
    assert [sign_in(house, "wrong") for _ in range(6)] == [401] * 5 + [429]


def test_a_code_of_the_phone_opens_once_and_one_used_ahead_of_time_keeps_nobody_out(house, jump):
    secret = pyotp.random_base32()
    house.accounts.keep_totp(house.person.id, secret)
    jump(DAY_S)
    ahead = pyotp.TOTP(secret).at(int(TIME()) + DAY_S)
    assert [sign_in(another(house), code=ahead) for _ in range(2)] == [303, 401]
    jump(0)
    now = pyotp.TOTP(secret).at(int(TIME()))
    assert [sign_in(another(house), code=now) for _ in range(2)] == [303, 401]


def test_a_link_that_opened_once_opens_nothing_after_a_jump_back(house, jump):
    house.accounts.keep_codes(house.person.id, "reset", ("digest",), REAL.now(dt.UTC) + dt.timedelta(days=2))
    jump(DAY_S)
    assert house.accounts.use_code(house.person.id, "reset", "digest")
    for ahead_s in (0, -DAY_S):
        jump(ahead_s)
        assert not house.accounts.use_code(house.person.id, "reset", "digest")


def test_what_is_due_follows_the_day_and_a_jump_leaves_nothing_behind(house, jump):
    store = house.installation.first
    document = json.loads(demo_document()) | {"site_days": []}
    store.add(json.dumps(document))
    sign_in(house)
    before = house.get("/api/due").json()
    jump(DAY_S)
    assert house.get("/api/due").json()["today"] != before["today"]
    jump(0)
    assert house.get("/api/due").json() == before


def test_revisions_and_operations_are_in_the_order_in_which_they_came(store, jump):
    document = json.loads(demo_document())
    job = store.add(json.dumps(document)).id
    for rev, ahead_s in enumerate((DAY_S, -DAY_S, 0), 1):
        jump(ahead_s)
        store.operations.take(job, Batch(f"key-{rev}", rev, "", (), f"note {rev}"))
    assert [(each.rev, each.note) for each in store.revisions(job)[:3]] == [(4, "note 3"), (3, "note 2"), (2, "note 1")]
    assert store.operations.take(job, Batch("key-1", 1, "", (), "note 1")).repeated
    assert check_record(store.records.content(job)).faults == ()
    with pytest.raises(StaleRevision):
        store.save(job, 3, json.dumps(document), "over a revision that is old, whatever its time")


def test_a_message_that_was_put_off_under_a_clock_that_was_ahead_is_told_once_it_is_right(store, jump):
    hook, _ = store.hooks.add("Invented", "https://told.example/", [next(iter(Event))])
    jump(DAY_S)
    store.hooks.post(next(iter(Event)), {})
    (due,) = store.hooks.due()
    assert store.hooks.claim(due)
    assert store.hooks.due() == ()
    jump(0)
    (again,) = store.hooks.due()
    assert store.hooks.claim(again)
    assert store.hooks.due() == ()  # nobody else tells it within the two minutes
    store.hooks.tried(again, "refused", delivered=False)
    assert store.hooks.due() == ()
    assert [each.tries for each in store.hooks.messages(hook.id)] == [1]


def test_a_run_that_begins_after_the_clock_was_put_back_is_not_thinned_away(store, jump):
    jump(DAY_S)
    for number in range(_KEPT_RUNS):
        store.runs.begin("replan", "{}", f"ahead {number}", 1)
    jump(0)
    run = store.runs.begin("replan", "{}", "now", 1)
    assert run.id in {each.id for each in store.runs.runs()}
    assert len(store.runs.runs(_KEPT_RUNS + 5)) == _KEPT_RUNS
