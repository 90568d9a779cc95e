from __future__ import annotations

import io
import json
import time
import zipfile
from pathlib import Path

from pavewright.catalogue import SUMS
from pavewright.desk import demo_document, make_pack, make_plan
from pavewright.papers import plan_json


def wait(client, long_task):
    for _ in range(1200):
        reported = client.get(f"/api/long-tasks/{long_task}").json()
        if reported["state"] not in {"waiting", "working"}:
            return reported
        time.sleep(0.1)
    raise AssertionError(reported)


def test_a_plan_of_the_screen_is_the_plan_of_the_command_line(client, made_plan):
    reported = client.post("/api/plan", content=demo_document()).json()
    whole = json.loads(plan_json(made_plan("demo")))
    assert {name: part for name, part in reported["plan"].items() if name in whole} == whole
    assert reported["plan"].keys() - whole.keys() == {"labour", "missing", "faults"}
    assert reported["plan"]["missing"] == reported["plan"]["faults"] == []
    assert reported["sources"]["common_practice"]


def test_a_plan_is_answered_in_the_parts_that_are_asked_for_and_packed(client, made_plan):
    answer = client.post("/api/plan?parts=cost,laying", content=demo_document())
    assert answer.headers["content-encoding"] == "gzip"
    assert int(answer.headers["content-length"]) < len(answer.content) / 3
    told, whole = answer.json(), json.loads(plan_json(made_plan("demo")))
    assert told["plan"]["cost"] == whole["cost"]
    assert [len(each["kind"]) for each in told["pieces"]] == [len(each["pieces"]) for each in whole["laying"]["areas"]]
    refused = client.post("/api/plan?parts=cost,price", content=demo_document())
    assert refused.status_code == 400
    assert "survey" in refused.json()["message"]


def test_a_bad_document_is_told_with_every_fault_and_its_place(client, document):
    document["areas"][0]["laying"]["joint_mm"] = -5
    document["identity"]["locality"] = "atlantis"
    reported = client.post("/api/plan", json=document).json()
    assert reported["plan"] is None
    assert {"areas.0.laying.joint_mm", "identity.locality"} <= {fault["path"] for fault in reported["faults"]}


def test_a_preview_says_what_the_plan_says(client, document):
    quick = client.post("/api/preview", json=document).json()["areas"][0]
    plan = client.post("/api/plan", json=document).json()["plan"]
    assert quick["corners"] == plan["levels"]["areas"][0]["corners"]


def test_papers_of_the_screen_are_those_of_the_command_line(client, document):
    reported = client.post("/api/long-tasks", json={"verb": "pack", "document": document})
    assert reported.status_code == 202
    long_task = reported.json()["long_task"]
    assert wait(client, long_task)["state"] == "done"
    with zipfile.ZipFile(io.BytesIO(client.get(f"/api/long-tasks/{long_task}/papers/all.zip").content)) as archive:
        found = {name: archive.read(name) for name in archive.namelist()}
    text = json.dumps(document, ensure_ascii=False)
    assert found == {paper.name: paper.content for paper in make_pack(make_plan(text))}
    answer = client.get(f"/api/long-tasks/{long_task}/papers/job-pack.pdf")
    assert answer.content == found["job-pack.pdf"]
    assert answer.headers["content-type"] == "application/pdf"


def test_an_errand_can_be_stopped_and_the_next_one_works(client, document):
    long_task = client.post("/api/long-tasks", json={"verb": "starts", "document": document}).json()["long_task"]
    time.sleep(0.3)
    assert client.delete(f"/api/long-tasks/{long_task}").json() == {"state": "stopped"}
    assert client.get(f"/api/long-tasks/{long_task}").json()["state"] == "stopped"
    assert client.get(f"/api/long-tasks/{long_task}/result").status_code == 409
    small = json.loads((Path(__file__).parents[2] / "patio.json").read_text("utf-8"))
    following = client.post("/api/long-tasks", json={"verb": "storm", "document": small, "cell_mm": 200}).json()[
        "long_task"
    ]
    assert wait(client, following)["state"] == "done"


def test_the_risk_of_a_price_is_worked_out_beside_the_server(client, document):
    long_task = client.post("/api/long-tasks", json={"verb": "risk", "document": document}).json()["long_task"]
    assert wait(client, long_task)["state"] == "done"
    risk = client.get(f"/api/long-tasks/{long_task}/result").json()["risk"]
    assert [each["chance"] for each in risk["quantiles"]] == [0.1, 0.5, 0.8, 0.9]
    assert len(risk["break_even"]) == 99
    assert risk["drivers"][0]["words"]
    assert risk["orders"][0]["key"]
    document["rates"] = {}
    document["units"] = [{**unit, "pack_price_minor": None} for unit in document["units"]]
    unpriced = client.post("/api/long-tasks", json={"verb": "risk", "document": document}).json()["long_task"]
    refused = wait(client, unpriced)
    assert (refused["state"], refused["message"]) == (
        "refused",
        "Enter prices: nothing has one yet, so there is no price.",
    )


def test_other_build_ups_are_planned_beside_the_server(client):
    drive = json.loads((Path(__file__).parents[3] / "examples" / "front_drive.json").read_text("utf-8"))
    long_task = client.post("/api/long-tasks", json={"verb": "build-ups", "document": drive}).json()["long_task"]
    assert wait(client, long_task)["state"] == "done"
    found = client.get(f"/api/long-tasks/{long_task}/result").json()["build_ups"]
    (chosen,) = (each for each in found["alternatives"] if each["chosen"])
    assert (chosen["bedding"], chosen["base_rule"]) == ("sand_on_sub_base", "own")
    assert chosen["rule"].startswith("Sub-base 250 mm")
    changes = [each["changes"] for each in found["refused"]]
    assert [{"path": "areas.0.laying.bedding", "value": "mortar_on_sub_base"}] in changes


def test_a_drawing_comes_as_on_paper_or_not_at_all(client, document):
    answer = client.post("/api/drawings/section", json=document)
    assert answer.text.startswith("<svg")
    assert answer.headers["content-type"].startswith("image/svg+xml")
    del document["as_laid"]
    assert client.post("/api/drawings/as-laid", json=document).content == b""
    assert client.post("/api/drawings/secrets", json=document).status_code == 404
    refused = client.post("/api/drawings/levels", json={"format": "pavewright.job"})
    assert refused.status_code == 422


def test_a_sum_is_worked_out_or_refused_with_a_sentence(client):
    reported = client.post("/api/sums", json={"name": "fall", "given": {"run_mm": 3000, "one_in": 60}})
    assert reported.json() == {"answers": reported.json()["answers"], "taken": []}
    assert reported.json()["answers"]["drop_mm"] == 50.0
    refused = client.post("/api/sums", json={"name": "fall", "given": {"run_mm": "long"}})
    assert refused.status_code == 422
    assert "run_mm" in refused.json()["message"]


def test_every_sum_is_listed_with_its_source(client):
    listed = client.get("/api/sums").json()["sums"]
    assert sorted(entry["name"] for entry in listed) == [entry.name for entry in SUMS]
    assert all(entry["source"] and entry["formula"] and entry["outputs"] for entry in listed)


def test_the_customer_of_a_kept_job_sees_the_price_and_nothing_of_cost(client, demo, made_plan):
    reported = client.get(f"/api/jobs/{demo}/customer").json()
    plan = made_plan("demo")
    assert reported["to_pay_minor"] == plan.cost.total_minor
    words = json.dumps({name: value for name, value in reported.items() if name != "pictures"}).lower()
    for word in ("margin", "overhead", "prime", "labour", "rate_minor"):
        assert word not in words


def test_the_cash_of_a_job_is_worked_out_when_it_is_asked_for(client):
    document = json.loads(demo_document())
    without = client.post("/api/cash", json={**document, "terms": {}}).json()
    assert without["cash"] is None
    assert any("stage payments" in words for words in without["first"])
    document["terms"] = {"stages": [{"event": "deposit", "percent": 20}, {"event": "complete"}]}
    cash = client.post("/api/cash", json=document).json()["cash"]
    plan = client.post("/api/plan", json=document).json()["plan"]
    assert sum(each["due_minor"] for each in cash["payments"]) == plan["cost"]["total_minor"]
    assert cash["days"][-1]["balance_minor"] == plan["cost"]["margin_minor"]


def test_one_paper_comes_with_its_text_and_its_pages(client, document):
    refused = client.post("/api/long-tasks", json={"verb": "paper", "paper": "postcard", "document": document})
    assert refused.status_code == 400
    reported = client.post("/api/long-tasks", json={"verb": "paper", "paper": "piece_numbers", "document": document})
    name = reported.json()["long_task"]
    assert wait(client, name)["state"] == "done"
    files = [each["name"] for each in client.get(f"/api/long-tasks/{name}/papers").json()["files"]]
    assert files[:2] == ["piece-numbers.pdf", "piece-numbers.txt"]
    assert files[2:] == [f"pages/piece-numbers-{number}.png" for number in range(1, len(files) - 1)]
    seen = client.get(f"/api/long-tasks/{name}/papers/{files[2]}")
    assert seen.headers["content-type"] == "image/png"
    assert "Content-Disposition" not in seen.headers
    nothing = client.post("/api/long-tasks", json={"verb": "paper", "paper": "templates", "document": document})
    state = wait(client, nothing.json()["long_task"])
    assert (state["state"], state["message"]) == ("refused", "No unit of this job is cut to a curve.")


def test_the_log_of_a_job_says_its_days_and_what_the_book_may_learn(client, demo):
    document = client.get(f"/api/jobs/{demo}").json()["document"]
    day = {
        "name": "one",
        "date": "2027-06-01",
        "worked": [{"task": "set_out.area1", "person_h": 4, "done_percent": 100}],
    }
    told = client.post("/api/site-log", json=document | {"site_days": [day]}).json()
    assert [each["on"] for each in told["days"]] == ["2027-06-01"]
    assert [(each["key"], each["logged_h"]) for each in told["tasks"]] == [("set_out.area1", 4.0)]
    (own,) = told["own"]
    assert (own["kind"], own["hours_each"], own["entry"]["person_hours"]) == ("set_out_h", 4.0, 4.0)
    assert own["learnt"]["sd_hours"] > 0.0
    assert told["done"] == [{"task": "set_out.area1", "on": "2027-06-01", "since": "2027-06-01", "done_percent": 100.0}]
    assert [each["code"] for each in told["findings"]] == ["site_log.done_differs"]
    assert client.post("/api/site-log", json=document).json()["days"] == []
