"""Bringing single files back out of a whole copy, where those of a store are missing or damaged."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.store.outside._named import NAMES
from pavewright.store.outside._of_firm import ELSEWHERE
from pavewright.store.whole._reading import whole_copy

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from pavewright.store._store import Store


def mend_files(store: Store, digests: Iterable[str], backup: Path, passphrase: str | None = None) -> int:
    """Put files that a whole copy holds back where they are kept, outside or in the rows; return how many it held.

    Args:
        store: The store of the firm.
        digests: Hashes of the files that are wanted.
        backup: The copy.
        passphrase: What opens it; None where it is not locked.

    Raises:
        StoreTroubleError: the copy, the place or the database cannot be used.
    """
    found = 0
    with whole_copy(backup, passphrase) as copy:
        for digest in digests:
            if digest in copy.manifest.files:
                _put_back(store, digest, copy.file(digest))
                found += 1
    return found


def _put_back(store: Store, digest: str, content: bytes) -> None:
    """Keep a file as if it came now, and have every row that names it hold what its row holds then."""
    row = store.outside.put(content)
    with store.writing() as connection:
        store.outside.hold(connection, content)
        for each in NAMES:
            named, length = each.content.table.update().where(each.digest == digest), sa.func.length(each.content)
            # a paper may be moved out of its row and in again, and is never changed
            connection.execute(named.where(length > 0).values({each.content.name: ELSEWHERE}))
            connection.execute(named.where(length == 0).values({each.content.name: row}))
