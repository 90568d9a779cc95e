"""A folder of this machine, or of a disk that it reaches, in which files are kept."""

from __future__ import annotations

import contextlib
import datetime as dt
import os
import secrets
from typing import TYPE_CHECKING

from pavewright.store._troubles import in_words
from pavewright.store.outside._place import Listed

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

_OWNER_ONLY = 0o700
"""Who may look into the folder."""
_ITS_FILES = 0o600
"""Who may read what is in it."""


class Folder:
    """Bytes under keys in a folder."""

    def __init__(self, root: Path) -> None:
        """Take the folder, made where it is missing.

        Raises:
            StoreTroubleError: it cannot be made.
        """
        self.name, self._root = str(root), root.absolute()
        with in_words(self.name):
            _make(self._root)

    def write(self, key: str, content: bytes) -> None:
        """Keep bytes: under another name, written through, then under their own, and that written through too."""
        path = self._root / key
        part = path.with_name(f"{path.name}.{secrets.token_hex(4)}.part")
        with in_words(self.name):
            _make(path.parent)
            try:
                with open(part, "xb", opener=_for_owner) as opened:
                    opened.write(content)
                    opened.flush()
                    os.fsync(opened.fileno())
                part.replace(path)
            except BaseException:
                with contextlib.suppress(OSError):
                    part.unlink(missing_ok=True)
                raise
            _write_through(path.parent)

    def read(self, key: str) -> bytes | None:
        """Return what stands under a key; None where nothing does."""
        with in_words(self.name):
            try:
                return (self._root / key).read_bytes()
            except FileNotFoundError:
                return None

    def there(self, key: str) -> bool:
        """Return whether something stands under a key."""
        with in_words(self.name):
            return (self._root / key).is_file()

    def listed(self, prefix: str) -> Iterator[Listed]:
        """Give what stands under keys that begin with a prefix."""
        with in_words(self.name):
            for path in sorted((self._root / prefix).rglob("*")):
                with contextlib.suppress(FileNotFoundError):  # it was deleted meanwhile
                    found = path.stat()
                    if path.is_file():
                        at = dt.datetime.fromtimestamp(found.st_mtime, dt.UTC)
                        yield Listed(path.relative_to(self._root).as_posix(), found.st_size, at)

    def drop(self, key: str) -> None:
        """Delete what stands under a key."""
        with in_words(self.name):
            (self._root / key).unlink(missing_ok=True)


def _for_owner(name: str, flags: int) -> int:
    return os.open(name, flags, _ITS_FILES)


def _make(folder: Path) -> None:
    """Make a folder with those above it, each written through to the one in which it stands."""
    if folder.is_dir():
        return
    if folder.parent != folder:
        _make(folder.parent)
    folder.mkdir(mode=_OWNER_ONLY, exist_ok=True)
    _write_through(folder.parent)


def _write_through(folder: Path) -> None:
    """Have the names of a folder written through to the disk, where the system can do that."""
    try:
        opened = os.open(folder, os.O_RDONLY)
    except OSError:  # a system that opens no folders
        return
    try:
        with contextlib.suppress(OSError):  # a disk that writes no folders through
            os.fsync(opened)
    finally:
        os.close(opened)
