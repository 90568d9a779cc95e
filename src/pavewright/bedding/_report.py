"""Units and bags as they were read on site, against the plan."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import shapely

from pavewright.as_laid import TRUSTED, Verdict, promises
from pavewright.bedding import _words as words
from pavewright.bedding._advice import Act, advise, aimed_at
from pavewright.bedding._bed_use import BedPlanned, BedRuns, bed_so_far, bed_use
from pavewright.bedding._codes import Code
from pavewright.bedding._corners import by_percent
from pavewright.bedding._figures import figures
from pavewright.bedding._lips import Corners, beside, lip_at
from pavewright.bedding._types import AreaBedding, BeddingReport, UnitChecked
from pavewright.bedding._units import LETTERS, seams, units_to_lay
from pavewright.buildup import LayerKey
from pavewright.findings import Finding, Severity, in_order
from pavewright.job.on_site import CornerWay, UnitState

if TYPE_CHECKING:
    from pavewright.bedding._bed_use import BedSoFar, BedUse
    from pavewright.bedding._figures import BeddingFigures, Limits
    from pavewright.bedding._units import Seam, UnitToLay
    from pavewright.buildup import AreaBuildUp, BuildUps
    from pavewright.job import Job
    from pavewright.job.on_site import UnitRead
    from pavewright.laying import LaidArea, LayingPlan
    from pavewright.levels import Levels
    from pavewright.quantities import Quantities
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey


def report(
    job: Job,
    survey: Survey,
    levels: Levels,
    laying: LayingPlan,
    build_ups: BuildUps,
    quantities: Quantities,
    rules: Rulebook,
) -> BeddingReport | None:
    """Return what was read of units and counted of bags, against the plan; None where nothing was."""
    if not job.units_read and not job.bags_used:
        return None
    read = figures(rules)
    level_mm = promises(job, levels, rules).level.value
    named = {each.area for each in job.units_read} | {each.area for each in job.bags_used}
    areas = []
    findings: list[Finding] = []
    for laid in laying.areas:
        if laid.area not in named:
            continue
        up = build_ups.area(laid.area)
        use = bed_use(laid, survey, build_ups, quantities, job.mixes, rules)
        units = units_to_lay(laid, levels.area(laid.area).surface)
        taken = [each for each in job.units_read if each.area == laid.area]
        matched, lost = _matched(units, laid, taken)
        one = _area(job, laid, up, units, matched, lost, use, read, level_mm)
        areas.append(one)
        findings += _findings(one, read)
    return BeddingReport(tuple(areas), in_order(findings))


def _matched(units: tuple[UnitToLay, ...], laid: LaidArea, taken: list[UnitRead]) -> tuple[dict[int, UnitRead], int]:
    """Return the last reading of each piece, found by its place where pieces are numbered anew; and how many are lost.

    A place is lost where no piece of the plan covers it any more.
    """
    shapes = {piece.number: piece.shape.polygon for piece in laid.pieces}
    numbers = [unit.piece for unit in units]
    tree = shapely.STRtree([shapes[number] for number in numbers])
    found: dict[int, UnitRead] = {}
    lost = 0
    for each in taken:
        at = shapely.Point(each.x_mm, each.y_mm)
        own = shapes.get(each.piece)
        if own is not None and own.distance(at) <= laid.joint_mm:
            found.pop(each.piece, None)
            found[each.piece] = each
            continue
        near = tree.query(at, predicate="intersects").tolist()
        if near:
            found.pop(numbers[near[0]], None)
            found[numbers[near[0]]] = each
        else:
            lost += 1
    return found, lost


def _area(
    job: Job,
    laid: LaidArea,
    up: AreaBuildUp,
    units: tuple[UnitToLay, ...],
    matched: dict[int, UnitRead],
    lost: int,
    use: BedUse | None,
    read: BeddingFigures,
    level_mm: float,
) -> AreaBedding:
    between = seams(units, laid)
    checked, corners = _judged(units, between, matched, read, read.limits(thinnest_bed_mm(up, read)), level_mm)
    lying = {each.piece for each in checked if each.state is UnitState.LAID}
    lips = (
        lip_at(seam, corners[seam.first], corners[seam.second], read.step.value)
        for seam in between
        if seam.first in lying and seam.second in lying
    )
    return AreaBedding(
        area=laid.area,
        pieces=len(laid.pieces),
        units=checked,
        unmatched=lost,
        lips=tuple(each for each in lips if each is not None),
        step=read.step,
        laid_m2=sum(unit.area_m2 for unit in units if unit.piece in lying),
        bed=use,
        bed_so_far=_bags(job, laid, use, read),
    )


def _judged(
    units: tuple[UnitToLay, ...],
    between: tuple[Seam, ...],
    matched: dict[int, UnitRead],
    read: BeddingFigures,
    limits: Limits,
    level_mm: float,
) -> tuple[tuple[UnitChecked, ...], dict[int, Corners]]:
    """Return units in the order of laying, each judged by what lay beside it when it was read, and their corners."""
    known = {unit.piece: unit for unit in units}
    meets: dict[int, list[tuple[Seam, int]]] = {}
    for seam in between:
        meets.setdefault(seam.first, []).append((seam, seam.second))
        meets.setdefault(seam.second, []).append((seam, seam.first))
    corners: dict[int, Corners] = {}
    found: dict[int, UnitChecked] = {}
    for piece, entry in matched.items():
        unit = known[piece]
        over, sd = _over(entry, unit), sd_of(entry, unit, read)
        lying = [
            (seam, corners[other])
            for seam, other in meets.get(piece, ())
            if other in corners and matched[other].state is UnitState.LAID
        ]
        many = len(unit.corners)
        around = [beside(piece, corner, many, lying) for corner in range(many)]
        aims = [aimed_at(0.0, each, limits.step_mm, level_mm) for each in around]
        allowed = [limits.step_mm if each else level_mm for each in around]
        off = [None if each is None else each - aim for each, aim in zip(over, aims, strict=True)]
        any_read = any(each is not None for each in over)
        advice = advise(unit.corners, off, sd, limits, entry.rocks, entry.bed_mm, allowed) if any_read else None
        corners[piece] = Corners(over, sd)
        found[piece] = UnitChecked(piece, unit.centre, entry.state, over, sd, advice)
    return tuple(found[unit.piece] for unit in units if unit.piece in found), corners


def thinnest_bed_mm(up: AreaBuildUp, read: BeddingFigures) -> float:
    """Return the thinnest bed of an area; none at all where what it is made of has no figure. [mm]."""
    for layer in up.layers:
        if layer.key is LayerKey.BED and layer.material in read.thinnest:
            return read.thinnest[layer.material].value
    return 0.0


def _over(entry: UnitRead, unit: UnitToLay) -> tuple[float | None, ...]:
    """Return each corner over the level planned. [mm]."""
    found = {each.corner.value: each.level_mm for each in entry.corners}
    levels = [found.get(LETTERS[number]) for number in range(len(unit.corners))]
    return tuple(
        None if level is None else level - wanted for level, wanted in zip(levels, unit.wanted_mm, strict=True)
    )


def sd_of(entry: UnitRead, unit: UnitToLay, read: BeddingFigures) -> float:
    """Return the standard deviation of one corner of a unit: as entered, or the rulebook's for the tool. [mm]."""
    if entry.sd_mm is not None:
        return entry.sd_mm
    way = entry.way or CornerWay.STAFF
    figure = read.read_by[way].value
    if way is not CornerWay.PERCENT:
        return figure
    (x1, y1), (x2, y2) = unit.corners[0], unit.corners[1]
    side_mm = math.hypot(x2 - x1, y2 - y1)
    return math.hypot(read.read_by[CornerWay.STRING].value, by_percent(side_mm, figure))


def _bags(job: Job, laid: LaidArea, use: BedUse | None, read: BeddingFigures) -> BedSoFar | None:
    """Return what the last count of bags says of the bed of an area; None without one."""
    counts = [each for each in job.bags_used if each.area == laid.area]
    if not counts or use is None:
        return None
    last = counts[-1]
    share = (laid.paved_m2 + laid.joint_m2) / laid.paved_m2
    laid_m2 = share * sum(piece.area_m2 for piece in laid.pieces if piece.number <= last.up_to_piece)
    all_m2 = laid.paved_m2 + laid.joint_m2
    bed = BedPlanned(use.per_m2, use.thickness_mm, all_m2, read.batch_spread.value, read.bed_off.value)
    return bed_so_far(last.opened, last.left_part, laid_m2, bed)


_BED_CODES = {BedRuns.THICK: Code.BED_THICK, BedRuns.THIN: Code.BED_THIN}


def _findings(one: AreaBedding, read: BeddingFigures) -> list[Finding]:
    """Return what is noticed of one area."""
    place = f"area {one.area}"
    found = []
    for unit in one.units:
        lift = unit.advice is not None and unit.advice.act is Act.LIFT
        if lift or unit.state is UnitState.TO_RE_BED:
            why = unit.advice.why if unit.advice is not None and lift else ()
            message = words.to_re_bed(one.area, unit.piece, why)
            found.append(
                Finding(Code.TO_RE_BED, Severity.CHECK, f"{place}, piece {unit.piece}", message, at_mm=unit.at)
            )
    for lip in one.lips:
        if lip.verdict is Verdict.FAILS:
            message = words.lip(one.area, lip, one.step, TRUSTED * lip.sd_mm)
            where = f"{place}, pieces {lip.first} and {lip.second}"
            limit = one.step.value
            found.append(Finding(Code.LIP, Severity.CHECK, where, message, abs(lip.lip_mm), limit, "mm", one.step))
    if one.bed is not None and one.bed_so_far is not None and one.bed_so_far.runs in _BED_CODES:
        code = _BED_CODES[one.bed_so_far.runs]
        message = words.bed(code, one.bed, one.bed_so_far)
        mean = one.bed_so_far.mean_mm
        found.append(Finding(code, Severity.CHECK, place, message, mean, one.bed.thickness_mm, "mm", read.bed_off))
    if one.unmatched:
        found.append(Finding(Code.UNMATCHED, Severity.CHECK, place, words.unmatched(one.area, one.unmatched)))
    return found
