"""Bags against area laid: how many are used by the end of some courses, so that a thick or thin bed shows early."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.bedding import Counted, bed_use
from pavewright.papers._words import amount, one, source, two
from pavewright.papers.look import FormLine, SheetOfPaper, form, heading, paragraph, rest, right, small, table
from pavewright.papers.site_papers._words import WORDS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.bedding import BedUse
    from pavewright.laying import LaidArea
    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block

_MAX_BOXES = 120
"""So many boxes of one stage at most."""


def bag_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return the bags, or the barrows of sand, of each area, some courses at a time in the order of laying."""
    sheet = SheetOfPaper(WORDS.bags, follows=True).add(paragraph(WORDS.bags_words))
    for laid in given.plan.laying.areas:
        plan = given.plan
        bed = bed_use(laid, plan.survey, plan.build_ups, plan.quantities, plan.job.mixes, given.rules)
        if bed is not None:
            sheet.add(*(_bags(given, laid, bed) if bed.counted is Counted.BAG else _sand(given, laid, bed)))
    return [sheet]


def stages_of(laid: LaidArea) -> list[tuple[str, float]]:
    """Return the courses of an area in the order of laying, some together, each stage with what is laid in it.

    The area of joints is shared out like that of the pieces, so that all stages together are the area laid. [m²].
    """
    share = (laid.paved_m2 + laid.joint_m2) / laid.paved_m2
    enough_m2 = laid.paved_m2 / _STAGES
    found: list[tuple[str, float]] = []
    m2 = 0.0
    for piece, after in itertools.pairwise((*laid.pieces, None)):
        assert piece is not None  # noqa: S101 - only the last of them is none
        m2 += piece.area_m2
        ends = after is None or after.course != piece.course
        if ends and (after is None or m2 >= enough_m2):
            found.append((WORDS.stage(course=str(piece.course), piece=str(piece.number)), m2 * share))
            m2 = 0.0
    return found


_STAGES = 12
"""So many stages at most, so that each is a good part of a day. [-]"""


def _bags(given: PaperInput, laid: LaidArea, bed: BedUse) -> Iterator[Block]:
    stages = stages_of(laid)
    per_m2 = bed.per_m2 or 0.0
    thick = bed.thickness_mm
    yield heading(WORDS.bags_area(area=laid.area, thick=amount(thick), kg=one(per_m2 * bed.each)))
    rows = [
        (stage.name, two(stage.m2), two(stage.so_far_m2), one(stage.used), one(thick / stage.used), stage.boxes)
        for stage in _counted(stages, per_m2)
    ]
    name, *numbers, ticks = WORDS.bag_heads
    yield table((name, *(right(words) for words in numbers), rest(ticks)), rows, type_size=_TICK_PT, pad=4.0)
    lost = given.rules.figure("quantities.mortar_percent")
    yield form([FormLine(WORDS.bags_open)])
    yield small(WORDS.bags_lost(percent=amount(lost.value), source=source(lost, given.figures)))


@dataclass(frozen=True, slots=True)
class _Counted:
    """A stage with what is laid and used by its end, and a box for each that is opened in it.

    Attributes:
        name: Up to where it goes.
        m2: What is laid in it. [m²]
        so_far_m2: What is laid by its end. [m²]
        used: How many bags or barrows are used by its end. [-]
        here: How many of them are opened in it.
    """

    name: str
    m2: float
    so_far_m2: float
    used: float
    here: int

    @property
    def boxes(self) -> str:
        return " ".join(_BOX * min(self.here, _MAX_BOXES)) or WORDS.from_before


def _counted(stages: list[tuple[str, float]], each_m2: float) -> list[_Counted]:
    """Return stages with how many of something are used by the end of each, so many to a square metre."""
    found, so_far, opened = [], 0.0, 0
    for name, m2 in stages:
        so_far += m2
        used = so_far * each_m2
        here = math.ceil(used - _EXACT) - opened
        opened += here
        found.append(_Counted(name, m2, so_far, used, here))
    return found


_EXACT = 1e-6
"""A bag is not opened for less than this of one. [-]"""
_BOX = "□"
_TICK_PT = 10.0
"""Type of a table with boxes to tick. [pt]"""


def _sand(given: PaperInput, laid: LaidArea, bed: BedUse) -> Iterator[Block]:
    barrow_l, more = bed.each, given.plan.job.mixes.bed_compaction_percent
    stages = stages_of(laid)
    all_m2 = sum(m2 for _, m2 in stages)
    pressed = bed.volume_m3 * units.LITRES_PER_M3 / barrow_l / all_m2
    thick = amount(bed.thickness_mm)
    yield heading(WORDS.sand_area(area=laid.area, thick=thick, m3=two(bed.volume_m3)))
    if more is None:
        yield form([FormLine(WORDS.sand_unknown(barrow=amount(barrow_l)), unit="%")])
    else:
        yield small(WORDS.sand_loose(barrow=amount(barrow_l), percent=amount(more)))
    rows = [
        (stage.name, two(stage.m2), two(stage.so_far_m2), one(stage.used), stage.boxes)
        for stage in _counted(stages, pressed if bed.per_m2 is None else bed.per_m2)
    ]
    name, *numbers, ticks = WORDS.sand_heads
    yield table((name, *(right(words) for words in numbers), rest(ticks)), rows, type_size=_TICK_PT, pad=4.0)
