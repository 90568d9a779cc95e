"""Making all papers of a plan, and writing them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import rulebook
from pavewright.papers import pack

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from pathlib import Path

    from pavewright.papers import Paper
    from pavewright.pipeline import Plan


def make_pack(made: Plan, report: Callable[[str], None] | None = None) -> tuple[Paper, ...]:
    """Return all papers of a plan."""
    return pack(made, rulebook.load(made.edition), report)


def write_pack(papers: Iterable[Paper], folder: Path) -> tuple[Path, ...]:
    """Write papers into a folder, made where it is missing; files of the same name are written over.

    Raises:
        OSError: the folder or a file cannot be written.
    """
    written = []
    for paper in papers:
        path = folder / paper.name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(paper.content)
        written.append(path)
    return tuple(written)
