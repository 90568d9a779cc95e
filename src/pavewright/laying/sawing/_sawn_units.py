"""The units that are sawn for an area, and the counts of every paving unit that it takes."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.laying._types import PieceKind, UnitCount, joined_counts
from pavewright.laying.sawing._sawing import parts_to_saw
from pavewright.laying.yard import put_by, sawn_with_yard, useful
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import PavingUnit
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying._types import Piece
    from pavewright.laying.cutting import Part, SawnUnit, SawPlan
    from pavewright.laying.pieces import Frame
    from pavewright.laying.setting import Setting
    from pavewright.laying.yard import LeftOver, Stones


@dataclass(frozen=True)
class SawnUnits:
    """What is sawn for an area.

    Attributes:
        sawn: The units, numbered through.
        counts: The counts of each paving unit: those that are laid, then those that only stand in for them.
        left_overs: What is left and worth keeping.
        workings: Of units that may be cut from several sizes: which are taken, and how near that is to the least price.
    """

    sawn: tuple[SawnUnit, ...]
    counts: tuple[UnitCount, ...]
    left_overs: tuple[LeftOver, ...]
    workings: tuple[Working, ...]


def sawn_units(
    name: str,
    setting: Setting,
    pieces: tuple[Piece, ...],
    frame: Frame,
    known: LayingFigures,
    *,
    keep: bool,
    yard: list[LeftOver] | None,
) -> SawnUnits:
    """Return what is sawn for an area; left-overs are taken from the yard and put by in it where there is one.

    Args:
        name: Name of the area.
        setting: How it is laid.
        pieces: All its pieces.
        frame: The frame of the courses.
        known: Figures of this room.
        keep: Whether factory edges are kept in the joints.
        yard: What lies in the yard.
    """
    kerf_mm, min_mm = known.kerf_mm.value, known.left_over_min_mm.value
    sawn: list[SawnUnit] = []
    counts: list[UnitCount] = []
    kept: list[LeftOver] = []
    workings: list[Working] = []
    for unit, stones in zip(setting.units, setting.stones, strict=True):
        mine = [piece for piece in pieces if piece.unit == unit.name]
        if not mine:
            continue
        parts = parts_to_saw(mine, unit, frame, factory_edges=keep)
        whole = sum(piece.kind is PieceKind.WHOLE for piece in mine)
        saw, taken, sums = _cheapest(stones, parts, whole, kerf_mm, prove=yard is not None)
        workings += sums
        more = 0
        if keep:
            more = len(saw.sawn) - len(taken.sawn([replace(part, factory_sides=0) for part in parts], kerf_mm).sawn)
        lying = useful(yard or (), taken.names, parts)
        used: tuple[LeftOver, ...] = ()
        if lying:
            saw, used = sawn_with_yard(saw, parts, taken, lying, kerf_mm)
        own = [replace(one, number=len(sawn) + number) for number, one in enumerate(saw.sawn, start=1)]
        sawn += own
        kept += put_by(yard if yard is not None else [], used, own, name, kerf_mm, min_mm)
        counts += _counts(mine, taken, saw, lying, more)
    laid = {unit.name for unit in setting.units}
    counts.sort(key=lambda count: count.unit not in laid)
    return SawnUnits(tuple(sawn), joined_counts(counts), tuple(kept), tuple(workings))


def _cheapest(
    stones: Stones, parts: Sequence[Part], whole: int, kerf_mm: float, *, prove: bool
) -> tuple[SawPlan, Stones, list[Working]]:
    """Return the saw plan from the sizes that cost least in whole packs, those sizes, and what that is worth."""
    alone = stones.alone.sawn(parts, kerf_mm, prove=prove)
    if len(stones.units) == 1 or not parts:
        return alone, stones.alone, []
    several = stones.sawn(parts, kerf_mm)
    unit = stones.units[0].name
    one = {unit: whole + len(alone.sawn)}
    mixed = Counter({unit: whole}) + Counter(each.unit for each in several.sawn)
    dear, cheap = stones.price(one), stones.price(mixed)
    if cheap >= dear:
        note = "in whole packs, where no single ones are sold, other sizes cost no less"
        working = Working(f"{unit} is cut from its own size alone", len(alone.sawn), "units sawn", (), note)
        return alone, stones.alone, [working]
    over = 100.0 * (several.cost / max(several.min_cost, 1) - 1.0)
    counted = ", ".join(
        f"{count} of {name}" for name, count in sorted(Counter(each.unit for each in several.sawn).items())
    )
    saved = Working(
        f"{unit} is cut from {counted}: against its own size alone it costs",
        100.0 * (1.0 - cheap[0] / dear[0]) if dear[0] else 0.0,
        "% less",
        (),
        f"with {len(alone.sawn)} units sawn of its own size; whole packs of this area where no single ones are sold",
    )
    bound = Working(
        "price of the units sawn over the smallest that any cutting can have",
        over,
        "%",
        (),
        "bound by column generation and by area",
    )
    return several, stones, [saved, bound]


def _counts(
    mine: Sequence[Piece], stones: Stones, saw: SawPlan, lying: Sequence[LeftOver], more: int
) -> list[UnitCount]:
    """Return the counts of a paving unit and of those that stand in for it.

    What left-overs may give is taken off what no plan can be below. Where other sizes stand in, only the units laid
    whole are sure.
    """
    unit, several = stones.units[0], len(stones.units) > 1
    whole = sum(piece.kind is PieceKind.WHOLE for piece in mine)
    new = Counter(one.unit for one in saw.sawn if not one.left_over_of)
    lying_m2 = sum(units.mm2_to_m2(left.along_mm * left.across_mm) for left in lying)
    bought_m2 = sum(piece.area_m2 for piece in mine) - lying_m2
    least = math.ceil(bought_m2 / units.mm2_to_m2(unit.length_mm * unit.width_mm) - 1e-9)
    least = max(least, whole) if lying else least
    least = whole if several else least
    own = UnitCount(
        unit=unit.name,
        whole=whole,
        cut=len(mine) - whole,
        units_each_cut_new=len(mine),
        units_with_offcuts=whole + new[unit.name],
        min_units=least,
        units_bound=whole if several else max(whole + saw.min_cost, least),
        units_more_edges=max(more, 0),
        kg_each=unit.kg_each,
        left_overs_m2=lying_m2,
    )
    return [own, *(_stand_in(each, new[each.name]) for each in stones.units[1:] if new[each.name])]


def _stand_in(unit: PavingUnit, count: int) -> UnitCount:
    """Return the counts of a unit that is only sawn, for pieces that are laid as another."""
    return UnitCount(unit.name, 0, 0, 0, count, 0, 0, 0, unit.kg_each)
