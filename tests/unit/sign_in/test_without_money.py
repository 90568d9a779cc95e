"""A job and a book with amounts that nobody else has: none of them is in any answer to a crew without leave to see money."""

from __future__ import annotations

import io
import json
import re
import time
import zipfile

import argon2
import pypdf
import pytest
from starlette.testclient import TestClient

from pavewright.desk import (
    EMPTY_CALENDAR_TEXT,
    MONEY_FIELDS,
    PAPERS_WITHOUT_MONEY,
    SCREEN_VERBS,
    STAGES,
    ScreenRefusalError,
    beside_book,
    beside_photos,
    book_without_money,
    demo_document,
    job_without_money,
    starter_document,
    firm_schema,
    job_schema,
)
from pavewright.desk._calendar import CALENDAR_VERBS
from pavewright.job import parse
from pavewright.papers import PaperKey
from pavewright.store import Batch, open_installation
from pavewright.web import make_app
from pavewright.web._rights import RIGHTS
from pavewright.web.sign_in import Passwords
from pavewright.people import Role, rights_of

FIRST = 7_713_377


def marked(document, start):
    """Return a document whose every amount of money is one that stands nowhere else, and those amounts."""
    amounts = []

    def put(value):
        if isinstance(value, dict):
            for name, each in value.items():
                if name in MONEY_FIELDS and isinstance(each, int) and not isinstance(each, bool) and name != "to_minor":
                    amounts.append(start + 1_117 * len(amounts))
                    value[name] = amounts[-1]
                else:
                    put(each)
        elif isinstance(value, list):
            for each in value:
                put(each)

    put(document)
    return document, amounts


def spellings(amount):
    whole, pence = divmod(amount, 100)
    return {
        str(amount),
        f"{amount:,}",
        f"{whole}.{pence:02d}",
        f"{whole:,}.{pence:02d}",
        f"{whole:,}",
        f"{whole} {pence:02d}",
    }


def text_of(content, media):
    """Return everything that can be read in an answer, also within a PDF, a spreadsheet or an archive."""
    if content[:2] == b"PK":
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            return "\n".join(text_of(archive.read(name), "") for name in archive.namelist())
    if content[:4] == b"%PDF":
        return "\n".join(each.extract_text() for each in pypdf.PdfReader(io.BytesIO(content)).pages)
    return content.decode("utf-8", "replace")


class As:
    """One browser over one running application, as somebody: workers belong to one loop."""

    def __init__(self, browser, token):
        self.browser, self.head = browser, {"cookie": f"pavewright-sign-in={token}"}

    def request(self, method, path, **more):
        self.browser.cookies.clear()
        return self.browser.request(method, path, headers=self.head, **more)

    def get(self, path, **more):
        return self.request("GET", path, **more)

    def post(self, path, **more):
        return self.request("POST", path, **more)

    def put(self, path, **more):
        return self.request("PUT", path, **more)


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """A firm with a marked job and a marked book, an owner and a crew."""
    installation = open_installation(tmp_path_factory.mktemp("money") / "jobs.sqlite")
    store, accounts = installation.first, installation.accounts
    document, amounts = marked(json.loads(demo_document()), FIRST)
    book = {"format": "pavewright-firm", "version": json.loads(demo_document())["version"]}
    job = store.add(json.dumps(document))
    slow = argon2.profiles.CHEAPEST
    app = make_app(installation, passwords=Passwords(slow))
    with TestClient(app, base_url="http://127.0.0.1", raise_server_exceptions=False) as owner:
        kept = owner.get("/api/firm").json()
        book = kept["document"] | {"rates": document["rates"]}
        book, more = marked(json.loads(json.dumps(book)), FIRST + 1_000_000)
        saved = owner.put("/api/firm", json={"rev": kept["rev"], "document": book, "note": ""})
        assert saved.status_code == 200, saved.text
        plan = owner.post("/api/plan", content=json.dumps(document)).json()["plan"]
        amounts += more + [plan["cost"]["total_minor"], plan["cost"]["low_minor"], plan["cost"]["high_minor"]]
        people = {}
        for role in ("owner", "crew"):
            who = accounts.add_person(role, role.title())
            accounts.join(who.id, installation.first_id, role)
            _, token = accounts.begin_sign_in(who.id, installation.first_id, "test", 1)
            people[role] = As(owner, token)
        yield people | {"job": job.id, "amounts": amounts, "store": store, "document": document}
    installation.close()


def leaked(answered, amounts):
    return amounts_in(text_of(answered.content, answered.headers.get("content-type", "")), amounts)


def amounts_in(text, amounts):
    words = set(re.findall(r"\d[\d., ]*\d", text)) | set(re.findall(r"\d+", text))
    plain = {word.strip(" .,") for word in words}
    return [amount for amount in amounts if spellings(amount) & plain]


def test_the_marks_are_found_where_money_may_be_seen(site):
    assert leaked(site["owner"].get(f"/api/jobs/{site['job']}"), site["amounts"])
    assert leaked(site["owner"].get("/api/firm"), site["amounts"])
    posted = site["owner"].post("/api/plan", content=json.dumps(site["document"]))
    assert leaked(posted, site["amounts"][-3:])


def named(site):
    """Return something of each kind that stands in an address, made by the owner; the long work is the crew's own."""
    store, job = site["store"], site["job"]
    title = {"op": "set", "at": ["identity", "title"], "was": "Never so", "to": "Of the phone"}
    store.operations.take(job, Batch("of the phone", 1, "phone", (title,), "title"))
    store.add_photo("photo1", job, b"picture", "yard", None)
    shown = site["crew"].get(f"/api/jobs/{job}").json()["document"]
    begun = site["crew"].post("/api/long-tasks", json={"verb": "paper", "paper": "points", "document": shown}).json()
    finished(site["crew"], begun["long_task"])
    (clash,) = store.operations.clashes(job)
    return {
        "job": job,
        "rev": "1",
        "name": "levels",
        "kind": "geojson",
        "clash": clash.id,
        "photo": "photo1",
        "long_task": begun["long_task"],
        "view": store.views.keep("Theirs", {}).id,
        "template": store.views.keep_template("Like", json.dumps(site["document"])).id,
        "passkey": "aa11",
        "device": "aa11",
    }


def finished(crew, name):
    """Wait for long work and return how it ended."""
    until = time.monotonic() + 120
    while (state := crew.get(f"/api/long-tasks/{name}").json())["state"] in {"waiting", "working"}:
        assert time.monotonic() < until
        time.sleep(0.1)
    return state


def test_no_answer_to_the_crew_holds_an_amount(site):
    crew, job = site["crew"], site["job"]
    shown = crew.get(f"/api/jobs/{job}").json()["document"]
    parse(shown)
    wrong = []
    bodies = {
        "/api/plan?parts=every": shown,
        "/api/changes": {"before": shown, "after": shown},
        "/api/drains?kind=gully&name=Kitchen gully": shown,
        "/api/documents/up-to-date": {"document": shown},
        f"/api/jobs/{job}/operations": {"key": "k1", "rev": 1, "operations": [], "note": "looked"},
    }
    names = named(site)
    bodies[f"/api/jobs/{job}/clashes/{names['clash']}"] = {"pick": "theirs"}
    asked, named_well, put_away = 0, 0, ("/archived", "/deleted")
    allowed = [
        asked_for
        for asked_for, need in RIGHTS.items()
        if not need.is_public and need.rights <= rights_of(Role.CREW) and not asked_for[1].endswith(put_away)
    ]
    # what deletes comes last, and his own place at the firm stays
    allowed = [each for each in allowed if each[0] != "DELETE" and "/you" not in each[1]] + [
        each for each in allowed if each[0] == "DELETE" and each[1] != "/api/you/devices"
    ]
    for method, path in allowed:
        address = re.sub(r"\{(\w+)(?::\w+)?\}", lambda place: names[place[1]], path)
        if path.startswith("/api/long-tasks/") and path.endswith("{name:path}"):
            address = address.replace("/levels", "/all.zip")
        for full in [address, *[each for each in bodies if each.startswith(address + "?")]]:
            given = bodies.get(full, shown)
            answered = crew.request(method, full, **({"json": given} if method != "GET" else {}))
            asked += answered.status_code == 200
            named_well += answered.status_code == 200 and "{" in path
            found = leaked(answered, site["amounts"])
            if found or answered.status_code >= 500:
                wrong.append((method, full, answered.status_code, found[:3]))
    assert wrong == []
    assert asked > 20
    assert named_well > 15


def test_the_list_of_jobs_shows_the_crew_no_price_and_the_office_its_price(site):
    until = time.monotonic() + 60
    while True:
        rows = site["crew"].get("/api/jobs").json()["jobs"]
        if all(row["fresh"] for row in rows) or time.monotonic() > until:
            break
        time.sleep(0.2)
    assert {row["summary"]["total_minor"] for row in rows} == {None}
    assert not any(row["summary"]["price_words"] for row in rows)
    # whoever asked first, what is kept for all was worked out with the money
    assert any(row["summary"]["total_minor"] for row in site["owner"].get("/api/jobs").json()["jobs"])


@pytest.mark.parametrize("paper", sorted(set(PaperKey) - set(PAPERS_WITHOUT_MONEY)))
def test_papers_about_money_are_refused(site, paper):
    asked = {"verb": "paper", "paper": paper, "document": site["document"]}
    refused = site["crew"].post("/api/long-tasks", json=asked)
    assert (refused.status_code, "money" in refused.text) == (403, True) or refused.status_code == 400


def test_papers_for_the_site_hold_no_amount(site):
    crew = site["crew"]
    shown = crew.get(f"/api/jobs/{site['job']}").json()["document"]
    assert crew.post("/api/long-tasks", json={"verb": "pack", "document": shown}).status_code == 403
    for paper in ("quantities", "programme", "site_papers"):
        begun = crew.post("/api/long-tasks", json={"verb": "paper", "paper": paper, "document": shown})
        name = begun.json()["long_task"]
        state = finished(crew, name)
        assert state["state"] == "done", state
        answered = crew.get(f"/api/long-tasks/{name}/papers/all.zip")
        assert answered.status_code == 200 and leaked(answered, site["amounts"]) == []
        assert not re.search(r"£\s?\d", text_of(answered.content, ""))
        # what somebody began is nobody else's
        assert site["owner"].get(f"/api/long-tasks/{name}/result").status_code == 404


@pytest.mark.parametrize("paper", ["dxf", "handover", "method", "piece_numbers", "templates"])
def test_papers_of_the_work_are_made_of_a_job_without_money(site, paper):
    """The very verb of the long work, on what the crew is shown: what it was not given it cannot print."""
    assert PaperKey(paper) in PAPERS_WITHOUT_MONEY
    shown = job_without_money(site["document"])
    asked = beside_photos((), paper.encode() + b"\n" + json.dumps(shown).encode())
    book = book_without_money(site["store"].firm.book().document.encode())
    try:
        made = SCREEN_VERBS["paper"](beside_book(book, asked), lambda _: None)
    except ScreenRefusalError as refused:
        assert (paper, str(refused)) == ("templates", "No unit of this job is cut to a curve.")
        return
    text = text_of(made, "")
    assert not re.search(r"£\s?\d", text)
    assert amounts_in(text, site["amounts"]) == []
    if paper == "handover":
        assert "ask the office" in text and "No warranty of the firm" not in text


def test_the_stages_of_money_are_hidden_from_who_may_not_see_it(site):
    stages = {stage.key for stage in STAGES}
    hidden = site["crew"].get("/api/pages").json()["hidden"]
    assert hidden["stages"] == ["price"] and "price" in stages
    assert set(hidden["fields"]) == MONEY_FIELDS and "margin_percent" in hidden["rates"]
    assert set(hidden["papers"]) == set(PaperKey) - PAPERS_WITHOUT_MONEY and "backup" in hidden["acts"]
    assert not any(site["owner"].get("/api/pages").json()["hidden"].values())


def test_the_order_of_prices_is_not_told_to_who_may_not_see_them(site):
    listed = {role: site[role].get("/api/jobs?sort=price").json()["jobs"] for role in ("owner", "crew")}
    by_change = site["crew"].get("/api/jobs?sort=changed").json()["jobs"]
    assert [each["id"] for each in listed["crew"]] == [each["id"] for each in by_change]
    assert {each["id"] for each in listed["crew"]} == {each["id"] for each in listed["owner"]}


def test_the_crew_changes_the_work_and_never_the_money(site):
    crew, store, job = site["crew"], site["store"], site["job"]
    told = crew.get(f"/api/jobs/{job}").json()
    assert not {"terms", "quoted", "bills"} & told["document"].keys()
    whole = crew.put(f"/api/jobs/{job}", json={"rev": told["rev"], "document": told["document"], "note": ""})
    assert whole.status_code == 403
    money_before = store.job(job).document.count("_minor")
    title = [
        {
            "op": "set",
            "at": ["identity", "title"],
            "was": told["document"]["identity"]["title"],
            "to": "Renamed by the crew",
        }
    ]
    done = crew.post(
        f"/api/jobs/{job}/operations", json={"key": "k2", "rev": told["rev"], "operations": title, "note": "renamed"}
    )
    assert done.status_code == 200 and done.json()["clashes"] == []
    kept = json.loads(store.job(job).document)
    assert (
        kept["identity"]["title"] == "Renamed by the crew" and store.job(job).document.count("_minor") == money_before
    )
    for place in (["rates", "labour_minor_per_hour"], ["terms"], ["rates"]):
        change = [
            {
                "op": "set",
                "at": place,
                "to": 1 if len(place) == 2 else {},
                "was": kept[place[0]] if len(place) == 1 else kept["rates"].get(place[1]),
            }
        ]
        refused = crew.post(
            f"/api/jobs/{job}/operations",
            json={"key": "k3", "rev": done.json()["rev"], "operations": change, "note": ""},
        )
        assert refused.status_code == 403, (place, refused.text)
    delivered = crew.post(
        f"/api/jobs/{job}/deliveries",
        json={"id": "d1", "kind": "operations", "rev": done.json()["rev"], "entries": change, "note": ""},
    )
    assert delivered.json()["state"] == "refused" and "costs" in delivered.json()["message"]
    revisions = crew.get(f"/api/jobs/{job}/revisions").json()["revisions"]
    assert revisions[0]["who"] == "Crew"


@pytest.mark.parametrize(
    ("at", "to"), [(["rates", "labour_minor_per_hour"], 1), (["rates", "margin_percent"], 1.0), (["terms"], {"a": 1})]
)
def test_whether_a_guess_of_an_amount_is_right_the_crew_does_not_learn(site, at, to):
    """A wrong guess of what stands there would be a clash, a right one a change: both are refused alike."""
    crew, store, job = site["crew"], site["store"], site["job"]
    kept = json.loads(store.job(job).document)
    right = kept.get(at[0]) if len(at) == 1 else kept[at[0]].get(at[1])
    before = store.job(job), store.operations.clashes(job)
    said = set()
    for number, (was, wanted) in enumerate([(right, to), (2, to), (2, right), (right, right), (None, to)]):
        change = {"op": "set", "at": at, "was": was, "to": wanted}
        asked = {"key": f"guess{number}", "rev": before[0].rev, "operations": [change], "note": ""}
        answered = crew.post(f"/api/jobs/{job}/operations", json=asked)
        sent = {"id": f"guess{at[-1]}{number}", "kind": "operations", "rev": before[0].rev, "entries": [change]}
        delivered = crew.post(f"/api/jobs/{job}/deliveries", json=sent)
        said |= {(answered.status_code, answered.text), (delivered.status_code, delivered.json()["message"])}
    assert {status for status, _ in said} == {403, 422} and len(said) == 2
    assert (store.job(job), store.operations.clashes(job)) == before


def test_what_is_taken_away_is_every_amount_of_the_schema():
    def names(value, found):
        if isinstance(value, dict):
            for name, each in value.get("properties", {}).items():
                if "minor" in name.split("_"):
                    found.add(name)
            for each in value.values():
                names(each, found)
        elif isinstance(value, list):
            for each in value:
                names(each, found)
        return found

    assert names(job_schema(), set()) | names(firm_schema(), set()) <= MONEY_FIELDS
    empty = json.loads(starter_document("New"))
    assert job_without_money(empty).keys() <= empty.keys()


@pytest.mark.parametrize("money", [True, False])
def test_a_calendar_arranged_for_who_sees_no_money_holds_no_cost(money):
    asked = {"calendar": json.loads(EMPTY_CALENDAR_TEXT), "needs": {}, "today": "2027-05-10", "money": money}
    told = json.loads(CALENDAR_VERBS["calendar_arrange"](json.dumps(asked).encode(), lambda _: None))
    assert ("cost" in told) is money
