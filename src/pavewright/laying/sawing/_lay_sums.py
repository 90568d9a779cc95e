"""The sums behind the counts of a laid area, and the length of its joints."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

import shapely

from pavewright import units
from pavewright.laying.setting import ring_joints_m
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.laying._types import Piece, UnitCount
    from pavewright.laying.cutting import SawnUnit
    from pavewright.laying.sawing._sawn_units import SawnUnits
    from pavewright.laying.setting import Setting
    from pavewright.rules import Figure
    from pavewright.survey import PlanArea


def with_workings(saw: SawnUnits, pieces: tuple[Piece, ...], kerf: Figure) -> tuple[UnitCount, ...]:
    """Return the counts of an area, each with the sum behind its units with offcuts."""
    unit_of = {piece.number: piece.unit for piece in pieces}
    several = len(saw.counts) > 1
    return tuple(
        replace(
            count,
            workings=(_with_offcuts(count, f" of {count.unit}" if several else "", saw.sawn, unit_of, kerf),),
        )
        for count in saw.counts
    )


def workings_of(
    area: PlanArea, saw: SawnUnits, counts: tuple[UnitCount, ...], pieces: tuple[Piece, ...]
) -> tuple[Working, ...]:
    """Return the sums behind the counts of an area, for each paving unit that it takes."""
    found: list[Working] = []
    unit_of = {piece.number: piece.unit for piece in pieces}
    for count in counts:
        mine = [piece for piece in pieces if piece.unit == count.unit]
        of = f" of {count.unit}" if len(counts) > 1 else ""
        found += count.workings
        if not mine:
            continue
        paved = sum(piece.area_m2 for piece in mine)
        less = f"({paved:.3f} − {count.left_overs_m2:.3f} of left-overs)" if count.left_overs_m2 else f"{paved:.3f}"
        found.append(
            Working(
                f"units{of} without offcuts = {count.whole} whole + {count.cut} cut",
                count.units_each_cut_new,
                "units",
                (),
                "a new unit for each cut",
            )
        )
        if not any(one.unit != count.unit and unit_of[one.parts[0].piece] == count.unit for one in saw.sawn):
            words = "area of all pieces over area of a unit, rounded up"
            found.append(Working(f"units{of} at least = {less} / area of one", count.min_units, "units", (), words))
            found.append(_bound(count.units_with_offcuts, count.units_bound, count.cut))
        if area.area.laying.factory_edges:
            words = "saw plan that keeps them less the one that does not"
            found.append(Working(f"factory edges in the joints{of}", count.units_more_edges, "units more", (), words))
    total, paved = area.laid_m2, sum(piece.area_m2 for piece in pieces)
    words = "area less the area of all pieces"
    joints = Working(f"joints = {total:.3f} − {paved:.3f}", total - paved, "m²", (), words)
    return (*found, *saw.workings, joints)


def _with_offcuts(
    count: UnitCount, of: str, sawn: tuple[SawnUnit, ...], unit_of: dict[int, str], kerf: Figure
) -> Working:
    """Return how many of a unit are needed: laid whole, sawn for its own pieces, sawn for those of another unit."""
    new = [one for one in sawn if not one.left_over_of and one.unit == count.unit]
    lent = Counter(unit_of[one.parts[0].piece] for one in new if unit_of[one.parts[0].piece] != count.unit)
    own = len(new) - sum(lent.values())
    elsewhere = Counter(
        "left-overs" if one.left_over_of else one.unit
        for one in sawn
        for part in one.parts
        if unit_of[part.piece] == count.unit and (one.left_over_of or one.unit != count.unit)
    )
    terms = [f"{count.whole} whole + {own} sawn"] if count.whole or count.cut else []
    terms += [f"{many} sawn for {name}" for name, many in lent.items()]
    cut = count.cut - sum(elsewhere.values())
    beside = "".join(f", {many} out of {name}" for name, many in elsewhere.items())
    note = f"{cut} pieces are cut from {own} units{beside}" if count.cut else ""
    expression = f"units{of} with offcuts = {' + '.join(terms)}"
    return Working(expression, count.units_with_offcuts, "units", (kerf,), note)


def _bound(needed: int, bound: int, cut: int) -> Working:
    """Return how far the number of units may still be from the fewest."""
    units_needed = f"{needed} unit{'s' if needed > 1 else ''}"
    words = "fewer is impossible" if needed == bound else f"fewer than {bound} is impossible"
    return Working(
        f"{units_needed}; {words}",
        needed - bound,
        "units",
        (),
        "saw plan less the bound by dual-feasible functions, column generation and area" if cut else "no unit is cut",
    )


def joint_length_m(area: PlanArea, setting: Setting, pieces: tuple[Piece, ...], joint_m2: float) -> float:
    """Return the length of joints between and round the pieces: their area over their width, plus the gap at the edge.

    Crossings are counted once; a joint that is wider than the rest counts by its width. With no joint width, the
    courses and ends themselves are not measured and it is zero.
    """
    gap, joint_mm = area.area.laying.wall_joint_mm, setting.layout.bond.joint_mm
    if setting.rings is not None:
        edge_m = units.mm_to_m(float(shapely.length(setting.clear))) if gap > 0.0 else 0.0
        return ring_joints_m(pieces, setting.units) + edge_m
    edge_mm = float(shapely.length(setting.clear)) if gap > 0.0 else 0.0
    edge_m2 = area.laid_m2 - units.mm2_to_m2(float(shapely.area(setting.clear))) if gap > 0.0 else 0.0
    between_m2 = max(joint_m2 - edge_m2, 0.0)
    between_mm = between_m2 * units.MM2_PER_M2 / joint_mm if joint_mm > 0.0 else 0.0
    return units.mm_to_m(between_mm + edge_mm)
