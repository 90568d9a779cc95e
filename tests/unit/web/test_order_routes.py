"""The list of jobs by state, what is due, views and templates, over the door."""

import json

import pytest
from starlette.testclient import TestClient

from pavewright.store import open_store
from pavewright.web import make_app

BOOK = {
    "state": "on_site", "by_hand": False, "facts": {"begun": True}, "place": "Ashford Green", "people": [],
    "holds_until": None, "owing_minor": 700, "total_minor": 1000, "currency": "GBP", "stage": 1, "stops": 0,
    "dues": [{"kind": "bill_owing", "key": "bill.1", "on": "2026-01-02", "until": None, "what": "1", "amount_minor": 700, "count": 1}],
    "weeks": [{"week": "2026-01-05", "owing_minor": 700, "expected_minor": 0, "out_minor": 0}], "gaps": ["no_dates"],
}  # fmt: skip


@pytest.fixture(scope="module")
def client(tmp_path_factory):
    store = open_store(f"sqlite:///{tmp_path_factory.mktemp('order') / 'jobs.sqlite'}")
    with TestClient(make_app(store), base_url="http://127.0.0.1") as opened:
        opened.store = store
        yield opened
    store.close()


@pytest.fixture(scope="module")
def job(client):
    made = client.post("/api/jobs", json={"title": "Patio"}).json()
    client.store.keep_summary(made["id"], made["rev"], json.dumps({"stage": "measure", "total_minor": 1000}), BOOK)
    return made["id"]


def test_a_job_is_listed_with_its_state_and_why(client, job):
    told = client.get("/api/jobs?state=on_site&owing=1&place=Ashford%20Green&sort=price").json()
    one = told["jobs"][0]
    assert (one["id"], told["total"], told["states"]["on_site"]) == (job, 1, 1)
    assert one["standing"]["words"] == "On site"
    assert one["owing_minor"] == 700
    assert client.get("/api/jobs?state=quoted").json()["jobs"] == []
    assert client.get("/api/places").json()["places"] == [{"place": "Ashford Green", "jobs": 1, "due": 1}]


@pytest.mark.parametrize("asked", ["state=dug", "sort=colour", "start=-1", "start=x"])
def test_an_odd_list_is_refused_with_a_sentence(client, asked):
    told = client.get(f"/api/jobs?{asked}")
    assert told.status_code == 400
    assert told.json()["message"].endswith(".")


def test_what_is_due_is_told_with_its_words(client, job):
    told = client.get("/api/due").json()
    assert [(one["job"], one["kind"], one["when"], one["words"]) for one in told["due"]] == [
        (job, "bill_owing", "late", "Bill not paid: 1")
    ]
    money = client.get("/api/money-weeks").json()
    assert money["weeks"] == [
        {"week": "2026-01-05", "currency": "GBP", "owing_minor": 700, "expected_minor": 0, "out_minor": 0}
    ]
    assert money["unknown"] == [{"job": job, "title": "Patio", "why": ["no dates"]}]


def test_a_state_is_set_by_hand_and_taken_back(client):
    made = client.post("/api/jobs", json={"title": "Drive"}).json()["id"]
    assert client.post(f"/api/jobs/{made}/state", json={"state": "lost", "why": "price"}).json()["rev"] == 2
    kept = json.loads(client.store.job(made).document)["standing"]["by_hand"]
    assert (kept["state"], kept["why"]) == ("lost", "price")
    assert client.post(f"/api/jobs/{made}/state", json={"state": "dug"}).status_code == 400
    client.post(f"/api/jobs/{made}/state", json={"state": ""})
    assert json.loads(client.store.job(made).document)["standing"]["by_hand"] is None


def test_views_and_templates_come_and_go(client, job):
    view = client.post("/api/views", json={"name": "Owing", "owing": "1"}).json()["id"]
    assert client.get("/api/views").json()["views"] == [{"id": view, "name": "Owing", "body": {"owing": "1"}}]
    assert client.post("/api/views", json={"name": " "}).status_code == 400
    assert client.delete(f"/api/views/{view}").status_code == 200
    assert client.delete(f"/api/views/{view}").status_code == 404
    made = client.post("/api/templates", json={"job": job, "name": "Our patio"}).json()["id"]
    begun = client.post("/api/jobs", json={"template": made, "title": "New one"})
    assert begun.status_code == 201
    assert json.loads(client.store.job(begun.json()["id"]).document)["identity"]["title"] == "New one"
    assert client.delete(f"/api/templates/{made}").status_code == 200
    assert client.get("/api/templates").json()["templates"] == []


def test_the_bar_shows_pages_that_there_are(client):
    shown = [one["path"] for one in client.get("/api/pages").json()["pages"]]
    assert shown[0] == "/"
    assert {"/firm", "/devices"} <= set(shown)


def test_every_page_of_the_firm_has_the_bar_and_keeps_the_look(client):
    for path in ("/", "/calendar", "/firm", "/people", "/devices", "/replan", "/programs", "/audit", "/you", "/sums"):
        page = client.get(path).text
        assert page.count("<nav data-bar></nav>") == page.count("/static/lib/bar.js") == 1, path
        assert page.count("<span data-look></span>") == page.count("/static/lib/theme.js") == 1, path
