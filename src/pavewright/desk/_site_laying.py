"""What a phone needs to lay unit by unit: corners with their levels, seams, limits, and what the bed takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.as_laid import TRUSTED, promises
from pavewright.bedding import bed_use, figures, read_one_by_one, seams, thinnest_bed_mm, units_to_lay

if TYPE_CHECKING:
    from pavewright.bedding import BeddingFigures, BedUse, Limits, Seam, UnitToLay
    from pavewright.laying import LaidArea
    from pavewright.pipeline import PlanSoFar
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class AreaToLay:
    """One area as it is laid.

    Attributes:
        area: Name of the area.
        pieces: Pieces of its laying plan.
        one_by_one: Whether its units are large enough, and few enough, to be read each by itself.
        joint_mm: Joint. [mm]
        all_m2: Area of the units and their joints. [m²]
        limits: The limits by which its units are judged.
        units: Its units in the order of laying; none where they are not read one by one.
        seams: Where two of them stand side by side: for each the piece, its side and how far along that both ends lie,
            then the same of the other piece.
        stages: Last piece of each course with the area laid by then, joints included.
        bed: What its bed takes; None where that is not known.
    """

    area: str
    pieces: int
    one_by_one: bool
    joint_mm: float
    all_m2: float
    limits: Limits
    units: tuple[UnitToLay, ...]
    seams: tuple[tuple[float, ...], ...]
    stages: tuple[tuple[int, float], ...]
    bed: BedUse | None


@dataclass(frozen=True, slots=True)
class LayingOnSite:
    """What is needed to lay unit by unit.

    Attributes:
        areas: Every area that is laid.
        trusted_sd: So many standard deviations a reading is trusted to. [-]
        level: Level against the plan that is allowed, either way.
        step: Step between neighbouring units that is allowed.
        wedge: Standard deviation of a corner read with a wedge.
        string: The same down from a string.
        staff: The same with a staff or a laser.
        percent: Standard deviation of a slope by a digital level.
        batch_spread: Standard deviation of the mortar from one bag.
        bed_off: By how much the mean of a bed may be off.
    """

    areas: tuple[AreaToLay, ...]
    trusted_sd: float
    level: Figure
    step: Figure
    wedge: Figure
    string: Figure
    staff: Figure
    percent: Figure
    batch_spread: Figure
    bed_off: Figure


def laying_on_site(plan: PlanSoFar, rules: Rulebook) -> LayingOnSite | None:
    """Return what is needed to lay unit by unit; None where no laying plan or no level is known."""
    if plan.laying is None or plan.levels is None or not plan.laying.areas:
        return None
    read = figures(rules)
    way = {each.value: figure for each, figure in read.read_by.items()}
    return LayingOnSite(
        areas=tuple(_area(laid, plan, rules, read) for laid in plan.laying.areas),
        trusted_sd=TRUSTED,
        level=promises(plan.job, plan.levels, rules).level,
        step=read.step,
        wedge=way["wedge"],
        string=way["string"],
        staff=way["staff"],
        percent=way["percent"],
        batch_spread=read.batch_spread,
        bed_off=read.bed_off,
    )


def _area(laid: LaidArea, plan: PlanSoFar, rules: Rulebook, read: BeddingFigures) -> AreaToLay:
    assert plan.levels is not None  # noqa: S101 - asked before
    one_by_one = read_one_by_one(laid, read.unit_by_unit.value)
    units = units_to_lay(laid, plan.levels.area(laid.area).surface) if one_by_one else ()
    up = None if plan.build_ups is None else plan.build_ups.area(laid.area)
    bed = None
    if plan.build_ups is not None and plan.quantities is not None:
        bed = bed_use(laid, plan.survey, plan.build_ups, plan.quantities, plan.job.mixes, rules)
    return AreaToLay(
        area=laid.area,
        pieces=len(laid.pieces),
        one_by_one=one_by_one,
        joint_mm=laid.joint_mm,
        all_m2=laid.paved_m2 + laid.joint_m2,
        limits=read.limits(0.0 if up is None else thinnest_bed_mm(up, read)),
        units=units,
        seams=tuple(map(_row, seams(units, laid))),
        stages=_stages(laid),
        bed=bed,
    )


def _row(seam: Seam) -> tuple[float, ...]:
    """Return a seam as one row of numbers, so that a large area is light to take along."""
    return (seam.first, seam.first_side, *seam.first_part, seam.second, seam.second_side, *seam.second_part)


def _stages(laid: LaidArea) -> tuple[tuple[int, float], ...]:
    """Return the last piece of each course with the area laid by then, the area of joints shared out. [m²]."""
    if not laid.pieces:
        return ()
    share = (laid.paved_m2 + laid.joint_m2) / laid.paved_m2
    found: dict[int, tuple[int, float]] = {}
    m2 = 0.0
    for piece in laid.pieces:
        m2 += piece.area_m2 * share
        found[piece.course] = piece.number, round(m2, 3)
    return tuple(found.values())
