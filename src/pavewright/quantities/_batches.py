"""One batch of a mix: what goes into a barrow or a mixer, and what a bag makes, by the sums of the order list."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import MaterialKind
from pavewright.quantities._figures import quantity_figures
from pavewright.quantities._keys import ItemKind, of_material
from pavewright.quantities._mixes import Mix, by_dry_volume, with_ballast

if TYPE_CHECKING:
    from pavewright.job import Mixes
    from pavewright.quantities._figures import QuantityFigures
    from pavewright.quantities._types import Quantities
    from pavewright.rules import Figure, Rulebook


class MixKind(StrEnum):
    """A mix of the job."""

    BED = "bed"
    CONCRETE = "concrete"
    POINTING = "pointing"


class BatchOf(StrEnum):
    """How much is mixed at once."""

    BARROW = "barrow"
    MIXER = "mixer"
    BAG = "bag"


@dataclass(frozen=True, slots=True)
class Batch:
    """What is put together for one batch.

    Attributes:
        of: How much is mixed at once.
        wet_l: Mortar or concrete that it makes. [l]
        cement_kg: Cement. [kg]
        cement_l: The same, loose. [l]
        dry_l: Sand or ballast, loose and dry. [l]
        damp_l: The same as it is damp here; None where nobody said how much it bulks. [l]
        water_l: Water for dry sand; damp sand brings some of it. [l]
    """

    of: BatchOf
    wet_l: float
    cement_kg: float
    cement_l: float
    dry_l: float
    damp_l: float | None
    water_l: float


@dataclass(frozen=True, slots=True)
class MixCard:
    """A mix with its batches.

    Attributes:
        kind: Which mix.
        parts: Parts of sand or ballast to one of cement. [-]
        ballast: Whether it is made of all-in ballast.
        wet_m3: All of it that the job mixes, what is lost included. [m³]
        cement_kg: All cement for that. [kg]
        batches: Batches by how much is mixed at once.
        barrows: Whole barrows of it.
        mixers: Whole mixers of it.
        figures: Figures that went in.
    """

    kind: MixKind
    parts: float
    ballast: bool
    wet_m3: float
    cement_kg: float
    batches: tuple[Batch, ...]
    barrows: int
    mixers: int
    figures: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class MixGear:
    """With what mixes are measured.

    Attributes:
        bag_kg: What a bag of cement holds here. [kg]
        bucket: What a bucket holds.
        shovel: What a shovel holds.
        mixer: What a mixer mixes at once.
        barrow: Mortar or concrete in a barrow.
    """

    bag_kg: float
    bucket: Figure
    shovel: Figure
    mixer: Figure
    barrow: Figure


_PURPOSES: dict[MixKind, tuple[ItemKind, ...]] = {
    MixKind.BED: (ItemKind.MORTAR_BED,),
    MixKind.CONCRETE: (ItemKind.CONCRETE_BASE, ItemKind.EDGE_CONCRETE, ItemKind.STEP_CONCRETE),
    MixKind.POINTING: (ItemKind.POINTING,),
}


def mix_gear(quantities: Quantities, rules: Rulebook) -> MixGear:
    """Return with what mixes are measured: the bag as it is ordered, the rest from the rulebook."""
    known, cement = quantity_figures(rules), of_material(MaterialKind.CEMENT)
    bag = known.cement_bag_kg.value
    for item in quantities.items:
        if item.key == cement and item.ordered:
            bag = item.ordered_amount / item.ordered
    return MixGear(bag, known.bucket_l, known.shovel_l, known.mixer_l, known.mixed_barrow_l)


def mix_cards(quantities: Quantities, mixes: Mixes, rules: Rulebook) -> tuple[MixCard, ...]:
    """Return a card for every mix that the job takes; none for what it does not take.

    Args:
        quantities: What the job takes.
        mixes: How the sand is, as entered.
        rules: The rulebook.
    """
    gear, known = mix_gear(quantities, rules), quantity_figures(rules)
    found = []
    for kind, purposes in _PURPOSES.items():
        wet_m3 = sum(item.gross for item in quantities.items if item.key.kind in purposes)
        if wet_m3 > 0.0:
            found.append(_card(kind, wet_m3, mixes, gear, known))
    return tuple(found)


def mixed(kind: MixKind, wet_m3: float, known: QuantityFigures) -> Mix:
    """Return what a volume of a mix takes, by the sum that the order list uses."""
    if kind is MixKind.CONCRETE:
        parts, factor = known.base_ballast_parts, known.ballast_factor
        return with_ballast(wet_m3, parts.value, factor.value, known.cement_kg_per_m3.value)
    parts = known.bed_sand_parts if kind is MixKind.BED else known.pointing_sand_parts
    return by_dry_volume(wet_m3, parts.value, 0.0, known.mortar_dry_factor.value, known.cement_kg_per_m3.value)


def bed_cement_kg_per_m3(rules: Rulebook) -> float:
    """Return the cement that a cubic metre of bed is mixed with, what is lost included. [kg/m³]."""
    known = quantity_figures(rules)
    lost = 1.0 + known.mortar_percent.value / units.ALL_PERCENT
    return mixed(MixKind.BED, 1.0, known).cement_kg * lost


def _card(kind: MixKind, wet_m3: float, mixes: Mixes, gear: MixGear, known: QuantityFigures) -> MixCard:
    concrete = kind is MixKind.CONCRETE
    whole = mixed(kind, wet_m3, known)
    parts = (
        known.base_ballast_parts
        if concrete
        else known.bed_sand_parts
        if kind is MixKind.BED
        else known.pointing_sand_parts
    )
    factor = known.ballast_factor if concrete else known.mortar_dry_factor
    water = known.water_per_cement if concrete else known.mortar_water_l_per_m3
    bag_wet_l = units.LITRES_PER_M3 * wet_m3 * gear.bag_kg / whole.cement_kg
    sizes = {BatchOf.BARROW: gear.barrow.value, BatchOf.MIXER: gear.mixer.value, BatchOf.BAG: bag_wet_l}
    batches = []
    for of, wet_l in sizes.items():
        one = mixed(kind, wet_l / units.LITRES_PER_M3, known)
        dry_l = one.sand_m3 * units.LITRES_PER_M3
        bulking = None if concrete else mixes.sand_bulking_percent
        damp_l = None if bulking is None else dry_l * (1.0 + bulking / units.ALL_PERCENT)
        water_l = one.cement_kg * water.value if concrete else wet_l / units.LITRES_PER_M3 * water.value
        batches.append(Batch(of, wet_l, one.cement_kg, one.cement_m3 * units.LITRES_PER_M3, dry_l, damp_l, water_l))
    barrows, mixers = (-int(-wet_m3 * units.LITRES_PER_M3 // sizes[of]) for of in (BatchOf.BARROW, BatchOf.MIXER))
    figures = (parts, factor, known.cement_kg_per_m3, water, gear.barrow, gear.mixer)
    return MixCard(kind, parts.value, concrete, wet_m3, whole.cement_kg, tuple(batches), barrows, mixers, figures)
