"""What a whole copy says of itself: its tables with their rows and hashes, and its files."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from typing import Any

FORMAT, VERSION = "pavewright.backup", 1
MANIFEST = "manifest.json"


@dataclass(frozen=True, slots=True)
class Part:
    """One table in a whole copy.

    Attributes:
        firm: The firm whose rows they are; empty for those of the installation.
        table: Its name.
        columns: Its columns.
        files: Those of them that name a file by its hash.
        rows: How many rows it holds.
        sha256: Hash of its lines.
    """

    firm: str
    table: str
    columns: tuple[str, ...]
    files: tuple[str, ...]
    rows: int
    sha256: str

    @property
    def path(self) -> str:
        """Where it stands in the copy."""
        return f"firms/{self.firm}/{self.table}.jsonl" if self.firm else f"installation/{self.table}.jsonl"


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a whole copy holds.

    Attributes:
        made: When it was made, UTC.
        program: Version of the program.
        tables: Version of the tables.
        firms: The firms, the first one first.
        parts: The tables, in an order in which none refers to a later one.
        files: Files by their hash, with their sizes. [bytes]
    """

    made: str
    program: str
    tables: str
    firms: tuple[str, ...]
    parts: tuple[Part, ...]
    files: dict[str, int]

    def rows_of(self, table: str) -> int:
        """Return how many rows a table holds in all firms."""
        return sum(part.rows for part in self.parts if part.table == table)


def path_of_file(sha256: str) -> str:
    """Return where a file stands in a copy."""
    return f"files/{sha256[:2]}/{sha256}"


def as_text(manifest: Manifest) -> str:
    """Return a manifest as it is kept."""
    head: dict[str, Any] = {"format": FORMAT, "version": VERSION}
    return json.dumps(head | asdict(manifest), ensure_ascii=False, indent=1)


def read(text: bytes) -> Manifest:
    """Return a manifest.

    Raises:
        ValueError: it is none that this program reads.
    """
    try:
        found = json.loads(text)
        if (found.pop("format"), found.pop("version")) != (FORMAT, VERSION):
            message = "another format"
            raise ValueError(message)
        parts = tuple(
            Part(**part | {"columns": tuple(part["columns"]), "files": tuple(part["files"])}) for part in found["parts"]
        )
        return Manifest(**found | {"firms": tuple(found["firms"]), "parts": parts})
    except (KeyError, TypeError, AttributeError) as problem:
        raise ValueError(str(problem)) from problem
