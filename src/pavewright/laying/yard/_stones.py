"""Sizes of one stone to cut from: the unit that is laid, and others that may stand in for it where that costs less."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.laying.cutting import Part, SawPlan, Stock, saw_plan

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.job import PavingUnit


@dataclass(frozen=True, slots=True)
class Stones:
    """Units from which the cut pieces of one unit may be sawn.

    Attributes:
        units: The unit that is laid, then those that may stand in for it.
    """

    units: tuple[PavingUnit, ...]

    @property
    def names(self) -> frozenset[str]:
        """Names of all."""
        return frozenset(unit.name for unit in self.units)

    @property
    def alone(self) -> Stones:
        """The unit that is laid by itself."""
        return Stones(self.units[:1])

    def cost_of(self, name: str) -> int:
        """Return what one costs: 1 where there is one size; else its price, to a minor unit."""
        if len(self.units) == 1:
            return 1
        unit = next(each for each in self.units if each.name == name)
        return max(1, round((unit.pack_price_minor or 0) / unit.per_pack))

    def sawn(self, parts: Sequence[Part], kerf_mm: float, *, prove: bool = False) -> SawPlan:
        """Return the saw plan of parts from new units, each known by its name; its cost is a sum of ``cost_of``."""
        sizes = tuple(Stock(each.length_mm, each.width_mm, self.cost_of(each.name)) for each in self.units)
        several = len(sizes) > 1
        plan = saw_plan(parts, sizes, kerf_mm, may_turn=not self.units[0].keeps_direction, cover=several, prove=prove)
        named = {(each.length_mm, each.width_mm): each.name for each in reversed(self.units)}
        return replace(plan, sawn=tuple(replace(one, unit=named[one.length_mm, one.width_mm]) for one in plan.sawn))

    def price(self, counts: Mapping[str, int]) -> tuple[float, float]:
        """Return what so many of each cost in whole packs where no single ones are sold, and then one by one.

        Args:
            counts: Number of each by its name.
        """
        each = {unit.name: (unit.pack_price_minor or 0) / unit.per_pack for unit in self.units}
        packs = sum(
            counts.get(unit.name, 0) * each[unit.name]
            if unit.part_packs
            else math.ceil(counts.get(unit.name, 0) / unit.per_pack) * (unit.pack_price_minor or 0)
            for unit in self.units
        )
        return packs, sum(counts.get(name, 0) * price for name, price in each.items())
