"""Deleting files that no row names any more: seen twice, a day apart, and looked at once more as they go."""

from __future__ import annotations

import datetime as dt
import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.store._troubles import StoreTroubleError, Trouble
from pavewright.store._turns import only_deletes
from pavewright.store.outside._named import named_aside, named_in_rows

if TYPE_CHECKING:
    from pavewright.store.outside._kept import Kept

AFTER = dt.timedelta(hours=24)
"""How long a file stays that no row names: a backup that began before is done by then."""
_AT_ONCE = 100
"""Files that are deleted in one turn, so that writers wait for no more than that."""


@dataclass(frozen=True, slots=True)
class Swept:
    """What a sweep found.

    Attributes:
        held: Files that were there.
        waiting: Those that no row names, and that stay until they were seen so for long enough.
        deleted: Those that were deleted.
        deleted_bytes: Their sizes together. [bytes]
    """

    held: int
    waiting: int
    deleted: int
    deleted_bytes: int


def sweep_files(store: Kept, after: dt.timedelta = AFTER) -> Swept:
    """Delete the files of a firm that no row named for long enough.

    Args:
        store: The store of the firm.
        after: How long none must have named them.

    Raises:
        StoreTroubleError: no place is set, or it or the database refuses.
    """
    place, firm = store.outside.place, store.outside.firm
    if place is None:
        raise StoreTroubleError(Trouble.FILES_UNSET, store.name)
    marked, aside = place.marked(firm), named_aside(store)
    held = {one.digest: one.size_bytes for one in place.held(firm)}
    with store.reading() as connection:
        unnamed = sorted(held.keys() - named_in_rows(connection) - aside)
    for digest in marked.keys() - set(unnamed):
        place.unmark(firm, digest)
    now = dt.datetime.now(dt.UTC)
    for digest in unnamed:
        if digest not in marked:
            place.mark(firm, digest)
    due = iter([digest for digest in unnamed if marked.get(digest, now) <= now - after])
    deleted: list[str] = []
    while some := list(itertools.islice(due, _AT_ONCE)):
        deleted += _delete(store, some, aside)
    place.drop_unfinished(firm, now - AFTER)
    gone = sum(held[digest] for digest in deleted)
    return Swept(len(held), len(unnamed) - len(deleted), len(deleted), gone)


def _delete(store: Kept, some: list[str], aside: set[str]) -> list[str]:
    """Delete files that are still not named, while no row can be written that names one."""
    place, firm = store.outside.place, store.outside.firm
    assert place is not None  # noqa: S101 - looked at before
    with store.writing() as connection:
        only_deletes(connection)
        named = named_in_rows(connection) | aside
        gone = [digest for digest in some if digest not in named]
        for digest in gone:
            place.delete(firm, digest)
    return gone
