"""The firm's calendar over the web: kept, arranged, moved, sheets, and feeds that hang on their token."""

from __future__ import annotations

import json
import time

import pytest
from starlette.testclient import TestClient

from pavewright.desk import demo_document
from pavewright.store import open_file
from pavewright.web import make_app

_PEOPLE = [{"name": "Ada Fern", "skill": "layer"}, {"name": "Bo Marsh", "skill": "groundworker"}]


@pytest.fixture(scope="module")
def firm(tmp_path_factory):
    """A server of its own, with two people and one accepted job whose first day is not entered."""
    store = open_file(tmp_path_factory.mktemp("calendar") / "jobs.sqlite")
    document = json.loads(demo_document())
    document["standing"] = {"by_hand": {"state": "accepted", "on": "2026-11-01"}}
    document["calendar"].pop("start")
    job = store.add(json.dumps(document)).id
    store.firm.save(0, json.dumps({"format": "pavewright.firm", "version": 1, "people": _PEOPLE}))
    with TestClient(make_app(store), base_url="http://127.0.0.1") as client:
        client.job = job
        yield client
    store.close()


def _until(asks, holds):
    for _ in range(600):
        told = asks()
        if holds(told):
            return told
        time.sleep(0.2)
    return pytest.fail("it never held")


def _standing(client):
    return _until(lambda: client.get("/api/calendar").json(), lambda told: not told["waiting"])


def test_the_calendar_of_a_firm_from_beginning_to_end(firm):
    assert firm.get("/api/calendar").json()["unnumbered"] == 2
    assert firm.post("/api/calendar/people", json={}).json()["numbered"] is True
    assert firm.post("/api/calendar/people", json={}).json()["numbered"] is False
    begun = _standing(firm)
    assert (begun["rev"], begun["unnumbered"]) == (0, 0)
    assert begun["jobs"][firm.job]["start_assumed"] is True
    assert begun["jobs"][firm.job]["state_words"] == "Accepted"
    assert [each["job"] for each in begun["not_placed"]] == [firm.job]

    name = firm.post("/api/calendar/arrange", json={"effort": "quick"}).json()["long_task"]
    _until(lambda: firm.get(f"/api/long-tasks/{name}").json(), lambda told: told["state"] == "done")
    made = firm.get(f"/api/long-tasks/{name}/result").json()
    assert made["gap_percent"] >= 0.0
    # the best so far is at hand beside it: whoever stops the search keeps that
    so_far = firm.get(f"/api/calendar/arrange/{name}").json()["so_far"]
    assert so_far["job_days"] >= made["job_days"]
    assert so_far["bound_job_days"] > 0.0
    assert json.loads(so_far["document"])["bookings"]
    assert firm.get("/api/calendar/arrange/nothing").status_code == 404
    assert firm.put("/api/calendar", json={"rev": 0, "document": made["document"]}).json() == {"rev": 1}
    stale = firm.put("/api/calendar", json={"rev": 0, "document": made["document"]})
    assert (stale.status_code, stale.json()["rev"]) == (409, 1)

    standing = _standing(firm)
    (booking,) = standing["document"]["bookings"]
    person, day = booking["days"][0]["crew"][0], booking["days"][0]["on"]
    asked = {"rev": 1, "job": firm.job, "stretch": 0, "to": booking["days"][1]["on"]}
    tried = firm.post("/api/calendar/move", json=asked).json()
    assert [each["stretch"] for each in tried["shifts"]] == [0]
    assert firm.get("/api/calendar").json()["rev"] == 1
    assert firm.post("/api/calendar/move", json=asked | {"keep": True}).json()["rev"] == 2
    assert firm.post("/api/calendar/move", json=asked).status_code == 409
    # undo: the document as it was, byte for byte
    before = firm.get("/api/calendar/revisions/1").json()["document"]
    assert firm.put("/api/calendar", json={"rev": 2, "document": before}).json() == {"rev": 3}
    assert firm.get("/api/calendar/revisions/3").json()["document"] == before

    sheet = firm.get(f"/api/calendar/sheet?person={person}&on={day}").json()
    assert sheet["name"] in {"Ada Fern", "Bo Marsh"}
    assert sheet["jobs"][0]["tasks"]
    assert "minor" not in json.dumps(sheet)

    made = firm.post("/api/calendar/feeds", json={"person": person})
    path = made.json()["path"]
    feed = firm.get(path)
    assert feed.headers["content-type"].startswith("text/calendar")
    assert feed.text.count("BEGIN:VEVENT") == len(booking["days"])
    assert "SEQUENCE:3" in feed.text
    again = firm.get(path, headers={"If-None-Match": feed.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")
    assert firm.get(path.replace("/own/", "/other/")).status_code == 404
    assert firm.delete(f"/api/calendar/feeds/{made.json()['id']}").status_code == 200
    assert firm.get(path).status_code == 404
    assert firm.delete(f"/api/calendar/feeds/{made.json()['id']}").status_code == 404


def test_what_makes_no_calendar_is_refused(firm):
    rev = firm.get("/api/calendar").json()["rev"]
    bad = {"format": "pavewright.calendar", "version": 1, "people": [{"id": "Ada"}]}
    refused = firm.put("/api/calendar", json={"rev": rev, "document": bad})
    assert (refused.status_code, refused.json()["faults"][0]["path"]) == (422, "people.0.id")
    assert firm.get("/api/calendar/sheet?person=x&on=monday").status_code == 400
    assert firm.post("/api/calendar/arrange", json={"effort": "much"}).status_code == 400
    assert firm.get("/api/calendar/revisions/999").status_code == 404
