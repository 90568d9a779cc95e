"""Which site papers a job has, in the order in which they are wanted; what cannot be made yet says why."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.papers.look import CalloutKind, Document, SheetOfPaper, callout, contents, heading, points, small
from pavewright.papers.site_papers._bags import bag_sheets
from pavewright.papers.site_papers._cuts import cut_sheets
from pavewright.papers.site_papers._deliveries import delivery_sheets, waste_sheets
from pavewright.papers.site_papers._held import differs_sheets, found_sheets, held_sheets
from pavewright.papers.site_papers._held_words import HELD
from pavewright.papers.site_papers._hold_points import hold_sheets
from pavewright.papers.site_papers._log import log_sheets
from pavewright.papers.site_papers._measured import measured_sheets
from pavewright.papers.site_papers._measured_words import WORDS as MEASURED
from pavewright.papers.site_papers._mixes import mix_sheets
from pavewright.papers.site_papers._set_out import set_out_sheets, square_sheets
from pavewright.papers.site_papers._slabs import slab_sheets
from pavewright.papers.site_papers._words import WORDS
from pavewright.pipeline import Room

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.papers._input import PaperInput


@dataclass(frozen=True, slots=True)
class _Part:
    """A part of the site papers: what it is called, the rooms of the plan without which it is not made, its maker."""

    words: str
    needs: tuple[Room, ...]
    make: Callable[[PaperInput], list[SheetOfPaper]]


_LOOKED_AT = (Room.LEVELS, Room.LAYING, Room.BUILD_UPS, Room.EARTHWORKS, Room.WATER, Room.SETTING_OUT)
_PARTS = (
    _Part(WORDS.hold, _LOOKED_AT, hold_sheets),
    _Part(HELD.read, (Room.HOLD_POINTS,), held_sheets),
    _Part(HELD.found, (Room.EARTHWORKS,), found_sheets),
    _Part(HELD.differs, (), differs_sheets),
    _Part(WORDS.near, (Room.SETTING_OUT,), set_out_sheets),
    _Part(WORDS.squares, (Room.LAYING,), square_sheets),
    _Part(WORDS.cuts, (Room.LAYING,), cut_sheets),
    _Part(WORDS.mixes, (Room.BUILD_UPS, Room.QUANTITIES), mix_sheets),
    _Part(WORDS.bags, (Room.LAYING, Room.BUILD_UPS, Room.QUANTITIES), bag_sheets),
    _Part(MEASURED.title, (Room.SURVEY,), measured_sheets),
    _Part(WORDS.slabs, (Room.LEVELS, Room.LAYING, Room.BUILD_UPS), slab_sheets),
    _Part(WORDS.log, (), log_sheets),
    _Part(WORDS.deliveries, (), delivery_sheets),
    _Part(WORDS.waste, (), waste_sheets),
)


def document(given: PaperInput) -> Document:
    """Return the site papers of a job; of one that knows little those that can be made, blank forms among them."""
    sheets: list[SheetOfPaper] = []
    left_out = []
    for part in _PARTS:
        if given.so_far is None or given.so_far.has(part.needs):
            sheets += part.make(given)
        else:
            why = " ".join(each.words for each in given.so_far.why_not(part.needs)[:1]) or WORDS.unknown
            left_out.append(WORDS.because(what=part.words, why=why))
    front = SheetOfPaper(WORDS.title)
    front.add(callout(CalloutKind.NOTE, WORDS.first), heading(WORDS.contents), contents())
    if left_out:
        front.add(heading(WORDS.not_made), points(left_out))
    front.add(small(WORDS.local))
    return Document(WORDS.title, (front, *sheets))
