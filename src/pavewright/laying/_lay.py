"""The laying plan of every area."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import Polygon

from pavewright import units
from pavewright.findings import in_order
from pavewright.job import Fault, JobInvalid, Pattern
from pavewright.laying._cells import MOST_CELLS, Clipped, Grid, cell_count, clip
from pavewright.laying._findings import fold_findings, laying_findings
from pavewright.laying._frame import Frame, frame_of
from pavewright.laying._pieces import is_crumb, number_pieces, sizes
from pavewright.laying._sawing import bound_working, sawn_from_units
from pavewright.laying._types import LaidArea, LayingPlan, PieceKind
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.findings import Finding
    from pavewright.job import Job, PavingUnit
    from pavewright.levels import Levels
    from pavewright.rules import Figure, Rulebook
    from pavewright.survey import PlanArea, Survey

_LIMITS = (
    "One unit size an area; courses run straight.",
    "Pieces are cut as the boxes that they take, or two with equal slopes head to tail in one box.",
    "A notch or a curve is a further cut inside its box.",
    "Factory edges are not asked for: a sawn edge may lie in a joint that shows.",
    "The number of units with offcuts used again is the best found by a search; how far it may be off is told.",
)

_NO_JOINT_M2 = 1e-6
"""A square millimetre: what is left of an area without joints when its pieces are summed. [m²]"""


def lay(job: Job, survey: Survey, rules: Rulebook, levels: Levels | None = None) -> LayingPlan:
    """Return every unit of every area with its place, its cut and its number.

    With the levels it is told which units lie across a fold.

    Raises:
        JobInvalid: an area would take more units than any job has, or its gap at the edge leaves nothing.
    """
    faults: list[Fault] = []
    laid: list[LaidArea] = []
    findings: list[Finding] = []
    for number, area in enumerate(survey.site.areas):
        unit = job.unit(area.area.laying.unit)
        frame = frame_of(area, survey)
        grid = _grid(area, unit, frame)
        region = _region(area, frame)
        fault = _fault(number, area, unit, region, grid)
        if fault is not None or region is None:
            faults.append(fault or Fault(f"areas.{number}.laying", f"Nothing of area {area.name} is left to lay."))
            continue
        one = _lay_area(area, unit, frame, grid, region, rules)
        laid.append(one)
        findings.extend(laying_findings(area, unit, region, grid, one.pieces, rules))
        if levels is not None:
            findings.extend(fold_findings(area, levels.area(area.name).surface, one.pieces))
    if faults:
        raise JobInvalid(tuple(faults))
    told = {(finding.code, finding.place): finding for finding in findings}
    return LayingPlan(tuple(laid), in_order(told.values()))


def _grid(area: PlanArea, unit: PavingUnit, frame: Frame) -> Grid:
    laying = area.area.laying
    stagger = laying.stagger if laying.pattern is Pattern.RUNNING else 0.0
    return Grid(unit.length_mm, unit.width_mm, laying.joint_mm, stagger, frame.start, frame.from_right, frame.from_far)


def _region(area: PlanArea, frame: Frame) -> Polygon | None:
    """Return what is to be covered, in the frame; None where the gap at the edge leaves nothing in one piece."""
    gap = area.area.laying.wall_joint_mm
    polygon = area.shape.polygon if gap == 0.0 else area.shape.polygon.buffer(-gap, join_style="mitre")
    if not isinstance(polygon, Polygon) or polygon.is_empty:
        return None
    turned = frame.into(polygon)
    return turned if isinstance(turned, Polygon) else None


def _fault(number: int, area: PlanArea, unit: PavingUnit, region: Polygon | None, grid: Grid) -> Fault | None:
    if region is None:
        gap = units.millimetres_text(area.area.laying.wall_joint_mm)
        message = f"A gap of {gap} all round leaves nothing of area {area.name} in one piece: make it smaller."
        return Fault(f"areas.{number}.laying.wall_joint_mm", message)
    if cell_count(region, grid) > MOST_CELLS:
        message = f"Area {area.name} would take over {MOST_CELLS} of {unit.name}: check that both are in millimetres."
        return Fault(f"areas.{number}.laying.unit", message)
    return None


def _lay_area(area: PlanArea, unit: PavingUnit, frame: Frame, grid: Grid, region: Polygon, rules: Rulebook) -> LaidArea:
    limits = sizes(grid, rules)
    kept: list[Clipped] = [each for each in clip(region, grid) if not is_crumb(each, limits)]
    pieces, courses = number_pieces(kept, grid, frame, unit, rules)
    cut = [piece for piece in pieces if piece.kind is PieceKind.CUT]
    kerf = rules.figure("laying.kerf_mm")
    saw, bound = sawn_from_units(pieces, unit, kerf, frame.into)
    whole = len(pieces) - len(cut)
    paved = sum(piece.area_m2 for piece in pieces)
    joint = area.shape.area_m2 - paved
    joint = 0.0 if abs(joint) < _NO_JOINT_M2 else joint
    unit_m2 = units.mm2_to_m2(unit.length_mm * unit.width_mm)
    return LaidArea(
        area=area.name,
        unit=unit.name,
        pattern=area.area.laying.pattern.value,
        joint_mm=grid.joint_mm,
        bearing_deg=frame.bearing_deg,
        origin_mm=frame.point_out_of(grid.start),
        pieces=pieces,
        courses=courses,
        sawn=saw.sawn,
        whole=whole,
        cut=len(cut),
        slivers=sum(piece.sliver for piece in cut),
        units_each_cut_new=len(pieces),
        units_with_offcuts=whole + len(saw.sawn),
        units_least=math.ceil(paved / unit_m2 - 1e-9),
        units_bound=max(bound, math.ceil(paved / unit_m2 - 1e-9)),
        kerf_mm=kerf.value,
        joint_length_m=_joint_length_m(area, region, grid, joint),
        paved_m2=paved,
        joint_m2=joint,
        saw_m=sum(piece.saw_m for piece in cut),
        workings=_workings(area, whole, len(cut), len(saw.sawn), bound, paved, unit_m2, kerf),
        limits=_LIMITS if not unit.riven else (*_LIMITS, "Riven units keep their direction: no piece is turned."),
    )


def _workings(
    area: PlanArea, whole: int, cut: int, sawn: int, bound: int, paved: float, unit_m2: float, kerf: Figure
) -> tuple[Working, ...]:
    """Return the sums behind the counts of an area."""
    least = math.ceil(paved / unit_m2 - 1e-9)
    total = area.shape.area_m2
    return (
        Working(
            f"units with offcuts = {whole} whole + {sawn} sawn",
            whole + sawn,
            "units",
            (kerf,),
            f"{cut} cut pieces come out of {sawn} units",
        ),
        Working(
            f"units without offcuts = {whole} whole + {cut} cut", whole + cut, "units", (), "a new unit for each cut"
        ),
        Working(
            f"units at least = {paved:.3f} / {unit_m2:.4f}",
            least,
            "units",
            (),
            "area of all pieces over area of a unit, rounded up",
        ),
        bound_working(whole + sawn, max(bound, least), cut),
        Working(f"joints = {total:.3f} − {paved:.3f}", total - paved, "m²", (), "area less the area of all pieces"),
    )


def _joint_length_m(area: PlanArea, region: Polygon, grid: Grid, joint_m2: float) -> float:
    """Return the length of joints between and round the pieces: their area over their width, plus the gap at the edge.

    Crossings are counted once. With no joint width, the courses and ends themselves are not measured and it is nought.
    """
    gap = area.area.laying.wall_joint_mm
    edge_mm = float(shapely.length(region)) if gap > 0.0 else 0.0
    edge_m2 = area.shape.area_m2 - units.mm2_to_m2(region.area) if gap > 0.0 else 0.0
    between_m2 = max(joint_m2 - edge_m2, 0.0)
    between_mm = between_m2 * units.MM2_PER_M2 / grid.joint_mm if grid.joint_mm > 0.0 else 0.0
    return units.mm_to_m(between_mm + edge_mm)
