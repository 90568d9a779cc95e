"""Making all papers of a plan, and writing them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import rulebook
from pavewright.papers import PAPERS, pack, pack_so_far

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from pathlib import Path

    from pavewright.firm import FirmBook
    from pavewright.papers import LeftOut, Paper, PaperKey, PaperPhoto, SheetSize
    from pavewright.pipeline import Plan, PlanSoFar

PAPER_KEYS = tuple(dict.fromkeys(kind.key.value for kind in PAPERS))
"""Keys of the papers that can be asked for one by one."""


def make_pack(
    made: Plan, report: Callable[[str], None] | None = None, firm: FirmBook | None = None
) -> tuple[Paper, ...]:
    """Return all papers of a plan, those of the customer with the firm's letterhead where its book is given."""
    return pack(made, rulebook.load(made.edition), report, firm)


def make_pack_so_far(
    made: PlanSoFar,
    report: Callable[[str], None] | None = None,
    firm: FirmBook | None = None,
    only: frozenset[PaperKey] | None = None,
    *,
    twins: bool = False,
    pages: bool = False,
    photos: tuple[PaperPhoto, ...] = (),
    drawings: SheetSize | None = None,
) -> tuple[tuple[Paper, ...], tuple[LeftOut, ...]]:
    """Return the papers of a plan that can be made, and those that cannot with what is missing for them.

    Args:
        made: The plan.
        report: Takes the name of each step before it starts; may raise to stop the work.
        firm: The firm's book.
        only: Papers that are wanted; None for all.
        twins: Whether the text twin of each document comes beside it.
        pages: Whether each page of a document comes beside it, as a picture.
        photos: Photos of the job, for its handover.
        drawings: Size on which drawings by themselves are wanted; None for A4, and the plans on A3 beside them.
    """
    rules = rulebook.load(made.edition)
    return pack_so_far(made, rules, report, firm, only, twins=twins, pages=pages, photos=photos, drawings=drawings)


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
