"""Reading a whole copy: nothing of it is believed before its hash was worked out."""

from __future__ import annotations

import hashlib
import io
import json
import zipfile
import zlib
from contextlib import ExitStack, contextmanager
from typing import TYPE_CHECKING, Any, BinaryIO, cast

from pavewright.store._all_tables import METADATA
from pavewright.store._open import known_versions
from pavewright.store._troubles import StoreTroubleError, Trouble, in_words
from pavewright.store.whole import _manifest as manifests
from pavewright.store.whole._locked import MAGIC, ChangedError, LockedReader, WrongPassphraseError
from pavewright.store.whole._rows import tables_of

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pavewright.store.whole._manifest import Manifest, Part

_ZIP = b"PK\x03\x04"
_BUFFER_BYTES = 1 << 16
_SPOILT = (ChangedError, zipfile.BadZipFile, zlib.error, EOFError, ValueError, KeyError, RecursionError)
"""What a file raises that was damaged or changed."""
_LINE_BYTES = 1 << 30
"""A line longer than this is refused. [bytes]"""


def is_whole_copy(path: Path) -> bool:
    """Return whether a file begins as a whole copy does, locked or not."""
    return _beginning(path).startswith((_ZIP, MAGIC))


def needs_passphrase(path: Path) -> bool:
    """Return whether a file is a whole copy that is locked."""
    return _beginning(path).startswith(MAGIC)


def _beginning(path: Path) -> bytes:
    if not path.is_file():
        return b""
    with in_words(str(path)), path.open("rb") as opened:
        return opened.read(len(MAGIC))


class WholeCopy:
    """A whole copy while it is read."""

    def __init__(self, name: str, copy: zipfile.ZipFile) -> None:
        """Read what it says of itself.

        Args:
            name: The file, as the user knows it.
            copy: The file, opened.

        Raises:
            StoreTroubleError: it is no whole copy, or one of a newer version.
            ValueError: it says of itself what cannot be.
        """
        self.name, self._copy = name, copy
        if manifests.MANIFEST not in copy.namelist():
            raise StoreTroubleError(Trouble.NO_COPY, name)
        self.manifest: Manifest = manifests.read(copy.read(manifests.MANIFEST))
        if self.manifest.tables not in known_versions():
            raise StoreTroubleError(Trouble.COPY_NEWER, name)
        for part in self.manifest.parts:
            known = METADATA.tables.get(part.table)
            if known is None or known not in tables_of(part.firm) or not set(part.columns) <= set(known.c.keys()):
                message = f"no such table: {part.table}"
                raise ValueError(message)

    def rows(self, part: Part) -> Iterator[dict[str, Any]]:
        """Give the rows of a table, files in the place of their hashes.

        Raises:
            ChangedError: a file is not what its hash says.
        """
        with self._copy.open(part.path) as lines:
            while line := lines.readline(_LINE_BYTES):
                row: dict[str, Any] = json.loads(line)
                for name in part.files:
                    row[name] = None if row[name] is None else self.file(row[name])
                yield row

    def file(self, sha256: str) -> bytes:
        """Return a file.

        Raises:
            ChangedError: it is not what its hash says.
        """
        content = self._copy.read(manifests.path_of_file(sha256))
        if hashlib.sha256(content).hexdigest() != sha256:
            raise ChangedError
        return content


@contextmanager
def whole_copy(path: Path, passphrase: str | None) -> Iterator[WholeCopy]:
    """Open a whole copy.

    Args:
        path: The file.
        passphrase: What opens it; None where it is not locked.

    Raises:
        StoreTroubleError: it is none, is damaged, or the passphrase does not open it.
    """
    name = str(path)
    with ExitStack() as stack:
        try:
            with in_words(name):
                opened = stack.enter_context(path.open("rb"))
            copy = stack.enter_context(zipfile.ZipFile(_unlocked(name, opened, passphrase)))
            yield WholeCopy(name, copy)
        except WrongPassphraseError as problem:
            raise StoreTroubleError(Trouble.WRONG_PASSPHRASE, name) from problem
        except _SPOILT as problem:
            raise StoreTroubleError(Trouble.COPY_DAMAGED, name) from problem


def _unlocked(name: str, opened: BinaryIO, passphrase: str | None) -> BinaryIO:
    beginning = opened.read(len(MAGIC))
    opened.seek(0)
    if beginning == MAGIC:
        if passphrase is None:
            raise StoreTroubleError(Trouble.LOCKED_COPY, name)
        return cast("BinaryIO", io.BufferedReader(LockedReader(opened, passphrase), _BUFFER_BYTES))
    if not beginning.startswith(_ZIP):
        raise StoreTroubleError(Trouble.NO_COPY, name)
    return opened
