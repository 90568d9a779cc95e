"""What taking-off hands on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.earthworks import Spread
    from pavewright.findings import Finding
    from pavewright.job import MixedPack
    from pavewright.laying import LaidArea
    from pavewright.quantities._dimensions import Dimension
    from pavewright.quantities._flights import FlightParts
    from pavewright.quantities._keys import ItemGroup, ItemKey, Measure
    from pavewright.quantities._scope import Gap, ScopeKey
    from pavewright.quantities._sold_as import SoldAs
    from pavewright.sums import Working


@dataclass(frozen=True, slots=True)
class SoldPack:
    """A mixed pack that is bought as a pack.

    Attributes:
        key: Key of its item.
        pack: What it holds and costs.
        areas: The laying plans that it is for.
        numbers: Places of their areas in the job, from 0.
    """

    key: ItemKey
    pack: MixedPack
    areas: tuple[LaidArea, ...]
    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PackHolding:
    """One size in the mixed packs that are ordered.

    Attributes:
        unit: Name of the paving unit.
        per_pack: How many one pack holds.
        needed: Units that the laying plans need.
        with_spares: Those with spares.
        ordered: Units in all packs ordered.
        left: Units over what the laying plans need.
    """

    unit: str
    per_pack: int
    needed: int
    with_spares: int
    ordered: int
    left: int


@dataclass(frozen=True, slots=True)
class Item:
    """One measured item.

    Attributes:
        key: What it is, to find it by.
        group: Which part of the work it belongs to.
        description: In words.
        unit: Unit of net, allowance and gross.
        net: What is measured. [in ``unit``]
        allowance_percent: Added for waste, breakage, compaction. [%]
        gross: Net with allowance. [in ``unit``]
        ordered: Whole packs, bags or loads; equal to gross where nothing is packed. [as it is sold]
        sold_as: In what it is ordered.
        ordered_amount: What those packs hold, in ``unit``. [in ``unit``]
        low: Lower end where an input is a range, in ``unit``; None elsewhere. [in ``unit``]
        high: Upper end. None elsewhere. [in ``unit``]
        workings: The sums behind it.
        kg: Mass of what is ordered; None where not known. [kg]
        holds: What mixed packs hold of each size; nothing for every other item.
        scope: What it is for, in the order in which a customer reads of it.
        dimensions: Its lines in the dimension book; they add up to its net amount.
    """

    key: ItemKey
    group: ItemGroup
    description: str
    unit: Measure
    net: float
    allowance_percent: float
    gross: float
    ordered: float
    sold_as: SoldAs
    ordered_amount: float
    low: float | None
    high: float | None
    workings: tuple[Working, ...]
    kg: float | None
    holds: tuple[PackHolding, ...] = ()
    scope: tuple[ScopeKey, ...] = ()
    dimensions: tuple[Dimension, ...] = ()

    @property
    def order_unit(self) -> str:
        """What is ordered, for a column apart from its number ("bag of 25 kg", "pack of 18", "m³")."""
        return self.sold_as.column

    @property
    def ordered_words(self) -> str:
        """What is ordered, with its number ("2 bags of 25 kg")."""
        return self.sold_as.counted(self.ordered)


@dataclass(frozen=True, slots=True)
class PitSpoil:
    """What leaves of soakaways and drain trenches, beside the dig of the areas.

    Attributes:
        loose: Loose volume. [m³]
        loads: Whole loads over those of the dig; None where no disposal is priced.
        tonnes: Its mass. [t]
        workings: The sums behind it.
        solid: What it is made of in the ground: words, what it is for, and how much; negative for what goes back. [m³]
    """

    loose: Spread
    loads: Spread | None
    tonnes: Spread
    workings: tuple[Working, ...]
    solid: tuple[tuple[str, ScopeKey, float], ...] = ()


@dataclass(frozen=True)
class Quantities:
    """All items, in the order of the work.

    Attributes:
        items: What is measured and ordered.
        findings: What was noticed.
        gaps: What the job takes and nobody could measure.
        pit_spoil: What leaves of soakaways and drain trenches; None where there are none.
        flights: What each flight of steps is built of.
    """

    items: tuple[Item, ...]
    findings: tuple[Finding, ...]
    gaps: tuple[Gap, ...] = ()
    pit_spoil: PitSpoil | None = None
    flights: tuple[FlightParts, ...] = ()

    def item(self, key: ItemKey) -> Item:
        """Return the item with this key.

        Raises:
            KeyError: no such item.
        """
        for item in self.items:
            if item.key == key:
                return item
        raise KeyError(key)
