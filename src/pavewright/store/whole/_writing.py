"""Making a whole copy, also while people work."""

from __future__ import annotations

import hashlib
import itertools
import os
import zipfile
from typing import TYPE_CHECKING, BinaryIO

from pavewright import __version__
from pavewright.store._clock import now
from pavewright.store._placing import name_it, part_of, remove
from pavewright.store._troubles import StoreTroubleError, Trouble, in_words
from pavewright.store._types import Contents
from pavewright.store.whole import _manifest as manifests
from pavewright.store.whole import _rows as rows
from pavewright.store.whole._locked import LockedWriter
from pavewright.store.whole._look import one_look

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path
    from typing import IO

    import sqlalchemy as sa

    from pavewright.store._installation import Installation
    from pavewright.store.whole._look import At
    from pavewright.store.whole._manifest import Manifest, Part

_OWNER_ONLY = 0o600
"""Who may read a copy: it holds what people prove themselves by."""


def back_up_whole(kept: Installation, target: Path, passphrase: str | None = None) -> Contents:
    """Write every firm, its people, photos and papers into one file, also while people work; return what is in it.

    Args:
        kept: The installation.
        target: Where to write the copy; nothing may be there yet.
        passphrase: What locks it; None where anybody may read it.

    Raises:
        StoreTroubleError: the store cannot be read, or the copy cannot be written; nothing is left of it then.
    """
    if target.exists():
        raise StoreTroubleError(Trouble.IN_THE_WAY, str(target))
    part = part_of(target)
    try:
        with in_words(str(target)):
            with open(part, "xb", opener=_for_owner) as opened:
                manifest = _write(kept, opened, passphrase)
                opened.flush()
                os.fsync(opened.fileno())
            name_it(part, target)
            size = target.stat().st_size
        return Contents(manifest.rows_of("job"), manifest.rows_of("revision"), manifest.rows_of("photo"), size)
    finally:
        remove(part)


def _for_owner(name: str, flags: int) -> int:
    return os.open(name, flags, _OWNER_ONLY)


def _write(kept: Installation, opened: BinaryIO, passphrase: str | None) -> Manifest:
    if passphrase is None:
        with zipfile.ZipFile(opened, "w", zipfile.ZIP_DEFLATED) as copy:
            return _fill(kept, _Copy(copy))
    # the lock is closed after the copy in it, so that the last piece is marked
    with LockedWriter(opened, passphrase) as locked, zipfile.ZipFile(locked, "w", zipfile.ZIP_DEFLATED) as copy:
        return _fill(kept, _Copy(copy))


class _Copy:
    """A copy while it is made: each file of it once, by its hash."""

    def __init__(self, copy: zipfile.ZipFile) -> None:
        self._copy = copy
        self.files: dict[str, int] = {}

    def keep(self, content: bytes) -> str:
        """Keep a file and return its hash."""
        sha256 = hashlib.sha256(content).hexdigest()
        if sha256 not in self.files:
            self.files[sha256] = len(content)
            # photos and papers are pressed already
            self._copy.writestr(manifests.path_of_file(sha256), content, zipfile.ZIP_STORED)
        return sha256

    def put(self, firm: str, table: sa.Table, lines: Iterator[bytes]) -> Part:
        """Keep the lines of a table."""
        columns = tuple(column.name for column in table.columns)
        first = list(itertools.islice(lines, 1))  # its files are kept before its first line comes
        into = manifests.Part(firm, table.name, columns, (), 0, "")
        with self._copy.open(into.path, "w", force_zip64=True) as entry:
            return rows.part_of(firm, table, columns, _written(itertools.chain(first, lines), entry))

    def close_with(self, manifest: Manifest) -> None:
        """Keep what the copy says of itself."""
        self._copy.writestr(manifests.MANIFEST, manifests.as_text(manifest))


def _written(lines: Iterator[bytes], entry: IO[bytes]) -> Iterator[bytes]:
    for line in lines:
        entry.write(line)
        yield line


def _fill(kept: Installation, copy: _Copy) -> Manifest:
    made = now()
    with one_look(kept) as (version, firms, at):
        parts = tuple(part for firm in ("", *firms) for part in _parts(kept, copy, firm, at))
    manifest = manifests.Manifest(made, __version__, version, firms, parts, copy.files)
    copy.close_with(manifest)
    return manifest


def _parts(kept: Installation, copy: _Copy, firm: str, at: At) -> Iterator[Part]:
    outside = kept.store_of(firm).outside if firm else None
    for table in rows.tables_of(firm):
        columns = tuple(column.name for column in table.columns)
        yield copy.put(firm, table, rows.lines_of(at(firm), table, columns, copy.keep, outside))
