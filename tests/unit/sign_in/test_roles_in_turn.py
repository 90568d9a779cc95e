"""People come, change, are shut out and come again in any order: after each step everybody may do what a model says.

The model knows roles, who was allowed to see money, which devices are signed in, and passwords. It asks as every device
and program that there ever was: for money, for a change of a job, and for the list of who did what.
"""

from __future__ import annotations

import itertools
import json
import shutil
import tempfile
from dataclasses import dataclass, field
from pathlib import Path

import argon2
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule
from starlette.testclient import TestClient

from pavewright.store import open_installation
from pavewright.web import Workers, make_app
from pavewright.web.sign_in import Passwords

PASSWORDS = ("wet gloves twice a day", "seven barrows before noon", "a string line and two pins")
ROLES = ("owner", "office", "crew", "auditor")
MAY = {
    "owner": {"money", "write", "audit"},
    "office": {"money", "write"},
    "crew": {"write"},
    "crew with money": {"money", "write"},
    "auditor": {"money", "audit"},
}
SCOPES = {"money": "see_money", "write": "change_jobs", "audit": "audit"}
AMOUNT = 7_713_377
PEOPLE_MAX, KEYS_MAX = 5, 7
"""So many are asked after each step, by so many devices and programs, whether they are open or not."""
ROLE, MONEY, WHICH = st.sampled_from(ROLES), st.booleans(), st.integers(0, 20)


@dataclass
class Key:
    """What somebody holds: a cookie of a device, or the token of a program with what it was made for."""

    head: dict
    may: set = field(default_factory=lambda: {"money", "write", "audit"})
    is_open: bool = True
    is_program: bool = False


@dataclass
class Person:
    """Somebody, as the model knows him."""

    id: str
    name: str
    password: str
    role: str
    money: bool = False
    belongs: bool = True
    keys: list = field(default_factory=list)
    link: str = ""

    @property
    def devices(self):
        return [each for each in self.keys if each.is_open and not each.is_program]

    @property
    def may(self):
        name = "crew with money" if self.role == "crew" and self.money else self.role
        return MAY[name] if self.belongs else set()


class RolesInTurn(RuleBasedStateMachine):
    """What an owner and the others may do, in any order; each run in a firm of its own."""

    installation = browser = None
    numbers = itertools.count(1)

    def ask(self, method, path, head=None, **more):
        """Ask from an address that nobody asked from: how often a wrong key may be tried is looked at elsewhere."""
        number = next(self.numbers)
        self.browser.cookies.clear()
        self.browser._transport.client = (f"10.0.{number >> 8 & 255}.{number & 255}", number >> 16)
        answered = self.browser.request(method, path, headers=head or {}, follow_redirects=False, **more)
        assert answered.status_code < 500, (method, path, answered.text)
        return answered

    @initialize()
    def begin(self):
        accounts = self.installation.accounts
        self.firm = accounts.add_firm(f"Firm {next(self.numbers)}").id
        self.store = self.installation.store_of(self.firm)
        document = {"identity": {"title": "0"}, "rates": {"labour_minor_per_hour": AMOUNT}}
        self.job, self.title, self.people, self.links = self.store.add(json.dumps(document)).id, "0", [], []
        who = accounts.add_person(f"owner{self.firm}", "Owner")
        accounts.join(who.id, self.firm, "owner")
        _, token = accounts.begin_sign_in(who.id, self.firm, "office machine", 1)
        self.people.append(Person(who.id, who.sign_in, "", "owner", keys=[Key(cookie(token))]))
        self.head = self.people[0].keys[0].head
        for role in ("office", "crew"):
            self.invite(role, money=False)
            self.take_an_invitation(0, PASSWORDS[0], withdrawn=False)

    def one_of(self, which):
        """The owner who does it all comes now and then, the others mostly."""
        return self.people[0] if which == 0 else self.people[1:][which % (len(self.people) - 1)]

    def open_devices(self):
        return [(each, one) for each in self.people[1:] for one in each.devices if each.belongs]

    def owners(self):
        return [each for each in self.people if each.belongs and each.role == "owner"]

    @rule(role=ROLE, money=MONEY)
    def invite(self, role, money):
        asked = {"role": role, "grants": ["see_money"] if money else []}
        answered = self.ask("POST", "/api/people/invitations", self.head, json=asked)
        assert answered.status_code == 201
        self.links.append((answered.json()["link"], role, money))

    @precondition(lambda self: self.links and len(self.people) < PEOPLE_MAX)
    @rule(which=WHICH, password=st.sampled_from(PASSWORDS), withdrawn=st.sampled_from([False, False, False, True]))
    def take_an_invitation(self, which, password, withdrawn):
        link, role, money = self.links.pop(which % len(self.links))
        name = f"p{next(self.numbers)}"
        if withdrawn:
            listed = self.ask("GET", "/api/people", self.head).json()["invitations"]
            for each in listed:
                assert self.ask("DELETE", f"/api/people/invitations/{each['id']}", self.head).status_code == 200
            self.links.clear()
        form = {"name": name, "sign_in": name, "password": password}
        answered = self.ask("POST", link, data=form)
        assert answered.status_code == (404 if withdrawn else 303), answered.text
        if not withdrawn:
            found = self.installation.accounts.person_called(name)
            self.people.append(Person(found.id, name, password, role, money, keys=[Key(cookie_of(answered))]))
            assert self.ask("POST", link, data=form | {"sign_in": "again"}).status_code == 404

    @rule(which=WHICH, role=ROLE, money=MONEY)
    def change_what_somebody_may_do(self, which, role, money):
        who = self.one_of(which)
        is_last = who in self.owners() and len(self.owners()) == 1 and role != "owner"
        if who is self.people[0] and not is_last:
            return
        asked = {"role": role, "grants": ["see_money"] if money else []}
        answered = self.ask("PUT", f"/api/people/{who.id}", self.head, json=asked)
        assert answered.status_code == (404 if not who.belongs else 409 if is_last else 200), answered.text
        if answered.status_code == 200:
            who.role, who.money = role, money

    @rule(which=WHICH)
    def change_by_who_may_not(self, which):
        """Nobody but an owner makes himself an owner, and no program does."""
        who = self.one_of(which)
        for key in who.keys:
            if key.is_program or "audit" not in who.may or "write" not in who.may:
                answered = self.ask("PUT", f"/api/people/{who.id}", key.head, json={"role": "owner"})
                assert answered.status_code == (403 if key.is_open and who.belongs else 401)

    @rule(which=WHICH)
    def shut_out(self, which):
        who = self.one_of(which)
        is_last = who in self.owners() and len(self.owners()) == 1
        if who is self.people[0] and not is_last:
            return
        answered = self.ask("DELETE", f"/api/people/{who.id}", self.head)
        assert answered.status_code == (404 if not who.belongs else 409 if is_last else 200)
        if answered.status_code == 200:
            who.belongs = False

    @precondition(lambda self: sum(len(each.keys) for each in self.people) < KEYS_MAX)
    @rule(which=WHICH, mistyped=st.sampled_from([*[""] * len(PASSWORDS), *PASSWORDS]))
    def sign_in(self, which, mistyped):
        who = self.people[1:][which % (len(self.people) - 1)]
        typed = mistyped or who.password
        answered = self.ask("POST", "/sign-in", data={"sign_in": who.name, "password": typed})
        fits = who.belongs and typed == who.password
        assert answered.status_code in ({303} if fits else {401, 429}), answered.text
        if fits:
            who.keys.append(Key(cookie_of(answered)))
        else:
            self.installation.accounts.clear_failures(f"name {who.name}")

    @precondition(lambda self: self.open_devices())
    @rule(which=WHICH, elsewhere=st.booleans())
    def end_a_sign_in(self, which, elsewhere):
        found = self.open_devices()
        who, device = found[which % len(found)]
        others = [each for each in who.devices if each is not device]
        if elsewhere:
            assert self.ask("DELETE", "/api/you/devices", device.head).json() == {"ended": len(others)}
        else:
            assert self.ask("POST", "/sign-out", device.head).status_code == 303
        for each in others if elsewhere else [device]:
            each.is_open = False

    @rule(which=WHICH, may=st.sampled_from([{"money"}, {"write", "audit"}]))
    def let_a_program_in(self, which, may):
        who = self.owners()[which % len(self.owners())]
        if any(each.is_program for each in who.keys) or not who.devices:
            return
        asked = {"name": "program", "scopes": ["read_jobs", *sorted(SCOPES[each] for each in may)]}
        token = self.ask("POST", "/api/tokens", who.devices[0].head, json=asked).json()["token"]
        who.keys.append(Key({"authorization": f"Bearer {token}"}, may, is_program=True))

    @rule(which=WHICH)
    def make_a_link_for_a_password(self, which):
        who = self.one_of(which)
        if who is not self.people[0]:
            before, answered = who.link, self.ask("POST", f"/api/people/{who.id}/new-password", self.head)
            assert answered.status_code == (201 if who.belongs else 404)
            who.link = answered.json()["link"] if who.belongs else who.link
            if before and who.belongs:
                assert self.ask("POST", before, data={"password": PASSWORDS[0]}).status_code == 404

    @precondition(lambda self: any(each.link for each in self.people))
    @rule(which=WHICH, password=st.sampled_from(PASSWORDS))
    def choose_a_password_by_the_link(self, which, password):
        found = [each for each in self.people if each.link]
        who = found[which % len(found)]
        link, who.link = who.link, ""
        answered = self.ask("POST", link, data={"password": password})
        if who.belongs:
            assert answered.status_code == 303
        if answered.status_code == 303:
            who.password = password
            for each in who.keys:
                each.is_open = each.is_open and each.is_program
        assert self.ask("POST", link, data={"password": PASSWORDS[0]}).status_code == 404

    @invariant()
    def everybody_may_do_what_the_model_says(self):
        for who in self.people:
            for key in who.keys:
                self.tried(who, key)

    def tried(self, who, key):
        may, comes_in = who.may & key.may, key.is_open and who.belongs
        refused = 403 if comes_in else 401
        seen = self.ask("GET", f"/api/jobs/{self.job}", key.head)
        assert seen.status_code == (200 if comes_in else 401), (who, key)
        assert (str(AMOUNT) in seen.text) == (comes_in and "money" in may), (who, key)
        audit = self.ask("GET", "/api/audit", key.head)
        assert audit.status_code == (200 if comes_in and "audit" in may else refused), (who, key)
        self.written(who, key, comes_in and "write" in may, refused)

    def written(self, who, key, may, refused):
        new = str(next(self.numbers))
        change = {"op": "set", "at": ["identity", "title"], "was": self.title, "to": new}
        asked = {"key": f"k{new}", "rev": self.store.job(self.job).rev, "operations": [change], "note": "tried"}
        answered = self.ask("POST", f"/api/jobs/{self.job}/operations", key.head, json=asked)
        assert answered.status_code == (200 if may else refused), (who, key, answered.text)
        self.title = new if may else self.title
        assert json.loads(self.store.job(self.job).document)["identity"]["title"] == self.title
        if may:
            assert self.store.revisions(self.job)[0].who == who.id


def cookie(token):
    return {"cookie": f"pavewright-sign-in={token}"}


def cookie_of(answered):
    return {"cookie": answered.headers["set-cookie"].partition(";")[0]}


RolesInTurn.TestCase.settings = settings(
    max_examples=10,
    stateful_step_count=15,
    deadline=None,
    phases=[Phase.generate],
    suppress_health_check=list(HealthCheck),
)


class TestRolesInTurn(RolesInTurn.TestCase):  # type: ignore[valid-type, misc]
    """One installation for all runs."""

    @classmethod
    def setUpClass(cls):
        cls.folder = Path(tempfile.mkdtemp())
        RolesInTurn.installation = open_installation(cls.folder / "jobs.sqlite")
        app = make_app(RolesInTurn.installation, Workers({}), passwords=Passwords(argon2.profiles.CHEAPEST))
        RolesInTurn.browser = TestClient(app, base_url="http://127.0.0.1", raise_server_exceptions=False)
        RolesInTurn.browser.__enter__()

    @classmethod
    def tearDownClass(cls):
        RolesInTurn.browser.__exit__(None, None, None)
        RolesInTurn.installation.close()
        shutil.rmtree(cls.folder)
