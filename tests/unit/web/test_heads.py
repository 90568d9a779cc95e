"""What stands at the head of answers: kinds, encodings, what a browser may keep, send on and use."""

from __future__ import annotations

import re

import pytest
from starlette.testclient import TestClient

from pavewright import __version__
from pavewright.desk import demo_document
from pavewright.web._pages import static_files

PAGES = (
    "/",
    "/sums",
    "/sw.js",
    "/static/style.css",
    "/static/icon.svg",
    "/api/jobs",
    "/api/docs",
    "/nothing",
    "/health",
)


@pytest.fixture(scope="module")
def answers(client, store):
    job = store.add(demo_document().decode()).id
    found = {path: client.get(path) for path in (*PAGES, f"/api/jobs/{job}", f"/api/jobs/{job}/photos")}
    found["drawing"] = client.post("/api/drawings/levels", json={"document": demo_document().decode()})
    found["refused"] = client.post("/api/plan", content=b"{", headers={"content-type": "application/json"})
    found["stranger"] = client.get("/", headers={"host": "evil.example"})
    return found


def test_every_answer_says_what_it_is_and_text_says_its_encoding(answers):
    for path, each in answers.items():
        kind = each.headers["content-type"]
        if kind.startswith(("text/", "image/svg")):
            assert kind.endswith("; charset=utf-8"), path
        else:
            assert kind.startswith(("application/json", "application/vnd", "image/")), (path, kind)
    assert answers["/static/icon.svg"].headers["content-type"] == "image/svg+xml; charset=utf-8"


def test_what_programs_are_answered_is_a_file_where_a_browser_opens_it(answers):
    api = [
        each for path, each in answers.items() if path.startswith("/api/") and "json" in each.headers["content-type"]
    ]
    assert len(api) > 2
    assert {each.headers["content-disposition"] for each in api} == {'attachment; filename="answer.json"'}
    assert "content-disposition" not in answers["/"].headers


def test_nothing_of_a_firm_is_kept_by_a_browser(answers):
    of_jobs = [each for path, each in answers.items() if path.startswith("/api/jobs")]
    assert len(of_jobs) == 3
    assert {each.headers["cache-control"] for each in of_jobs} == {"no-store"}


def test_no_page_is_framed_opens_itself_to_others_or_sends_where_it_was(answers):
    for path, each in answers.items():
        assert "frame-ancestors 'none'" in each.headers["content-security-policy"], path
        assert each.headers["referrer-policy"] == "no-referrer", path
        assert "object-src" not in each.headers["content-security-policy"], path  # falls to default-src 'none'
        assert "default-src 'none'" in each.headers["content-security-policy"], path
        assert not [name for name in each.headers if name.startswith("access-control-")], path


def test_no_page_may_ask_where_somebody_is_or_listen(answers):
    for path, each in answers.items():
        assert "geolocation=()" in each.headers["permissions-policy"], path
        assert "microphone=()" in each.headers["permissions-policy"], path


def test_another_origin_is_let_in_nowhere(client):
    asked = {"origin": "http://elsewhere.example", "access-control-request-method": "PUT"}
    for path in ("/api/jobs", "/", "/sign-in"):
        answered = client.options(path, headers=asked)
        assert not [name for name in answered.headers if name.startswith("access-control-")]
        assert not [name for name in client.get(path, headers=asked).headers if name.startswith("access-control-")]


@pytest.mark.parametrize("method", ["TRACE", "TRACK", "CONNECT", "PATCH", "PROPFIND", "DEBUG", "X"])
def test_a_method_that_no_route_knows_is_refused_in_words(client, method):
    answered = client.request(method, "/api/jobs")
    assert answered.status_code == 405
    assert answered.json() == {"message": "That cannot be done here."}


def test_nothing_that_strangers_read_says_which_version_runs(answers, client):
    document = client.get("/api/openapi.json")
    assert document.json()["info"]["version"] == "1"
    for path, each in {**answers, "openapi": document}.items():
        told = " ".join(each.headers.values())
        assert __version__ not in told, path
        assert "uvicorn" not in told.lower(), path
        assert not {"x-powered-by", "x-aspnet-version"} & set(each.headers), path
    assert __version__ not in document.text


def test_no_page_needs_a_plug_in_or_code_from_text():
    looked_at = 0
    for name, content in static_files().items():
        if name.endswith((".html", ".js")) and not name.startswith("vendor/"):
            text = content.decode()
            assert not (name.endswith(".html") and re.search(r"<(object|embed|applet)\b", text)), name
            assert not re.search(r"\beval\(|\bnew Function\(|document\.write\(|insertAdjacentHTML", text), name
            looked_at += 1
    assert looked_at > 50


def test_the_files_of_the_pages_are_of_these_kinds_alone(client):
    kinds = {name.rpartition(".")[2] for name in static_files()}
    assert kinds <= {"html", "css", "js", "svg", "png", "json", "webmanifest", "txt", "woff2"}
    for name in ("../_app.py", "style.css.bak", "page.html~", ".env", "jobs.sqlite"):
        assert client.get(f"/static/{name}").status_code == 404


def test_a_route_that_fails_is_answered_with_one_sentence_and_a_name_and_nothing_of_the_fault(store):
    from pavewright.web import make_app  # noqa: PLC0415 - one of its own: a route is added to it

    app = make_app(store)

    async def fails(_request):
        message = "secret words of a fault"
        raise RuntimeError(message)

    app.router.add_route("/api/fails", fails)
    with TestClient(app, base_url="http://127.0.0.1", raise_server_exceptions=False) as opened:
        answered = opened.get("/api/fails")
    assert answered.status_code == 500
    assert "secret words" not in answered.text
    assert "Traceback" not in answered.text
    assert answered.headers["x-request-id"]
    assert answered.headers["x-content-type-options"] == "nosniff"
    assert app.debug is False
