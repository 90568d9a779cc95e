"""What is noticed about the pattern of an area: joints that it opens, and what it bears under wheels."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import FieldChange, Finding, Option, Severity, worded
from pavewright.job import UnitKind, Use
from pavewright.laying._codes import Code
from pavewright.laying._types import PieceKind

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
    ways = [Option("Choose a unit whose length is its widths and their joints together.")]
    if unit.joint_min_mm <= fitting <= unit.joint_max_mm:
        words = f"Lay with joints of {fitting:.1f} mm: the widest is then {unit.joint_max_mm:.1f} mm."
        joint = max(math.floor(fitting * 10.0 + _ROUNDING_MM) / 10.0, unit.joint_min_mm)
        ways.insert(0, Option(words, (FieldChange(f"{area.path}.laying.joint_mm", joint),)))
    return (
        Finding(
            Code.WOVEN_JOINT,
            Severity.CHECK,
            f"area {area.name}",
            f"{bond.side_by_side} widths of {unit.name} with their joints are not one length: joints of "
            f"{widest:.1f} mm open in the {area.area.laying.pattern.value}; it takes {unit.joint_max_mm:.1f} mm.",
            widest,
            unit.joint_max_mm,
            "mm",
        ).with_options(ways),
    )


_ROUNDING_MM = 1e-6
"""Rounding of the arithmetic. [mm]"""


def _percent(part: float) -> str:
    """Return a part in words of per cent, the smallest as under one."""
    return f"{100.0 * part:.0f} %" if part >= _ONE_PERCENT else "under 1 %"


_ONE_PERCENT = 0.01


def under_wheels(
    area: PlanArea, setting: Setting, pieces: tuple[Piece, ...], known: LayingFigures
) -> tuple[Finding, ...]:
    """Return findings on small pieces, and on a bond that does not lock, where vehicles run."""
    if area.area.use is Use.FOOT:
        return ()
    found: list[Finding] = []
    figure = known.min_part_wheels
    whole_m2 = {unit.name: units.mm2_to_m2(unit.length_mm * unit.width_mm) for unit in setting.units}
    parts = [(piece.area_m2 / whole_m2[piece.unit], piece) for piece in pieces if piece.kind is PieceKind.CUT]
    small = [(part, piece) for part, piece in parts if part < figure.value]
    if small:
        least, piece = min(small, key=lambda each: (each[0], each[1].number))
        found.append(
            Finding(
                Code.SMALL_UNDER_WHEELS,
                Severity.CHECK,
                f"area {area.name}",
                f"{len(small)} cut pieces of {area.name} are smaller than a third of a unit; wheels tip and loosen "
                f"them. The smallest is piece {piece.number}, {_percent(least)} of a unit.",
                least,
                figure.value,
                "-",
                figure,
                options=worded(
                    (
                        "Cut the unit beside it as well, so that two pieces of more than a third take its place.",
                        "Begin elsewhere: the search for the best starts shows what each start leaves.",
                    )
                ),
                at_mm=piece.shape.centre_mm,
            )
        )
    if setting.units[0].kind is not UnitKind.FLAG and not area.area.laying.pattern.traits.locks:
        found.append(
            Finding(
                Code.BOND_UNDER_WHEELS,
                Severity.NOTE,
                f"area {area.name}",
                f"{area.name} bears vehicles and is laid in {area.area.laying.pattern.value} bond: herringbone holds "
                f"best against braking and turning wheels.",
            ).with_options(
                (Option("Lay it in herringbone.", (FieldChange(f"{area.path}.laying.pattern", "herringbone"),)),)
            )
        )
    return tuple(found)
