"""The addresses of other programs, and what goes out to them."""

from __future__ import annotations

import base64
import datetime as dt
import secrets
from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store._who import who_acts
from pavewright.store.hooks._outbox import post
from pavewright.store.hooks._tables import HOOKS, MESSAGES
from pavewright.store.hooks._types import Due, Event, Hook, Message, MessageState

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from contextlib import AbstractContextManager
    from typing import Any

    from sqlalchemy.engine import Connection

    Opens = Callable[[], AbstractContextManager[Connection]]

_WAITS_S = (5, 300, 1_800, 7_200, 18_000, 36_000, 50_400, 72_000)
"""How long after each try that failed the next one comes; the last wait is repeated. [s]"""
_GIVE_UP = dt.timedelta(days=5)
_KEPT = dt.timedelta(days=30)
_LEASE = dt.timedelta(minutes=2)
"""So long a message belongs to the server that claimed it; then another one may tell it."""
_AHEAD = dt.timedelta(minutes=1)
"""By how much the clock of another server may be ahead without that a message counts as written by a wrong one."""
_SECRET_BYTES = 32
_LISTED = 200


class UnknownHookError(Exception):
    """There is no such address, or no such message of it."""


class Hooks:
    """The addresses of one firm."""

    def __init__(self, reading: Opens, writing: Opens) -> None:
        """Keep how the database is opened."""
        self._reading, self._writing = reading, writing

    def add(self, name: str, address: str, events: Iterable[Event]) -> tuple[Hook, str]:
        """Keep an address; return it with its secret, which is shown once."""
        secret = _new_secret()
        row: dict[str, Any] = {"id": secrets.token_hex(8), "name": name, "address": address, "made": now()}
        row |= {"events": " ".join(sorted(set(events))), "secret": secret, "secret_before": None}
        with self._writing() as connection:
            connection.execute(HOOKS.insert().values(row | {"who": who_acts() or None}))
        return self.hook(row["id"]), secret

    def hook(self, hook_id: str) -> Hook:
        """Return an address.

        Raises:
            UnknownHookError: none of that name.
        """
        for each in self.all():
            if each.id == hook_id:
                return each
        raise UnknownHookError(hook_id)

    def all(self) -> tuple[Hook, ...]:
        """Return the addresses, the first one first."""
        with self._reading() as connection:
            rows = connection.execute(sa.select(HOOKS).order_by(HOOKS.c.made, HOOKS.c.id)).all()
        return tuple(
            Hook(
                row.id,
                row.name,
                row.address,
                tuple(map(Event, row.events.split())),
                row.made,
                row.secret_before is not None,
            )
            for row in rows
        )

    def remove(self, hook_id: str) -> None:
        """Delete an address with all that was still to be told to it.

        Raises:
            UnknownHookError: none of that name.
        """
        with self._writing() as connection:
            connection.execute(MESSAGES.delete().where(MESSAGES.c.hook_id == hook_id))
            if connection.execute(HOOKS.delete().where(HOOKS.c.id == hook_id)).rowcount != 1:
                raise UnknownHookError(hook_id)

    def rotate(self, hook_id: str) -> str:
        """Return a new secret; the one before signs beside it until ``end_rotation``.

        Raises:
            UnknownHookError: none of that name.
        """
        secret = _new_secret()
        changed = HOOKS.update().where(HOOKS.c.id == hook_id).values(secret_before=HOOKS.c.secret, secret=secret)
        with self._writing() as connection:
            if connection.execute(changed).rowcount != 1:
                raise UnknownHookError(hook_id)
        return secret

    def end_rotation(self, hook_id: str) -> None:
        """Sign with the new secret alone from now on.

        Raises:
            UnknownHookError: none of that name.
        """
        with self._writing() as connection:
            if connection.execute(HOOKS.update().where(HOOKS.c.id == hook_id).values(secret_before=None)).rowcount != 1:
                raise UnknownHookError(hook_id)

    def messages(self, hook_id: str) -> tuple[Message, ...]:
        """Return what was told to an address, the last one first."""
        query = sa.select(MESSAGES).where(MESSAGES.c.hook_id == hook_id)
        query = query.order_by(MESSAGES.c.made.desc(), MESSAGES.c.id).limit(_LISTED)
        with self._reading() as connection:
            rows = connection.execute(query).all()
        return tuple(
            Message(row.id, row.event, row.made, MessageState(row.state), row.due, row.tries, row.told) for row in rows
        )

    def again(self, hook_id: str, message_id: str) -> None:
        """Tell a message once more, now, also where it was delivered or given up.

        Raises:
            UnknownHookError: no such message.
        """
        which = MESSAGES.update().where(MESSAGES.c.id == message_id, MESSAGES.c.hook_id == hook_id)
        with self._writing() as connection:
            waiting = {"due": now(), "state": MessageState.WAITING.value, "tries": 0}
            if connection.execute(which.values(waiting)).rowcount != 1:
                raise UnknownHookError(message_id)

    def due(self, most: int = 20) -> tuple[Due, ...]:
        """Return what is to be told now, what waited longest first."""
        query = sa.select(MESSAGES, HOOKS.c.address, HOOKS.c.secret, HOOKS.c.secret_before)
        query = query.join(HOOKS, HOOKS.c.id == MESSAGES.c.hook_id).where((MESSAGES.c.due <= now()) | _ahead())
        with self._reading() as connection:
            rows = connection.execute(query.order_by(MESSAGES.c.due, MESSAGES.c.id).limit(most)).all()
        return tuple(
            Due(
                row.id,
                row.address,
                row.body,
                tuple(each for each in (row.secret, row.secret_before) if each),
                row.tries,
                row.made,
                row.due,
            )
            for row in rows
        )

    def claim(self, due: Due) -> bool:
        """Keep every other server from telling a message for two minutes; return False where one was quicker."""
        until = (dt.datetime.now(dt.UTC) + _LEASE).isoformat(timespec="milliseconds")
        as_seen = MESSAGES.update().where(MESSAGES.c.id == due.id, MESSAGES.c.due == due.due)
        with self._writing() as connection:
            return connection.execute(as_seen.values(due=until)).rowcount == 1

    def tried(self, due: Due, told: str, *, delivered: bool) -> None:
        """Note what came of a try; where it failed the next one comes later, and after some days none any more."""
        at = dt.datetime.now(dt.UTC)
        values: dict[str, Any] = {"tries": due.tries + 1, "told": told[:200]}
        if delivered:
            values |= {"state": MessageState.DELIVERED.value, "due": None}
        else:
            wait = dt.timedelta(seconds=_WAITS_S[min(due.tries, len(_WAITS_S) - 1)])
            over = due.tries + 1 > len(_WAITS_S) and at - dt.datetime.fromisoformat(due.made) > _GIVE_UP
            next_at = (at + wait).isoformat(timespec="milliseconds")
            state = MessageState.GIVEN_UP if over else MessageState.WAITING
            values |= {"state": state.value, "due": None if over else next_at}
        old = (at - _KEPT).isoformat(timespec="milliseconds")
        with self._writing() as connection:
            connection.execute(MESSAGES.update().where(MESSAGES.c.id == due.id).values(values))
            done = MESSAGES.c.state == MessageState.DELIVERED.value
            connection.execute(MESSAGES.delete().where(done, MESSAGES.c.made < old))

    def post(self, event: Event, facts: dict[str, Any]) -> None:
        """Keep an event by itself."""
        with self._writing() as connection:
            post(connection, event, facts)


def _ahead() -> sa.ColumnElement[bool]:
    """Return what is due later than its last wait can bring about: the clock was ahead when that was written."""
    at = dt.datetime.now(dt.UTC) + _AHEAD
    waits = {tries: max(dt.timedelta(seconds=wait), _LEASE) for tries, wait in enumerate(_WAITS_S, 1)}
    latest = {tries: (at + wait).isoformat(timespec="milliseconds") for tries, wait in ({0: _LEASE} | waits).items()}
    return MESSAGES.c.due > sa.case(latest, value=MESSAGES.c.tries, else_=latest[len(_WAITS_S)])


def _new_secret() -> str:
    """Return a fresh secret as the standard of signed hooks writes it."""
    return f"whsec_{base64.b64encode(secrets.token_bytes(_SECRET_BYTES)).decode()}"
