"""What is noticed about the pattern of an area: joints that it opens, and what it bears under wheels."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import FieldChange, Finding, Option, Severity, worded
from pavewright.job import Pattern, UnitKind, Use
from pavewright.laying._codes import Code
from pavewright.laying._types import PieceKind
from pavewright.laying.findings import _words as words

if TYPE_CHECKING:
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying._types import Piece
    from pavewright.laying.setting import Setting
    from pavewright.survey import PlanArea


def woven_joints(area: PlanArea, setting: Setting) -> tuple[Finding, ...]:
    """Return a finding where a woven pattern opens joints wider than its unit takes."""
    bond, unit = setting.layout.bond, setting.units[0]
    if not area.area.laying.pattern.traits.woven:
        return ()
    widest = bond.widest_woven_mm
    if widest <= unit.joint_max_mm + _ROUNDING_MM or widest <= bond.joint_mm + _ROUNDING_MM:
        return ()
    fitting = (unit.length_mm - bond.side_by_side * unit.width_mm + unit.joint_max_mm) / bond.side_by_side
    ways = [Option(words.other_unit_for_weaving())]
    if unit.joint_min_mm <= fitting <= unit.joint_max_mm:
        said = words.woven_with_joints(fitting, unit.joint_max_mm)
        joint = max(math.floor(fitting * 10.0 + _ROUNDING_MM) / 10.0, unit.joint_min_mm)
        ways.insert(0, Option(said, (FieldChange(f"{area.path}.laying.joint_mm", joint),)))
    return (
        Finding(
            Code.WOVEN_JOINT,
            Severity.CHECK,
            f"area {area.name}",
            words.woven_joint(bond.side_by_side, unit, widest, area.area.laying.pattern),
            widest,
            unit.joint_max_mm,
            "mm",
        ).with_options(ways),
    )


_ROUNDING_MM = 1e-6
"""Rounding of the arithmetic. [mm]"""


def under_wheels(
    area: PlanArea, setting: Setting, pieces: tuple[Piece, ...], known: LayingFigures
) -> tuple[Finding, ...]:
    """Return findings on small pieces, and on a bond that does not lock, where vehicles run."""
    if area.area.use is Use.FOOT:
        return ()
    return (*_small(area, setting, pieces, known), *_bond(area, setting))


def _small(area: PlanArea, setting: Setting, pieces: tuple[Piece, ...], known: LayingFigures) -> tuple[Finding, ...]:
    figure = known.min_part_wheels
    whole_m2 = {unit.name: units.mm2_to_m2(unit.length_mm * unit.width_mm) for unit in setting.units}
    parts = [(piece.area_m2 / whole_m2[piece.unit], piece) for piece in pieces if piece.kind is PieceKind.CUT]
    small = [(part, piece) for part, piece in parts if part < figure.value]
    if not small:
        return ()
    least, piece = min(small, key=lambda each: (each[0], each[1].number))
    return (
        Finding(
            Code.SMALL_UNDER_WHEELS,
            Severity.CHECK,
            f"area {area.name}",
            words.small_under_wheels(area.name, len(small), piece.number, 100.0 * least),
            least,
            figure.value,
            "-",
            figure,
            options=worded(words.larger_under_wheels()),
            at_mm=piece.shape.centre_mm,
        ),
    )


def _bond(area: PlanArea, setting: Setting) -> tuple[Finding, ...]:
    pattern = area.area.laying.pattern
    if setting.units[0].kind is UnitKind.FLAG or pattern.traits.locks:
        return ()
    herringbone = FieldChange(f"{area.path}.laying.pattern", Pattern.HERRINGBONE.value)
    said = words.bond_under_wheels(area.name, pattern)
    return (
        Finding(Code.BOND_UNDER_WHEELS, Severity.NOTE, f"area {area.name}", said).with_options(
            (Option(words.lay_in_herringbone(), (herringbone,)),)
        ),
    )
