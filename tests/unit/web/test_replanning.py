"""All open jobs planned again by the server, beside everything else."""

from __future__ import annotations

import importlib.util
import json
import time
from pathlib import Path

import pytest

from pavewright.desk import Of
from pavewright.store import RunState, open_file
from pavewright.web._replanning import Replanning


def _of_the_desk(name):
    path = Path(__file__).parents[1] / "desk" / f"{name}.py"
    spec = importlib.util.spec_from_file_location(name, path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


small = _of_the_desk("replanning")
HEAD = {"origin": "http://127.0.0.1"}


@pytest.fixture(scope="module")
def jobs(store):
    store.firm.save(0, json.dumps(small.BOOK))
    made = [store.add(small.patio(number)).id for number in range(2)]
    dearer = small.changed(small.BOOK, ("rates", "materials", 1, "pack_price_minor"), 9_999)
    store.firm.save(1, json.dumps(dearer))
    return made


def test_jobs_are_planned_again_and_what_changed_is_looked_through(client, jobs, store):
    made = client.post("/api/replans", json={"of": "all"}, headers=HEAD)
    assert made.status_code == 202, made.text
    path = f"/api/replans/{made.json()['id']}"
    until = time.monotonic() + 300
    while (told := client.get(path).json())["going"] and time.monotonic() < until:
        time.sleep(0.2)
    assert (told["state"], told["done"], told["failed"], told["of_jobs"]) == ("finished", 2, 0, 2)
    assert {each["standing"] for each in told["jobs"]} == {"changed"}
    assert all(each["headline"] and each["details"] for each in told["jobs"])
    assert client.get(f"{path}?from=1").json()["jobs"] == told["jobs"][1:]
    table = client.get(f"{path}/table")
    assert table.headers["content-type"].startswith("text/csv")
    assert table.text.count("Patio") == 2
    assert [each["id"] for each in client.get("/api/replans").json()["runs"]] == [told["id"]]
    assert client.delete(path, headers=HEAD).status_code == 200
    assert [store.job(each).rev for each in jobs] == [1, 1]


@pytest.mark.parametrize("of", ["", "weather", 7])
def test_what_changed_is_one_of_four(client, of):
    assert client.post("/api/replans", json={"of": of}, headers=HEAD).status_code == 400


def test_a_run_that_is_not_there_says_so(client):
    assert client.get("/api/replans/none").status_code == 404
    assert client.get("/api/replans/none/table").status_code == 404
    assert client.delete("/api/replans/none", headers=HEAD).status_code == 404


@pytest.fixture
def firm(tmp_path_factory):
    """Make the store of another firm, with some jobs and a price that changed."""
    opened = []

    def make(count):
        store = open_file(tmp_path_factory.mktemp("firm") / "jobs.sqlite")
        opened.append(store)
        store.firm.save(0, json.dumps(small.BOOK))
        for number in range(count):
            store.add(small.patio(number))
        store.firm.save(1, json.dumps(small.changed(small.BOOK, ("rates", "materials", 1, "pack_price_minor"), 9_999)))
        return store

    yield make
    for store in opened:
        store.close()


def waited(going, *run_ids):
    until = time.monotonic() + 300
    while any(going.is_going(each) for each in run_ids) and time.monotonic() < until:
        time.sleep(0.05)


@pytest.mark.slow
def test_each_firm_has_a_run_of_its_own_and_they_share_their_workers(firm):
    going, many, few = Replanning(), firm(8), firm(1)
    long = going.begin(many, Of.ALL, None)
    short = going.begin(few, Of.ALL, None)
    assert going.begin(many, Of.ALL, None) is None and going.begin(few, Of.ALL, None) is None
    waited(going, short.id)
    assert few.runs.run(short.id).state == RunState.FINISHED
    assert going.is_going(long.id)  # eight jobs were asked for before, and the one of the other firm is done
    going.stop(short.id)
    assert going.is_going(long.id)
    going.stop(long.id)
    assert many.runs.run(long.id).state == RunState.STOPPED
    again = going.begin(many, Of.ALL, None)
    assert again.id == long.id
    waited(going, again.id)
    assert (many.runs.run(long.id).state, many.runs.run(long.id).done) == (RunState.FINISHED, 8)
    going.stop()
    assert going._engine is None
