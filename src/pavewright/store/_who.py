"""Who acts: noted with every change while somebody is signed in."""

from __future__ import annotations

from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator


@dataclass(frozen=True, slots=True)
class Who:
    """Who acts.

    Attributes:
        id: The person's name in the store: it is noted with what he changes, so that his name stands in one place only.
        name: What he is called.
    """

    id: str
    name: str


_CUSTOMER = "customer "
_ACTING: ContextVar[Who | None] = ContextVar("acting", default=None)


def customer_by(link_id: str) -> Who:
    """Return a customer as he is noted: by the link through which he came, and by no name.

    >>> customer_by("5f").id
    'customer 5f'
    """
    return Who(f"{_CUSTOMER}{link_id}", "")


def link_of(who: str) -> str | None:
    """Return the link of a customer by what is noted of him; None where it was no customer.

    >>> link_of("customer 5f"), link_of("5f")
    ('5f', None)
    """
    return who.removeprefix(_CUSTOMER) if who.startswith(_CUSTOMER) else None


@contextmanager
def acting_as(who: Who | None) -> Iterator[None]:
    """Note a person with every change that is made within; nobody where there is none.

    >>> with acting_as(Who("5f", "A. Person")):
    ...     who_acts()
    '5f'
    >>> who_acts()
    ''
    """
    token = _ACTING.set(who)
    try:
        yield
    finally:
        _ACTING.reset(token)


def who_acts() -> str:
    """Return the person who acts by his name in the store; empty where nobody is signed in."""
    who = _ACTING.get()
    return "" if who is None else who.id
