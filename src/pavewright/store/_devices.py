"""Devices that may reach the jobs over the network: paired once, known by a token, withdrawn by name.

Of a token only its digest is kept: who reads the file of the jobs cannot use it.
"""

from __future__ import annotations

import hashlib
import secrets
from dataclasses import dataclass
from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store._tables import DEVICES

if TYPE_CHECKING:
    from collections.abc import Callable
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection

    _Opens = Callable[[], AbstractContextManager[Connection]]

_TOKEN_BYTES = 32
"""Random bytes in a token. [bytes]"""


@dataclass(frozen=True, slots=True)
class Device:
    """A device that was paired.

    Attributes:
        id: Its name in the store.
        name: What its owner calls it.
        paired: When it was paired, UTC.
        seen: When it last asked for something, UTC; the same as paired where it has not asked yet.
    """

    id: str
    name: str
    paired: str
    seen: str


class Devices:
    """The devices of one store."""

    def __init__(self, reading: _Opens, writing: _Opens) -> None:
        """Keep how the store gives a connection to read by, and one to write by."""
        self._reading, self._writing = reading, writing

    def pair(self, name: str) -> tuple[Device, str]:
        """Keep a new device; return it with its token, which nobody can read again."""
        token, at = secrets.token_urlsafe(_TOKEN_BYTES), now()
        device = Device(secrets.token_hex(8), name, at, at)
        row = {"id": device.id, "name": name, "paired": at, "seen": at, "digest": _digest(token)}
        with self._writing() as connection:
            connection.execute(DEVICES.insert().values(row))
        return device, token

    def of_token(self, token: str) -> Device | None:
        """Return the device that has a token, None where there is none or it was withdrawn."""
        query = sa.select(DEVICES.c.id, DEVICES.c.name, DEVICES.c.paired, DEVICES.c.seen)
        with self._reading() as connection:
            row = connection.execute(query.where(DEVICES.c.digest == _digest(token))).one_or_none()
        return None if row is None else Device(*row)

    def all(self) -> tuple[Device, ...]:
        """Return every device, the one paired last first."""
        query = sa.select(DEVICES.c.id, DEVICES.c.name, DEVICES.c.paired, DEVICES.c.seen)
        with self._reading() as connection:
            rows = connection.execute(query.order_by(DEVICES.c.paired.desc(), DEVICES.c.id)).all()
        return tuple(Device(*row) for row in rows)

    def withdraw(self, device_id: str) -> bool:
        """Delete a device, so that its token opens nothing any more; return False where there is none of that name."""
        with self._writing() as connection:
            done = connection.execute(DEVICES.delete().where(DEVICES.c.id == device_id))
        return done.rowcount == 1

    def note_seen(self, device_id: str) -> None:
        """Note that a device asked for something now."""
        with self._writing() as connection:
            connection.execute(DEVICES.update().where(DEVICES.c.id == device_id).values(seen=now()))


def _digest(token: str) -> str:
    """Return what is kept of a token; it is random and long, so that no salt or slow digest is needed."""
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()
