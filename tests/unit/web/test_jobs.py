from __future__ import annotations

import json
from pathlib import Path

from pavewright.desk import deliver_into
from pavewright.desk import _deliveries as deliveries
from pavewright.job import CURRENT_VERSION

OLD = (Path(__file__).parents[1] / "job" / "samples" / "version_1.json").read_text("utf-8")


def test_a_job_is_opened_changed_and_kept(client, demo):
    reported = client.get(f"/api/jobs/{demo}").json()
    reported["document"]["identity"]["title"] = "Another title"
    kept = client.put(
        f"/api/jobs/{demo}", json={"rev": reported["rev"], "document": reported["document"], "note": "renamed"}
    )
    assert kept.json() == {"rev": 2}
    assert client.get(f"/api/jobs/{demo}").json()["document"]["identity"]["title"] == "Another title"
    assert client.get(f"/api/jobs/{demo}/revisions").json()["revisions"][0]["note"] == "renamed"
    assert client.get(f"/api/jobs/{demo}/revisions/1").json()["document"]["identity"]["title"] != "Another title"


def test_two_windows_never_lose_a_change(client, demo):
    reported = client.get(f"/api/jobs/{demo}").json()
    first, second = json.loads(json.dumps(reported["document"])), json.loads(json.dumps(reported["document"]))
    first["identity"]["title"], second["identity"]["title"] = "First window", "Second window"
    assert client.put(f"/api/jobs/{demo}", json={"rev": 1, "document": first}).status_code == 200
    refused = client.put(f"/api/jobs/{demo}", json={"rev": 1, "document": second})
    assert refused.status_code == 409
    assert refused.json()["rev"] == 2
    assert refused.json()["document"]["identity"]["title"] == "First window"


def test_a_document_that_is_no_plan_yet_is_kept_all_the_same(client):
    kept = client.post("/api/jobs", json={"document": {"identity": {"title": "Half a job"}}})
    assert kept.status_code == 201
    reported = client.get(f"/api/jobs/{kept.json()['id']}").json()
    assert reported["document"] == {"identity": {"title": "Half a job"}}


def test_a_new_job_knows_nothing_and_says_what_to_measure_first(client):
    made = client.post("/api/jobs", json={"title": "Behind the kitchen"}).json()
    document = client.get(f"/api/jobs/{made['id']}").json()["document"]
    assert document["identity"]["title"] == "Behind the kitchen"
    assert document["identity"]["invented"] is False
    reported = client.post("/api/plan", json=document).json()
    assert reported["faults"] == []
    assert [one["code"] for one in reported["plan"]["findings"] if one["severity"] == "stop"] == []
    assert reported["plan"]["missing"][0]["code"] == "shape"
    assert reported["plan"]["levels"] is reported["plan"]["cost"] is None


def test_a_copy_says_that_it_is_one_and_the_first_stays(client, demo):
    made = client.post("/api/jobs", json={"copy_of": demo}).json()
    assert client.get(f"/api/jobs/{made['id']}").json()["document"]["identity"]["title"].startswith("Copy of ")
    assert made["id"] != demo


def test_the_list_is_searched_and_archived(client, demo):
    assert client.post(f"/api/jobs/{demo}/archived", json={"archived": True}).json() == {"archived": True}
    assert demo not in [job["id"] for job in client.get("/api/jobs?words=terrace").json()["jobs"]]
    assert demo in [job["id"] for job in client.get("/api/jobs?words=terrace&archived=1").json()["jobs"]]
    client.post(f"/api/jobs/{demo}/archived", json={"archived": False})


def test_the_line_of_the_list_is_worked_out_beside_it(client, demo):
    for _ in range(400):
        (line,) = [job for job in client.get("/api/jobs").json()["jobs"] if job["id"] == demo]
        if line["fresh"]:
            break
        client.get("/api/schema")
    assert line["summary"]["total_minor"] > 0
    assert line["summary"]["outlines"]


def test_the_document_comes_out_as_it_was_kept(client, store, demo):
    answer = client.get(f"/api/jobs/{demo}/document.json")
    assert answer.text == store.job(demo).document
    assert "attachment" in answer.headers["content-disposition"]


def test_a_job_kept_before_an_update_is_handed_out_in_the_present_version(client, store):
    job = store.add(OLD).id
    opened = client.get(f"/api/jobs/{job}").json()["document"]
    for document in (opened, client.get(f"/api/jobs/{job}/revisions/1").json()["document"]):
        assert document["version"] == CURRENT_VERSION
        assert "least_step_mm" not in json.dumps(document)
        assert "min_step_mm" in json.dumps(document)
    stale = client.put(f"/api/jobs/{job}", json={"rev": 7, "document": opened}).json()
    assert stale["document"]["version"] == CURRENT_VERSION


def test_what_a_browser_wrote_before_an_update_is_brought_up_and_what_cannot_be_comes_back_as_it_is(client):
    def brought_up(document):
        return client.post("/api/documents/up-to-date", json={"document": document})

    old = json.loads(OLD)
    assert brought_up(old).json()["document"]["version"] == CURRENT_VERSION
    assert "joint_least_mm" not in brought_up(old).text
    newer = {"format": "pavewright.job", "version": 99}
    assert brought_up(newer).json()["document"] == newer
    assert brought_up({"n": 1}).json()["document"] == {"n": 1}
    assert brought_up([1]).status_code == 400


def test_a_reading_for_a_job_of_an_older_version_is_kept_in_the_present_one_and_checked_once(monkeypatch):
    parsed = []
    real = deliveries.parse
    monkeypatch.setattr(deliveries, "parse", lambda document: parsed.append(document) or real(document))
    tape = {"start": "A", "end": "B", "length_mm": 4870.0}
    after = json.loads(deliver_into(OLD, {"kind": "tapes", "entries": [tape], "date": "2027-04-12"}))
    assert after["version"] == CURRENT_VERSION
    assert after["measurements"]["tape_plan"]["tapes"][-1] == tape
    assert len(parsed) == 1


def test_a_new_job_and_a_copy_whose_answer_was_lost_are_made_once(client, demo):
    for asked in ({"title": "Once"}, {"copy_of": demo}):
        first = client.post("/api/jobs", json=asked | {"key": f"k{len(asked)}{list(asked)[0]}".replace("_", "")})
        again = client.post("/api/jobs", json=asked | {"key": f"k{len(asked)}{list(asked)[0]}".replace("_", "")})
        assert first.status_code == again.status_code == 201
        assert first.json() == again.json()
        assert client.post("/api/jobs", json=asked | {"key": "another" + list(asked)[0][:4]}).json() != first.json()


def test_a_job_is_deleted_brought_back_and_removed_for_good(client, demo):
    listed = lambda **asked: {one["id"] for one in client.get("/api/jobs", params=asked).json()["jobs"]}  # noqa: E731
    assert client.delete(f"/api/jobs/{demo}").status_code == 409
    assert client.post(f"/api/jobs/{demo}/deleted", json={"deleted": True}).status_code == 200
    assert demo not in listed()
    assert demo in listed(deleted=1)
    assert client.post(f"/api/jobs/{demo}/deleted", json={"deleted": False}).status_code == 200
    assert demo in listed()
    client.post(f"/api/jobs/{demo}/deleted", json={"deleted": True})
    assert client.delete(f"/api/jobs/{demo}").json() == {"removed": True}
    assert client.get(f"/api/jobs/{demo}").status_code == 404
    assert client.delete(f"/api/jobs/{demo}").status_code == 404
    assert client.post(f"/api/jobs/{demo}/deleted", json={"deleted": 1}).status_code == 400


def test_a_job_like_another_takes_the_firms_things_and_nothing_of_the_house(client, demo, document):
    made = client.post("/api/jobs", json={"like": demo, "title": "Path at another house"}).json()["id"]
    job = client.get(f"/api/jobs/{made}").json()["document"]
    for part in ("units", "rates", "crew", "tolerance"):
        assert job[part] == document[part]
    assert job["identity"]["title"] == "Path at another house"
    assert job["identity"]["invented"] is True
    assert job["identity"]["client"] == job["identity"]["address"] == ""
    assert job["measurements"].get("points", []) != document["measurements"].get("points", [])
    assert "as_laid" not in job
