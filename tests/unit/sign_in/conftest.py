"""An installation of two firms with people of every role, and the application over it."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import dataclass, field

import argon2
import pytest
from starlette.testclient import TestClient

from pavewright.store import open_installation
from pavewright.web import Workers, make_app
from pavewright.web.sign_in import Passwords

from tests.a_database_server import ended, started

QUICK = argon2.profiles.CHEAPEST
PASSWORD = "wet gloves twice a day"
ROLES = ("owner", "office", "crew", "auditor")


@dataclass
class House:
    """An installation under test."""

    installation: object
    app: object
    first: str
    second: str
    people: dict = field(default_factory=dict)
    digest: str = ""
    at_gate: dict = field(default_factory=dict)

    @property
    def accounts(self):
        return self.installation.accounts

    def person(self, role, firm=None, grants=(), name=None):
        """Return somebody of a firm, entered where he is not yet."""
        firm = firm or self.first
        key = (role, firm, tuple(grants), name)
        if key not in self.people:
            made = self.accounts.add_person(name or f"{role}{len(self.people)}", (name or role).title())
            self.accounts.keep_password(made.id, self.digest)
            self.accounts.join(made.id, firm, role, grants)
            self.people[key] = made
        return self.people[key]

    def client(self, role=None, firm=None, grants=(), base="http://127.0.0.1"):
        """Return a browser, signed in where a role is given."""
        browser = TestClient(self.app, base_url=base, raise_server_exceptions=False)
        if role is not None:
            who = self.person(role, firm, grants)
            _, token = self.accounts.begin_sign_in(who.id, firm or self.first, "test", 1)
            browser.cookies.set("pavewright-sign-in", token)
        return browser


@pytest.fixture(scope="module")
def quick():
    return Passwords(QUICK)


@pytest.fixture
def bare(tmp_path, quick):
    """An installation where nobody was entered, served."""
    installation = open_installation(tmp_path / "jobs.sqlite")
    app = make_app(installation, Workers({}), passwords=quick)
    with TestClient(app, base_url="http://127.0.0.1", raise_server_exceptions=False) as opened:
        opened.house = House(installation, app, installation.first_id, "")
        yield opened
    installation.close()


@contextmanager
def served(installation, quick):
    """Serve an installation with two firms; people are entered as they are asked for."""
    second = installation.accounts.add_firm("Second firm").id
    app = make_app(installation, Workers({}), passwords=quick)
    made = House(installation, app, installation.first_id, second)
    made.digest = argon2.PasswordHasher.from_parameters(QUICK).hash(PASSWORD)
    made.person("owner")
    with TestClient(app, base_url="http://127.0.0.1"):
        yield made
    installation.close()


@pytest.fixture(scope="module")
def house(tmp_path_factory, quick):
    """Two firms in a file, served."""
    with served(open_installation(tmp_path_factory.mktemp("house") / "jobs.sqlite"), quick) as made:
        yield made


@pytest.fixture(scope="module")
def house_on_server(quick):
    """Two firms on a database server of their own, served."""
    running = started()
    try:
        with served(open_installation(running.new_database()), quick) as made:
            yield made
    finally:
        ended(running)
