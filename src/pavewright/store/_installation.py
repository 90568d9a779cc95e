"""An installation: one or several firms, apart from each other, and the people who may come in."""

from __future__ import annotations

import threading
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from sqlalchemy.engine import URL

from pavewright.store._open import make_folder_of
from pavewright.store._store import Store, open_file, open_store
from pavewright.store.accounts import Accounts, first_firm
from pavewright.store.outside._choosing import open_place

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.store.outside._place import Place

_Found = TypeVar("_Found")


def open_installation(where: Path | str | URL, files: str | Path | None = None) -> Installation:
    """Return the installation in a file or on a database server, its tables brought up to date.

    Args:
        where: The file of the first firm, made where it is missing; or an address of a database.
        files: Where photos and papers are kept: a folder, or ``s3://BUCKET/PREFIX``; None for the database itself.

    Raises:
        StoreTroubleError: it is no store, or cannot be opened or written.
    """
    place = None if files is None else open_place(files)
    if isinstance(where, Path) or (isinstance(where, str) and "://" not in where):
        make_folder_of(Path(where))
        where = URL.create("sqlite", database=str(Path(where).absolute()))
    return Installation(open_store(where), place)


class Installation:
    """The firms of one file or database, each with a store of its own, and their accounts.

    Where jobs are kept in a file, the first firm and the accounts stand in it, and each further firm has a file of its
    own in a folder beside it. On a database server the rows of each firm are kept apart by the server itself.
    """

    def __init__(self, first: Store, files: Place | None = None) -> None:
        """Take the store of the first firm, and the place where photos and papers are kept outside the database.

        Raises:
            StoreTroubleError: the database or its disk refuses.
        """
        self.first = first
        self.accounts = Accounts(first.reading, first.writing)
        with first.writing() as connection:
            self.first_id = first_firm(connection)
        self.files = files
        first.outside.use(files, self.first_id)
        self._stores = {self.first_id: first}
        self._opening = threading.Lock()

    def store_of(self, firm_id: str) -> Store:
        """Return the store of a firm.

        Raises:
            UnknownFirm: no such firm.
            StoreTroubleError: its file cannot be opened.
        """
        found = self._stores.get(firm_id)
        if found is not None:
            return found
        firm = self.accounts.firm(firm_id)
        with self._opening:
            if firm.id not in self._stores:
                opened = self._opened(firm.id)
                opened.outside.use(self.files, firm.id)
                self._stores[firm.id] = opened
            return self._stores[firm.id]

    def find(self, look: Callable[[Store], _Found | None]) -> tuple[str, Store, _Found] | None:
        """Return the first firm in which something is found, its store and what is found; None where it is in none.

        Args:
            look: Looks in the store of one firm, by a token that nobody guesses.
        """
        for firm in self.accounts.firms():
            store = self.store_of(firm.id)
            found = look(store)
            if found is not None:
                return firm.id, store, found
        return None

    def close(self) -> None:
        """Close the stores of every firm."""
        for store in reversed(self._stores.values()):
            store.close()

    def _opened(self, firm_id: str) -> Store:
        if not self.first.is_file:
            return self.first.of_firm(firm_id)
        main = Path(self.first.name)
        return open_file(main.with_name(f"{main.stem}.firms") / f"{firm_id}.sqlite")
