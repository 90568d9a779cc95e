"""Bringing a whole copy back, on a file or on a database server."""

from __future__ import annotations

import secrets
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from pavewright.store._backups import carry_over
from pavewright.store._installation import open_installation
from pavewright.store._placing import close_the_log, put_aside, remove, settle_down
from pavewright.store._shut_out import let_nobody_in
from pavewright.store._store import open_file
from pavewright.store._troubles import in_words
from pavewright.store._types import Contents, Restored
from pavewright.store.whole._loading import firm_file, loaded_into_files, loaded_into_server, must_be_same
from pavewright.store.whole._reading import whole_copy

if TYPE_CHECKING:
    from pavewright.store.whole._manifest import Manifest
    from pavewright.store.whole._reading import WholeCopy


def restore_whole(backup: Path, where: Path | str, passphrase: str | None = None) -> Restored:
    """Bring a whole copy back and return what became of it; files that were there are kept beside it.

    Everything is read back and held against the copy before anything is put in its place. Whoever was shut out stays
    out: see ``_shut_out``.

    Args:
        backup: The copy.
        where: The file of the first firm, which need not be there; or the address of an empty database.
        passphrase: What opens the copy; None where it is not locked.

    Raises:
        StoreTroubleError: it cannot be read or brought back; nothing is changed then.
    """
    with whole_copy(backup, passphrase) as copy:
        return _into_files(copy, where) if isinstance(where, Path) else _into_server(copy, where)


def _into_files(copy: WholeCopy, main: Path) -> Restored:
    first = copy.manifest.firms[0]
    places = {firm: main if firm == first else firm_file(main, firm) for firm in copy.manifest.firms}
    mark = secrets.token_hex(4)
    parts = {firm: place.with_name(f".{place.name}.{mark}.part") for firm, place in places.items()}
    try:
        with loaded_into_files(copy, parts.__getitem__) as at:
            must_be_same(copy, at)
        for firm, part in parts.items():
            open_file(part).close()  # brought up to date before anything is put aside
            carry_over(places[firm], part)
        with in_words(str(main)):
            for place in places.values():
                if place.exists():
                    close_the_log(place)
            for part in parts.values():
                settle_down(part)
            asides = {}
            for firm in reversed(places):  # the first one last: it names the others
                asides[firm] = put_aside(places[firm])
                parts[firm].rename(places[firm])
            return Restored(_contents(copy.manifest, main.stat().st_size), asides[first])
    finally:
        for part in parts.values():
            remove(part)


def _into_server(copy: WholeCopy, address: str) -> Restored:
    with loaded_into_server(copy, address, keep=True) as at:
        must_be_same(copy, at)
        for firm in copy.manifest.firms:
            let_nobody_in(at(firm))
    with closing(open_installation(address)) as kept:
        for firm in copy.manifest.firms:
            kept.store_of(firm).records.note_restored()
    return Restored(_contents(copy.manifest, 0), None)


def _contents(manifest: Manifest, size: int) -> Contents:
    return Contents(manifest.rows_of("job"), manifest.rows_of("revision"), manifest.rows_of("photo"), size)
