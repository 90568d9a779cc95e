"""Looking over every file that the rows of a firm name."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.store._troubles import StoreTroubleError, Trouble
from pavewright.store.outside._named import NAMES, named_in_rows, named_outside

if TYPE_CHECKING:
    from pavewright.store.outside._kept import Kept


@dataclass(frozen=True, slots=True)
class Checked:
    """What was found of the files of a firm.

    Attributes:
        inside: Files that stand in the database.
        outside: Files that rows name outside and that were read and found whole.
        outside_bytes: Their sizes together. [bytes]
        missing: Hashes of those that are not there.
        damaged: Hashes of those whose bytes are others, outside or in the database.
        unnamed: How many stand outside that no row names.
    """

    inside: int
    outside: int
    outside_bytes: int
    missing: tuple[str, ...]
    damaged: tuple[str, ...]
    unnamed: int

    @property
    def whole(self) -> bool:
        """Whether every file that a row names is there as it was kept."""
        return not self.missing and not self.damaged


def check_files(store: Kept) -> Checked:
    """Read every file that the rows of a firm name, and hold it against its hash.

    Args:
        store: The store of the firm.

    Raises:
        StoreTroubleError: rows name files outside and no place is set, or it or the database refuses.
    """
    missing: list[str] = []
    damaged: list[str] = []
    with store.reading() as connection:
        named, wanted = named_in_rows(connection), sorted(named_outside(connection))
    size, found = 0, 0
    for digest in wanted:
        try:
            size += len(store.outside.read(b"", digest))
            found += 1
        except StoreTroubleError as problem:
            if problem.trouble not in {Trouble.FILE_MISSING, Trouble.FILE_DAMAGED}:
                raise
            (missing if problem.trouble is Trouble.FILE_MISSING else damaged).append(digest)
    inside, spoilt = _inside(store)
    place = store.outside.place
    held = set() if place is None else {one.digest for one in place.held(store.outside.firm)}
    return Checked(inside, found, size, tuple(missing), (*damaged, *spoilt), len(held - named))


def _inside(store: Kept) -> tuple[int, list[str]]:
    """Return how many files stand in rows, and the hashes of those that are not what these say."""
    count, spoilt = 0, []
    for each in NAMES:
        key = list(each.content.table.primary_key.columns)
        full = sa.func.length(each.content) > 0
        with store.reading() as connection:
            for row in connection.execute(sa.select(*key).where(full)).all():
                which = [column == value for column, value in zip(key, row, strict=True)]
                found = connection.execute(sa.select(each.content, each.digest).where(*which, full)).one_or_none()
                if found is None:  # deleted or moved out meanwhile
                    continue
                count += 1
                try:
                    store.outside.read(bytes(found[0]), found[1])
                except StoreTroubleError:
                    spoilt.append(found[1])
    return count, spoilt
