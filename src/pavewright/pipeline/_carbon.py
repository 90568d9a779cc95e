"""Carbon of what a plan buys: a range, since sources disagree, and by name what has no factor."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import MaterialKind, UnitKind
from pavewright.quantities import ItemKind
from pavewright.rules import Status, read_figures

if TYPE_CHECKING:
    from pavewright.job import Job
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
        concrete_block_kg_per_t: A tonne of concrete blocks.
        concrete_slab_kg_per_t: A tonne of concrete slabs.
    """

    diesel_kg_per_litre: Figure
    cement_kg_per_t: Figure
    aggregate_kg_per_t: Figure
    sand_kg_per_t: Figure
    concrete_block_kg_per_t: Figure
    concrete_slab_kg_per_t: Figure


class NoFactor(StrEnum):
    """Why the carbon of an item is not known."""

    NO_SOURCE = "no_source"
    NO_MASS = "no_mass"
    MADE_OF = "made_of"


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
        if_concrete: What it would be if a paving unit were of concrete; None for anything else.
    """

    key: ItemKey
    description: str
    reason: NoFactor
    if_concrete: CarbonRange | None = None


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
        ends = ((each.carbon.low, each.carbon.likely, each.carbon.high) for each in self.lines)
        low, likely, high = (sum(end) for end in zip(*ends, strict=True))
        return CarbonRange(low, likely, high)


def carbon_figures(rules: Rulebook) -> CarbonFigures:
    """Return the factors of an edition."""
    return read_figures(CarbonFigures, rules, "carbon")


def carbon_of(job: Job, quantities: Quantities, rules: Rulebook) -> Carbon:
    """Return the carbon of what is bought, whole packs and all, and by name what has no factor.

    Carriage, what is carted away and work on the site but for fuel are not in it.

    Args:
        job: The job.
        quantities: What it takes.
        rules: The rulebook.
    """
    known = carbon_figures(rules)
    lines, gaps = [], []
    for item in quantities.items:
        if not item.key.bought or (item.ordered_amount <= 0.0 and item.gross <= 0.0):
            continue
        found = _of_item(job, item, known)
        if isinstance(found, CarbonLine):
            lines.append(found)
        else:
            gaps.append(found)
    return Carbon(tuple(lines), tuple(gaps))


def _of_item(job: Job, item: Item, known: CarbonFigures) -> CarbonLine | CarbonGap:
    key = item.key
    if key.kind is ItemKind.CATALOGUE and key.catalogue == _FUEL:
        return _line(item, item.ordered_amount, known.diesel_kg_per_litre)
    if key.kind is ItemKind.UNITS:
        return CarbonGap(key, item.description, NoFactor.MADE_OF, _if_concrete(job.units[key.number].kind, item, known))
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
        MaterialKind.PIPE_GRAVEL: known.aggregate_kg_per_t,
        MaterialKind.SOAKAWAY_STONE: known.aggregate_kg_per_t,
        MaterialKind.DRAIN_STONE: known.aggregate_kg_per_t,
    }.get(key.material)


def _if_concrete(kind: UnitKind, item: Item, known: CarbonFigures) -> CarbonRange | None:
    """Return the carbon of units if they were of concrete: of what they are made, the job says in free words only."""
    factor = {UnitKind.BLOCK: known.concrete_block_kg_per_t, UnitKind.FLAG: known.concrete_slab_kg_per_t}.get(kind)
    return None if factor is None or item.kg is None else _range(item.kg / units.KG_PER_TONNE, factor)


def _line(item: Item, amount: float, factor: Figure) -> CarbonLine:
    return CarbonLine(item.key, item.description, amount, _range(amount, factor), factor)


def _range(amount: float, factor: Figure) -> CarbonRange:
    low = factor.value if factor.low is None else factor.low
    high = factor.value if factor.high is None else factor.high
    return CarbonRange(amount * low, amount * factor.value, amount * high)
