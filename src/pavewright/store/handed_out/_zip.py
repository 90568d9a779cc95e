"""A zip file that is the same to the byte for the same content, with a manifest of every file in it."""

from __future__ import annotations

import csv
import hashlib
import io
import json
import os
import re
import zipfile
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright import __version__
from pavewright.store._placing import name_it, part_of, remove
from pavewright.store._troubles import StoreTroubleError, Trouble, in_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from pathlib import Path

FORMAT, VERSION = "pavewright.export", 1
_OWNER_ONLY = 0o600
"""Who may read it: it holds what people wrote."""
_MADE = (1980, 1, 1, 0, 0, 0)
"""The time of every file in it: that of the clock would change its bytes."""
_DANGEROUS = "=+-@\t\r"
"""How a cell begins that a spreadsheet might take for a formula."""
_PRESSED = (".jpg", ".png", ".webp", ".gif", ".heic", ".pdf")
"""Files that are pressed already."""
_SHORT_HASH = 8
"""Signs of a hash that keep two names apart."""
_KINDS = (
    (b"\xff\xd8\xff", 0, ".jpg"),
    (b"\x89PNG\r\n\x1a\n", 0, ".png"),
    (b"GIF8", 0, ".gif"),
    (b"WEBP", 8, ".webp"),
    (b"ftyphei", 4, ".heic"),
    (b"ftypmif1", 4, ".heic"),
    (b"%PDF", 0, ".pdf"),
)
"""How a file of each kind begins, and from which byte on."""


@dataclass(frozen=True, slots=True)
class HandedOut:
    """What was written.

    Attributes:
        files: How many files it holds, the manifest among them.
        size_bytes: Its size. [bytes]
        rows: Rows by table.
    """

    files: int
    size_bytes: int
    rows: dict[str, int]


def ending_of(content: bytes) -> str:
    """Return the ending of a file by its first bytes.

    >>> ending_of(b"%PDF-1.7"), ending_of(b"what is this")
    ('.pdf', '.bin')
    """
    return next((ending for sign, at, ending in _KINDS if content[at : at + len(sign)] == sign), ".bin")


def harmless(value: object) -> object:
    """Return a cell of a table that no spreadsheet takes for a formula; numbers stay numbers.

    >>> harmless("=1+1"), harmless(-5), harmless("gully")
    ("'=1+1", -5, 'gully')
    """
    if not isinstance(value, str):
        return value
    return "\n".join(f"'{line}" if _like_a_formula(line) else line for line in value.split("\n"))


def _like_a_formula(line: str) -> bool:
    return line.lstrip(" \u00a0").startswith(tuple(_DANGEROUS))


def safe_name(name: str) -> str:
    """Return a name of a file that every machine takes; one that had to be changed carries a part of its hash.

    >>> safe_name("p1"), safe_name("../p1")
    ('p1', 'p1-e0bcf4e7')
    """
    safe = re.sub(r"[^a-z0-9_-]+", "-", name.lower()).strip("-")
    mark = hashlib.sha256(name.encode()).hexdigest()[:_SHORT_HASH]
    return safe if safe == name else f"{safe}-{mark}".strip("-")


class Zip:
    """A zip file while it is made."""

    def __init__(self, opened: zipfile.ZipFile) -> None:
        """Take the file, empty."""
        self._opened = opened
        self._files: dict[str, dict[str, Any]] = {}
        self.rows: dict[str, int] = {}

    def put(self, path: str, content: bytes | str) -> str:
        """Keep a file and return its path."""
        content = content.encode() if isinstance(content, str) else content
        entry = zipfile.ZipInfo(path, _MADE)
        entry.compress_type = zipfile.ZIP_STORED if path.endswith(_PRESSED) else zipfile.ZIP_DEFLATED
        entry.create_system, entry.external_attr = 3, _OWNER_ONLY << 16
        self._opened.writestr(entry, content)
        self._files[path] = {"bytes": len(content), "sha256": hashlib.sha256(content).hexdigest()}
        return path

    def table(self, path: str, columns: Sequence[str], found: Iterable[Sequence[Any]]) -> None:
        """Keep rows as CSV, UTF-8, commas, and count them."""
        sink = io.StringIO(newline="")
        writer = csv.writer(sink, lineterminator="\r\n")
        writer.writerow(columns)
        rows = 0
        for row in found:
            writer.writerow([harmless(each) for each in row])
            rows += 1
        self.put(path, sink.getvalue())
        self.rows[path] = rows

    def lines(self, path: str, found: Iterable[dict[str, Any]]) -> None:
        """Keep rows as lines of JSON and count them."""
        told = [json.dumps(row, ensure_ascii=False) for row in found]
        self.put(path, "".join(f"{line}\n" for line in told))
        self.rows[path] = len(told)

    def close_with(self, head: dict[str, Any]) -> int:
        """Keep what the file says of itself and return how many files it holds."""
        about = {"format": FORMAT, "version": VERSION, "program": __version__, **head}
        self.put("manifest.json", json.dumps({**about, "rows": self.rows, "files": self._files}, indent=1))
        return len(self._files)


@contextmanager
def new_zip(target: Path, *, replace: bool) -> Iterator[Zip]:
    """Give a zip file to fill: it stands in its place whole, or not at all.

    Args:
        target: Where it is to stand.
        replace: Whether a file that is there is written over.

    Raises:
        StoreTroubleError: there is a file already, or it cannot be written.
    """
    if target.exists() and not replace:
        raise StoreTroubleError(Trouble.IN_THE_WAY, str(target))
    part = part_of(target)
    try:
        with in_words(str(target)):
            with open(part, "xb", opener=_for_owner) as opened:
                with zipfile.ZipFile(opened, "w") as made:
                    yield Zip(made)
                opened.flush()
                os.fsync(opened.fileno())
            if replace:
                part.replace(target)
            else:
                name_it(part, target)
    finally:
        remove(part)


def _for_owner(name: str, flags: int) -> int:
    return os.open(name, flags, _OWNER_ONLY)
