"""Places by photos and slopes by a turned level: what the job has, and an empty form for more."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.papers._words import one, three, two, whole
from pavewright.papers.look import SheetOfPaper, heading, paragraph, pencil, rest, right, small, table
from pavewright.papers.site_papers._measured_words import WORDS
from pavewright.photo_survey import WEAK_WORDS, read_photos, slope_mm_per_m

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block
    from pavewright.photo_survey import PhotoAnswer, PhotoPlace, SlopeRead

_LINES = 6
_SURE = math.sqrt(-2.0 * math.log(0.05))
"""Half-axes of the ellipse that holds the truth 95 times in 100: the root of chi-square for two directions. [-]"""


def measured_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return what photos and turned levels say, and a form to read more slopes by hand."""
    found = read_photos(given.plan.job, given.plan.survey, given.rules)
    sheet = SheetOfPaper(WORDS.title, follows=True)
    for photo in found.photos:
        sheet.add(*_photo(photo))
    for name, mark in found.not_placed:
        sheet.add(paragraph(WORDS.left_out(marks=mark, photo=name)))
    if found.photos:
        sheet.add(small(WORDS.sure))
    if found.slopes:
        name, *numbers = WORDS.found_heads
        sheet.add(heading(WORDS.found))
        sheet.add(table((name, *(right(words) for words in numbers)), [_slope(each) for each in found.slopes]))
    best = given.rules.value("photo_survey.slope_phone_sd_deg") * given.rules.value("photo_survey.slope_trusted_sds")
    first, *boxes = WORDS.slope_heads
    sheet.add(heading(WORDS.slopes), paragraph(WORDS.how), paragraph(WORDS.units))
    sheet.add(paragraph(WORDS.coarse(band=one(slope_mm_per_m(best)))))
    empty = [("",) * len(WORDS.slope_heads)] * _LINES
    sheet.add(table((rest(first), *(pencil(words) for words in boxes)), empty, pad=9.0))
    return [sheet]


def _photo(photo: PhotoAnswer) -> Iterator[Block]:
    yield heading(WORDS.photo(name=photo.name))
    name, *numbers, why = WORDS.place_heads
    rows = [_place(place) for place in photo.places]
    if rows:
        yield table((name, *(right(words) for words in numbers), rest(why)), rows)
    for weak in photo.weak:
        yield paragraph(WEAK_WORDS[weak])
    if photo.suspect:
        yield paragraph(WORDS.suspect(mark=photo.suspect))
    if photo.camera_off_mm is None:
        yield small(WORDS.marks_unknown)
    else:
        yield small(WORDS.marks(spare=str(photo.spare), off=one(photo.camera_off_mm / units.MM_PER_M)))


def _place(place: PhotoPlace) -> tuple[str, ...]:
    why = " ".join(WEAK_WORDS[weak] for weak in place.weak)
    if place.at_mm is None or place.ellipse is None:
        return (place.name, WORDS.no_place, "", "", why)
    x, y = (two(each / units.MM_PER_M) for each in place.at_mm)
    return (place.name, x, y, whole(_SURE * place.ellipse.major_mm), why)


def _slope(read: SlopeRead) -> tuple[str, ...]:
    found = read.found
    pairs = WORDS.one_pair if found.scatter_deg is None else str(found.pairs)
    slope, band = slope_mm_per_m(found.slope_deg), slope_mm_per_m(found.band_deg)
    return (read.name, pairs, one(slope), one(band), three(found.error_deg))
