"""Somebody of one firm asks every route for what is of another: it is not there, and nothing of it is told."""

from __future__ import annotations

import datetime as dt
import json

import pytest

from pavewright.desk import demo_document
from pavewright.store import Event
from pavewright.web._rights import RIGHTS

SECRET = "Of the second firm alone"


@pytest.fixture(scope="module", params=["house", "house_on_server"])
def firms(request):
    """Two firms: once in a file, once on a database server."""
    return request.getfixturevalue(request.param)


@pytest.fixture
def other(firms):
    """Something of each kind in the second firm, by the names of the places in addresses."""
    store = firms.installation.store_of(firms.second)
    document = json.loads(demo_document())
    document["identity"]["title"] = SECRET
    job = store.add(json.dumps(document)).id
    store.add_photo("photo1", job, SECRET.encode(), SECRET, None)
    device, _ = store.devices.pair(SECRET)
    person = firms.person("crew", firm=firms.second, name="stranger")
    invitation, _ = firms.accounts.invite(firms.second, role="crew", by=person.id, expires=later(), name=SECRET)
    signed, _ = firms.accounts.begin_sign_in(person.id, firms.second, SECRET, 1)
    passkey = firms.accounts.add_passkey(person.id, f"credential {invitation.id}".encode(), b"key", 0, SECRET)
    named = {"job": job, "photo": "photo1", "device": device.id, "person": person.id, "invitation": invitation.id}
    hook, _ = store.hooks.add(SECRET, "https://told.example/", [next(iter(Event))])
    token, _ = firms.accounts.make_token(firms.second, person.id, SECRET, ["read_jobs"], later())
    feed, _ = store.calendar.make_feed("aa11")
    named |= {"view": store.views.keep(SECRET, {}).id, "template": store.views.keep_template(SECRET, "{}").id}
    named |= {"run": store.runs.begin("replan", SECRET, "digest", 1).id, "hook": hook.id, "token": token.id}
    return named | {"feed": feed.id, "passkey": passkey.id, "signed": signed.id}


def later():
    return dt.datetime.now(dt.UTC) + dt.timedelta(days=1)


def test_every_route_with_a_name_of_another_firm_is_a_place_where_nothing_is(firms, other):
    owner = firms.client("owner")
    store = firms.installation.store_of(firms.second)
    before = (store.job(other["job"]), store.photos(other["job"]), firms.accounts.people(firms.second))
    asked, wrong = 0, []
    for (method, path), need in RIGHTS.items():
        if "{" not in path or need.is_public or path in PAGES:
            continue
        names = other | ({"device": other["signed"]} if path.startswith("/api/you") else {})
        address = filled(path, names)
        body = {"rev": 1, "document": {}, "key": "k", "operations": [], "note": "n", "archived": True, "deleted": True,
                "pick": "ours", "role": "owner", "firm": firms.second, "id": "d", "kind": "level", "entries": []}  # fmt: skip
        answered = owner.request(method, address, **({} if method == "GET" else {"json": body}))
        asked += 1
        if answered.status_code not in {400, 403, 404, 409, 415, 422} or SECRET in answered.text:
            wrong.append((method, address, answered.status_code))
        if "{job}" in path and answered.status_code not in {400, 403, 404, 415, 422}:
            wrong.append((method, address, answered.status_code))
    assert wrong == []
    assert asked > 30
    assert before == (store.job(other["job"]), store.photos(other["job"]), firms.accounts.people(firms.second))


def test_lists_hold_nothing_of_another_firm(firms, other):
    owner = firms.client("owner")
    for (method, path), need in RIGHTS.items():
        if (
            method == "GET"
            and "{" not in path
            and path.startswith("/api/")
            and path != "/api/backup"
            and not need.is_public
        ):
            answered = owner.get(path)
            assert SECRET not in answered.text and other["job"] not in answered.text, path
    assert SECRET in firms.client("owner", firm=firms.second).get("/api/jobs?words=").text
    assert firms.client("owner").post("/api/you/firm", json={"firm": firms.second}).status_code == 404


PAGES = {"/jobs/{job}", "/jobs/{job}/site", "/jobs/{job}/walk", "/jobs/{job}/customer", "/jobs/{job}/record"}
"""Files of the program, the same for whatever name stands in the address."""


def filled(path, names):
    parts = []
    for part in path.split("/"):
        name = part[1:].partition("}")[0].partition(":")[0] if part.startswith("{") else ""
        rest = part.partition("}")[2] if name else ""
        parts.append((names.get(name) or ("1" if ":int" in part else "aa11")) + rest if name else part)
    return "/".join(parts)
