"""Whatever is sent to whatever address: no answer 500, and every refusal is a sentence."""

from __future__ import annotations

import importlib.util
import json
import sys
from pathlib import Path
from urllib.parse import quote

import pytest
from starlette.testclient import TestClient

from pavewright.desk import demo_document
from pavewright.store import open_store
from pavewright.web import make_app


def _beside(name):
    spec = importlib.util.spec_from_file_location(f"hostile_{name}", Path(__file__).with_name(f"{name}.py"))
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


visits, trials, corpus = _beside("visits"), _beside("trials"), _beside("corpus")


@pytest.fixture(scope="module")
def client(tmp_path_factory):
    store = open_store(f"sqlite:///{tmp_path_factory.mktemp('hostile') / 'jobs.sqlite'}")
    with TestClient(make_app(store), base_url="http://127.0.0.1", raise_server_exceptions=False) as opened:
        opened.store = store
        yield opened
    store.close()


@pytest.fixture(scope="module")
def job(client):
    return client.post("/api/jobs", json={"start_from": "demo"}).json()["id"]


def faults(client, asked):
    """Return what went wrong with any of the requests."""
    found = [(visit.name, trials.request_answered(client, visit)) for visit in asked]
    return [(name, word) for name, word in found if word.partition(": ")[0] in trials.BAD]


def test_every_address_with_every_method_and_odd_words(client, job):
    assert faults(client, visits.by_method_and_address(client.app.routes, job)) == []


def test_every_address_with_odd_bodies_and_fields(client, job):
    assert faults(client, visits.by_body(client.app.routes, job)) == []


def test_odd_heads(client, job):
    assert faults(client, visits.by_head(job)) == []


def test_odd_deliveries_and_photos(client, job):
    assert faults(client, [*visits.deliveries(job, 4), *visits.photos(job)]) == []


@pytest.mark.parametrize("number", range(len(visits.STORED)))
def test_what_is_stored_and_is_no_job_opens_and_answers_in_words(client, number):
    added = client.store.add(json.dumps(visits.STORED[number]), "odd").id
    reads = [
        (m, p) for m, p in visits.addresses(client.app.routes) if m == "GET" and "{job}" in p and "{photo}" not in p
    ]
    asked = [
        visits.Visit(f"{number} {path}", "GET", path.replace("{job}", added).replace("{rev}", "1")) for _, path in reads
    ]
    assert faults(client, [*asked, *visits.deliveries(added, 9)]) == []
    opened = client.get(f"/api/jobs/{added}")
    assert opened.status_code == 200 and "document" in opened.json()


def test_foreign_files_are_taken_or_refused_in_words(client):
    files = [*corpus.texts()[::6], *corpus.drawings()[::9], *corpus.clouds()[::9]]
    asked = [
        visits.Visit(each.name, "POST", f"/api/files?asked={quote(json.dumps(each.asked))}", each.content, {})
        for each in files
    ]
    assert faults(client, [*visits.kinds_of_files(), *asked]) == []


def test_a_kind_of_file_in_a_list_is_refused_in_words(client):
    answer = client.post("/api/files?asked=" + quote('{"kind":["las"]}'), content=b"LASF")
    assert answer.status_code == 422
    assert answer.json()["message"] == "Say what kind of file it is: csv, dxf, geojson, landxml, las, ply, prices."


def test_after_all_of_it_a_job_is_planned_and_kept(client, job):
    assert client.post("/api/plan", content=demo_document()).json()["plan"] is not None
    kept = client.get(f"/api/jobs/{job}").json()
    assert (
        client.put(f"/api/jobs/{job}", json={"rev": kept["rev"], "document": json.loads(demo_document())}).status_code
        == 200
    )
