"""The first row, the bed and the finished paving: planned levels, what is promised, and room for what is found."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.as_laid import promises, reading_places
from pavewright.buildup import LayerKey
from pavewright.papers._words import amount, source, whole
from pavewright.papers.look import CheckRow, checklist, paragraph, small
from pavewright.papers.site_papers._level_rows import rows_at_pegs, under
from pavewright.papers.site_papers._words import WORDS
from pavewright.setting_out import HeightOf

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block

_IN_A_ROW = 8
"""So many pieces of the first row are read."""


def row_blocks(given: PaperInput, area: str) -> Iterator[Block]:
    """Give the finished level at pieces of the first row, and what else is looked at before the second."""
    plan = given.plan
    laid = plan.laying.area(area)
    surface = next(each for each in plan.levels.areas if each.area == area).surface
    shapes = {piece.number: piece.shape for piece in laid.pieces}
    marks = [mark for mark in laid.gauge if mark.piece in shapes]
    if marks:
        every = max(1, math.ceil((len(marks) - 1) / (_IN_A_ROW - 1)))
        shown = [mark for number, mark in enumerate(marks) if number % every == 0 or mark is marks[-1]]
        rows = [(str(mark.piece), mark.start_mm, surface.level_at(shapes[mark.piece].centre_mm)) for mark in shown]
        yield from under(_within(given), WORDS.row_heads, rows)
    yield checklist([WORDS.row_joint(joint=amount(laid.joint_mm)), *WORDS.row_checks])


def _within(given: PaperInput) -> Block:
    held = promises(given.plan.job, given.plan.levels, given.rules).level
    return paragraph(WORDS.either_way(limit=whole(held.value), source=source(held, given.figures)))


def bed_blocks(given: PaperInput, area: str) -> Iterator[Block]:
    """Give the levels of the bed, its planned thickness, three readings of it, and what a lifted unit proves."""
    plan = given.plan
    layers = plan.build_ups.area(area).layers
    bed = next((layer for layer in layers if layer.key is LayerKey.BED), None)
    planned = WORDS.unknown if bed is None else f"{amount(bed.thickness_mm)} mm"
    rows = [CheckRow(WORDS.bed_planned, planned)] * 3
    laid = plan.laying.area(area)
    for name in dict.fromkeys(count.unit for count in laid.by_unit):
        if plan.job.unit(name).low_absorption:
            rows.append(CheckRow(WORDS.bond(unit=name)))
    rows += [CheckRow(words) for words in (*WORDS.bed_checks, WORDS.temperature)]
    held = given.rules.figure("hold_points.bed_off_mm")
    told = source(held, given.figures)
    limit = paragraph(WORDS.either_way(limit=whole(held.value), source=f"{told[:1].upper()}{told[1:]}"))
    at_pegs = rows_at_pegs(given, area, HeightOf.BED)
    if at_pegs:
        yield from under(limit, WORDS.peg_heads, at_pegs)
    yield checklist(rows)


def finished_blocks(given: PaperInput, area: str) -> Iterator[Block]:
    """Give the grid of levels, the same as on the phone, then what is promised of steps, walls and doors."""
    plan = given.plan
    held = promises(plan.job, plan.levels, given.rules)
    places = [each for each in reading_places(plan.survey, plan.levels, given.rules) if each.area == area]
    yield from under(_within(given), _GRID_HEADS, [(each.label, None, each.planned_mm) for each in places])
    edge, step = WORDS.finished_checks
    rows = [
        CheckRow(edge, limit=WORDS.at_most(limit=amount(held.straightedge.value))),
        CheckRow(step, limit=WORDS.at_most(limit=amount(held.step.value))),
    ]
    said = "; ".join(source(each, given.figures) for each in (held.straightedge, held.step))
    yield small(WORDS.regime(regime=plan.job.tolerance.value, sources=said))
    yield checklist([*rows, *_walls(given, area), *_doors(given, area)])


_GRID_HEADS = ("place", "", "level", "found")


def _walls(given: PaperInput, area: str) -> Iterator[CheckRow]:
    plan = given.plan
    held = {each.wall: each for each in promises(plan.job, plan.levels, given.rules).walls}
    met = next(each for each in plan.levels.areas if each.area == area).clearances
    for wall in dict.fromkeys(each.wall for each in met):
        least = min(each.min_mm for each in met if each.wall == wall)
        promise = held[wall]
        planned = f"{whole(least)} mm"
        if promise.is_open:
            yield CheckRow(WORDS.clearance_open(wall=wall), planned)
            continue
        limit, off = amount(promise.promised_mm), amount(promise.tolerance_mm)
        held_to = WORDS.at_least_laid(limit=limit, off=off) if promise.tolerance_mm else WORDS.at_least(limit=limit)
        yield CheckRow(WORDS.clearance(wall=wall), planned, held_to)
    if area == plan.levels.areas[0].area:
        for wall in plan.survey.dpc_not_read:
            yield CheckRow(WORDS.dpc_unread(wall=wall), WORDS.unknown)


def _doors(given: PaperInput, area: str) -> Iterator[CheckRow]:
    for door in next(each for each in given.plan.levels.areas if each.area == area).doors:
        yield CheckRow(WORDS.door(door=door.opening), f"{whole(door.middle_mm)} mm")
