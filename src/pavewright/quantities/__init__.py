"""Quantities: everything measured and ordered, in the order of the work.

Each item has its net amount, what is added for waste, and what is ordered in whole packs, bags or loads, with the sum
behind it. Ranges stay ranges. A material is gathered from all its uses before it is rounded up.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.quantities._assemblies import built_inlets, built_pits
    from pavewright.quantities._batches import (
        Batch,
        BatchOf,
        MixCard,
        MixGear,
        MixKind,
        bed_cement_kg_per_m3,
        mix_cards,
        mix_gear,
    )
    from pavewright.quantities._beside import with_days
    from pavewright.quantities._counted_by import SiteDays
    from pavewright.quantities._dimensions import Dimension, Drawn
    from pavewright.quantities._flights import FlightParts
    from pavewright.quantities._key_shapes import Key, NumberedKey, PlacedKey
    from pavewright.quantities._keys import (
        ItemGroup,
        ItemKey,
        ItemKind,
        Measure,
        of_catalogue,
        of_material,
        of_pack,
        of_steps,
        of_unit,
    )
    from pavewright.quantities._layer_needs import LayerNeed, layer_needs
    from pavewright.quantities._measure import LayerVolume, edge_lengths, layer_volumes
    from pavewright.quantities._mixed_packs import sold_pack, sold_packs
    from pavewright.quantities._order import pack_fits
    from pavewright.quantities._scope import Gap, GapReason, ScopeKey, ScopeKind, in_reading_order
    from pavewright.quantities._sold_as import Holder, SoldAs, by_measure
    from pavewright.quantities._sums_carbon import carbon_kg
    from pavewright.quantities._sums_quantities import SUMS
    from pavewright.quantities._take_off import take_off, take_off_units
    from pavewright.quantities._types import (
        Item,
        PackHolding,
        PitSpoil,
        Quantities,
        SoldPack,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "Batch",
    "BatchOf",
    "Dimension",
    "Drawn",
    "FlightParts",
    "Gap",
    "GapReason",
    "Holder",
    "Item",
    "ItemGroup",
    "ItemKey",
    "ItemKind",
    "Key",
    "LayerNeed",
    "LayerVolume",
    "Measure",
    "MixCard",
    "MixGear",
    "MixKind",
    "NumberedKey",
    "PackHolding",
    "PitSpoil",
    "PlacedKey",
    "Quantities",
    "ScopeKey",
    "ScopeKind",
    "SiteDays",
    "SoldAs",
    "SoldPack",
    "bed_cement_kg_per_m3",
    "built_inlets",
    "built_pits",
    "by_measure",
    "carbon_kg",
    "edge_lengths",
    "in_reading_order",
    "layer_needs",
    "layer_volumes",
    "mix_cards",
    "mix_gear",
    "of_catalogue",
    "of_material",
    "of_pack",
    "of_steps",
    "of_unit",
    "pack_fits",
    "sold_pack",
    "sold_packs",
    "take_off",
    "take_off_units",
    "with_days",
]
