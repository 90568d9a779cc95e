"""The laying plan of every area."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import shapely

from pavewright import units
from pavewright.findings import in_order
from pavewright.geometry import shapes_from_polygons
from pavewright.job import Fault, JobInvalid
from pavewright.laying._before import AskedPart, LaidBefore, LaidPart
from pavewright.laying._figures import figures
from pavewright.laying._types import LaidArea, LayingPlan, PieceKind
from pavewright.laying.edges import (
    clear_of_steps,
    cuts_along_folds,
    fold_findings,
    movement_findings,
    movement_joints,
    parts_of,
    steps_findings,
    with_edges,
    with_zones,
)
from pavewright.laying.findings import filled_findings, laying_findings, narrow_findings, size_findings
from pavewright.laying.mixed import MixedRefusal
from pavewright.laying.patterns import about_how_many
from pavewright.laying.pieces import MAX_CELLS, MAX_UNITS, number_pieces
from pavewright.laying.sawing import joint_length_m, sawn_units, with_workings, workings_of
from pavewright.laying.setting import Setting, Workshop, kept_parts, mixed_fault, region_of, setting_of, with_mixed
from pavewright.laying.sheets import gauge_marks, laid_mixed, run_growths
from pavewright.laying.yard import still_there, yard_of

if TYPE_CHECKING:
    from shapely.geometry import Polygon

    from pavewright.findings import Finding
    from pavewright.job import Job, PavingUnit
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying._types import Piece
    from pavewright.laying.edges import Part
    from pavewright.laying.pieces import Frame
    from pavewright.laying.yard import LeftOver
    from pavewright.levels import Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey

_LIMITS = (
    "Courses run straight but for rings and a border on a curve; no fans.",
    "Pieces are cut as the boxes that they take, or two with equal slopes head to tail in one box.",
    "A notch or a curve is a further cut inside its box.",
    "The number of units with offcuts used again is the best of several plans, not proved to be the fewest.",
    "What is called impossible is so for each part by itself, with the left-overs that lie there when it is cut.",
)

_NO_JOINT_M2 = 1e-6
"""A square millimetre: what is left of an area without joints when its pieces are summed. [m²]"""


def lay(
    job: Job,
    survey: Survey,
    rules: Rulebook,
    levels: Levels | None = None,
    *,
    options: bool = True,
    before: LaidBefore | None = None,
) -> LayingPlan:
    """Return every unit of every area with its place, its cut and its number.

    Args:
        job: A job that was read and checked.
        survey: What was measured, adjusted.
        rules: The rulebook of its locality.
        levels: Finished levels; with them it is known which units lie across a fold.
        options: Whether other ways of laying are tried for the options of findings; findings and their words are the
            same without.
        before: What was laid for the same plan: a part that is asked for again is not laid again.

    Raises:
        JobInvalid: an area would take more units than any job has, or its gap at the edge leaves nothing.
    """
    faults: list[Fault] = []
    laid: list[LaidArea] = []
    findings: list[Finding] = []
    yard, known, before = yard_of(job), figures(rules), before or LaidBefore()
    for number, entered in enumerate(survey.site.areas):
        area, under_steps = clear_of_steps(entered, levels)
        findings.extend(steps_findings(area, under_steps, levels))
        parts = parts_of(number, area, survey)
        if isinstance(parts, Fault):
            faults.append(parts)
            continue
        tried = [(part, _part(AskedPart.of(job, part, survey, known, yard), yard, before)) for part in parts]
        wrong = [one for _, one in tried if isinstance(one, Fault)]
        faults.extend(wrong)
        if wrong:
            continue
        found = [(part, *one) for part, one in tried if not isinstance(one, Fault)]
        whole = with_zones(area, [(part, one) for part, _, one in found]) if area.area.zones else found[0][2]
        whole = replace(whole, under_steps=under_steps, movement=with_edges(area, whole.movement))
        findings.extend(movement_findings(area, whole.movement, known))
        if levels is not None:
            surface = levels.area(area.name).surface
            whole = replace(whole, fold_cuts=cuts_along_folds(surface, whole.pieces, job, known))
        laid.append(whole)
        shops = []
        for part, setting, one in found:
            mine = tuple(piece for piece in whole.pieces if piece.zone == part.zone)
            shop = Workshop(job, part.area, survey, known, setting, mine, zoned=bool(area.area.zones), tries=options)
            shops.append(shop)
            findings.extend(laying_findings(shop))
            findings.extend(size_findings(part.area, setting, one.growth, known))
            findings.extend(narrow_findings(shop))
            findings.extend(filled_findings(part.area, len(one.fills), one.filled_m2))
        if levels is not None:
            findings.extend(fold_findings(area, whole.fold_cuts, whole.pieces, shops, surface, known))
    if faults:
        raise JobInvalid(tuple(faults))
    laid = [replace(each, left_overs=still_there(each.left_overs, yard)) for each in laid]
    kept = {(finding.code, finding.place): finding for finding in findings}
    return LayingPlan(tuple(laid), in_order(kept.values()))


def _part(asked: AskedPart, yard: list[LeftOver], before: LaidBefore) -> tuple[Setting, LaidArea] | Fault:
    """Return how one part of an area is laid, and its laying plan, with the yard as the part leaves it."""
    done = before.found(asked)
    if done is None:
        left = list(asked.yard)
        done = before.keep(asked, LaidPart(_laid(asked, left), tuple(left)))
    yard[:] = done.yard
    return done.laid


def _laid(asked: AskedPart, yard: list[LeftOver]) -> tuple[Setting, LaidArea] | Fault:
    """Lay a part from what is asked alone; left-overs are taken from the yard and put by in it."""
    part, area, frame, known = asked.part, asked.part.area, asked.frame, asked.known
    region = region_of(area, frame)
    beyond = None if region is None else _too_many(asked, region)
    if beyond is not None:
        return beyond
    setting = setting_of(asked, area, frame, region) if region is not None else None
    fault = _fault(part, asked.unit(area.area.laying.laid_units[0]), setting)
    if fault is not None or setting is None:
        return fault or Fault(part.path, f"Nothing of area {area.name} is left to lay.")
    mixed = with_mixed(setting, area, known)
    if isinstance(mixed, MixedRefusal):
        return mixed_fault(part.path, area.name, mixed)
    return mixed, lay_area(area, frame, mixed, known, yard)


def _too_many(asked: AskedPart, region: Polygon) -> Fault | None:
    """Say that an area would take more units than are laid at once, before any of them is laid."""
    part = asked.part
    laying = part.area.area.laying
    unit = min((asked.unit(name) for name in laying.laid_units), key=lambda each: each.length_mm)
    about = region.area / (unit.length_mm * unit.width_mm)
    if about <= MAX_UNITS:
        return None
    message = (
        f"Area {part.area.name} covers {units.mm2_to_m2(region.area):,.0f} m² and would take about {about:,.0f} of "
        f"{unit.name}; at most {MAX_UNITS:,} are laid in one area. Check that both are in millimetres, or split it."
    )
    return Fault(f"{part.path}.unit", message)


def _fault(part: Part, unit: PavingUnit, setting: Setting | None) -> Fault | None:
    area = part.area
    if setting is None:
        gap = units.millimetres_text(area.area.laying.wall_joint_mm)
        message = f"A gap of {gap} all round leaves nothing of area {area.name} in one piece: make it smaller."
        return Fault(f"{part.path}.wall_joint_mm", message)
    if about_how_many(setting.region.bounds, setting.layout) > MAX_CELLS:
        message = f"Area {area.name} would take over {MAX_CELLS} of {unit.name}: check that both are in millimetres."
        return Fault(f"{part.path}.unit", message)
    if not setting.field and not shapely.is_empty(setting.channels):
        return Fault(part.path, f"Channels leave nothing of area {area.name} to lay: measure them again.")
    if not setting.field:
        message = f"The border of {area.name} leaves no field inside it: take fewer courses or a smaller unit."
        return Fault(f"{part.path}.border", message)
    return None


def lay_area(
    area: PlanArea, frame: Frame, setting: Setting, known: LayingFigures, yard: list[LeftOver] | None = None
) -> LaidArea:
    """Return the laying plan of one area; left-overs are taken from the yard and put by in it where there is one."""
    unit, layout = setting.units[0], setting.layout
    kept, fills = kept_parts(setting, area.area.laying, known)
    pieces, courses = number_pieces(kept, frame, setting.units, known)
    cut = [piece for piece in pieces if piece.kind is PieceKind.CUT]
    saw = sawn_units(area.name, setting, pieces, frame, known, keep=area.area.laying.factory_edges, yard=yard)
    counts = with_workings(saw, pieces, known.kerf_mm)
    paved, joint = _paved_and_joints_m2(area, pieces)
    return LaidArea(
        area=area.name,
        unit=unit.name,
        pattern=area.area.laying.pattern.value,
        joint_mm=layout.bond.joint_mm,
        bearing_deg=frame.bearing_deg,
        origin_mm=frame.point_out_of(layout.start),
        pieces=pieces,
        courses=courses,
        border_courses=len({piece.course for piece in pieces if piece.border}),
        sawn=saw.sawn,
        whole=len(pieces) - len(cut),
        cut=len(cut),
        slivers=sum(piece.sliver for piece in cut),
        units_each_cut_new=len(pieces),
        units_with_offcuts=sum(count.units_with_offcuts for count in counts),
        min_units=sum(count.min_units for count in counts),
        units_bound=sum(count.units_bound for count in counts),
        kerf_mm=known.kerf_mm.value,
        joint_length_m=joint_length_m(area, setting, pieces, joint),
        paved_m2=paved,
        joint_m2=joint,
        saw_m=sum(piece.saw_m for piece in cut),
        by_unit=counts,
        workings=workings_of(area, saw, counts, pieces),
        limits=_limits(area, setting),
        growth=run_growths(area.area.laying.pattern, layout.bond.joint_mm, setting.units, pieces),
        gauge=() if setting.rings is not None else gauge_marks(pieces, frame),
        mixed=laid_mixed(setting, frame),
        left_overs=saw.left_overs,
        movement=movement_joints(area, frame, setting, known),
        fills=tuple(shapes_from_polygons(frame.out_of_polygons(fills))),
    )


def _paved_and_joints_m2(area: PlanArea, pieces: tuple[Piece, ...]) -> tuple[float, float]:
    """Return what the pieces of an area cover, and what is left of it for joints. [m²]."""
    paved = sum(piece.area_m2 for piece in pieces)
    joint = area.laid_m2 - paved
    return paved, 0.0 if abs(joint) < _NO_JOINT_M2 else joint


def _limits(area: PlanArea, setting: Setting) -> tuple[str, ...]:
    """Return in words what the laying plan of an area holds to, and what it leaves."""
    edges = "Sides that lie in joints keep their factory edge; sawn edges lie at the outline."
    if not area.area.laying.factory_edges:
        edges = "Factory edges are not asked for: a sawn edge may lie in a joint that shows."
    directed = any(each.keeps_direction for each in setting.units)
    direction = ("Riven or veined units keep their direction: no piece is turned.",) if directed else ()
    bays = () if setting.mixed is None else setting.mixed.words
    return (*_LIMITS, edges, *direction, *bays, *_stretched(setting))


def _stretched(setting: Setting) -> tuple[str, ...]:
    """Return the joints of a border whose joints are stretched, in words."""
    joints = setting.border_joints_mm
    if not joints:
        return ()
    asked = f"{setting.layout.bond.joint_mm:g} mm"
    least, most = min(joints), max(joints)
    return (f"Joints along the sides of the border: {least:.1f} to {most:.1f} mm for {asked}, to end in whole units.",)
