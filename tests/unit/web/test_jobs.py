from __future__ import annotations

import json


def test_a_job_is_opened_changed_and_kept(client, demo):
    told = client.get(f"/api/jobs/{demo}").json()
    told["document"]["identity"]["title"] = "Another title"
    kept = client.put(f"/api/jobs/{demo}", json={"rev": told["rev"], "document": told["document"], "note": "renamed"})
    assert kept.json() == {"rev": 2}
    assert client.get(f"/api/jobs/{demo}").json()["document"]["identity"]["title"] == "Another title"
    assert client.get(f"/api/jobs/{demo}/revisions").json()["revisions"][0]["note"] == "renamed"
    assert client.get(f"/api/jobs/{demo}/revisions/1").json()["document"]["identity"]["title"] != "Another title"


def test_two_windows_never_lose_a_change(client, demo):
    told = client.get(f"/api/jobs/{demo}").json()
    first, second = json.loads(json.dumps(told["document"])), json.loads(json.dumps(told["document"]))
    first["identity"]["title"], second["identity"]["title"] = "First window", "Second window"
    assert client.put(f"/api/jobs/{demo}", json={"rev": 1, "document": first}).status_code == 200
    refused = client.put(f"/api/jobs/{demo}", json={"rev": 1, "document": second})
    assert refused.status_code == 409
    assert refused.json()["rev"] == 2
    assert refused.json()["document"]["identity"]["title"] == "First window"


def test_a_document_that_is_no_plan_yet_is_kept_all_the_same(client):
    kept = client.post("/api/jobs", json={"document": {"identity": {"title": "Half a job"}}})
    assert kept.status_code == 201
    told = client.get(f"/api/jobs/{kept.json()['id']}").json()
    assert told["document"] == {"identity": {"title": "Half a job"}}


def test_a_new_job_makes_a_plan_that_stops_at_what_nobody_read_only(client):
    made = client.post("/api/jobs", json={"title": "Behind the kitchen"}).json()
    document = client.get(f"/api/jobs/{made['id']}").json()["document"]
    assert document["identity"]["title"] == "Behind the kitchen"
    assert document["identity"]["invented"] is True
    told = client.post("/api/plan", json=document).json()
    assert told["faults"] == []
    stops = [one["code"] for one in told["plan"]["findings"] if one["severity"] == "stop"]
    assert stops == ["survey.dpc_not_read"]


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
