"""What each measured item is called inside the program: never a word that somebody typed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.quantities._key_shapes import Key

if TYPE_CHECKING:
    from pavewright.job import MaterialKind


class ItemGroup(StrEnum):
    """Part of the work that an item belongs to, in the order of the work."""

    DIG = "dig"
    BASE = "base"
    BED = "bed"
    UNITS = "units"
    JOINTS = "joints"
    EDGES = "edges"
    DRAINAGE = "drainage"
    SUNDRIES = "sundries"


class Measure(StrEnum):
    """What an item is measured in."""

    KG = "kg"
    METRE = "m"
    M2 = "m²"
    M3 = "m³"
    LITRE = "litre"
    EACH = "each"
    UNITS = "units"
    PACKS = "packs"
    LOADS = "loads"
    RISER = "m of riser"


class ItemKind(StrEnum):
    """Kind of a measured item."""

    DIG = "dig"
    SPOIL = "spoil"
    FILL = "fill"
    PROVISIONAL_STONE = "provisional_stone"
    PROVISIONAL_SPOIL = "provisional_spoil"
    WALL_TRENCH = "wall_trench"
    WALL_FOOTING = "wall_footing"
    EDGE_TRENCH = "edge_trench"
    ENGINEERED_WALL = "engineered_wall"
    CONCRETE_BASE = "concrete_base"
    MORTAR_BED = "mortar_bed"
    EDGE_CONCRETE = "edge_concrete"
    POINTING = "pointing"
    WATER = "water"
    PIT_SPOIL = "pit_spoil"
    STEPS = "steps"
    STEP_CONCRETE = "step_concrete"
    MATERIAL = "material"
    UNITS = "units"
    MIXED_PACK = "mixed_pack"
    CATALOGUE = "catalogue"


_BOUGHT = frozenset(
    {
        ItemKind.SPOIL,
        ItemKind.PIT_SPOIL,
        ItemKind.MATERIAL,
        ItemKind.UNITS,
        ItemKind.MIXED_PACK,
        ItemKind.CATALOGUE,
        ItemKind.ENGINEERED_WALL,
        ItemKind.PROVISIONAL_STONE,
        ItemKind.PROVISIONAL_SPOIL,
    }
)
"""Items for which somebody is paid; the others are measured work, or run from a tap."""


@dataclass(frozen=True, slots=True)
class ItemKey(Key):
    """Key of a measured item.

    Attributes:
        kind: Its kind.
        material: Which material, for a material.
        number: Place of its paving unit, flight of steps or mixed pack in their list, from 0; 0 where there is one.
        catalogue: Which item of the catalogue, by its key there; empty for every other kind.
    """

    kind: ItemKind
    material: MaterialKind | None = None
    number: int = 0
    catalogue: str = ""

    @property
    def bought(self) -> bool:
        """Whether it is paid for: bought, or carted away for money."""
        return self.kind in _BOUGHT

    @property
    def apart(self) -> bool:
        """Whether it is settled when it is found, or by somebody else: it stands in no order and comes with none."""
        return self.kind in _APART

    @property
    def text(self) -> str:
        """Its name for files and pages; no two keys share one.

        >>> from pavewright.job import MaterialKind
        >>> ItemKey(ItemKind.UNITS, number=1).text, ItemKey(ItemKind.MATERIAL, MaterialKind.CEMENT).text
        ('units.2', 'material.cement')
        """
        parts = [self.kind.value]
        if self.material is not None:
            parts.append(self.material.value)
        if self.kind in _NUMBERED:
            parts.append(str(self.number + 1))
        if self.catalogue:
            parts.append(self.catalogue)
        return ".".join(parts)


_APART = frozenset({ItemKind.ENGINEERED_WALL, ItemKind.PROVISIONAL_STONE, ItemKind.PROVISIONAL_SPOIL})
_NUMBERED = frozenset({ItemKind.ENGINEERED_WALL, ItemKind.STEPS, ItemKind.UNITS, ItemKind.MIXED_PACK})


def of_material(material: MaterialKind) -> ItemKey:
    """Return the key of a material."""
    return ItemKey(ItemKind.MATERIAL, material)


def of_catalogue(key: str) -> ItemKey:
    """Return the key of an item of the catalogue."""
    return ItemKey(ItemKind.CATALOGUE, catalogue=key)


def of_unit(number: int) -> ItemKey:
    """Return the key of the paving unit that stands at a place in the job, from 0."""
    return ItemKey(ItemKind.UNITS, number=number)


def of_steps(number: int) -> ItemKey:
    """Return the key of the flight of steps that stands at a place in the job, from 0."""
    return ItemKey(ItemKind.STEPS, number=number)


def of_pack(number: int) -> ItemKey:
    """Return the key of a mixed pack, counted in the order of the areas that it is for, from 0."""
    return ItemKey(ItemKind.MIXED_PACK, number=number)
