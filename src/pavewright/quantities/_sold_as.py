"""In what something is ordered: bags, packs, loads, or loose by its measure; in words for one and for several."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pavewright.job import DisposalKind
from pavewright.quantities._keys import Measure
from pavewright.writing import counted_text


class Holder(StrEnum):
    """What holds it."""

    BAG = "bag"
    PACK = "pack"
    MIXED_PACK = "mixed_pack"
    LOAD = "load"
    SKIP = "skip"
    GRAB = "grab"
    TIPPER = "tipper"
    PIECE = "piece"
    LOOSE = "loose"


_ONE_AND_SEVERAL = {
    Holder.BAG: ("bag", "bags"),
    Holder.PACK: ("pack", "packs"),
    Holder.MIXED_PACK: ("mixed pack", "mixed packs"),
    Holder.LOAD: ("load", "loads"),
    Holder.SKIP: ("skip", "skips"),
    Holder.GRAB: ("grab", "grabs"),
    Holder.TIPPER: ("tipper", "tippers"),
}
_MEASURED = {
    Measure.LITRE: ("litre", "litres"),
    Measure.EACH: ("piece", "pieces"),
    Measure.UNITS: ("unit", "units"),
    Measure.PACKS: ("pack", "packs"),
    Measure.LOADS: ("load", "loads"),
}
"""Measures that are words: for one, and for several."""
_LEAVING = {
    DisposalKind.SKIP: Holder.SKIP,
    DisposalKind.GRAB: Holder.GRAB,
    DisposalKind.TIPPER: Holder.TIPPER,
}


@dataclass(frozen=True, slots=True)
class SoldAs:
    """In what something is ordered.

    Attributes:
        holder: What holds it; a single piece, or loose where it is ordered by its measure.
        holds: What one holds, in words ("850 kg", "18"); empty for pieces and for what is loose.
        measure: The measure of what is loose; of everything else it says nothing.
    """

    holder: Holder
    holds: str = ""
    measure: Measure = Measure.EACH

    @property
    def one(self) -> str:
        """What one is called ("pack of 850 kg")."""
        return self._words(several=False)

    @property
    def several(self) -> str:
        """What several are called ("packs of 850 kg")."""
        return self._words(several=True)

    @property
    def column(self) -> str:
        """What it is called in a column of its own, apart from its number ("pack of 850 kg", "each", "kg")."""
        if self.holder is Holder.PIECE:
            return Measure.EACH.value
        return self.measure.value if self.holder is Holder.LOOSE else self.one

    def counted(self, ordered: float) -> str:
        """Return so many of it.

        Args:
            ordered: How many. [as it is sold]

        >>> pack = SoldAs(Holder.PACK, "850 kg")
        >>> pack.counted(1.0), pack.counted(2.0), SoldAs(Holder.LOOSE, measure=Measure.KG).counted(2.5)
        ('1 pack of 850 kg', '2 packs of 850 kg', '2.50 kg')
        """
        return counted_text(ordered, self.several, self.one)

    def _words(self, *, several: bool) -> str:
        if self.holder is Holder.PIECE:
            return _MEASURED[Measure.EACH][several]
        if self.holder is Holder.LOOSE:
            return _MEASURED.get(self.measure, (self.measure.value,) * 2)[several]
        name = _ONE_AND_SEVERAL[self.holder][several]
        return f"{name} of {self.holds}" if self.holds else name


def holding(amount: float, measure: Measure) -> str:
    """Return what one pack holds, in words.

    Args:
        amount: How much. [in the measure]
        measure: In what it is measured.

    >>> holding(5.0, Measure.LITRE), holding(850.0, Measure.KG)
    ('5 litres', '850 kg')
    """
    one, several = _MEASURED.get(measure, (measure.value,) * 2)
    return f"{amount:g} {one if amount == 1.0 else several}"


def by_measure(measure: Measure) -> SoldAs:
    """Return that something is ordered by its measure."""
    return SoldAs(Holder.PIECE) if measure is Measure.EACH else SoldAs(Holder.LOOSE, measure=measure)


def taken_away(kind: DisposalKind, holds_m3: float) -> SoldAs:
    """Return in what spoil leaves.

    Args:
        kind: A skip, a grab lorry or a tipper.
        holds_m3: What one load holds, loose. [m³]
    """
    return SoldAs(_LEAVING[kind], f"{holds_m3:g} m³")
