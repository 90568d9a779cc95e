"""A customer's link: what it shows, that nothing inside can be reached from it, and that what he accepts stays."""

from __future__ import annotations

import copy
import datetime as dt
import hashlib
import io
import json
import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pypdf import PdfReader
from starlette.testclient import TestClient

from pavewright.desk import demo_document, make_plan_so_far, starter_document
from pavewright.papers._words import money
from pavewright.record import check_record
from pavewright.store import Made, open_store
from pavewright.web import ForCustomers, OnNetwork, Pairing, make_app
from pavewright.web._customer_routes import today_here
from pavewright.web._customers import WrongTokens

_SERVER = "192.168.7.20"
_HTML = {"Accept": "text/html"}
_NOTE = "Neighbour owes us a favour"
_SUPPLIER = "Hidden Valley Merchants"
_OPTIONS = [
    {"name": "Three people", "changes": [{"path": "crew.people", "number": 3}]},
    {"name": "Wider joints", "changes": [{"path": "areas.0.laying.joint_mm", "number": 8}]},
    {"name": "Four people", "changes": [{"path": "crew.people", "number": 4}]},
]


@pytest.fixture(scope="module")
def document():
    found = json.loads(demo_document())
    found["terms"]["options"] = _OPTIONS
    found["units"][0]["supplier"] = _SUPPLIER
    return found


@pytest.fixture(scope="module")
def store(tmp_path_factory):
    opened = open_store(f"sqlite:///{tmp_path_factory.mktemp('door') / 'jobs.sqlite'}")
    yield opened
    opened.close()


@pytest.fixture(scope="module")
def office(store):
    app = make_app(store, on_network=OnNetwork(8321, secure=False, pairing=Pairing()))
    with TestClient(app, base_url="http://127.0.0.1", client=("127.0.0.1", 1)) as opened:
        yield opened


@pytest.fixture(scope="module")
def made(office, store, document):
    """A link and the answer that made it; the job and its link are made once, tests make other links of it cheaply."""
    job = store.add(json.dumps(document), _NOTE).id
    answered = office.post(f"/api/jobs/{job}/quotations", json={})
    assert answered.status_code == 201, answered.text
    return {"job": job, "path": _path(answered.json())} | answered.json()


@pytest.fixture
def again(store, made):
    """A new link to the same, made without planning again."""

    def make(**changes):
        opened = store.quotations.opened(made["path"].rpartition("/")[2], today_here())
        link = opened.link
        expires = changes.get("expires", link.expires)
        new = Made(link.job_id, store.job(link.job_id).rev, expires, opened.shown, store.quotations.pdf(link.id))
        return "/quotation/" + store.quotations.make(new, withdraw_others=False)[1]

    return make


@pytest.fixture
def customer(office):
    opened = TestClient(office.app, base_url=f"http://{_SERVER}:8321", client=("192.168.7.31", 5), headers=_HTML)
    opened.portal, opened.follow_redirects = office.portal, False
    return opened


def _path(answered):
    return "/quotation/" + answered["ways"][0]["address"].rpartition("/")[2]


def _form(customer, path, **changes):
    ticked = changes.pop("option", ())
    total = customer.get(f"{path}/total", params={"option": ticked}).json()["total_minor"]
    fields = {
        "do": "accept",
        "name": "Ada Example",
        "on": today_here().isoformat(),
        "typed": "Ada",
        "seen_total": total,
    }
    return fields | {"option": ticked} | changes


def test_the_page_is_whole_without_scripts(customer, made):
    page = customer.get(made["path"])
    assert page.status_code == 200
    for words in ("Terrace behind the house", "Not in the price", "At your door", "step down to the paving", "£13"):
        assert words in page.text
    for words in ("Three people", 'type="checkbox"', 'name="typed"', "What is promised", "Questions"):
        assert words in page.text
    assert re.findall(r"<script(?![^>]*src=)", page.text) == []
    for number in range(3):
        drawing = customer.get(f"{made['path']}/pictures/{number}.svg")
        assert drawing.headers["content-type"] == "image/svg+xml; charset=utf-8"
    assert customer.get(f"{made['path']}/pictures/99.svg").status_code == 404


def test_nothing_of_it_is_kept_listed_or_named_elsewhere(customer, made):
    parts = ("", "/total", "/quotation.pdf", "/pictures/0.svg")
    for answered in [customer.get(made["path"] + part) for part in parts] + [customer.get("/quotation/wrong")]:
        assert "no-store" in answered.headers["cache-control"]
        assert answered.headers["referrer-policy"] == "no-referrer"
        assert "noindex" in answered.headers["x-robots-tag"]
        assert answered.headers["content-security-policy"].startswith("default-src 'none'; script-src 'self'")
        assert "set-cookie" not in answered.headers


def test_the_worker_of_the_pages_keeps_nothing_of_customers(office):
    worker = office.get("/sw.js").text
    listener = worker[worker.index('addEventListener("fetch"') :]
    assert listener.index('startsWith("/quotation/")) return') < listener.index("respondWith")


def _inside(document):
    """Return what no customer may read: amounts of the cost, suppliers, findings, notes and rates."""
    plan = make_plan_so_far(json.dumps(document))
    cost = plan.cost
    amounts = {line.amount_minor for line in cost.lines} | {cost.prime_minor, cost.margin_minor, cost.overhead_minor}
    amounts |= {cost.low_minor, cost.high_minor} - {cost.total_minor}
    written = {money(each, "GBP") for each in amounts if each >= 1_000} - {money(cost.net_minor, "GBP")}
    return written | {finding.message for finding in plan.findings} | {_SUPPLIER, _NOTE}


def _everything(customer, path):
    """Return all that a customer can read by a link, as text."""
    pdf = customer.get(f"{path}/quotation.pdf").content
    yield "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)
    yield customer.get(path).text
    yield customer.get(f"{path}/total?option=0").text
    yield from (customer.get(f"{path}/pictures/{number}.svg").text for number in range(4))
    yield customer.post(path, data={"do": "accept"}).text
    yield from (customer.get(f"{path}/total?option={odd}").text for odd in ("9", "x", "0&option=2", "-1"))


def test_no_cost_margin_supplier_or_note_can_be_reached(customer, made, document):
    inside = _inside(document)
    assert len(inside) > 12
    for text in _everything(customer, made["path"]):
        flat = text.replace("\u202f", " ").replace("\n", " ")
        assert [words for words in inside if words.replace("\u202f", " ") in flat] == []
        assert not re.search(r"\b(margin|mark-up|overhead|labour rate|prime cost|supplier)\b", flat, re.IGNORECASE)
    answered = customer.get(f"{made['path']}/total?option=0").json()
    assert set(answered) == {"options", "names", "total_minor", "total", "days", "why_not"}


def test_the_total_is_that_of_the_job_planned_with_all_that_is_ticked(customer, made, document):
    def total(*options):
        return customer.get(f"{made['path']}/total", params={"option": options}).json()

    alone = make_plan_so_far(json.dumps(document)).cost.total_minor
    assert total()["total_minor"] == alone
    both = copy.deepcopy(document)
    both["crew"]["people"] = 3
    both["areas"][0]["laying"]["joint_mm"] = 8
    ticked = [number for number, each in enumerate(_OPTIONS) if each["name"] in made_offers(customer, made)]
    assert 0 in ticked
    one = copy.deepcopy(document)
    one["crew"]["people"] = 3
    assert total(0)["total_minor"] == make_plan_so_far(json.dumps(one)).cost.total_minor
    if 1 in ticked:
        assert total(0, 1)["total_minor"] == make_plan_so_far(json.dumps(both)).cost.total_minor
    meeting = total(0, 2)
    assert meeting["total_minor"] is None and "same thing" in meeting["why_not"]
    assert customer.get(f"{made['path']}/total?option=7").status_code == 422


def made_offers(customer, made):
    return customer.get(made["path"]).text


def test_a_form_without_scripts_shows_the_total_and_accepts_only_what_was_read(customer, again):
    path = again()
    shown = customer.post(path, data={"do": "total", "option": "0", "name": "Ada <b>", "typed": ""})
    assert shown.status_code == 200
    assert 'value="0" checked' in shown.text and "Ada &lt;b&gt;" in shown.text
    stale = _form(customer, path) | {"option": "0"}  # ticked after the total was read
    refused = customer.post(path, data=stale)
    assert refused.status_code == 422 and "Look at it, and accept again" in refused.text
    assert customer.post(path, data=_form(customer, path, option=["0", "2"], seen_total="")).status_code == 422
    for field, wrong in (("name", " "), ("on", "2020-01-01"), ("on", "soon"), ("typed", "")):
        assert customer.post(path, data=_form(customer, path, **{field: wrong})).status_code == 422


@pytest.mark.parametrize("option", ["7", "-1", "x", "0'", "00"])
def test_only_what_is_offered_can_be_ticked(customer, made, option):
    refused = customer.post(made["path"], data=_form(customer, made["path"]) | {"option": option})
    assert refused.status_code == 422 and "Tick only options that stand here" in refused.text


@pytest.mark.parametrize(
    "drawn",
    [
        'M1 1L9 9"/><script>alert(1)</script>',
        "M1 1L999 1",
        "M0 0C1 1 2 2 3 3",
        "M1 1L2 2",
        "M1 1L9 9" * 9000,
        "m1 1l9 9",
    ],
)
def test_a_signature_is_nothing_but_strokes_inside_its_field(customer, made, drawn):
    refused = customer.post(made["path"], data=_form(customer, made["path"], typed="", drawn=drawn))
    assert refused.status_code == 422 and "<script>alert" not in refused.text


def due_of(office, job, kind):
    """Return what the list of what is due says of a job."""
    due = office.get("/api/due").json()["due"]
    return [" ".join(each["words"].split()) for each in due if (each["job"], each["kind"]) == (job, kind)]


def noted(office, link):
    """Return what the list of who did what says of a link, and of whom."""
    entries = office.get("/api/audit").json()["entries"]
    return [(each["code"], each["who"]) for each in entries if each["facts"].get("link") == link]


def _recorded(store, job, kind):
    """Return by whom entries of a kind in the record of a job were made."""
    checked = check_record(store.records.content(job))
    assert checked.faults == ()  # what a customer is called breaks no chain
    return [each.who for each in checked.entries if each.kind == kind]


def test_questions_reach_the_contractor_and_his_answers_the_customer(customer, office, store, again, made):
    path = again()
    assert customer.post(f"{path}/questions", data={"words": " Where does\nthe skip <b>stand</b>? "}).status_code == 303
    assert customer.post(f"{path}/questions", data={"words": " \n "}).status_code == 422
    links = office.get(f"/api/jobs/{made['job']}/quotations").json()["links"]
    (asked,) = [each for link in links for each in link["questions"]]
    assert asked["words"] == "Where does\nthe skip <b>stand</b>?" and asked["answer"] is None
    url = f"/api/jobs/{made['job']}/questions/{asked['id']}"

    def waiting():
        return {each["id"]: each["questions"] for each in office.get("/api/jobs").json()["jobs"]}[made["job"]]

    assert waiting() == 1
    assert due_of(office, made["job"], "question") == ["Answer the customer: Where does the skip <b>stand</b>?"]
    link = next(each["id"] for each in links if each["questions"])
    assert _recorded(store, made["job"], "question") == [f"customer {link}"]
    number = [each["id"] for each in reversed(links)].index(link) + 1
    assert noted(office, link) == [("question asked", f"customer by link {number}")]
    assert office.post(url, json={"answer": "On the drive."}).status_code == 200
    assert waiting() == 0
    page = customer.get(path).text
    assert "On the drive." in page and "&lt;b&gt;stand" in page
    assert "On the drive." not in customer.get(made["path"]).text  # of another link
    assert customer.post(url, json={"answer": "Mine"}).status_code == 401


def test_wrong_withdrawn_and_over_are_answered_alike(customer, office, store, again, made):
    before = store.quotations.links(made["job"])
    withdrawn = again()
    (new,) = {each.id for each in store.quotations.links(made["job"])} - {each.id for each in before}
    over = again(expires=today_here() - dt.timedelta(days=1))
    last_day = again(expires=today_here())
    assert customer.get(withdrawn).status_code == 200 == customer.get(last_day).status_code
    assert office.delete(f"/api/jobs/{made['job']}/quotations/{new}").status_code == 200
    wrong = "/quotation/" + "A" * 43
    answers = [customer.get(path) for path in (wrong, withdrawn, over, "/quotation/x", f"{wrong}/quotation.pdf")]
    answers += [customer.post(path, data={"do": "accept"}) for path in (wrong, withdrawn, over)]
    assert {each.status_code for each in answers} == {404}
    assert len({each.text for each in answers}) == 1
    # drawn for each request, by chance: it says nothing of the link
    assert len({each.headers.pop("x-request-id") for each in answers}) == len(answers)
    assert len({json.dumps(dict(each.headers)) for each in answers}) == 1


def test_trying_links_out_is_slowed_down_and_opens_no_door_for_others():
    clock = [0.0]
    wrong = WrongTokens(lambda: clock[0])
    assert [wrong.is_too_many("a") for _ in range(25)] == [False] * 20 + [True] * 5
    assert not wrong.is_too_many("b")
    clock[0] = 61.0
    assert not wrong.is_too_many("a")
    for number in range(3_000):
        wrong.is_too_many(str(number))
    assert len(wrong._tried) <= 1_000


def _routes(app):
    for route in app.routes:
        for method in sorted(route.methods - {"HEAD"}):
            yield method, route.path


def test_a_token_opens_nothing_but_its_own_quotation(office, made):
    """Put at every place of every address, in cookies and in heads: a stranger with a link stays a stranger."""
    token = made["path"].rpartition("/")[2]
    stranger = TestClient(office.app, base_url=f"http://{_SERVER}:8321", client=("192.168.7.99", 5))
    stranger.portal, stranger.follow_redirects = office.portal, False
    heads = {"Cookie": f"pavewright-device={token}; pavewright={token}", "Authorization": f"Bearer {token}"}
    tried = 0
    for method, route in _routes(office.app):
        if route.startswith("/quotation/"):
            continue
        for inside in (token, made["job"], "1"):
            path = re.sub(r"\{[^}]*\}", inside, route)
            body = {"token": token, "word": token} if method in {"POST", "PUT"} else None
            answered = stranger.request(method, path, headers=heads, json=body, params={"token": token})
            # a feed is opened by a token of its own: of this one it says that there is none
            wanted = 404 if route.startswith("/feeds/") else 401
            assert answered.status_code == wanted, (method, path)
            tried += 1
    assert tried > 150
    assert stranger.get(f"/pair/{token}").status_code == 200  # the page that asks for a word, of whoever
    assert stranger.post("/pair", data={"word": token, "name": "x"}).status_code == 403


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_no_other_word_opens_it(store, made, data):
    token = made["path"].rpartition("/")[2]
    near = st.tuples(st.integers(0, len(token) - 1), st.characters(codec="utf-8")).map(
        lambda one: token[: one[0]] + one[1] + token[one[0] + 1 :]
    )
    part = st.integers(0, len(token) - 1).map(lambda end: token[:end])
    other = data.draw(st.one_of(near, part, st.text(max_size=60), st.just(token.swapcase()), st.just(f" {token}")))
    opened = store.quotations.opened(other, today_here())
    assert (opened is not None) == (other == token)


def test_only_the_digest_of_a_token_is_kept(store, made):
    token = made["path"].rpartition("/")[2]
    assert len(token) * 6 >= 256
    with store._engine.connect() as connection:
        rows = connection.exec_driver_sql("SELECT digest, shown FROM quotation_link").all()
    assert hashlib.sha256(token.encode()).hexdigest() in {row[0] for row in rows}
    assert not any(token in row[0] + row[1] for row in rows)


def test_the_port_of_customers_answers_quotations_and_nothing_else(store, made, office):
    app = make_app(store, for_customers=ForCustomers("https://quotes.example", 8322))
    outside = TestClient(app, base_url="http://quotes.example:8322", client=("127.0.0.1", 7), headers=_HTML)
    app.state = office.app.state
    assert outside.get(made["path"]).status_code == 200
    for host in ("quotes.example", "127.0.0.1:8321", "localhost"):
        for path in ("/", "/api/jobs", f"/api/jobs/{made['job']}", "/static/style.css", "/sw.js", "/firm"):
            assert outside.get(path, headers={"Host": host}).status_code == 404
    here = TestClient(app, base_url="http://quotes.example:8321", client=("127.0.0.1", 7))
    assert here.get(made["path"]).status_code == 421
    posted = outside.post(f"{made['path']}/questions", data={"words": ""}, headers={"Origin": "null"})
    assert posted.status_code == 422  # a page that names nobody has no origin: its form is taken all the same


def test_what_is_accepted_is_frozen_on_both_sides(customer, office, store, document):
    """The whole way in one job: accepted with an option, the same file on both sides, and nothing moves it after."""
    job = store.add(json.dumps(document)).id
    first = office.post(f"/api/jobs/{job}/quotations", json={}).json()
    other = office.post(f"/api/jobs/{job}/quotations", json={"withdraw_others": False}).json()
    path, link = _path(first), first["link"]["id"]
    before = customer.get(f"{path}/quotation.pdf").content
    fields = _form(customer, path, option=["0"], typed="", drawn="M10 10L200 90L30 150")
    answered = customer.post(path, data=fields)
    assert answered.status_code == 303
    page = customer.get(path)
    digest = hashlib.sha256(before).hexdigest()
    assert "Accepted" in page.text and digest in page.text and "M10 10L200 90L30 150" in page.text
    assert 'name="seen_total"' not in page.text
    assert customer.post(path, data=fields).status_code == 409  # a second one is refused
    assert customer.get(_path(other)).status_code == 404  # and the other link of the job is closed by it
    (kept,) = [each for each in office.get(f"/api/jobs/{job}/quotations").json()["links"] if each["id"] == link]
    assert kept["state"] == "accepted" and kept["written"] and not kept["changed_since"]
    revisions = office.get(f"/api/jobs/{job}/revisions").json()["revisions"]
    assert [each["who"] for each in revisions if each["note"] == "accepted by link"] == ["customer by link 1"]
    assert due_of(office, job, "accepted") == ["The customer accepted"] and due_of(office, job, "silent") == []
    assert noted(office, link) == [("quotation accepted", "customer by link 1")]
    assert set(_recorded(store, job, "accepted")) == {f"customer {link}"}
    assert kept["acceptance"]["pdf_sha256"] == digest == kept["pdf_sha256"]
    what = kept["acceptance"]["accepted"]
    assert (what["name"], what["names"], what["total_minor"]) == ("Ada Example", ["Three people"], fields["seen_total"])
    for content in (
        customer.get(f"{path}/quotation.pdf"),
        office.get(f"/api/jobs/{job}/quotations/{link}/quotation.pdf"),
    ):
        assert content.content == before
    written = json.loads(store.job(job).document)
    assert written["accepted"]["paper_sha256"] == digest and written["accepted"]["stored_revision"] == kept["rev"]
    sums = [*written["accepted"]["sums"], *(part for each in written["accepted"]["options"] for part in each["sums"])]
    assert sum(part["net_minor"] + part.get("tax_minor", 0) for part in sums) == what["total_minor"]
    written["calendar"]["start"] = "2027-06-14"
    store.save(job, store.job(job).rev, json.dumps(written), "later start")
    (kept,) = [each for each in office.get(f"/api/jobs/{job}/quotations").json()["links"] if each["id"] == link]
    assert kept["changed_since"] and kept["acceptance"]["rev"] == kept["rev"] < store.job(job).rev
    assert customer.get(f"{path}/quotation.pdf").content == before
    assert office.post(f"/api/jobs/{job}/quotations", json={}).json()["reason"] == "accepted"
    accepted = written.pop("accepted")
    store.save(job, store.job(job).rev, json.dumps(written), "undone")
    (kept,) = [each for each in office.get(f"/api/jobs/{job}/quotations").json()["links"] if each["id"] == link]
    assert not kept["written"] and kept["acceptance"]["accepted"] == what
    assert office.post(f"/api/jobs/{job}/quotations/{link}/written", json={}).status_code == 200
    assert json.loads(store.job(job).document)["accepted"] == accepted


def test_no_route_changes_an_acceptance(office):
    changing = [
        (method, route) for method, route in _routes(office.app) if "quotation" in route and method in {"PUT", "PATCH"}
    ]
    assert changing == [(method, "/quotation/{rest:path}") for method in ("PATCH", "PUT")]  # which opens nothing


def _without_tax(document):
    del document["rates"]["tax_percent"]
    document["identity"]["locality"] = "elsewhere"


def _too_high(document):
    document["site"]["walls"][0]["dpc_level_mm"] -= 260.0


@pytest.mark.parametrize(
    ("change", "body", "reason"),
    [
        (_without_tax, {}, "not_ready"),
        (_too_high, {}, "not_ready"),
        (lambda job: job.clear(), {}, "not_whole"),
        (lambda job: job["terms"].pop("valid_days"), {}, "no_last_day"),
        (lambda job: None, {"last": "2020-01-01"}, "over"),
        (lambda job: None, {"last": "2199-01-01"}, "too_late"),
    ],
    ids=["tax", "stops", "measured", "no day", "over", "too late"],
)
def test_a_job_that_nobody_could_accept_makes_no_link(office, store, document, change, body, reason):
    changed = copy.deepcopy(document)
    change(changed)
    job = store.add(json.dumps(changed or json.loads(starter_document("New job", "")))).id
    answered = office.post(f"/api/jobs/{job}/quotations", json=body)
    assert (answered.status_code, answered.json().get("reason")) == (422, reason), answered.text
    assert answered.json()["message"]
    assert store.quotations.links(job) == ()
    assert store.job(job).rev == 1
