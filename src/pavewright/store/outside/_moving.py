"""Moving files out of the rows into the place that is set, or back."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.store._troubles import StoreTroubleError, Trouble
from pavewright.store.outside._named import NAMES
from pavewright.store.outside._of_firm import ELSEWHERE

if TYPE_CHECKING:
    from pavewright.store.outside._kept import Kept
    from pavewright.store.outside._named import Names


@dataclass(frozen=True, slots=True)
class Moved:
    """What was moved.

    Attributes:
        files: How many files.
        bytes: Their sizes together. [bytes]
    """

    files: int
    bytes: int


def move_files(store: Kept, *, back: bool = False) -> Moved:
    """Move the files of a firm out of its rows, or back; one by one, also while people work.

    Each is read and held against its hash on its way. Where it stops, the rest is where it was.

    Args:
        store: The store of the firm, with the place for its files.
        back: Whether they are moved back into the rows.

    Raises:
        StoreTroubleError: no place is set, a file is missing or damaged, or the place or the database refuses.
    """
    if store.outside.place is None:
        raise StoreTroubleError(Trouble.FILES_UNSET, store.name)
    files, size = 0, 0
    for each in NAMES:
        key = list(each.content.table.primary_key.columns)
        length = sa.func.length(each.content)
        with store.reading() as connection:
            found = connection.execute(sa.select(*key).where(length == 0 if back else length > 0)).all()
        for row in found:
            moved = _move(store, each, [column == value for column, value in zip(key, row, strict=True)], back=back)
            files, size = files + (moved > 0), size + moved
    return Moved(files, size)


def _move(store: Kept, each: Names, which: list[sa.ColumnElement[bool]], *, back: bool) -> int:
    """Move one file and return its size; zero where its row went meanwhile, or it was moved before."""
    with store.reading() as connection:
        row = connection.execute(sa.select(each.content, each.digest).where(*which)).one_or_none()
    if row is None or (bytes(row[0]) == ELSEWHERE) is not back:
        return 0
    content = store.outside.read(bytes(row[0]), row[1])
    kept = content if back else store.outside.put(content)
    with store.writing() as connection:
        if not back:
            store.outside.hold(connection, content)
        changed = each.content.table.update().where(*which, each.digest == row[1]).values({each.content.name: kept})
        done = connection.execute(changed)
    return len(content) if done.rowcount else 0
