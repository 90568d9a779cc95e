"""Carbon of what a plan buys: a range, since sources disagree, and by name what has no factor."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import MaterialKind
from pavewright.quantities import ItemKind, carbon_kg
from pavewright.rules import Status, read_figures

if TYPE_CHECKING:
    from pavewright.quantities import Item, ItemKey, Quantities
    from pavewright.rules import Figure, Rulebook

_FUEL = "fuel"
"""Key of fuel in the catalogue; it is taken as diesel."""


@dataclass(frozen=True, slots=True)
class CarbonFigures:
    """What a unit of each thing stands for.

    Attributes:
        diesel_kg_per_litre: A litre of diesel.
        cement_kg_per_t: A tonne of cement.
        aggregate_kg_per_t: A tonne of crushed stone or ballast.
        sand_kg_per_t: A tonne of sand.
        geotextile_kg_per_t: A tonne of geotextile.
        concrete_paving_kg_per_t: A tonne of concrete paving.
        sandstone_kg_per_t: A tonne of sandstone.
        granite_kg_per_t: A tonne of granite.
        slate_kg_per_t: A tonne of slate.
    """

    diesel_kg_per_litre: Figure
    cement_kg_per_t: Figure
    aggregate_kg_per_t: Figure
    sand_kg_per_t: Figure
    geotextile_kg_per_t: Figure
    concrete_paving_kg_per_t: Figure
    sandstone_kg_per_t: Figure
    granite_kg_per_t: Figure
    slate_kg_per_t: Figure


class NoFactor(StrEnum):
    """Why the carbon of an item is not known."""

    NO_SOURCE = "no_source"
    NO_MASS = "no_mass"
    MADE_OF = "made_of"


class MadeOf(StrEnum):
    """What a paving unit may be made of; a job says it in free words only."""

    CONCRETE = "concrete"
    SANDSTONE = "sandstone"
    GRANITE = "granite"
    SLATE = "slate"


@dataclass(frozen=True, slots=True)
class CarbonRange:
    """Carbon between two ends.

    Attributes:
        low: Lower end. [kg]
        likely: As the chosen source has it. [kg]
        high: Upper end. [kg]
    """

    low: float
    likely: float
    high: float


@dataclass(frozen=True, slots=True)
class CarbonLine:
    """Carbon of one item.

    Attributes:
        key: Key of the item.
        description: What it is.
        amount: How much is bought. [t, or litre for fuel]
        carbon: Its carbon.
        factor: The figure that it comes from.
    """

    key: ItemKey
    description: str
    amount: float
    carbon: CarbonRange
    factor: Figure

    @property
    def weak(self) -> bool:
        """Whether its factor is from memory, or a single source gives no range."""
        return self.factor.status is Status.MEMORY or self.factor.low is None


@dataclass(frozen=True, slots=True)
class CarbonGap:
    """An item of which the carbon is not known; it is in no sum.

    Attributes:
        key: Key of the item.
        description: What it is.
        reason: Why it is not known.
        if_made_of: What a paving unit would be if it were made of this; nothing for anything else.
    """

    key: ItemKey
    description: str
    reason: NoFactor
    if_made_of: tuple[tuple[MadeOf, CarbonRange], ...] = ()


@dataclass(frozen=True, slots=True)
class Carbon:
    """Carbon of what a plan buys.

    Attributes:
        lines: What has a factor.
        gaps: What is bought and has none.
    """

    lines: tuple[CarbonLine, ...]
    gaps: tuple[CarbonGap, ...]

    @property
    def total(self) -> CarbonRange | None:
        """All that has a factor; None where nothing has."""
        if not self.lines:
            return None
        low, likely, high = zip(
            *((each.carbon.low, each.carbon.likely, each.carbon.high) for each in self.lines), strict=True
        )
        return CarbonRange(*carbon_kg((1.0,) * len(self.lines), low, likely, high))


def carbon_figures(rules: Rulebook) -> CarbonFigures:
    """Return the factors of an edition."""
    return read_figures(CarbonFigures, rules, "carbon")


def carbon_of(quantities: Quantities, rules: Rulebook) -> Carbon:
    """Return the carbon of what is bought, whole packs and all, and by name what has no factor.

    Carriage, what is carted away and work on the site but for fuel are not in it.

    Args:
        quantities: What it takes.
        rules: The rulebook.
    """
    known = carbon_figures(rules)
    lines, gaps = [], []
    for item in quantities.items:
        if not item.key.bought or (item.ordered_amount <= 0.0 and item.gross <= 0.0):
            continue
        found = _of_item(item, known)
        if isinstance(found, CarbonLine):
            lines.append(found)
        else:
            gaps.append(found)
    return Carbon(tuple(lines), tuple(gaps))


def _of_item(item: Item, known: CarbonFigures) -> CarbonLine | CarbonGap:
    key = item.key
    if key.kind is ItemKind.CATALOGUE and key.catalogue == _FUEL:
        return _line(item, item.ordered_amount, known.diesel_kg_per_litre)
    if key.kind is ItemKind.UNITS:
        return CarbonGap(key, item.description, NoFactor.MADE_OF, _if_made_of(item, known))
    factor = _factor(key, known)
    if factor is None:
        return CarbonGap(key, item.description, NoFactor.NO_SOURCE)
    if item.kg is None:
        return CarbonGap(key, item.description, NoFactor.NO_MASS)
    return _line(item, item.kg / units.KG_PER_TONNE, factor)


def _factor(key: ItemKey, known: CarbonFigures) -> Figure | None:
    if key.kind is not ItemKind.MATERIAL or key.material is None:
        return None
    return {
        MaterialKind.CEMENT: known.cement_kg_per_t,
        MaterialKind.SHARP_SAND: known.sand_kg_per_t,
        MaterialKind.SOFT_SAND: known.sand_kg_per_t,
        MaterialKind.BLINDING_SAND: known.sand_kg_per_t,
        MaterialKind.JOINT_SAND: known.sand_kg_per_t,
        MaterialKind.BALLAST: known.aggregate_kg_per_t,
        MaterialKind.SUB_BASE: known.aggregate_kg_per_t,
        MaterialKind.CAPPING: known.aggregate_kg_per_t,
        MaterialKind.OPEN_STONE: known.aggregate_kg_per_t,
        MaterialKind.GRIT: known.aggregate_kg_per_t,
        MaterialKind.PIPE_GRAVEL: known.aggregate_kg_per_t,
        MaterialKind.SOAKAWAY_STONE: known.aggregate_kg_per_t,
        MaterialKind.DRAIN_STONE: known.aggregate_kg_per_t,
        MaterialKind.GEOTEXTILE: known.geotextile_kg_per_t,
    }.get(key.material)


def _if_made_of(item: Item, known: CarbonFigures) -> tuple[tuple[MadeOf, CarbonRange], ...]:
    if item.kg is None:
        return ()
    factors = {
        MadeOf.CONCRETE: known.concrete_paving_kg_per_t,
        MadeOf.SANDSTONE: known.sandstone_kg_per_t,
        MadeOf.GRANITE: known.granite_kg_per_t,
        MadeOf.SLATE: known.slate_kg_per_t,
    }
    return tuple((made_of, _range(item.kg / units.KG_PER_TONNE, factor)) for made_of, factor in factors.items())


def _line(item: Item, amount: float, factor: Figure) -> CarbonLine:
    return CarbonLine(item.key, item.description, amount, _range(amount, factor), factor)


def _range(amount: float, factor: Figure) -> CarbonRange:
    low = factor.value if factor.low is None else factor.low
    high = factor.value if factor.high is None else factor.high
    return CarbonRange(*carbon_kg((amount,), (low,), (factor.value,), (high,)))
