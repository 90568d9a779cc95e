"""Papers for a screen, many files in one archive."""

from __future__ import annotations

import io
import zipfile
from typing import TYPE_CHECKING

from pavewright.desk._book_verbs import ScreenRefusalError
from pavewright.desk._packs import make_pack_so_far
from pavewright.papers import LeftOutReason, PapersTooLargeError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from pavewright.firm import FirmBook
    from pavewright.papers import Paper, PaperKey, PaperPhoto
    from pavewright.pipeline import PlanSoFar

_DAY = (2000, 1, 1, 0, 0, 0)
"""The day that files of an archive bear: the same job gives the same bytes."""


def pack_archive(
    made: PlanSoFar, report: Callable[[str], None], firm: FirmBook | None, photos: tuple[PaperPhoto, ...] = ()
) -> bytes:
    """Return all papers that can be made of a plan, and a list of those that are not known yet.

    Raises:
        ScreenRefusalError: drawing them takes too much.
    """
    try:
        papers, left_out = make_pack_so_far(made, report, firm, photos=photos)
    except PapersTooLargeError as refusal:
        raise ScreenRefusalError(str(refusal)) from refusal
    lines = [
        f"{each.name} ({each.words}) is not made yet. {' '.join(each.why)}\n"
        for each in left_out
        if each.reason is LeftOutReason.NOT_KNOWN
    ]
    return _archive(papers, "".join(lines))


def paper_archive(
    made: PlanSoFar,
    key: PaperKey,
    report: Callable[[str], None],
    firm: FirmBook | None,
    photos: tuple[PaperPhoto, ...] = (),
) -> bytes:
    """Return one paper with its text twin and a picture of each page, to be looked at before it is handed out.

    Raises:
        ScreenRefusalError: it cannot be made of this plan; says why.
    """
    try:
        papers, left_out = make_pack_so_far(made, report, firm, frozenset({key}), twins=True, pages=True, photos=photos)
    except PapersTooLargeError as refusal:
        raise ScreenRefusalError(str(refusal)) from refusal
    if not papers:
        raise ScreenRefusalError(" ".join(words for each in left_out for words in each.why))
    return _archive(papers)


def _archive(papers: Iterable[Paper], not_made: str = "") -> bytes:
    archive = io.BytesIO()
    with zipfile.ZipFile(archive, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as target:
        for paper in papers:
            entry = zipfile.ZipInfo(paper.name, _DAY)
            entry.compress_type = zipfile.ZIP_DEFLATED
            target.writestr(entry, paper.content)
        if not_made:
            target.writestr(zipfile.ZipInfo("not-made-yet.txt", _DAY), not_made)
    return archive.getvalue()
