"""Tapes that prove the setting out: base line, sides, diagonals, a right angle and offsets of arcs.

A tape through a house, a post or a tree is no check. Only tapes that can be pulled straight are asked for; a corner
that no two of them fix is reported.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.setting_out._fixing import Station, of_the_order, station_of, tape_check
from pavewright.setting_out._types import HouseInTheWay, InTheWay, TapeCheck, TapeKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import Corner, Side
    from pavewright.setting_out._base_line import Base
    from pavewright.setting_out._figures import SetOutFigures
    from pavewright.setting_out._sight import Surroundings
    from pavewright.setting_out.errors import WorkStep
    from pavewright.survey import PlanArea

_THREE, _FOUR, _FIVE = 3, 4, 5
_TRIANGLE_STEP_MM = 100.0
"""Sides of the right-angle triangle go up in whole multiples of this. [mm]"""


@dataclass(frozen=True, slots=True)
class Taped:
    """The tapes of an area, the corners that they do not fix, and the houses that tapes are kept out of."""

    checks: tuple[TapeCheck, ...]
    unproven: tuple[Corner, ...]
    houses: tuple[HouseInTheWay, ...]


def tapes(
    area: PlanArea,
    base: Base,
    base_pegs: tuple[str, str],
    steps: Sequence[WorkStep],
    around: Surroundings,
    figures: SetOutFigures,
) -> Taped:
    """Return every distance to be taped on one area, and the corners that no two of them fix."""
    ends = (Station(base_pegs[0], base.start), Station(base_pegs[1], base.end))
    found: list[TapeCheck] = []
    if base.own_pegs:
        found.append(tape_check(area, TapeKind.BASE, *ends))
    for side in area.sides:
        if around.between(side.start.xy, side.end.xy) is None:
            tail = " straight across the arc" if side.start.rise_mm else ""
            found.append(tape_check(area, TapeKind.SIDE, station_of(side.start), station_of(side.end), tail))
    pairs, unproven = of_the_order(area, ends, steps)
    found += pairs
    found += _diagonals(area, base, around, found)
    found.extend(_triangle(area, base, around))
    for side in area.sides:
        if side.start.rise_mm != 0.0 and around.between(side.start.xy, side.end.xy) is None:
            found.extend(_offsets(area, side, figures))
    starts = (*ends, station_of(base.side.start), station_of(base.side.end))
    return Taped(tuple(found), unproven, _houses(area, starts, around, figures))


def _houses(
    area: PlanArea, starts: tuple[Station, ...], around: Surroundings, figures: SetOutFigures
) -> tuple[HouseInTheWay, ...]:
    """Return the houses that the sides and the tapes from the starting places to the corners would run through."""
    places = {frozenset((start.at, corner.xy)) for start in starts for corner in area.ring.corners}
    places |= {frozenset((side.start.xy, side.end.xy)) for side in area.sides}
    pairs = sorted(tuple(sorted(pair)) for pair in places)
    met = [around.between(pair[0], pair[-1]) for pair in pairs]
    counted = Counter(each.name for each in met if each is not None and each.kind is InTheWay.HOUSE)
    deep = figures.behind_wall.value
    return tuple(
        HouseInTheWay(
            area.name,
            wall,
            deep,
            refused,
            f"{refused} tape{'' if refused == 1 else 's'} of {area.name} would run behind wall {wall} and "
            f"{'is' if refused == 1 else 'are'} not asked for: the ground there is taken for house, "
            f"{units.mm_to_m(deep):g} m deep or as far as the next wall entered. Where it is open, pull "
            f"{'it' if refused == 1 else 'them'} too.",
        )
        for wall, refused in counted.items()
    )


def _diagonals(area: PlanArea, base: Base, around: Surroundings, taken: list[TapeCheck]) -> list[TapeCheck]:
    """Return tapes from both ends of the side beside the base line to every corner that no tape joins to them."""
    joined = {frozenset((each.start_at, each.end_at)) for each in taken}
    joined |= {frozenset((side.start.xy, side.end.xy)) for side in area.sides}
    found = []
    for end in (base.side.start, base.side.end):
        for corner in area.ring.corners:
            pair = frozenset((end.xy, corner.xy))
            if corner is end or pair in joined or around.between(end.xy, corner.xy) is not None:
                continue
            joined.add(pair)
            found.append(tape_check(area, TapeKind.DIAGONAL, station_of(end), station_of(corner)))
    return found


def _triangle(area: PlanArea, base: Base, around: Surroundings) -> list[TapeCheck]:
    """Return the largest 3-4-5 triangle at the start of the base line that the area has room for.

    Source: definition, 3² + 4² = 5²
    """
    offsets = [base.measures(point)[1] for point in area.gross.outer]
    way = 1.0 if max(offsets) >= -min(offsets) else -1.0
    deep = max(way * offset for offset in offsets)
    times = math.floor(min(base.length_mm / _THREE, deep / _FOUR) / _TRIANGLE_STEP_MM + 1e-9)
    for count in range(times, 0, -1):
        unit = count * _TRIANGLE_STEP_MM
        foot, top = base.place(_THREE * unit, 0.0), base.place(0.0, way * _FOUR * unit)
        if around.between(foot, top) is not None or around.between(base.start, top) is not None:
            continue
        start = base.start_name
        words = (
            f"Square at {start}: {units.metres_text(_THREE * unit)} m along the base line, "
            f"{units.metres_text(_FOUR * unit)} m square off it to the {'left' if way > 0.0 else 'right'}, "
            f"{units.metres_text(_FIVE * unit)} m across"
        )
        name = f"3-4-5 at {start}"
        return [TapeCheck(name, area.name, TapeKind.TRIANGLE, start, start, foot, top, _FIVE * unit, words)]
    return []


def _offsets(area: PlanArea, side: Side, figures: SetOutFigures) -> list[TapeCheck]:
    """Return offsets from the chord to the arc, from the middle of the chord to both sides.

    Source: definition, offset = √(R² − x²) − (R − rise)
    """
    spacing = figures.arc_spacing_mm / 2.0
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
            f"{units.metres_text(along)} m from {side.start.name} on the line {side.name}: {units.metres_text(off)} m "
            f"square {way} the area to the arc"
        )
        start, end = station_of(side.start), station_of(side.end)
        name = f"arc {side.name} {k}"
        found.append(TapeCheck(name, area.name, TapeKind.OFFSET, start.name, end.name, start.at, end.at, off, words))
    return found
