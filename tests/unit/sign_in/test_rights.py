"""Every route stands in the table of rights, and every role is let in or refused as the table says."""

from __future__ import annotations

import itertools

import pytest
from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.responses import Response
from starlette.routing import Route
from starlette.testclient import TestClient

from pavewright.people import GRANTS, Right, Role, rights_of
from pavewright.web._rights import PUBLIC, RIGHTS
from pavewright.web.sign_in import Gate, Guard

ROLES = tuple(Role)


def routes_of(app):
    for route in app.routes:
        assert isinstance(route, Route), route
        for method in sorted(route.methods - {"HEAD"}):
            yield method, route.path


def filled(path, **given):
    """Return an address of a route with something in each of its places."""
    parts = []
    for part in path.split("/"):
        if part.startswith("{"):
            name, _, rest = part[1:].partition("}")
            name, _, kind = name.partition(":")
            parts.append(str(given.get(name, 1 if kind == "int" else "aa11")) + rest)
        else:
            parts.append(part)
    return "/".join(parts)


def test_the_table_holds_every_route_and_no_other(house):
    assert set(routes_of(house.app)) == set(RIGHTS)


# Said a second time, by hand, for what must not go wrong: who is let in, of owner, office, crew and auditor.
SENSITIVE = {
    ("GET", "/api/backup"): "owner",
    ("POST", "/api/restore"): "owner",
    ("GET", "/api/people"): "owner",
    ("POST", "/api/people/invitations"): "owner",
    ("PUT", "/api/people/{person}"): "owner",
    ("DELETE", "/api/people/{person}"): "owner",
    ("POST", "/api/people/{person}/new-password"): "owner",
    ("GET", "/api/people/{person}/copy.zip"): "owner",
    ("POST", "/api/people/{person}/erased"): "owner",
    ("GET", "/api/firm/copy.zip"): "owner",
    ("GET", "/api/audit"): "owner auditor",
    ("GET", "/api/firm"): "owner office auditor",
    ("PUT", "/api/firm"): "owner office",
    ("GET", "/api/firm/document.json"): "owner office auditor",
    ("POST", "/api/firm/prices/take"): "owner office",
    ("POST", "/api/cash"): "owner office auditor",
    ("POST", "/api/account"): "owner office auditor",
    ("POST", "/api/jobs/{job}/quotations"): "owner office",
    ("GET", "/api/jobs/{job}/quotations/{link}/quotation.pdf"): "owner office auditor",
    ("GET", "/api/jobs/{job}/record"): "owner office auditor",
    ("PUT", "/api/jobs/{job}"): "owner office",
    ("DELETE", "/api/jobs/{job}"): "owner office",
    ("POST", "/api/jobs"): "owner office crew",
    ("POST", "/api/jobs/{job}/operations"): "owner office crew",
    ("POST", "/api/jobs/{job}/deliveries"): "owner office crew",
    ("GET", "/api/jobs"): "owner office crew auditor",
    ("POST", "/api/devices/pairing"): "owner office",
    ("GET", "/metrics"): "owner",
}


@pytest.mark.parametrize(
    ("route", "roles"), SENSITIVE.items(), ids=lambda each: " ".join(each) if isinstance(each, tuple) else ""
)
def test_the_table_says_what_was_said_a_second_time(route, roles):
    assert {role.value for role in ROLES if RIGHTS[route].rights <= rights_of(role)} == set(roles.split())


def test_only_these_are_answered_to_strangers():
    public = {path for (_, path), need in RIGHTS.items() if need is PUBLIC}
    begins = (
        "/quotation/",
        "/static/",
        "/sw.js",
        "/sign-in",
        "/sign-out",
        "/join/",
        "/new-password/",
        "/api/sign-in/",
        "/api/password-strength",
        "/api/join/",
        "/health",
        "/ready",
    )
    assert all(path.startswith(begins) or path in OWN_KEYS for path in public)


OWN_KEYS = {"/api/openapi.json", "/api/docs", "/feeds/{firm}/{token}.ics"}
"""What the program takes and answers, which tells nothing of a firm; and feeds, whose address is a key."""


@pytest.mark.parametrize("role", [None, *ROLES])
def test_each_cell_of_the_table_is_as_it_says(house, role):
    """Each route is asked as somebody of each role: refused at the gate or not, as the table says."""
    wrong = []
    for (method, path), need in RIGHTS.items():
        asks = signed_at_gate(house, role)
        answered = asks.request(method, filled(path), headers={"accept": "application/json"}, follow_redirects=False)
        expected = need.is_public or (role is not None and need.rights <= rights_of(role))
        refused = 401 if role is None else 403
        if answered.status_code != (299 if expected else refused):
            wrong.append((method, path, answered.status_code, expected))
    assert wrong == []


def signed_at_gate(house, role):
    """Return a browser at the gate of the application, behind which every route of it answers a sign."""
    if role not in house.at_gate:
        routes = [Route(each.path, _reached, methods=sorted(each.methods)) for each in house.app.routes]
        app = Starlette(routes=routes, middleware=[Middleware(Gate, guard=Guard(house.accounts))])
        browser = house.client(None if role is None else role.value)
        house.at_gate[role] = TestClient(app, base_url="http://127.0.0.1", cookies=browser.cookies)
    return house.at_gate[role]


async def _reached(_request):
    return Response(status_code=299)


def test_rights_are_only_granted_to_the_crew_and_only_those_that_may_be():
    for role, grants in itertools.product(ROLES, (frozenset(Right), frozenset())):
        more = rights_of(role, grants) - rights_of(role)
        assert more == ((GRANTS & grants) - rights_of(role) if role is Role.CREW else frozenset())
