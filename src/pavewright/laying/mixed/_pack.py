"""A pack as it is sold, set on its module and checked against the area that it is said to cover."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.laying.mixed._sums_mixed import pack_coverage
from pavewright.laying.mixed._types import MixedRefusal, MixRules, Pack, PackSize, Spread
from pavewright.sums import SumRefusedError

if TYPE_CHECKING:
    from pavewright.laying._figures import MixFigures


@dataclass(frozen=True, slots=True)
class SoldSize:
    """One size of a pack as the seller lists it.

    Attributes:
        name: Its name.
        length_mm: Work size. [mm]
        width_mm: Work size. [mm]
        per_pack: How many one pack holds.
    """

    name: str
    length_mm: float
    width_mm: float
    per_pack: int


def pack_of(
    sizes: tuple[SoldSize, ...], module_mm: float, joint_mm: float, stated_m2: float, known: MixFigures
) -> Pack | MixedRefusal:
    """Return a pack on its module, or why it does not add up.

    Args:
        sizes: Sizes as sold.
        module_mm: Side of a cell, joint included. [mm]
        joint_mm: Joint. [mm]
        stated_m2: Area that one pack is said to cover; zero where it is not said. [m²]
        known: Figures of mixed sizes.
    """
    if not sizes or module_mm <= joint_mm or any(size.per_pack < 1 for size in sizes):
        return _refused("Give one size or more, one unit or more of each, and a module that is wider than the joint.")
    found = []
    most_off = known.pack_module_off_mm.value
    for size in sizes:
        longer, shorter = max(size.length_mm, size.width_mm), min(size.length_mm, size.width_mm)
        cells = [round((side + joint_mm) / module_mm) for side in (longer, shorter)]
        off = [abs((side + joint_mm) - count * module_mm) for side, count in zip((longer, shorter), cells, strict=True)]
        if min(cells) < 1 or max(off) > most_off:
            module = units.millimetres_text(module_mm)
            return _refused(f"{size.name} with its joint is not a whole number of modules of {module}: measure one.")
        found.append(PackSize(size.name, longer, shorter, size.per_pack, cells[0], cells[1]))
    tolerance = known.pack_off_part.value
    lengths, widths = tuple(size.length_mm for size in sizes), tuple(size.width_mm for size in sizes)
    counts = tuple(float(size.per_pack) for size in sizes)
    try:
        pack_coverage(lengths, widths, counts, joint_mm, stated_m2, 100.0 * tolerance)
    except SumRefusedError as refused:
        return _refused(str(refused))
    return Pack(tuple(found), module_mm, joint_mm)


def mix_rules(pack: Pack, known: MixFigures) -> MixRules:
    """Return the rules of a random layout by the rulebook, the longest joint in whole cells."""
    spread = Spread(
        int(known.mix_band_cells.value),
        known.mix_band_share.value,
        int(known.mix_band_more_units.value),
    )
    return MixRules(
        int(known.longest_joint_mm.value // pack.module_mm),
        even_spread=spread,
        max_bay_m2=known.mix_bay_m2.value,
    )


def _refused(words: str) -> MixedRefusal:
    return MixedRefusal(words, None, proved=True)
