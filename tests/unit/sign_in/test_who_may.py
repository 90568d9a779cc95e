"""Who may do what on every route, by every method: a table that is written out, each cell of it asked.

Every answer of the real application is behind its real doors and its gate; only the handlers are put out, and one that
was reached answers a status that nothing else answers.
"""

from __future__ import annotations

import asyncio
import datetime as dt
import functools
import itertools
import re
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from starlette.responses import Response
from starlette.routing import Route

from pavewright.people import Right
from pavewright.store import Made, open_installation
from pavewright.web import Workers, make_app
from pavewright.web._customers import ForCustomers
from pavewright.web._device_routes import OnNetwork
from pavewright.web._pairing import Pairing
from pavewright.web._rights import RIGHTS
from pavewright.web.openapi import described, path_of

from tests.unit.sign_in.conftest import House

REACHED = 299
METHODS = ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS")
PEOPLE = {
    "owner": ("owner", ()),
    "office": ("office", ()),
    "crew": ("crew", ()),
    "crew with money": ("crew", ("see_money",)),
    "crew with the calendar": ("crew", ("calendar",)),
    "crew with devices": ("crew", ("devices",)),
    "auditor": ("auditor", ()),
}
"""The columns of the table in their order: a role, and what an owner granted beyond it."""
SCOPES = tuple(right.value for right in Right)
ALL = frozenset(SCOPES)
NETWORK, HERE = ("192.168.7.20", 8321), ("127.0.0.1", 8321)
FOR_CUSTOMERS = 8322


@dataclass(frozen=True)
class Line:
    """A line of the table: who is let in, of the columns, and which scopes a token has to hold."""

    people: frozenset = frozenset(PEOPLE)
    scopes: frozenset | None = frozenset()
    everybody: bool = False
    here: bool = False


@functools.cache
def table():
    found = {}
    text = (Path(__file__).parent / "who_may.txt").read_text("utf-8")
    for words in (line.split() for line in text.splitlines() if line and not line.startswith("#")):
        (method, path), rest = words[:2], words[2:]
        assert (method, path) not in found, (method, path)
        if rest == ["everybody"]:
            found[method, path] = Line(everybody=True)
            continue
        marks, scopes, here = rest[: len(PEOPLE)], rest[len(PEOPLE)], rest[len(PEOPLE) + 1 :]
        assert set(marks) <= {"x", "-"} and here in ([], ["here"]), words
        people = frozenset(name for name, mark in zip(PEOPLE, marks, strict=True) if mark == "x")
        asked = None if scopes == "never" else frozenset() if scopes == "any" else frozenset(scopes.split("+"))
        assert asked is None or asked <= set(SCOPES), words
        found[method, path] = Line(people, asked, here=bool(here))
    return found


def filled(path):
    """Return an address of a route with something in each of its places."""
    return re.sub(r"\{\w+(:\w+)?\}", lambda place: {":int": "1", ":path": "a/b/c/d"}.get(place[1], "aa11"), path)


ALIKE = {"": r"[^/]+", ":path": r".+", ":int": r"\d+"}
"""What may stand in each kind of place."""


def line_of(method, path):
    """Return the line of the table that is about a request, in the order of the table; None where none is."""
    method = "GET" if method == "HEAD" else method
    found = (line for (each, pattern), line in table().items() if each == method and like(pattern).fullmatch(path))
    return next(found, None)


@functools.cache
def like(pattern):
    """Return what addresses of a route look like."""
    parts = enumerate(re.split(r"\{\w+(:\w+)?\}", pattern))
    return re.compile("".join(ALIKE[part or ""] if place % 2 else re.escape(part) for place, part in parts))


@dataclass
class Asks:
    """Somebody who asks: by which headers, and from where he comes to which address of the server."""

    headers: dict = field(default_factory=dict)
    place: tuple = HERE
    port: int = 0


async def status(app, asks, method, path, number):
    """Return how a request is answered; each one that is not signed in comes from an address of its own."""
    host, port = asks.place[0], asks.port or asks.place[1]
    net = "127" if asks.place is HERE else "10"
    client = (f"{net}.{number >> 16}.{number >> 8 & 255}.{number & 255}", 40_001)
    headers = {"host": f"{host}:{port}", "accept": "application/json"} | asks.headers
    scope = {
        "type": "http", "http_version": "1.1", "method": method, "path": path, "raw_path": path.encode(),
        "query_string": b"", "root_path": "", "scheme": "http", "client": client, "server": (host, port),
        "headers": [(name.encode(), value.encode()) for name, value in headers.items()],
    }  # fmt: skip
    told = []

    async def receive():
        return {"type": "http.request", "body": b"", "more_body": False}

    async def send(message):
        if message["type"] == "http.response.start":
            told.append(message["status"])

    await app(scope, receive, send)
    return told[0]


async def _reached(_request):
    return Response(status_code=REACHED)


def behind(installation, quick):
    """Return the application with every handler put out; its doors, its gate and its routes are its own."""
    network = OnNetwork(8321, secure=False, pairing=Pairing())
    hosts = frozenset({"127.0.0.1", NETWORK[0]})
    app = make_app(installation, Workers({}), hosts, network, ForCustomers(port=FOR_CUSTOMERS), quick)
    app.router.routes = [Route(each.path, _reached, methods=sorted(each.methods)) for each in app.routes]
    return app


def wrong_cells(app, columns, by_every_method=()):
    """Ask every route as each column that has something to say of it, and return where it was not as it says.

    Args:
        app: The application with its handlers put out.
        columns: By its name who asks, and how he is to be answered by the line of the table and the address.
        by_every_method: The columns that ask each path by the methods too that no line is about.
    """

    async def ask():
        wrong, numbers = [], itertools.count(1)
        async with app.router.lifespan_context(app):
            for path, method in itertools.product(dict.fromkeys(path for _, path in table()), METHODS):
                line, address = line_of(method, filled(path)), filled(path)
                asked = columns if (method, path) in table() else by_every_method
                for name, (asks, expected) in ((name, columns[name]) for name in asked):
                    right = expected(line, address)
                    found = None if right is None else await status(app, asks, method, address, next(numbers))
                    wrong += [(name, method, path, found, right)] if found != right else []
        return wrong

    return asyncio.run(ask())


@pytest.fixture(scope="module")
def firm(tmp_path_factory, quick):
    """Two firms, not served: the application is asked within a loop of the test."""
    installation = open_installation(tmp_path_factory.mktemp("who") / "jobs.sqlite")
    second = installation.accounts.add_firm("Second firm").id
    made = House(installation, behind(installation, quick), installation.first_id, second)
    made.person("owner")
    yield made
    installation.close()


def signed(firm, role, grants=(), of=None):
    who = firm.person(role, of, grants)
    _, token = firm.accounts.begin_sign_in(who.id, of or firm.first, "test", 1)
    return Asks({"cookie": f"pavewright-sign-in={token}"})


def program(firm, role, scopes, grants=()):
    who = firm.person(role, None, grants)
    made, token = firm.accounts.make_token(firm.first, who.id, "program", sorted(scopes))
    return made, Asks({"authorization": f"Bearer {token}"})


def as_person(column, line, _path):
    """A person is let in, or refused for what he is; what no line is about cannot be done."""
    if line is None:
        return 405
    return REACHED if line.everybody or column in line.people else 403


def as_program(column, scopes, line, _path):
    """A program is let in where its token and its person both may."""
    if line is None:
        return 405
    may = line.scopes is not None and line.scopes <= scopes and column in line.people
    return REACHED if line.everybody or may else 403


def token_columns():
    """Return what tokens hold: one scope each, all, all but one, and what some line asks and no more."""
    lines = {line.scopes for line in table().values() if line.scopes}
    return lines | {frozenset([scope]) for scope in SCOPES} | {ALL} | {ALL - {scope} for scope in ALL}


def as_token(scopes, line, path):
    """A token of the owner: one scope and all are asked everywhere, others where they are just enough or just not."""
    needed = line.scopes or frozenset()
    telling = (
        len(scopes) == 1 or scopes == ALL or scopes == needed or (len(ALL - scopes) == 1 and ALL - scopes <= needed)
    )
    return as_program("owner", scopes, line, path) if telling else None


def as_nobody(line, path, *, here=False):
    """Nobody is let in where everybody is; what a customer opens is looked for by its own routes."""
    if line is None and path.startswith(("/quotation/", "/feeds/", "/static/")) or line is None and path in FREE:
        return 405
    return REACHED if line is not None and (line.everybody or (here and line.here)) else 401


FREE = {"/sw.js", "/health", "/ready"}


def test_the_table_has_a_line_for_every_route_and_no_other():
    assert set(table()) == set(RIGHTS)
    some = {f"{method} {path_of(path)}" for method, path in table() if "{rest" not in path}
    every = {f"ANY {path_of(path)}" for _, path in table() if "{rest" in path}
    assert some | every == set(described())


def test_what_the_table_says_holds_together():
    """Rules by which a slip in the table itself is found."""
    for (method, path), line in table().items():
        people = line.people
        if line.everybody:
            continue
        assert "owner" in people
        assert people <= {"owner", "auditor"} or "office" in people, path
        assert "crew" not in people or people >= {each for each in PEOPLE if each != "auditor"}, path
        if method in {"PUT", "PATCH", "DELETE"} and not path.startswith(("/api/you", "/api/long-tasks")):
            assert "auditor" not in people, path
        if "money" in path or "quot" in path or path == "/api/cash":
            assert "crew" not in people, path
        if path.startswith(("/api/people", "/api/tokens", "/api/hooks", "/api/devices", "/api/restore")):
            assert line.scopes is None and people <= {"owner", "office", "crew with devices"}, path
        if line.scopes is not None and "crew" not in people and "crew with money" in people:
            assert "see_money" in line.scopes, path


def test_people_of_each_role_and_another_firms_owner(firm):
    columns = {
        name: (signed(firm, role, grants), functools.partial(as_person, name))
        for name, (role, grants) in PEOPLE.items()
    }
    # an owner elsewhere comes as far as an owner: what is of this firm is not there for him behind the gate
    elsewhere = signed(firm, "owner", of=firm.second)
    columns["owner of another firm"] = (elsewhere, functools.partial(as_person, "owner"))
    assert wrong_cells(firm.app, columns, ("owner", "auditor")) == []


def test_programs_by_what_their_tokens_hold(firm):
    columns = {}
    for scopes in token_columns():
        asks = program(firm, "owner", scopes)[1]
        columns[f"token of the owner: {' '.join(sorted(scopes))}"] = (asks, functools.partial(as_token, scopes))
    # a token that says more than its person may do reaches what he may
    for name in ("office", "crew", "crew with money", "auditor"):
        role, grants = PEOPLE[name]
        asks = program(firm, role, SCOPES, grants)[1]
        columns[f"token of {name}"] = (asks, functools.partial(as_program, name, ALL))
    assert wrong_cells(firm.app, columns) == []


def test_keys_that_open_nothing_and_devices(firm):
    store = firm.installation.first
    withdrawn, gone = program(firm, "owner", SCOPES)
    firm.accounts.withdraw_token(firm.first, withdrawn.id)
    left = signed(firm, "office", ("left",))
    firm.accounts.end_member(firm.people["office", firm.first, ("left",), None].id, firm.first, keep_one="owner")
    past, ended = dt.datetime.now(dt.UTC) - dt.timedelta(days=1), firm.person("owner").id
    _, over = firm.accounts.make_token(firm.first, ended, "over", SCOPES, past)
    _, device = store.devices.pair("Phone of the crew")
    paired = {"cookie": (by := f"pavewright-device={device}")}
    job = store.add('{"identity": {"title": "Terrace"}}').id
    _, link = store.quotations.make(Made(job, 1, dt.date(2099, 1, 1), "{}", b""), withdraw_others=False)
    columns = {
        "nobody here": (Asks(), functools.partial(as_nobody, here=True)),
        "withdrawn token": (Asks(gone.headers, NETWORK), at_the_door),
        "withdrawn token, paired": (Asks(gone.headers | paired, NETWORK), as_nobody),
        "token that ended, paired": (Asks({"authorization": f"Bearer {over}"} | paired, NETWORK), as_nobody),
        "who left, paired": (Asks({"cookie": f"{left.headers['cookie']}; {by}"}, NETWORK), as_nobody),
        "paired device": (Asks(paired, NETWORK), as_nobody),
        "unpaired device": (Asks({}, NETWORK), at_the_door),
        "a device's key as a person's": (Asks({"cookie": f"pavewright-sign-in={device}"}, NETWORK), at_the_door),
        "a customer's key as a person's": (Asks({"cookie": f"pavewright-sign-in={link}; {by}"}, NETWORK), as_nobody),
        "a customer's key as a program's": (Asks({"authorization": f"Bearer {link}"} | paired, NETWORK), as_nobody),
        "customer at the door of customers": (Asks({}, NETWORK, FOR_CUSTOMERS), for_customers),
    }  # fmt: skip
    assert wrong_cells(firm.app, columns) == []


def at_the_door(line, path):
    """Who is not paired is answered what a key in the address opens, and nothing else: not even signing in."""
    return as_nobody(line, path) if path.startswith(("/quotation/", "/feeds/")) else 401


def for_customers(line, path):
    return as_nobody(line, path) if path.startswith(("/quotation/", "/feeds/")) else 404


def test_while_nobody_was_entered_a_paired_device_comes_as_far_as_this_machine(tmp_path, quick):
    installation = open_installation(tmp_path / "jobs.sqlite")
    _, device = installation.first.devices.pair("Phone of the crew")

    def all_of_it(line, _path):
        return 405 if line is None else REACHED

    columns = {
        "paired device": (Asks({"cookie": f"pavewright-device={device}"}, NETWORK), all_of_it),
        "this machine": (Asks(), all_of_it),
        "unpaired device": (Asks({}, NETWORK), at_the_door),
    }
    assert wrong_cells(behind(installation, quick), columns) == []
    installation.close()
