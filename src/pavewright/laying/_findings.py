"""What is noticed about a laying plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.laying._cells import clip
from pavewright.laying._pieces import is_crumb, is_sliver, is_whole, sizes

if TYPE_CHECKING:
    from shapely.geometry import Polygon

    from pavewright.geometry import FoldedSurface
    from pavewright.job import PavingUnit
    from pavewright.laying._cells import Grid
    from pavewright.laying._pieces import Sizes
    from pavewright.laying._types import Piece
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea

_NAMED = 5
"""Pieces named in a finding; the laying plan shows the rest."""
_STEPS = 6
"""Shifts tried along and across when slivers are found, in equal parts of a unit."""


def laying_findings(
    area: PlanArea, unit: PavingUnit, region: Polygon, grid: Grid, pieces: tuple[Piece, ...], rules: Rulebook
) -> tuple[Finding, ...]:
    """Return findings on slivers, joints and weight."""
    found: list[Finding] = []
    slivers = [piece for piece in pieces if piece.sliver]
    if slivers:
        found.append(_slivers(area, region, grid, pieces, slivers, rules))
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
                ways_out=("Change the joint.",),
            )
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
    return tuple(found)


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
    area: PlanArea, region: Polygon, grid: Grid, pieces: tuple[Piece, ...], slivers: list[Piece], rules: Rulebook
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
        ways_out=(
            *_shift(region, grid, len(slivers), cuts, rules),
            "Move the free edge by the width of the sliver, if the job allows.",
            "Take the difference up in a border or in wider joints within their range.",
        ),
        at_mm=least.shape.centre_mm,
    )


def _score(
    region: Polygon, grid: Grid, along_mm: float, across_mm: float, limits: Sizes
) -> tuple[int, int, float, float]:
    """Return slivers, cut pieces and the shift itself, for a pattern shifted so far."""
    moved = grid.moved(along_mm, across_mm)
    parts = [
        each
        for each in clip(region, moved, whole_too=False)
        if not is_crumb(each, limits) and not is_whole(each, moved, limits)
    ]
    return sum(is_sliver(each.part, limits) for each in parts), len(parts), along_mm, across_mm


def _shift(region: Polygon, grid: Grid, slivers: int, cuts: int, rules: Rulebook) -> tuple[str, ...]:
    """Return the shift of the whole pattern that leaves fewest slivers, then fewest cuts, if it is better.

    Tried are equal parts of a unit along, then across: a first answer, not a search for the best.
    """
    limits = sizes(grid, rules)
    best = (slivers, cuts, 0.0, 0.0)
    along = np.linspace(0.0, grid.pitch_x_mm, _STEPS, endpoint=False).tolist()
    across = np.linspace(0.0, grid.pitch_y_mm, _STEPS, endpoint=False).tolist()
    best = min(best, *(_score(region, grid, k, 0.0, limits) for k in along[1:]))
    best = min(best, *(_score(region, grid, best[2], m, limits) for m in across[1:]))
    if best[:2] >= (slivers, cuts):
        return ()
    left = {0: "no sliver is", 1: "1 sliver is"}.get(best[0], f"{best[0]} slivers are")
    words = f"Shift the pattern {best[2]:.0f} mm along and {best[3]:.0f} mm across the courses: {left} left"
    return (f"{words}, with {best[1]} cut pieces in all.",)
