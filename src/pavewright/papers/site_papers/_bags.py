"""Bags against area laid: how many are used by the end of each square, so that a thick or thin bed shows early."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup import LayerKey, LayerMaterial
from pavewright.drawing import grid_of
from pavewright.papers._words import amount, one, source, two
from pavewright.papers.look import FormLine, SheetOfPaper, boxes, form, heading, paragraph, small, together
from pavewright.papers.site_papers._words import WORDS
from pavewright.quantities import bed_cement_kg_per_m3, layer_volumes, mix_gear

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.laying import LaidArea
    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block
    from pavewright.quantities import LayerVolume

_MAX_BOXES = 120


def bag_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return the bags, or the barrows of sand, of each area square by square in the order of laying."""
    sheet = SheetOfPaper(WORDS.bags, follows=True).add(paragraph(WORDS.bags_words))
    for laid in given.plan.laying.areas:
        bed = _bed(given, laid)
        if bed is None or not laid.pieces:
            continue
        sheet.add(*(_bags(given, laid, bed) if bed.layer.material is LayerMaterial.MORTAR else _sand(given, laid, bed)))
    return [sheet]


def _bed(given: PaperInput, laid: LaidArea) -> LayerVolume | None:
    """Return the bed of an area with its volume, the same as it is measured for the order list."""
    area, up = given.plan.survey.site.area(laid.area), given.plan.build_ups.area(laid.area)
    found = layer_volumes(area, up, laid.under_steps_m2)
    return next((each for each in found if each.layer.key is LayerKey.BED), None)


def squares_of(given: PaperInput, laid: LaidArea) -> list[tuple[str, float]]:
    """Return the squares of the grid over an area in the order in which they are laid, each with what is laid there.

    The area of joints is shared out like that of the pieces, so that all squares together are the area laid. [m²].
    """
    grid = grid_of(given.plan)
    by_square: dict[str, float] = {}
    for piece in laid.pieces:
        name = WORDS.unknown if grid is None else grid.square_at(piece.shape.centre_mm)
        by_square[name] = by_square.get(name, 0.0) + piece.area_m2
    share = (laid.paved_m2 + laid.joint_m2) / laid.paved_m2
    return [(name, pieces_m2 * share) for name, pieces_m2 in by_square.items()]


def _bags(given: PaperInput, laid: LaidArea, bed: LayerVolume) -> Iterator[Block]:
    bag = mix_gear(given.plan.quantities, given.rules).bag_kg
    squares = squares_of(given, laid)
    all_m2 = sum(m2 for _, m2 in squares)
    kg_per_m2 = bed.volume_m3 * bed_cement_kg_per_m3(given.rules) / all_m2
    thick = bed.layer.thickness_mm
    yield heading(WORDS.bags_area(area=laid.area, thick=amount(thick), kg=one(kg_per_m2)))
    so_far, opened = 0.0, 0
    for name, m2 in squares:
        so_far += m2
        used = so_far * kg_per_m2 / bag
        here = math.ceil(used - _EXACT) - opened
        opened += here
        words = WORDS.bags_square(square=name, m2=two(m2), so_far=two(so_far), bags=one(used), mm=one(thick / used))
        yield together(boxes(words, here))
    lost = given.rules.figure("quantities.mortar_percent")
    yield form([FormLine(WORDS.bags_open)])
    yield small(WORDS.bags_lost(percent=amount(lost.value), source=source(lost, given.figures)))


_EXACT = 1e-6
"""A bag is not opened for less than this of one. [-]"""


def _sand(given: PaperInput, laid: LaidArea, bed: LayerVolume) -> Iterator[Block]:
    barrow_l = given.rules.value("earthworks.barrow_m3") * units.LITRES_PER_M3
    more = given.plan.job.mixes.bed_compaction_percent
    loose_m3 = bed.volume_m3 * (1.0 + (more or 0.0) / units.ALL_PERCENT)
    squares = squares_of(given, laid)
    all_m2 = sum(m2 for _, m2 in squares)
    thick = amount(bed.layer.thickness_mm)
    yield heading(WORDS.sand_area(area=laid.area, thick=thick, m3=two(bed.volume_m3)))
    if more is None:
        yield form([FormLine(WORDS.sand_unknown(barrow=amount(barrow_l)), unit="%")])
    else:
        yield small(WORDS.sand_loose(barrow=amount(barrow_l), percent=amount(more)))
    so_far, wheeled = 0.0, 0
    for name, m2 in squares:
        so_far += m2
        used = so_far / all_m2 * loose_m3 * units.LITRES_PER_M3 / barrow_l
        here = math.ceil(used - _EXACT) - wheeled
        wheeled += here
        words = WORDS.sand_square(square=name, m2=two(m2), so_far=two(so_far), barrows=one(used))
        yield together(boxes(words, min(here, _MAX_BOXES)))
