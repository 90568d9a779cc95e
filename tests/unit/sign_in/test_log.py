"""Lines and counts of a server say which part of it was asked, and never by whom or for what."""

from __future__ import annotations

import io
import json
import logging
import re

import pytest
from prometheus_client.parser import text_string_to_metric_families
from starlette.testclient import TestClient

from pavewright.web._log import OURS, write_log

PERSONAL = (
    "Zoltan Quagmire",
    "Quagmire",
    "zoltan@home.example",
    "Elderflower Lane",
    "tok3n-of-a-link",
    "bear3r-of-a-program",
    "passw0rd",
    "10.77.66.55",
    "cook1e",
    "agent-of-somebody",
)


@pytest.fixture
def lines():
    """What is written from now on, as text; the log is as before afterwards."""
    root, ours = logging.getLogger(), logging.getLogger(OURS)
    levels = root.level, ours.level
    written = {}

    def begin(form):
        written["stream"] = io.StringIO()
        written["handler"] = write_log(form, written["stream"])
        return written["stream"]

    yield begin
    root.removeHandler(written["handler"])
    root.setLevel(levels[0])
    ours.setLevel(levels[1])


def ask_with_everything_personal(house):
    """Ask in every way that carries something of somebody, signed in and not."""
    heads = {"user-agent": "agent-of-somebody", "x-forwarded-for": "10.77.66.55", "x-request-id": "Quagmire"}
    owner, stranger = house.client("owner", house.second), house.client()
    owner.headers.update(heads)
    owner.post("/api/jobs", json={"title": "Zoltan Quagmire, Elderflower Lane"})
    owner.get("/api/jobs?words=Quagmire")
    owner.get("/api/jobs/Quagmire")
    owner.get("/no-such-page/Quagmire?q=zoltan@home.example")
    owner.put("/api/jobs/Quagmire", content=b'{"rev": "zoltan@home.example"')
    stranger.get("/quotation/tok3n-of-a-link")
    stranger.get("/join/tok3n-of-a-link")
    stranger.get("/api/jobs", headers={"authorization": "Bearer bear3r-of-a-program"})
    stranger.post("/sign-in", data={"sign_in": "zoltan@home.example", "password": "passw0rd"})
    stranger.get("/", headers={"host": "zoltan.quagmire.example", "cookie": "pavewright-sign-in=cook1e"})
    stranger.request("QUAGMIRE", "/api/jobs")
    logging.getLogger("pavewright.web").error("a worker failed: %s", ValueError('File "x.py", line 3, in f\nQuagmire'))
    logging.getLogger("elsewhere").error("for zoltan@home.example")
    try:
        raise ValueError("Quagmire")
    except ValueError:
        logging.getLogger("uvicorn.error").exception("Exception in ASGI application\n")


@pytest.mark.parametrize("form", ["json", "plain"])
def test_nothing_of_a_person_is_in_any_line(house, lines, form):
    house.person("owner", house.second)
    stream = lines(form)
    ask_with_everything_personal(house)
    text = stream.getvalue()
    assert len(text.splitlines()) >= 14
    assert [each for each in PERSONAL if each.lower() in text.lower()] == []
    assert not any(each in text for each in (house.first, house.second, house.person("owner", house.second).id))


def test_a_line_holds_what_is_needed_to_find_a_fault(house, lines):
    stream = lines("json")
    answered = house.client("owner", house.second).get("/api/jobs/aa11")
    line = json.loads(stream.getvalue().splitlines()[-1])
    assert {name: line[name] for name in ("level", "event", "route", "method", "status", "firm")} == {
        "level": "info", "event": "request", "route": "/api/jobs/{job}", "method": "GET", "status": 404, "firm": 2,
    }  # fmt: skip
    assert line["request"] == answered.headers["x-request-id"]
    assert line["ms"] > 0
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}\+00:00", line["time"])
    logging.getLogger("pavewright.web").error("a worker failed: %s", ValueError('File "/a/b/x.py", line 3, in f\nQ'))
    assert json.loads(stream.getvalue().splitlines()[-1])["errors"] == [{"kind": "ValueError", "places": ["x.py:3 f"]}]


def counted(text):
    return {
        (one.name, *sorted(one.labels.items())): one.value
        for family in text_string_to_metric_families(text)
        for one in family.samples
    }


def test_counts_are_told_here_and_to_a_token_for_them_alone(house):
    owner = house.person("owner", house.first)
    assert TestClient(house.app, base_url="http://127.0.0.1", client=("127.0.0.1", 4)).get("/metrics").status_code == 200  # fmt: skip
    stranger = TestClient(house.app, base_url="http://127.0.0.1", client=("192.0.2.7", 4))
    assert stranger.get("/metrics").status_code == 401
    for scopes, status in ((["metrics"], 200), (["read_jobs"], 403)):
        _, token = house.accounts.make_token(house.first, owner.id, "watch", scopes)
        assert stranger.get("/metrics", headers={"authorization": f"Bearer {token}"}).status_code == status
        if scopes == ["metrics"]:
            assert stranger.get("/api/jobs", headers={"authorization": f"Bearer {token}"}).status_code == 403
    assert house.client("office").get("/metrics").status_code == 403


def test_while_nobody_signs_in_counts_are_told_here_alone(bare):
    assert bare.get("/metrics", headers={"accept": "application/json"}).status_code == 403


def test_requests_times_sign_ins_tasks_and_the_store_are_counted(house):
    own = house.client("owner")
    before = counted(own.get("/metrics").text)
    own.get("/api/jobs/Quagmire")
    house.client().post("/sign-in", data={"sign_in": "quagmire", "password": "passw0rd"})
    house.client().get("/api/jobs", headers={"authorization": "Bearer wrong"})
    text = own.get("/metrics").text
    after = counted(text)
    labels = ("method", "GET"), ("route", "/api/jobs/{job}")
    name = ("pavewright_requests_total", *labels, ("status", "404"))
    assert after[name] == before.get(name, 0) + 1
    took = ("pavewright_request_seconds_count", *labels)
    assert after[took] == before.get(took, 0) + 1
    for way in ("password", "token"):
        failed = ("pavewright_sign_in_failures_total", ("status", "401"), ("way", way))
        assert after[failed] == before.get(failed, 0) + 1
    assert after["pavewright_long_tasks_open",] == 0
    assert after["pavewright_store_bytes",] > 100_000
    assert "quagmire" not in text.lower()
