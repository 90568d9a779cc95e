"""One look at everything: what is read through it stood together at one moment, whoever writes meanwhile."""

from __future__ import annotations

from contextlib import ExitStack, contextmanager
from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.store.accounts._tables import FIRMS

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sqlalchemy.engine import Connection

    from pavewright.store._installation import Installation

    At = Callable[[str], Connection]

_FIRST_READ = "SELECT version_num FROM alembic_version"
"""A database takes its look when it is first read, not before."""


@contextmanager
def one_look(kept: Installation) -> Iterator[tuple[str, tuple[str, ...], At]]:
    """Give the version of the tables, the firms, and a connection for each of them and, unnamed, the installation.

    On a server it is one transaction. Where each firm has a file of its own the looks are taken one right after the
    other: nothing of a firm refers to another one.
    """
    with ExitStack() as stack:
        main = stack.enter_context(kept.first.reading())
        version = str(main.exec_driver_sql(_FIRST_READ).scalar_one())
        firms = tuple(main.execute(sa.select(FIRMS.c.id).order_by(FIRMS.c.first.desc(), FIRMS.c.id)).scalars().all())
        if not kept.first.is_file:
            yield version, firms, lambda firm: of_firm(main, firm)
            return
        looks = {"": main, kept.first_id: main}
        for firm in firms:
            if firm not in looks:
                looks[firm] = stack.enter_context(kept.store_of(firm).reading())
                looks[firm].exec_driver_sql(_FIRST_READ).scalar_one()
        yield version, firms, looks.__getitem__


def of_firm(connection: Connection, firm: str) -> Connection:
    """Return a connection to a server, from now on for a firm; where none is named, for the installation."""
    if firm:
        connection.execute(sa.text("SELECT set_config('pavewright.firm', :firm, true)"), {"firm": firm})
    return connection
