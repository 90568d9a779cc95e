"""What strangers send: refused with a sentence, never with a fault of the program."""

from __future__ import annotations

import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from pavewright.desk import demo_document
from pavewright.web._pages import static_files


def test_another_host_name_is_not_answered(client):
    assert client.get("/api/jobs", headers={"host": "evil.example"}).status_code == 421
    assert client.get("/", headers={"host": "127.0.0.1.evil.example:80"}).status_code == 421
    assert client.get("/", headers={"host": "localhost:9"}).status_code == 200


@pytest.mark.parametrize("headers", [{"origin": "http://evil.example"}, {"origin": "null"}, {"origin": ""}, {"origin": "http://[::1"},
                                     {"origin": "http://["}, {"origin": "[::1]"}, {"origin": "http://a:b:c"}, {"origin": "\\\\"},
                                     {"sec-fetch-site": "cross-site"}, {"sec-fetch-site": "same-site"}])  # fmt: skip
def test_a_page_from_elsewhere_changes_nothing(client, demo, headers):
    refused = client.post(f"/api/jobs/{demo}/archived", json={"archived": True}, headers=headers)
    assert refused.status_code == 403
    assert client.get(f"/api/jobs/{demo}").json()["archived"] is False


def test_own_pages_may_change_things(client, demo):
    headers = {"origin": "http://127.0.0.1", "sec-fetch-site": "same-origin"}
    assert client.post(f"/api/jobs/{demo}/archived", json={"archived": False}, headers=headers).status_code == 200


@pytest.mark.parametrize("path", ["/", "/sums", "/jobs/x", "/sw.js", "/static/style.css", "/api/jobs", "/nothing"])
def test_every_answer_tells_the_browser_what_a_page_may_do(client, path):
    policy = client.get(path).headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert client.get(path).headers["x-content-type-options"] == "nosniff"


def test_no_page_holds_a_script_or_style_of_its_own():
    for name, content in static_files().items():
        if name.endswith(".html"):
            text = content.decode()
            assert "<style" not in text, name
            assert " style=" not in text, name
            assert " onclick=" not in text, name
            assert all("src=" in tag.partition(">")[0] for tag in text.split("<script")[1:]), name


@pytest.mark.parametrize("path", ["/static/../_app.py", "/static/%2e%2e/_app.py", "/static/..%2f_app.py",
                                  "/static//etc/passwd", "/static/lib/../../__init__.py"])  # fmt: skip
def test_a_path_does_not_lead_out_of_the_pages(client, path):
    assert client.get(path).status_code == 404


def test_more_than_is_taken_is_refused_before_it_is_read(client):
    refused = client.post("/api/plan", content=b"x" * 6_000_001)
    assert refused.status_code == 413

    def pieces():
        for _ in range(70):
            yield b"x" * 100_000

    assert client.post("/api/plan", content=pieces()).status_code == 413


def test_what_is_no_json_is_refused(client, demo):
    path = f"/api/jobs/{demo}"
    assert client.put(path, content=b"{", headers={"content-type": "application/json"}).status_code == 400
    assert client.put(path, content=b"{}", headers={"content-type": "text/plain"}).status_code == 415
    assert client.put(path, json=[1]).status_code == 400
    deep = b'{"rev": 1, "document": ' + b"[" * 90_000 + b"]" * 90_000 + b"}"
    assert client.put(path, content=deep, headers={"content-type": "application/json"}).status_code == 400
    for number in (b"NaN", b"Infinity"):
        body = b'{"rev": 1, "document": {"x": ' + number + b"}}"
        assert client.put(path, content=body, headers={"content-type": "application/json"}).status_code == 400


JSON = st.recursive(  # no infinity: no JSON can say it
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=10), inner, max_size=4),
    max_leaves=12,
)
FIELDS = st.sampled_from(["document", "rev", "note", "verb", "name", "given", "archived", "title", "copy_of", "start_from",
                          "cell_mm", "minutes", "rain_mm_per_h", "id", "kind", "entries"])  # fmt: skip
BODIES = st.dictionaries(FIELDS, JSON, max_size=5)


def addresses(client):
    """Every address of the application that may be asked, with its methods."""
    return [(method, route.path) for route in client.app.routes for method in sorted(route.methods or ())]


@settings(max_examples=250, deadline=None, suppress_health_check=list(HealthCheck))
@given(pick=st.integers(0, 10_000), body=BODIES | JSON, word=st.sampled_from(["JOB", "x", "..", "%00", "ü", "1" * 70]),
       raw=st.binary(max_size=40), as_raw=st.booleans())  # fmt: skip
def test_nothing_that_is_sent_makes_the_server_fail(client, store, demo_once, pick, body, word, raw, as_raw):
    method, path = addresses(client)[pick % len(addresses(client))]
    word = demo_once if word == "JOB" else word
    for name in ("{job}", "{long_task}", "{photo}", "{name}", "{name:path}", "{path:path}"):
        path = path.replace(name, word)
    path = path.replace("{rev:int}", str(pick))
    content = raw if as_raw else json.dumps(body).encode()
    answer = client.request(method, path, content=content, headers={"content-type": "application/json"})
    assert answer.status_code < 500, (method, path, content, answer.text)
    if answer.status_code >= 400 and method != "HEAD":
        # a page that a person opens refuses in words of its own
        as_page = answer.headers.get("content-type", "").startswith("text/")
        assert answer.text.strip() if as_page else answer.json()["message"]


@pytest.fixture(scope="module")
def demo_once(store):
    return store.add(demo_document().decode()).id


MUTATIONS = st.lists(st.tuples(st.integers(0, 10_000), JSON), min_size=1, max_size=3)


def places(value, path=()):
    found = [path] if path else []
    if isinstance(value, dict):
        for key, each in value.items():
            found += places(each, (*path, key))
    elif isinstance(value, list):
        for index, each in enumerate(value):
            found += places(each, (*path, index))
    return found


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(changes=MUTATIONS)
def test_a_job_with_anything_in_it_is_planned_or_told_its_faults(client, changes):
    document = json.loads(demo_document())
    for pick, value in changes:
        where = places(document)
        path = where[pick % len(where)]
        here = document
        for step in path[:-1]:
            here = here[step]
        here[path[-1]] = value
    answer = client.post("/api/plan", json=document)
    assert answer.status_code == 200
    reported = answer.json()
    assert reported["plan"] is not None or reported["faults"]


def test_over_a_secure_connection_a_browser_comes_by_no_other_and_every_cookie_is_bound_to_it(client):
    secure = TestClient(client.app, base_url="https://127.0.0.1").get("/")  # a browser without any cookie yet
    assert secure.headers["strict-transport-security"] == "max-age=31536000"
    assert "; Secure" in secure.headers["set-cookie"]
    assert client.get("https://evil.example/").headers["strict-transport-security"] == "max-age=31536000"
    assert "strict-transport-security" not in client.get("http://127.0.0.1/").headers
