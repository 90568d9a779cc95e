"""What is noticed about a laying plan."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import shapely

from pavewright import units
from pavewright.findings import FieldChange, Finding, Severity, Way
from pavewright.laying._pattern_findings import under_wheels, woven_joints
from pavewright.laying._pieces import is_sliver, is_whole, sizes
from pavewright.laying._rings import ring_findings
from pavewright.laying._setting import covered, limits_of
from pavewright.laying.search import best_shifts, field_of

if TYPE_CHECKING:
    from pavewright.geometry import FoldedSurface
    from pavewright.job import PavingUnit
    from pavewright.laying._setting import Setting
    from pavewright.laying._types import Piece
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea

_NAMED = 5
"""Pieces named in a finding; the laying plan shows the rest."""
_MOST_SHIFTS = 500
"""About so many shifts are counted when slivers are found: the whole search is asked for by itself."""
_CLIPPED = 2
"""So many of the best of them are really clipped."""


def laying_findings(
    area: PlanArea, setting: Setting, pieces: tuple[Piece, ...], rules: Rulebook
) -> tuple[Finding, ...]:
    """Return findings on slivers, joints and weight."""
    found: list[Finding] = []
    slivers = [piece for piece in pieces if piece.sliver]
    if slivers:
        found.append(_slivers(area, setting, pieces, slivers, rules))
    for unit in setting.units:
        found += _of_unit(area, unit, rules)
    if setting.rings is not None:
        found += ring_findings(area, setting.rings, setting.units)
    return (*found, *woven_joints(area, setting), *under_wheels(area, setting, pieces, rules))


def _of_unit(area: PlanArea, unit: PavingUnit, rules: Rulebook) -> list[Finding]:
    """Return findings on the joints that a unit takes, and on its weight."""
    found: list[Finding] = []
    joint = area.area.laying.joint_mm
    if not unit.joint_least_mm <= joint <= unit.joint_most_mm:
        found.append(
            Finding(
                "laying.joint_out_of_range",
                Severity.CHECK,
                f"area {area.name}",
                f"A joint of {units.millimetres_text(joint)} is asked for; {unit.name} takes "
                f"{units.millimetres_text(unit.joint_least_mm)} to {units.millimetres_text(unit.joint_most_mm)}.",
                joint,
                unit.joint_least_mm if joint < unit.joint_least_mm else unit.joint_most_mm,
                "mm",
            ).with_ways((Way("Change the joint.", _other_joint(area, unit)),))
        )
    lift = rules.figure("laying.one_person_kg")
    if unit.kg_each > lift.value:
        found.append(
            Finding(
                "laying.two_person_lift",
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
    joint = min(max(area.area.laying.joint_mm, unit.joint_least_mm), unit.joint_most_mm)
    return (FieldChange(f"{area.path}.laying.joint_mm", joint),)


def fold_findings(area: PlanArea, surface: FoldedSurface, pieces: tuple[Piece, ...]) -> tuple[Finding, ...]:
    """Return a note where units lie across a fold: no flat unit follows it, so they are cut along it."""
    folds = shapely.MultiLineString([(fold.start, fold.end) for fold in surface.folds])
    if folds.is_empty:
        return ()
    inner = [piece.shape.polygon.buffer(-_JOINT_MM) for piece in pieces]
    crossed = [piece for piece, polygon in zip(pieces, inner, strict=True) if polygon.intersects(folds)]
    if not crossed:
        return ()
    length_m = sum(units.mm_to_m(piece.shape.polygon.intersection(folds).length) for piece in crossed)
    return (
        Finding(
            "laying.units_cross_fold",
            Severity.NOTE,
            f"area {area.name}",
            f"{len(crossed)} units of {area.name} lie across a fold: cut each along it and lay both parts, "
            f"{length_m:.1f} m of cut. The counts of pieces do not hold these cuts.",
            float(len(crossed)),
            ways_out=("Shift the pattern so that a joint lies in the fold.", "Lay the fold as a course of its own."),
            at_mm=crossed[0].shape.centre_mm,
        ),
    )


_JOINT_MM = 3.0
"""A fold this near to the edge of a unit lies in its joint. [mm]"""


def _slivers(
    area: PlanArea, setting: Setting, pieces: tuple[Piece, ...], slivers: list[Piece], rules: Rulebook
) -> Finding:
    figure = rules.figure("laying.sliver_mm")
    least = min(slivers, key=lambda piece: min(piece.along_mm, piece.across_mm))
    named = ", ".join(str(piece.number) for piece in slivers[:_NAMED])
    more = f" and {len(slivers) - _NAMED} more" if len(slivers) > _NAMED else ""
    cuts = sum(piece.kind.value == "cut" for piece in pieces)
    return Finding(
        "laying.slivers",
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
    ).with_ways(
        (
            *_shift(area, setting, pieces, rules),
            Way("Move the free edge by the width of the sliver, if the job allows."),
            Way("Take the difference up in a border or in wider joints within their range."),
        )
    )


def _shift(area: PlanArea, setting: Setting, pieces: tuple[Piece, ...], rules: Rulebook) -> tuple[Way, ...]:
    """Return the shift of the whole pattern that leaves fewest slivers, then fewest cuts, if it is better.

    The best starts by the count of the kernel are really clipped before one is told; a border stays as it is.
    """
    if setting.rings is not None:
        ends = [units.millimetres_text(course.reach_mm) for course in setting.rings.courses[-2:]]
        words = f"Let it end where a ring ends: rings reach {' and '.join(ends)} from the centre."
        return (Way(words),) if ends else ()
    if setting.mixed is not None:
        return ()  # another start is another layout
    limits = limits_of(setting, rules)
    field = field_of(setting.field, setting.layout, limits)
    found = best_shifts(field, setting.layout.period_mm, limits, _MOST_SHIFTS, _CLIPPED)
    now = sum(piece.sliver for piece in pieces), sum(piece.kind.value == "cut" for piece in pieces)
    edging = [piece for piece in pieces if piece.border and piece.kind.value == "cut"]
    border = sum(piece.sliver for piece in edging), len(edging)
    shifts = [(float(along), float(across)) for along, across in found.shifts]
    scores = [(*_clipped(setting, along, across, border, rules), along, across) for along, across in shifts]
    best = min(scores, default=(*now, 0.0, 0.0))
    if best[:2] >= now:
        return ()
    left = {0: "no sliver is", 1: "1 sliver is"}.get(best[0], f"{best[0]} slivers are")
    wide, deep = setting.layout.period_mm
    along = -best[2] % wide if setting.layout.from_right else best[2]
    across = -best[3] % deep if setting.layout.from_far else best[3]
    words = f"Shift the pattern {along:.1f} mm along and {across:.1f} mm across the courses: {left} left"
    laying = area.area.laying
    shifted = (
        FieldChange(f"{area.path}.laying.shift_along_mm", round(laying.shift_along_mm + along, 2)),
        FieldChange(f"{area.path}.laying.shift_across_mm", round(laying.shift_across_mm + across, 2)),
    )
    return (Way(f"{words}, with {best[1]} cut pieces in all; the best of {found.tried} starts tried.", shifted),)


def _clipped(
    setting: Setting, along_mm: float, across_mm: float, border: tuple[int, int], rules: Rulebook
) -> tuple[int, int]:
    """Return slivers and cut pieces of a pattern shifted so far, by really clipping it, and those of its border."""
    limits = [sizes(unit.length_mm, unit.width_mm, rules) for unit in setting.units]
    moved = replace(setting, layout=setting.layout.moved(along_mm, across_mm), strips=())
    parts = [each for each in covered(moved, rules, whole_too=False) if not is_whole(each, limits[each.size])]
    slivers = sum(is_sliver(each.on_unit, limits[each.size]) for each in parts)
    return border[0] + slivers, border[1] + len(parts)
