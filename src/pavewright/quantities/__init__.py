"""Quantities: everything measured and ordered, in the order of the work.

Each item has its net amount, what is added for waste, and what is ordered in whole packs, bags or loads, with the sum
behind it. Ranges stay ranges. A material is gathered from all its uses before it is rounded up.
"""

from pavewright.quantities._measure import edge_lengths, layer_volumes
from pavewright.quantities._mixed_packs import sold_packs
from pavewright.quantities._sums_quantities import SUMS
from pavewright.quantities._take_off import take_off
from pavewright.quantities._types import (
    Item,
    PackHolding,
    Quantities,
)

__all__ = [
    "SUMS",
    "Item",
    "PackHolding",
    "Quantities",
    "edge_lengths",
    "layer_volumes",
    "sold_packs",
    "take_off",
]
