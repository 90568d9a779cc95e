"""What is noticed about a laying plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import FieldChange, Finding, Option, Severity
from pavewright.laying._codes import Code
from pavewright.laying._types import PieceKind
from pavewright.laying.findings._border_findings import border_findings
from pavewright.laying.findings._pattern_findings import under_wheels, woven_joints
from pavewright.laying.findings._ring_findings import ring_findings

if TYPE_CHECKING:
    from pavewright.job import PavingUnit
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying._types import Piece
    from pavewright.laying.setting import Workshop
    from pavewright.survey import PlanArea

_NAMED = 5
"""Pieces named in a finding; the laying plan shows the rest."""


def laying_findings(shop: Workshop) -> tuple[Finding, ...]:
    """Return findings on slivers, joints and weight."""
    area, setting, pieces, known = shop.area, shop.setting, shop.pieces, shop.known
    found: list[Finding] = []
    slivers = [piece for piece in pieces if piece.sliver]
    if slivers:
        found.append(_slivers(shop, slivers))
    notched = [piece for piece in pieces if piece.notched]
    if notched and not area.area.laying.split_corners:
        found.append(_inner_corners(area, notched))
    for unit in setting.units:
        found += _of_unit(area, unit, known)
    return (
        *found,
        *ring_findings(shop),
        *border_findings(shop),
        *woven_joints(area, setting),
        *under_wheels(area, setting, pieces, known),
    )


def _inner_corners(area: PlanArea, notched: list[Piece]) -> Finding:
    """Return a note on pieces with inner corners, where a saw cut stops and a crack may start."""
    named = ", ".join(str(piece.number) for piece in notched[:_NAMED])
    more = f" and {len(notched) - _NAMED} more" if len(notched) > _NAMED else ""
    split = FieldChange(f"{area.path}.laying.split_corners", value=True)
    return Finding(
        Code.INNER_CORNERS,
        Severity.NOTE,
        f"area {area.name}, pieces {named}{more}",
        f"{len(notched)} pieces of {area.name} have an inner corner: drill the corner first and stop the saw at the "
        "hole, so that no crack starts from it.",
        float(len(notched)),
        at_mm=notched[0].shape.centre_mm,
    ).with_options((Option("Lay each as two with a joint at the corner.", (split,)),))


def _of_unit(area: PlanArea, unit: PavingUnit, known: LayingFigures) -> list[Finding]:
    """Return findings on the joints that a unit takes, and on its weight."""
    found: list[Finding] = []
    joint = area.area.laying.joint_mm
    if not unit.joint_min_mm <= joint <= unit.joint_max_mm:
        found.append(
            Finding(
                Code.JOINT_OUT_OF_RANGE,
                Severity.CHECK,
                f"area {area.name}",
                f"A joint of {units.millimetres_text(joint)} is asked for; {unit.name} takes "
                f"{units.millimetres_text(unit.joint_min_mm)} to {units.millimetres_text(unit.joint_max_mm)}.",
                joint,
                unit.joint_min_mm if joint < unit.joint_min_mm else unit.joint_max_mm,
                "mm",
            ).with_options((Option("Change the joint.", _other_joint(area, unit)),))
        )
    lift = known.one_person_kg
    if unit.kg_each > lift.value:
        found.append(
            Finding(
                Code.TWO_PERSON_LIFT,
                Severity.NOTE,
                f"unit {unit.name}",
                f"Each {unit.name} weighs {unit.kg_each:.0f} kg: two people or a lifting aid.",
                unit.kg_each,
                lift.value,
                "kg",
                lift,
            )
        )
    return found


def _other_joint(area: PlanArea, unit: PavingUnit) -> tuple[FieldChange, ...]:
    """Return the change to the joint next to the one asked for that a unit takes."""
    joint = min(max(area.area.laying.joint_mm, unit.joint_min_mm), unit.joint_max_mm)
    return (FieldChange(f"{area.path}.laying.joint_mm", joint),)


def _slivers(shop: Workshop, slivers: list[Piece]) -> Finding:
    area, pieces = shop.area, shop.pieces
    figure = shop.known.sliver_mm
    least = min(slivers, key=lambda piece: min(piece.along_mm, piece.across_mm))
    named = ", ".join(str(piece.number) for piece in slivers[:_NAMED])
    more = f" and {len(slivers) - _NAMED} more" if len(slivers) > _NAMED else ""
    cuts = sum(piece.kind is PieceKind.CUT for piece in pieces)
    return Finding(
        Code.SLIVERS,
        Severity.CHECK,
        f"area {area.name}, pieces {named}{more}",
        f"{len(slivers)} of {cuts} cut pieces of {area.name} "
        f"{'are slivers' if len(slivers) > 1 else 'is a sliver'}; the narrowest is piece {least.number}, "
        f"{least.along_mm:.0f} × {least.across_mm:.0f} mm.",
        min(least.along_mm, least.across_mm),
        figure.value,
        "mm",
        figure,
        at_mm=least.shape.centre_mm,
    ).with_options(
        (
            *_shift(shop),
            Option("Move the free edge by the width of the sliver, if the job allows."),
            Option("Take the difference up in a border or in wider joints within their range."),
        )
    )


def _shift(shop: Workshop) -> tuple[Option, ...]:
    """Return the shift of the whole pattern that leaves fewest slivers, then fewest cuts, if it is better.

    The best starts by the count of the kernel are really clipped before one is reported; a border stays as it is.
    """
    setting, laying = shop.setting, shop.laying
    if setting.rings is not None:
        ends = [units.millimetres_text(course.reach_mm) for course in setting.rings.courses[-2:]]
        words = f"Let it end where a ring ends: rings reach {' and '.join(ends)} from the centre."
        return (Option(words),) if ends else ()
    best = min(shop.starts, default=None)
    if best is None or best.counts >= shop.now:
        return ()
    narrow, slivers, cut = best.counts
    left = {0: "no sliver is", 1: "1 sliver is"}.get(slivers, f"{slivers} slivers are")
    words = (
        f"Shift the pattern {best.along_mm:.1f} mm along and {best.across_mm:.1f} mm across the courses: {left} left"
    )
    if narrow:
        words += f", {narrow} too narrow to be cut"
    shifted = (
        FieldChange(f"{shop.area.path}.laying.shift_along_mm", round(laying.shift_along_mm + best.along_mm, 2)),
        FieldChange(f"{shop.area.path}.laying.shift_across_mm", round(laying.shift_across_mm + best.across_mm, 2)),
    )
    return (Option(f"{words}, with {cut} cut pieces in all; the best of {shop.starts_tried} starts tried.", shifted),)
