"""Which route answers a request, as it stands in the list of routes: nothing that was filled in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.routing import Match, Route

if TYPE_CHECKING:
    from starlette.types import Scope


def template_of(scope: Scope) -> str:
    """Return the path of the route that answers a request; empty where none does."""
    kept = scope.setdefault("state", {})
    if "template" not in kept:
        routes = scope["app"].routes
        found = (each.path for each in routes if isinstance(each, Route) and each.matches(scope)[0] is Match.FULL)
        kept["template"] = next(found, "")
    return str(kept["template"])
