"""What is noticed about a laying plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import FieldChange, Finding, Option, Severity
from pavewright.laying._codes import Code
from pavewright.laying._types import PieceKind
from pavewright.laying._words import pieces_of
from pavewright.laying.findings import _words as words
from pavewright.laying.findings._border_findings import border_findings
from pavewright.laying.findings._pattern_findings import under_wheels, woven_joints
from pavewright.laying.findings._ring_findings import ring_findings

if TYPE_CHECKING:
    from pavewright.job import PavingUnit
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying._types import Piece
    from pavewright.laying.setting import Workshop
    from pavewright.survey import PlanArea


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
    split = FieldChange(f"{area.path}.laying.split_corners", value=True)
    return Finding(
        Code.INNER_CORNERS,
        Severity.NOTE,
        pieces_of(area.name, [piece.number for piece in notched]),
        words.inner_corners(area.name, len(notched)),
        float(len(notched)),
        at_mm=notched[0].shape.centre_mm,
    ).with_options((Option(words.lay_as_two(), (split,)),))


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
                words.joint_out_of_range(joint, unit),
                joint,
                unit.joint_min_mm if joint < unit.joint_min_mm else unit.joint_max_mm,
                "mm",
            ).with_options((Option(words.change_joint(), _other_joint(area, unit)),))
        )
    lift = known.one_person_kg
    if unit.kg_each > lift.value:
        found.append(
            Finding(
                Code.TWO_PERSON_LIFT,
                Severity.NOTE,
                f"unit {unit.name}",
                words.two_person_lift(unit),
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
    cuts = sum(piece.kind is PieceKind.CUT for piece in pieces)
    return Finding(
        Code.SLIVERS,
        Severity.CHECK,
        pieces_of(area.name, [piece.number for piece in slivers]),
        words.slivers(area.name, len(slivers), cuts, least),
        min(least.along_mm, least.across_mm),
        figure.value,
        "mm",
        figure,
        at_mm=least.shape.centre_mm,
    ).with_options(
        (
            *_shift(shop),
            Option(words.move_free_edge()),
            Option(words.take_up_in_border()),
        )
    )


def _shift(shop: Workshop) -> tuple[Option, ...]:
    """Return the shift of the whole pattern that leaves fewest slivers, then fewest cuts, if it is better.

    The best starts by the count of the kernel are really clipped before one is reported; a border stays as it is.
    """
    setting, laying = shop.setting, shop.laying
    if setting.rings is not None:
        ends = [course.reach_mm for course in setting.rings.courses[-2:]]
        return (Option(words.end_with_a_ring(ends)),) if ends else ()
    best = min(shop.starts, default=None)
    if best is None or best.counts >= shop.now:
        return ()
    shifted = (
        FieldChange(f"{shop.area.path}.laying.shift_along_mm", round(laying.shift_along_mm + best.along_mm, 2)),
        FieldChange(f"{shop.area.path}.laying.shift_across_mm", round(laying.shift_across_mm + best.across_mm, 2)),
    )
    said = words.shift_pattern(best.along_mm, best.across_mm, best.counts, shop.starts_tried)
    return (Option(said, shifted),)
