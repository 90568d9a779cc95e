"""How much at random a layout looks, in figures."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.laying.mixed._types import MixedLayout, Pack


@dataclass(frozen=True, slots=True)
class MixLook:
    """Figures of a layout that show whether it looks laid at random.

    Attributes:
        longest_joint_mm: Longest straight joint. [mm]
        equal_neighbour_part: Part of the units that touch a unit of their own size along a side. [-]
        units_per_m2: Units of each size in a square metre. [1/m²]
    """

    longest_joint_mm: float
    equal_neighbour_part: float
    units_per_m2: tuple[float, ...]


def mix_look(layout: MixedLayout, pack: Pack) -> MixLook:
    """Return the figures of a layout.

    Args:
        layout: A layout with one unit or more.
        pack: Its pack.
    """
    owner: dict[tuple[int, int], int] = {}
    for number, unit in enumerate(layout.placed):
        for row in range(unit.row, unit.row + unit.deep_cells):
            for column in range(unit.column, unit.column + unit.wide_cells):
                owner[row, column] = number
    alike: set[int] = set()
    for (row, column), one in owner.items():
        for beside in ((row + 1, column), (row, column + 1)):
            other = owner.get(beside, one)
            if other != one and layout.placed[other].size == layout.placed[one].size:
                alike |= {one, other}
    area_m2 = pack.coverage_of(len(owner))
    counted = Counter(unit.size for unit in layout.placed)
    return MixLook(
        layout.longest_joint_cells * pack.module_mm,
        len(alike) / len(layout.placed),
        tuple(counted[size] / area_m2 for size in range(len(pack.sizes))),
    )
