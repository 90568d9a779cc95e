"""Photos of the handover: the last that came, side by side, each with its caption and where it is pinned."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.drawing import grid_of
from pavewright.papers._photo import PHOTOS_MAX
from pavewright.papers._words import day
from pavewright.papers.handover._words import WORDS
from pavewright.papers.look import CalloutKind, SheetOfPaper, beside, callout, paragraph, photo, small, together

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.drawing import SiteGrid
    from pavewright.papers._input import PaperInput
    from pavewright.papers._photo import PaperPhoto
    from pavewright.papers.look import Block
    from pavewright.pipeline import Plan

_WIDE_MM, _HIGH_MM = 88.0, 64.0
"""Box of one photo: two stand side by side and three under each other, so a page has no more than six. [mm]"""


@dataclass(frozen=True, slots=True)
class PlacedPhoto:
    """A photo as the handover has it.

    Attributes:
        name: Name of its file in the folder.
        caption: Its number, what it shows, when it came and where it is.
        content: The bytes of its file.
        block: The photo for the page; None where no program reads it.
    """

    name: str
    caption: str
    content: bytes
    block: Block | None


@dataclass(frozen=True, slots=True)
class Album:
    """The photos of a handover.

    Attributes:
        placed: Those that it takes, in the order in which they came.
        left_out: How many more are kept with the job.
    """

    placed: tuple[PlacedPhoto, ...]
    left_out: int


def album(given: PaperInput) -> Album:
    """Return the photos of a handover; one that cannot be read is named and not shown."""
    at_hand = [each for each in given.photos if each.content is not None][-PHOTOS_MAX:]
    placed = [_placed(given.plan, number, each) for number, each in enumerate(at_hand, start=1)]
    return Album(tuple(placed), len(given.photos) - len(at_hand))


def _placed(plan: Plan, number: int, one: PaperPhoto) -> PlacedPhoto:
    caption, content = _caption(plan, number, one), one.content or b""
    try:
        block = photo(content, caption, wide_mm=_WIDE_MM, high_mm=_HIGH_MM)
    except OSError:
        block = None
    return PlacedPhoto(f"photos/{number:02d}.jpg", caption, content, block)


def _caption(plan: Plan, number: int, one: PaperPhoto) -> str:
    """Return the number of a photo, what it shows, when it came and in which square of the drawings it is pinned."""
    said = " ".join(one.caption.split())
    parts = [WORDS.photo_said(number=str(number), said=said) if said else WORDS.photo(number=str(number))]
    parts += [] if one.on is None else [WORDS.photo_on(day=day(one.on))]
    place = _place(grid_of(plan), one)
    parts += [place] if place else []
    return " · ".join(parts)


def _place(grid: SiteGrid | None, one: PaperPhoto) -> str:
    """Return the square in which a photo is pinned; empty where it is not, or nothing is paved."""
    if grid is None or one.x_mm is None or one.y_mm is None:
        return ""
    inside = grid.left_mm <= one.x_mm <= grid.right_mm and grid.low_mm <= one.y_mm <= grid.top_mm
    return WORDS.photo_at(square=grid.square_at((one.x_mm, one.y_mm))) if inside else WORDS.photo_outside


def photo_sheets(given: PaperInput) -> tuple[SheetOfPaper, ...]:
    """Return the sheet of photos, no more than six on a page; none where the job has no photo."""
    found = album(given)
    if not found.placed and not found.left_out:
        return ()
    sheet = SheetOfPaper(WORDS.photos, measured=False, follows=True)
    if grid_of(given.plan) is not None and any(each.x_mm is not None for each in given.photos):
        sheet.add(paragraph(WORDS.photos_square))
    unread = [each.caption for each in found.placed if each.block is None]
    sheet.add(*(callout(CalloutKind.CHECK, WORDS.photo_unread(caption=each)) for each in unread))
    sheet.add(*_rows([each.block for each in found.placed if each.block is not None]))
    return (sheet.add(small(WORDS.photos_more(count=str(found.left_out)))) if found.left_out else sheet,)


def _rows(shown: Sequence[Block]) -> Iterator[Block]:
    """Give photos two by two; one that is left over stands in the left column."""
    for place in range(0, len(shown), 2):
        yield together(beside(shown[place : place + 1], shown[place + 1 : place + 2]))
