"""Off this machine nothing is answered but to a device that was paired."""

from __future__ import annotations

import json
import re

import pytest
from click.testing import CliRunner
from starlette.testclient import TestClient

from pavewright.cli import main
from pavewright.store import open_store
from pavewright.web import HostName, OnNetwork, Pairing, host_name_in, make_app
from pavewright.web._addresses import is_loopback, own_addresses
from pavewright.web._pairing import TooManyWrongError, device_name, spoken

_SERVER = "192.168.7.20"
_PHONE = ("192.168.7.31", 50000)


class Clock:
    def __init__(self):
        self.now = 0.0

    def __call__(self):
        return self.now


@pytest.fixture(scope="module")
def network():
    return OnNetwork(8321, secure=False, pairing=Pairing())


@pytest.fixture(scope="module")
def store(tmp_path_factory):
    opened = open_store(f"sqlite:///{tmp_path_factory.mktemp('network') / 'jobs.sqlite'}")
    yield opened
    opened.close()


@pytest.fixture(scope="module")
def app(store, network):
    app = make_app(store, on_network=network)
    with TestClient(app, base_url="http://127.0.0.1", client=("127.0.0.1", 40000)):
        yield app


@pytest.fixture
def office(app):
    return TestClient(app, base_url="http://127.0.0.1:8321", client=("127.0.0.1", 40001))


@pytest.fixture
def phone(app):
    return TestClient(app, base_url=f"http://{_SERVER}:8321", client=_PHONE, follow_redirects=False)


def _word(office):
    return office.post("/api/devices/pairing", json={}).json()["word"]


def _paired(office, phone, name="Crew phone"):
    answered = phone.post("/pair", data={"word": _word(office), "name": name})
    assert answered.status_code == 303
    return answered


def _routes(app):
    for route in app.routes:
        for method in sorted(route.methods - {"HEAD"}):
            yield method, re.sub(r"\{[^}]*\}", "1", route.path)


def test_no_route_answers_a_device_that_is_not_paired(app, phone):
    tried = 0
    for method, path in _routes(app):
        answered = phone.request(method, path, json={} if method in {"POST", "PUT"} else None)
        if path.startswith("/quotation/"):  # for a customer's link, which needs no pairing: a wrong one opens nothing
            assert answered.status_code in {404, 429}, (method, path)
            assert "This link opens nothing" in answered.text
            continue
        if path.startswith(
            "/feeds/"
        ):  # for a calendar program, which has the token in its link: a wrong one opens nothing
            assert answered.status_code == 404, (method, path)
            continue
        assert answered.status_code == 401, (method, path)
        assert set(answered.json()) == {"message"}
        tried += 1
    assert tried > 30


def test_this_machine_needs_no_pairing(office):
    assert office.get("/api/jobs").status_code == 200


@pytest.mark.parametrize(
    ("client", "host"),
    [
        (_PHONE, "127.0.0.1:8321"),  # says that it means this machine
        (_PHONE, "localhost"),
        (("127.0.0.1", 1), f"{_SERVER}:8321"),
        (("127.0.0.1", 1), "evil.example"),
    ],
)
def test_only_a_connection_that_begins_and_ends_here_is_this_machine(app, client, host):
    outside = TestClient(app, base_url=f"http://{_SERVER}:8321", client=client)
    assert outside.get("/api/jobs", headers={"Host": host}).status_code in {401, 421}


def test_a_strange_name_is_not_answered(phone):
    assert phone.get("/api/jobs", headers={"Host": "evil.example"}).status_code == 421


def test_over_a_secure_connection_the_cookie_of_a_device_belongs_to_this_host_alone(office, app):
    secure = TestClient(app, base_url=f"https://{_SERVER}:8321", client=_PHONE, follow_redirects=False)
    cookie = _paired(office, secure).headers["set-cookie"]
    assert cookie.startswith("__Host-pavewright-device=")
    assert "; Path=/" in cookie and "; Secure" in cookie and "omain=" not in cookie
    assert secure.get("/api/jobs").status_code == 200
    token = cookie.partition("=")[2].partition(";")[0]
    other = TestClient(app, base_url=f"https://{_SERVER}:8321", client=_PHONE)
    # a name that a host beside this one could set opens nothing
    assert other.get("/api/jobs", headers={"cookie": f"pavewright-device={token}"}).status_code == 401


def test_where_the_server_has_a_name_elsewhere_codes_lead_there():
    names = (HostName("office.example", 443), HostName("yard.example"))
    named = OnNetwork(8321, secure=True, pairing=Pairing(), names=names)
    assert named.addresses() == ("https://office.example", "https://yard.example:8321")


@pytest.mark.parametrize("typed", ["https://office.example", "192.0.2.1", "office.example:0", "office.example:99999", "a b", "-x.example",
                                   "office.example/", "x" * 64, "", "office..example", "evil.example\r\nx: y"])  # fmt: skip
def test_what_is_no_name_of_a_machine_is_refused_in_words(typed, tmp_path):
    assert host_name_in(typed) is None
    given = ["serve", "--data", str(tmp_path / "x.sqlite"), "--host-name", typed]
    refused = CliRunner().invoke(main, given)
    assert refused.exit_code == 2
    assert "give a name such as office.example" in refused.output


def test_a_code_pairs_one_device_once(office, phone, app):
    word = _word(office)
    asked = phone.get(f"/pair/{word}", headers={"Accept": "text/html"})
    assert asked.status_code == 200
    assert "Name of this device" in asked.text
    assert phone.get(f"/pair/{word}").status_code == 200  # a look at the page uses nothing up
    answered = phone.post("/pair", data={"word": word, "name": "Crew phone"})
    assert answered.status_code == 303
    cookie = answered.headers["set-cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=lax" in cookie
    assert phone.get("/api/jobs").status_code == 200
    other = TestClient(app, base_url=f"http://{_SERVER}:8321", client=("192.168.7.32", 1), follow_redirects=False)
    assert other.post("/pair", data={"word": word, "name": "Second"}).status_code == 403
    assert other.get("/api/jobs").status_code == 401


def test_a_withdrawn_device_is_out_at_once(office, phone):
    _paired(office, phone, "Lost phone")
    assert phone.get("/api/jobs").status_code == 200
    lost = next(one for one in office.get("/api/devices").json()["devices"] if one["name"] == "Lost phone")
    assert office.delete(f"/api/devices/{lost['id']}").json() == {"withdrawn": True}
    assert phone.get("/api/jobs").status_code == 401
    assert office.delete(f"/api/devices/{lost['id']}").status_code == 404


def test_a_paired_device_lets_nobody_in_and_puts_nobody_out(office, phone):
    _paired(office, phone)
    told = phone.get("/api/devices").json()
    assert told["here"] is False
    assert phone.post("/api/devices/pairing", json={}).status_code == 403
    assert phone.delete(f"/api/devices/{told['devices'][0]['id']}").status_code == 403


def test_no_answer_holds_a_token(office, phone, store):
    token = _paired(office, phone).headers["set-cookie"].partition("=")[2].partition(";")[0]
    assert store.devices.of_token(token) is not None
    assert token not in json.dumps(office.get("/api/devices").json())


def test_a_page_for_people_says_what_to_do_without_scripts(phone):
    answered = phone.get("/jobs/abc/site", headers={"Accept": "text/html,*/*"})
    assert answered.status_code == 401
    assert "<form" in answered.text
    assert "<script" not in answered.text
    assert "style-src 'sha256-" in answered.headers["content-security-policy"]


def test_a_nameless_device_is_asked_again_and_the_code_still_holds(office, phone):
    word = _word(office)
    assert phone.post("/pair", data={"word": word, "name": " \x00 "}).status_code == 422
    assert phone.post("/pair", data={"word": word, "name": "Phone"}).status_code == 303


def test_a_name_or_a_word_cannot_write_into_the_page(phone):
    answered = phone.post("/pair", data={"word": '"><script>', "name": "<script>"}, headers={"Accept": "text/html"})
    assert "<script>" not in answered.text


def test_a_form_that_is_too_long_is_no_form(phone):
    assert phone.post("/pair", content=b"word=A&name=" + b"x" * 5000).status_code == 403


def test_a_word_ends_by_time_and_guessing_is_stopped():
    clock = Clock()
    pairing = Pairing(clock)
    word = pairing.new()
    assert pairing.holds(spoken(word).lower().replace("-", " "))
    clock.now += 601.0
    assert pairing.use(word) is None
    for _ in range(19):
        assert not pairing.holds("WRONG23456")
    fresh = pairing.new()
    with pytest.raises(TooManyWrongError):
        pairing.holds(fresh)
    clock.now += 61.0
    assert pairing.use(fresh) == ""
    assert pairing.use(fresh) is None


def test_guessing_is_answered_with_wait(app, network):
    stranger = TestClient(app, base_url=f"http://{_SERVER}:8321", client=("192.168.7.99", 1))
    told = [stranger.get("/pair/WRONG23456").status_code for _ in range(25)]
    assert told[-1] == 429
    network.pairing._wrong.clear()


def test_a_server_for_this_machine_alone_pairs_nobody(tmp_path):
    store = open_store(f"sqlite:///{tmp_path / 'jobs.sqlite'}")
    with TestClient(make_app(store), base_url="http://127.0.0.1") as client:
        assert client.get("/api/devices").json()["on_network"] is False
        assert client.post("/api/devices/pairing", json={}).status_code == 409
        assert client.get("/api/devices", headers={"Host": _SERVER}).status_code == 421
    store.close()


def test_the_code_leads_to_every_address_of_this_machine(office, network):
    told = office.post("/api/devices/pairing", json={}).json()
    assert [way["address"].rpartition("/pair/")[0] for way in told["ways"]] == list(network.addresses())
    assert all(way["code"].startswith("data:image/svg+xml") for way in told["ways"])


def test_addresses():
    assert all(not is_loopback(address) for address in own_addresses())
    assert is_loopback("127.8.0.1")
    assert is_loopback("::1")
    assert is_loopback("::ffff:127.0.0.1")
    assert not is_loopback("192.168.1.4")
    assert not is_loopback("office")


def test_a_device_name_is_one_line():
    assert device_name("  Crew\nphone\u202e \x1b[2J ") == "Crew phone [2J"
    assert len(device_name("x" * 500)) == 60
