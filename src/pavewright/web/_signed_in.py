"""The firms, the store and the accounts that a request is answered from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.store import link_of
from pavewright.writing import Sentence

if TYPE_CHECKING:
    from collections.abc import Iterable

    from starlette.requests import Request

    from pavewright.store import Accounts, Store
    from pavewright.web._firms import Firms


CUSTOMER_BY = Sentence("customer by link {number}")
"""What a customer is called: by the number of his link in the job."""


def firms_of(request: Request) -> Firms:
    """Return the firms of the installation."""
    found: Firms = request.app.state.firms
    return found


def store_of(request: Request) -> Store:
    """Return the store of the firm that this request is about."""
    return firms_of(request).store()


def accounts_of(request: Request) -> Accounts:
    """Return the accounts of the installation."""
    return firms_of(request).installed.accounts


def names_of(request: Request, ids: Iterable[str]) -> dict[str, str]:
    """Return what those are called who made changes: people, paired devices where nobody signed in, and customers.

    Args:
        request: The request.
        ids: Who they are, as it is noted with a change; empty where nobody was known.
    """
    wanted = set(ids) - {""}
    if not wanted:
        return {}
    store = store_of(request)
    named = accounts_of(request).names() | {f"device {one.id}": one.name for one in store.devices.all()}
    links = {each: link for each in wanted if (link := link_of(each)) is not None}
    numbers = store.quotations.numbers(links.values()) if links else {}
    named |= {each: CUSTOMER_BY(number=numbers[link]) for each, link in links.items() if link in numbers}
    return {each: named.get(each, "") for each in wanted}
