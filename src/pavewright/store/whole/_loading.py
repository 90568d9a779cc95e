"""Bringing a whole copy into empty tables, and seeing that what stands there then is what was copied."""

from __future__ import annotations

import hashlib
import itertools
from contextlib import ExitStack, closing, contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

import sqlalchemy as sa
from sqlalchemy.engine import URL

from pavewright.store._all_tables import METADATA, OF_A_FIRM, OF_INSTALLATION
from pavewright.store._open import engine_for, make_folder_of, name_of, upgrade
from pavewright.store._troubles import StoreTroubleError, Trouble, in_words
from pavewright.store.accounts._tables import AUDIT, FAILURES, FIRMS
from pavewright.store.whole import _rows as rows
from pavewright.store.whole._look import of_firm

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from sqlalchemy.engine import Connection

    from pavewright.store.whole._look import At
    from pavewright.store.whole._manifest import Part
    from pavewright.store.whole._reading import WholeCopy

_AT_ONCE = 20
"""Rows that are written at once: each may hold a photo."""
_COUNTED = (FAILURES, AUDIT)
"""Tables whose rows a server numbers by itself."""


@dataclass(frozen=True, slots=True)
class Compared:
    """A table as it was copied and as it was read back.

    Attributes:
        copied: What the copy says.
        found: What stands in the database.
        files: How many files were read back with it.
        bytes: Their sizes together. [bytes]
    """

    copied: Part
    found: Part
    files: int
    bytes: int

    @property
    def same(self) -> bool:
        """Whether nothing differs, files included: their hashes stand in the lines."""
        return self.copied == self.found


def firm_file(main: Path, firm: str) -> Path:
    """Return the file of a further firm beside that of the first one."""
    return main.with_name(f"{main.stem}.firms") / f"{firm}.sqlite"


@contextmanager
def loaded_into_files(copy: WholeCopy, place: Callable[[str], Path]) -> Iterator[At]:
    """Bring a copy into new files, kept when all went well.

    Args:
        copy: The copy.
        place: Gives the file for a firm; it may be there, and empty of tables.
    """
    first, *others = copy.manifest.firms
    with ExitStack() as stack:
        at: dict[str, Connection] = {}
        for firm in (first, *others):
            make_folder_of(place(firm))
            engine = engine_for(URL.create("sqlite", database=str(place(firm).absolute())))
            stack.callback(engine.dispose)
            stack.enter_context(in_words(str(place(firm))))
            at[firm] = stack.enter_context(engine.execution_options(write=True).begin())
            upgrade(at[firm], str(place(firm)), copy.manifest.tables)
        at[""] = at[first]
        _load(copy, at.__getitem__)
        yield at.__getitem__


@contextmanager
def loaded_into_server(copy: WholeCopy, address: str, *, keep: bool) -> Iterator[At]:
    """Bring a copy into an empty database of a server.

    Args:
        copy: The copy.
        address: Its address.
        keep: Whether it stays there; else all of it is taken back at the end.

    Raises:
        StoreTroubleError: the database holds something already.
    """
    engine = engine_for(address)
    name = name_of(engine)
    try:
        with in_words(name), closing(engine.execution_options(write=True).connect()) as connection:
            work = connection.begin()
            upgrade(connection, name, copy.manifest.tables)
            _must_be_empty(connection, name)
            connection.execute(FIRMS.delete())

            def at(firm: str) -> Connection:
                return of_firm(connection, firm)

            _load(copy, at)
            for table in _COUNTED:
                last = sa.select(sa.func.max(table.c.number)).scalar_subquery()
                counter = sa.func.pg_get_serial_sequence(table.name, "number")
                connection.execute(sa.select(sa.func.setval(counter, sa.func.coalesce(last, 1))))
            yield at
            if keep:
                upgrade(connection, name)
                work.commit()
            else:
                work.rollback()
    finally:
        engine.dispose()


def compared(copy: WholeCopy, at: At) -> Iterator[Compared]:
    """Read every table back and give it beside what was copied."""
    for part in copy.manifest.parts:
        sizes: list[int] = []

        def keep(content: bytes, sizes: list[int] = sizes) -> str:
            sizes.append(len(content))
            return hashlib.sha256(content).hexdigest()

        table = METADATA.tables[part.table]
        lines = rows.lines_of(at(part.firm), table, part.columns, keep)
        found = rows.part_of(part.firm, table, part.columns, lines)
        yield Compared(part, found, len(sizes), sum(sizes))


def must_be_same(copy: WholeCopy, at: At) -> None:
    """Refuse a copy of which something else came out than went in.

    Raises:
        StoreTroubleError: something differs.
    """
    if not all(each.same for each in compared(copy, at)):
        raise StoreTroubleError(Trouble.COPY_DIFFERS, copy.name)


def _load(copy: WholeCopy, at: At) -> None:
    for part in copy.manifest.parts:
        connection = at(part.firm)
        table = sa.table(part.table, *(sa.column(name) for name in part.columns))
        found = copy.rows(part)
        while some := list(itertools.islice(found, _AT_ONCE)):
            connection.execute(table.insert(), some)


def _must_be_empty(connection: Connection, name: str) -> None:
    firms = connection.execute(sa.select(FIRMS.c.id)).scalars().all()
    of_installation = [table for table in OF_INSTALLATION if table is not FIRMS]
    filled = len(firms) > 1 or any(_holds(connection, table) for table in of_installation)
    for firm in firms:
        of_firm(connection, firm)
        filled = filled or any(_holds(connection, table) for table in OF_A_FIRM)
    if filled:
        raise StoreTroubleError(Trouble.NOT_EMPTY, name)


def _holds(connection: Connection, table: sa.Table) -> bool:
    return connection.execute(sa.select(sa.literal(1)).select_from(table).limit(1)).first() is not None
