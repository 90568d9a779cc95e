"""A record as one file of lines: each entry on a line of its own, and a last line that seals them."""

from __future__ import annotations

import json
import re
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING

from pavewright.record._chain import START, tree_root
from pavewright.record._entry import canonical

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.record._entry import Entry

FORMAT = "pavewright.record"
_HEX = re.compile(r"[0-9a-f]{64}")


@dataclass(frozen=True, slots=True)
class Seal:
    """The last line of a record.

    Attributes:
        job: Name of the job in the store that kept it.
        entries: How many entries there are.
        head: Hash of the last entry: it stands for all of them.
        root: Root of the tree of all lines.
    """

    job: str
    entries: int
    head: str
    root: str


def seal_of(job: str, entries: Sequence[Entry]) -> Seal:
    """Return the seal of a record."""
    head = entries[-1].digest if entries else START
    return Seal(job, len(entries), head, tree_root([each.line.encode() for each in entries]))


def record_lines(job: str, entries: Sequence[Entry]) -> bytes:
    """Return a record as a file of lines."""
    return sealed(job, [each.line for each in entries], seal_of(job, entries).head)


def sealed(job: str, lines: Sequence[str], head: str) -> bytes:
    """Return lines that were kept as entries as a file, sealed with the hash that was kept beside the last of them.

    Whether they are entries and fit the hash is not looked at: who reads the file finds out.
    """
    seal = Seal(job, len(lines), head, tree_root([line.encode("utf-8") for line in lines]))
    last = canonical({"format": FORMAT, **asdict(seal)})
    return "".join(f"{line}\n" for line in (*lines, last)).encode("utf-8")


def read_seal(line: str) -> Seal | None:
    """Return the seal that a line holds; None where it holds none."""
    try:
        value = json.loads(line)
        if not isinstance(value, dict) or canonical(value) != line or value.pop("format", None) != FORMAT:
            return None
    except (ValueError, RecursionError):
        return None
    if value.keys() != {"job", "entries", "head", "root"} or type(value["entries"]) is not int:
        return None
    words = (value["job"], value["head"], value["root"])
    if not all(isinstance(each, str) for each in words) or not all(_HEX.fullmatch(each) for each in words[1:]):
        return None
    return Seal(**value)
