"""The description of the routes: whole, sound, and what a running server answers."""

from __future__ import annotations

import json
import re

import jsonschema
import pytest
from click.testing import CliRunner
from openapi_spec_validator import validate

from pavewright.cli import main
from pavewright.desk import demo_document
from pavewright.web.openapi import described, openapi_document, path_of

LONG = ("Job", "FirmBook")
"""Schemas of the documents that people write."""
ANY = 3
"""A route of more methods than this answers whatever is asked."""


@pytest.fixture(scope="module")
def document():
    return json.loads(json.dumps(openapi_document()))


def test_every_route_is_described_and_nothing_else_is(client):
    there = set()
    for route in client.app.routes:
        methods = sorted(route.methods - {"HEAD"})
        there |= {f"{each} {path_of(route.path)}" for each in (["ANY"] if len(methods) > ANY else methods)}
    assert there - set(described()) == set(), "describe these in src/pavewright/web/openapi/routes.toml"
    assert set(described()) - there == set(), "these are gone"


def test_it_is_sound_openapi(document):
    # the documents that people write are checked by themselves: their hundreds of parts take the checker half a minute
    schemas = document["components"]["schemas"]
    for name in LONG:
        jsonschema.Draft202012Validator.check_schema(schemas[name])
    targets = set(re.findall(r'"#/components/schemas/([^"]+)"', json.dumps(document)))
    assert targets <= set(schemas)
    short = {name: {"type": "object"} if name in LONG else each for name, each in schemas.items() if "." not in name}
    validate(document | {"components": document["components"] | {"schemas": short}})
    ids = [each["operationId"] for path in document["paths"].values() for each in path.values()]
    assert len(ids) == len(set(ids))


def test_scopes_are_those_that_the_gate_asks(document):
    plan = document["paths"]["/api/plan"]["post"]["security"]
    assert plan == [{"signIn": ["read_jobs"]}, {"token": ["read_jobs"]}]
    assert document["paths"]["/api/people"]["get"]["security"] == [{"signIn": ["people"]}]
    assert document["paths"]["/quotation/{token}"]["get"]["security"] == []


def test_the_command_prints_what_the_server_answers(client, document):
    done = CliRunner().invoke(main, ["openapi"])
    assert done.exit_code == 0
    assert json.loads(done.output) == document == client.get("/api/openapi.json").json()


def test_the_page_lists_every_way_in_and_takes_nothing_from_elsewhere(client):
    page = client.get("/api/docs").text
    assert page.count("<details>") == sum(not each.hidden for each in described().values())
    assert "http://" not in page.replace("http://127.0.0.1:8321", "") and "https://" not in page
    assert "<script" not in page


@pytest.fixture(scope="module")
def placed(client):
    """Something in every place of an address that a read asks for."""
    job = client.post("/api/jobs", json={"start_from": "demo"}).json()["id"]
    body = client.get("/api/firm").json()
    book = {"format": "pavewright.firm", "version": 1}
    client.put("/api/firm", json={"rev": body["rev"], "document": book})
    return {
        "job": job,
        "rev": "1",
        "name": "record.jsonl",
        "path": "style.css",
        "long_task": "none",
        "photo": "none",
        "link": "none",
    }


def components(document, schema):
    """Return the kinds that a schema leans on; the hundreds of parts of whole documents only where it is one of those."""
    schemas, whole = document["components"]["schemas"], json.dumps(schema)
    if 'schemas/Job"' in whole or 'schemas/FirmBook"' in whole:
        return {"schemas": schemas}
    return {"schemas": {name: each for name, each in schemas.items() if name not in LONG and "." not in name}}


def conforms(document, method, path, answer):
    told = document["paths"][path][method]["responses"]
    assert str(answer.status_code) in told, f"{method} {path} answers {answer.status_code}: {answer.text[:200]}"
    content = told[str(answer.status_code)].get("content", {})
    if not content:
        assert answer.content == b""
        return
    kind = answer.headers["content-type"].partition(";")[0]
    if kind == "application/json" and kind in content:
        schema = content[kind].get("schema", {})
        validator = jsonschema.Draft202012Validator({**schema, "components": components(document, schema)})
        validator.validate(answer.json())
    else:
        assert kind in content or "application/octet-stream" in content, f"{method} {path} answers {kind}"


def test_every_read_answers_as_it_is_described(client, document, placed):
    asked = 0
    for path, methods in document["paths"].items():
        if "get" not in methods or path == "/api/backup":
            continue
        if path == "/api/calendar/sheet":
            path_asked = f"{path}?person=nobody&on=2027-05-10"
        else:
            path_asked = re.sub(r"\{(\w+)\}", lambda found: placed.get(found[1], "none"), path)
        answer = client.get(path_asked, follow_redirects=False)
        if path.startswith("/quotation/"):
            assert answer.status_code == 404 or path == "/quotation/-/{name}"  # its pages say that in words
            continue
        conforms(document, "get", path, answer)
        asked += 1
    assert asked > 35


@pytest.mark.parametrize(
    "path", ["/api/plan", "/api/plan?parts=levels", "/api/outcome", "/api/preview", "/api/account", "/api/cash"]
)
def test_what_plans_a_job_answers_as_it_is_described(client, document, path):
    answer = client.post(path, content=demo_document())
    assert answer.status_code == 200
    conforms(document, "post", path.partition("?")[0], answer)


def test_changes_of_a_job_answer_as_they_are_described(client, document, placed):
    job = f"/api/jobs/{placed['job']}"
    kept = client.get(job).json()
    asked = (
        ("put", "/api/jobs/{job}", {"rev": kept["rev"], "document": kept["document"]}),
        ("put", "/api/jobs/{job}", {"rev": kept["rev"], "document": kept["document"]}),
        ("post", "/api/jobs/{job}/archived", {"archived": False}),
        ("post", "/api/jobs/{job}/archived", {"archived": "perhaps"}),
        ("post", "/api/jobs/{job}/deliveries", {"id": "a1", "kind": "nothing"}),
        ("post", "/api/jobs", {"title": "A patio"}),
        ("post", "/api/sums", {"name": "fall", "given": {"run_mm": "3000", "one_in": "60"}}),
        ("post", "/api/firm/check", {"document": {}}),
        ("post", "/api/long-tasks", {"verb": "dance", "document": {}}),
        ("post", "/api/jobs/{job}/state", {"state": "visit", "note": "by hand"}),
        ("post", "/api/jobs/{job}/state", {"state": "asleep"}),
        ("post", "/api/views", {"name": "Owing", "owing": "1"}),
        ("delete", "/api/views/{view}", None),
        ("post", "/api/templates", {"job": placed["job"], "name": "A patio"}),
        ("post", "/api/templates", {"job": "none", "name": "A patio"}),
        ("delete", "/api/templates/{template}", None),
        ("post", "/api/calendar/people", None),
        ("post", "/api/calendar/feeds", {"person": "aa11"}),
        ("post", "/api/calendar/feeds", {"person": "a b"}),
        ("delete", "/api/calendar/feeds/{feed}", None),
        ("put", "/api/calendar", {"rev": 77, "document": {"format": "pavewright.calendar", "version": 1}}),
        ("post", "/api/calendar/move", {"rev": 0, "job": "a b", "stretch": 0, "to": "2027-05-10"}),
        ("post", "/api/calendar/arrange", {"effort": "endless"}),
        ("post", "/api/better", {"document": {}, "aims": ["nothing"]}),
        ("post", "/api/better", {"document": {}, "go_on": "a b"}),
        ("post", "/api/replans", {"of": "nothing"}),
        ("delete", "/api/replans/{run}", None),
        ("post", "/api/tokens", {"name": "Sums", "scopes": ["read_jobs"]}),
        ("post", "/api/you/password", {"password": "wet gloves twice a day"}),
        ("post", "/api/you/passkeys/asked", None),
        ("post", "/api/sign-in/passkey/asked", None),
        ("post", "/api/sign-in/passkey", {"credential": {}}),
        ("post", "/api/join/{token}/passkey/asked", {"sign_in": "kim"}),
        ("post", "/sign-out", None),
        ("post", "/api/people/invitations", {"role": "crew"}),
        ("post", "/api/people/first", {"name": "Kim"}),
        ("put", "/api/people/{person}", {"role": "crew"}),
    )
    for method, path, body in asked:
        address = re.sub(r"\{(\w+)\}", lambda found: placed.get(found[1], "none"), path)
        answer = client.request(method.upper(), address, json=body, follow_redirects=False)
        conforms(document, method, path, answer)
    assert client.put(job, json={"rev": 1, "document": kept["document"]}).status_code == 409
