"""Tapes that prove the setting out: sides, diagonals, a right angle and offsets of arcs."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.geometry import distance
from pavewright.setting_out._types import TapeCheck

if TYPE_CHECKING:
    from pavewright.geometry import Side
    from pavewright.rules import Rulebook
    from pavewright.setting_out._base_line import BaseLine
    from pavewright.survey import PlanArea

_THREE, _FOUR, _FIVE = 3, 4, 5
_TRIANGLE_STEP_MM = 100.0
"""Sides of the right-angle triangle go up in whole multiples of this. [mm]"""


def checks(area: PlanArea, base: BaseLine, rules: Rulebook) -> tuple[TapeCheck, ...]:
    """Return every distance to be taped on one area."""
    found: list[TapeCheck] = []
    for side in area.sides:
        start, end = side.start, side.end
        found.append(
            TapeCheck(
                f"{start.name}–{end.name}",
                area.name,
                "side",
                start.name,
                end.name,
                side.chord_mm,
                f"{start.name} to {end.name}: {units.metres_text(side.chord_mm)}"
                + (" straight across the arc" if start.rise_mm else ""),
            )
        )
    found.extend(_diagonals(area, base))
    found.extend(_triangle(area, base))
    for side in area.sides:
        if side.start.rise_mm != 0.0:
            found.extend(_offsets(area, side, rules))
    return tuple(found)


def _diagonals(area: PlanArea, base: BaseLine) -> list[TapeCheck]:
    """Return tapes from both ends of the base line to every corner that no side joins to them."""
    joined = {frozenset((side.start.name, side.end.name)) for side in area.sides}
    found = []
    for end in (base.side.start, base.side.end):
        for corner in area.ring.corners:
            pair = frozenset((end.name, corner.name))
            if corner.name == end.name or pair in joined:
                continue
            joined.add(pair)
            length = distance(end.xy, corner.xy)
            words = f"{end.name} to {corner.name}: {units.metres_text(length)}"
            found.append(
                TapeCheck(f"{end.name}–{corner.name}", area.name, "diagonal", end.name, corner.name, length, words)
            )
    return found


def _triangle(area: PlanArea, base: BaseLine) -> list[TapeCheck]:
    """Return the largest 3-4-5 triangle at the start of the base line that the area has room for.

    Source: definition, 3² + 4² = 5²
    """
    deep = max(base.measures(point)[1] for point in area.gross.outer)
    times = math.floor(min(base.side.chord_mm / _THREE, deep / _FOUR) / _TRIANGLE_STEP_MM + 1e-9)
    if times < 1:
        return []
    unit = times * _TRIANGLE_STEP_MM
    start = base.side.start.name
    words = (
        f"Square at {start}: {units.metres_text(_THREE * unit)} along {base.name}, {units.metres_text(_FOUR * unit)} "
        f"square off it, {units.metres_text(_FIVE * unit)} across"
    )
    return [TapeCheck(f"3-4-5 at {start}", area.name, "triangle", start, base.side.end.name, _FIVE * unit, words)]


def _offsets(area: PlanArea, side: Side, rules: Rulebook) -> list[TapeCheck]:
    """Return offsets from the chord to the arc, from the middle of the chord to both sides.

    Source: definition, offset = √(R² − x²) − (R − rise)
    """
    spacing = rules.value("setting_out.arc_spacing_mm") / 2.0
    chord, rise, radius = side.chord_mm, abs(side.start.rise_mm), side.radius_mm
    if rise > chord / 2.0:
        return []
    parts = 2 * max(1, math.ceil(chord / (2.0 * spacing) - 1e-9))
    way = "out of" if side.start.rise_mm > 0.0 else "into"
    found = []
    for k in range(1, parts):
        along = chord * k / parts
        off = math.sqrt(radius * radius - (along - chord / 2.0) ** 2) - (radius - rise)
        words = (
            f"{units.metres_text(along)} from {side.start.name} on the line {side.name}: {units.metres_text(off)} "
            f"square {way} the area to the arc"
        )
        found.append(TapeCheck(f"arc {side.name} {k}", area.name, "offset", side.start.name, side.end.name, off, words))
    return found
