"""Bringing single files back out of a whole copy, where those of a store are missing or damaged."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.store._troubles import StoreTroubleError, Trouble
from pavewright.store.whole._reading import whole_copy

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from pavewright.store._store import Store


def mend_files(store: Store, digests: Iterable[str], backup: Path, passphrase: str | None = None) -> int:
    """Put files that a whole copy holds back into the place of a firm; return how many it held.

    Args:
        store: The store of the firm.
        digests: Hashes of the files that are wanted.
        backup: The copy.
        passphrase: What opens it; None where it is not locked.

    Raises:
        StoreTroubleError: no place is set, or the copy or the place cannot be used.
    """
    place, firm, found = store.outside.place, store.outside.firm, 0
    if place is None:
        raise StoreTroubleError(Trouble.FILES_UNSET, store.name)
    with whole_copy(backup, passphrase) as copy:
        for digest in digests:
            if digest in copy.manifest.files:
                place.put(firm, copy.file(digest))
                found += 1
    return found
