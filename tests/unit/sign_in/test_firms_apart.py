"""Two firms in one installation: a phone belongs to the firm of who paired it, and who owns it all sees what is of none."""

from __future__ import annotations

import argon2
import pytest
from click.testing import CliRunner
from starlette.testclient import TestClient

from pavewright.cli import main
from pavewright.store import open_installation
from pavewright.web import Workers, make_app
from pavewright.web._device_routes import OnNetwork
from pavewright.web._pairing import Pairing
from tests.unit.sign_in.conftest import House

HERE = ("127.0.0.1", 40001)


@pytest.fixture
def networked(tmp_path, quick):
    """Two firms, served to the network too."""
    installation = open_installation(tmp_path / "jobs.sqlite")
    second = installation.accounts.add_firm("Second firm").id
    app = make_app(
        installation,
        Workers({}),
        on_network=OnNetwork(8321, secure=False, pairing=Pairing()),
        hosts=frozenset({"127.0.0.1", "192.168.7.20"}),
        passwords=quick,
    )
    house = House(installation, app, installation.first_id, second)
    house.digest = argon2.PasswordHasher.from_parameters(argon2.profiles.CHEAPEST).hash("wet gloves twice a day")
    with TestClient(app, base_url="http://127.0.0.1:8321", client=HERE):
        yield house
    installation.close()


def owner_of(house, firm):
    who = house.person("owner", firm)
    _, token = house.accounts.begin_sign_in(who.id, firm, "test", 1)
    browser = TestClient(house.app, base_url="http://127.0.0.1:8321", client=HERE, raise_server_exceptions=False)
    browser.cookies.set("pavewright-sign-in", token)
    return browser


def phone_of(house, number):
    return TestClient(
        house.app, base_url="http://192.168.7.20:8321", client=(f"192.168.7.{number}", 1), follow_redirects=False
    )


def named(browser):
    return [each["name"] for each in browser.get("/api/devices").json()["devices"]]


def test_a_device_belongs_to_the_firm_of_who_paired_it(networked):
    owners = {firm: owner_of(networked, firm) for firm in (networked.first, networked.second)}
    phones = {}
    for number, (firm, owner) in enumerate(owners.items(), 31):
        word = owner.post("/api/devices/pairing", json={}).json()["word"]
        phones[firm] = phone_of(networked, number)
        assert phones[firm].post("/pair", data={"word": word, "name": f"Phone {number}"}).status_code == 303
    assert named(owners[networked.first]) == ["Phone 31"]
    assert named(owners[networked.second]) == ["Phone 32"]
    # paired and not signed in: led to sign in, not to the page that pairs
    for phone in phones.values():
        assert phone.get("/api/jobs").json().get("sign_in") is True
    device = owners[networked.second].get("/api/devices").json()["devices"][0]["id"]
    assert owners[networked.first].delete(f"/api/devices/{device}").status_code == 404
    assert phones[networked.second].get("/api/jobs").json().get("sign_in") is True
    assert owners[networked.second].delete(f"/api/devices/{device}").status_code == 200
    refused = phones[networked.second].get("/api/jobs")
    assert refused.status_code == 401 and "not paired" in refused.json()["message"]
    assert phones[networked.first].get("/api/jobs").json().get("sign_in") is True


def failures(browser):
    entries = browser.get("/api/audit").json()["entries"]
    return [(each["code"], each["who"], each["of_firm"]) for each in entries if each["code"] == "sign-in failed"]


def test_a_try_by_a_name_that_nobody_has_is_shown_to_the_owner_of_the_installation_alone(house, quick):
    stranger = house.client()
    data = {"sign_in": "nobody-at-all", "password": "quite wrong words"}
    assert stranger.post("/sign-in", data=data).status_code == 401
    assert failures(house.client("owner")) == [("sign-in failed", "", False)]
    assert failures(house.client("auditor")) == []
    assert failures(house.client("owner", house.second)) == []


def test_the_command_prints_what_is_of_no_firm(tmp_path):
    data = tmp_path / "jobs.sqlite"
    installation = open_installation(data)
    firm = installation.accounts.add_firm("Kerb and Sons")
    bo = installation.accounts.add_person("bo", "Bo Kerb")
    installation.accounts.join(bo.id, firm.id, "owner")
    installation.accounts.audit(None, None, "sign-in failed", {}, "192.0.2.7")
    installation.accounts.audit(firm.id, bo.id, "invited", {}, "192.0.2.8")
    installation.close()

    def printed(*words):
        told = CliRunner().invoke(main, ["people", "audit", "--data", str(data), *words])
        return told.exit_code, [line.partition("  ")[2] for line in told.output.splitlines()]

    assert printed("--no-firm") == (0, ["sign-in failed: nobody signed in, 192.0.2.7"])
    assert printed("--firm", "Kerb and Sons") == (0, ["invited: Bo Kerb, 192.0.2.8"])
    assert printed() == (0, [])
    assert printed("--firm", "Nobody")[0] == 2
