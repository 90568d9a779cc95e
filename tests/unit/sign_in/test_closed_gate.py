"""Where something is amiss at the gate nobody is let in."""

from __future__ import annotations

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.responses import Response
from starlette.routing import Route
from starlette.testclient import TestClient

from pavewright.store import StoreTroubleError, Trouble
from pavewright.web._faults import Faults
from pavewright.web.sign_in import Gate, Guard


async def _reached(_request):
    return Response(status_code=299)


def at_the_gate(house, *paths):
    routes = [Route(path, _reached) for path in paths]
    guard = Guard(house.accounts)
    app = Starlette(routes=routes, middleware=[Middleware(Faults), Middleware(Gate, guard=guard)])
    cookies = house.client("owner").cookies
    return guard, TestClient(app, base_url="http://127.0.0.1", cookies=cookies, raise_server_exceptions=False)


def test_a_route_without_a_line_is_refused_to_everybody(house):
    _, owner = at_the_gate(house, "/api/not-listed", "/api/jobs")
    assert owner.get("/api/jobs").status_code == 299
    assert owner.get("/api/not-listed").status_code == 403


def test_where_accounts_cannot_be_read_nobody_is_let_in(house, monkeypatch):
    guard, owner = at_the_gate(house, "/api/jobs")
    assert owner.get("/api/jobs").status_code == 299

    def broken(*_asked):
        raise StoreTroubleError(Trouble.DAMAGED, "jobs.sqlite")

    monkeypatch.setattr(guard.accounts, "signed_in", broken)
    assert owner.get("/api/jobs").status_code == 503

    def fault(*_asked):
        message = "unforeseen"
        raise RuntimeError(message)

    monkeypatch.setattr(guard.accounts, "signed_in", fault)
    refused = owner.get("/api/jobs")
    assert refused.status_code == 500
    assert "unforeseen" not in refused.text
    monkeypatch.undo()
