"""The sums behind the counts of a laid area, and the length of its joints."""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely

from pavewright import units
from pavewright.laying._rings import ring_joints_m
from pavewright.laying._sawing import bound_working
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.laying._setting import Setting
    from pavewright.laying._types import Piece, UnitCount
    from pavewright.laying.cutting import SawnUnit
    from pavewright.rules import Figure
    from pavewright.survey import PlanArea


def workings_of(
    area: PlanArea,
    counts: tuple[UnitCount, ...],
    pieces: tuple[Piece, ...],
    sawn: tuple[SawnUnit, ...],
    kerf: Figure,
) -> tuple[Working, ...]:
    """Return the sums behind the counts of an area, for each paving unit that it takes."""
    found: list[Working] = []
    from_left = {part.piece for one in sawn if one.left_over_of for part in one.parts}
    for count in counts:
        mine = [piece for piece in pieces if piece.unit == count.unit]
        paved = sum(piece.area_m2 for piece in mine)
        of = f" of {count.unit}" if len(counts) > 1 else ""
        new = count.units_with_offcuts - count.whole
        left = sum(piece.number in from_left for piece in mine)
        beside = f", {left} out of left-overs" if left else ""
        less = f"({paved:.3f} − {count.left_overs_m2:.3f} of left-overs)" if count.left_overs_m2 else f"{paved:.3f}"
        found += [
            Working(
                f"units{of} with offcuts = {count.whole} whole + {new} sawn",
                count.units_with_offcuts,
                "units",
                (kerf,),
                f"{count.cut - left} cut pieces come out of {new} units{beside}",
            ),
            Working(
                f"units{of} without offcuts = {count.whole} whole + {count.cut} cut",
                count.units_each_cut_new,
                "units",
                (),
                "a new unit for each cut",
            ),
            Working(
                f"units{of} at least = {less} / area of one",
                count.units_least,
                "units",
                (),
                "area of all pieces over area of a unit, rounded up",
            ),
            bound_working(count.units_with_offcuts, count.units_bound, count.cut),
        ]
        if area.area.laying.factory_edges:
            found.append(
                Working(
                    f"factory edges in the joints{of}",
                    count.units_more_edges,
                    "units more",
                    (),
                    "saw plan that keeps them less the one that does not",
                )
            )
    total, paved = area.shape.area_m2, sum(piece.area_m2 for piece in pieces)
    words = "area less the area of all pieces"
    return (*found, Working(f"joints = {total:.3f} − {paved:.3f}", total - paved, "m²", (), words))


def joint_length_m(area: PlanArea, setting: Setting, pieces: tuple[Piece, ...], joint_m2: float) -> float:
    """Return the length of joints between and round the pieces: their area over their width, plus the gap at the edge.

    Crossings are counted once; a joint that is wider than the rest counts by its width. With no joint width, the
    courses and ends themselves are not measured and it is nought.
    """
    gap, joint_mm = area.area.laying.wall_joint_mm, setting.layout.bond.joint_mm
    if setting.rings is not None:
        edge_m = units.mm_to_m(float(shapely.length(setting.region))) if gap > 0.0 else 0.0
        return ring_joints_m(pieces, setting.units) + edge_m
    edge_mm = float(shapely.length(setting.region)) if gap > 0.0 else 0.0
    edge_m2 = area.shape.area_m2 - units.mm2_to_m2(setting.region.area) if gap > 0.0 else 0.0
    between_m2 = max(joint_m2 - edge_m2, 0.0)
    between_mm = between_m2 * units.MM2_PER_M2 / joint_mm if joint_mm > 0.0 else 0.0
    return units.mm_to_m(between_mm + edge_mm)
