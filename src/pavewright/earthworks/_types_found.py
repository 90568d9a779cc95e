"""What the dig found, as the earthworks room hands it on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job.on_site import FoundKind

if TYPE_CHECKING:
    from pavewright.sums import Working


@dataclass(frozen=True, slots=True)
class FoundDig:
    """What the dig found that nobody knew, as volumes.

    Attributes:
        number: Its place among the finds of the job, from 0.
        kind: What it is.
        area: Name of the area in whose dig it lies.
        plan_m2: How much of the ground it takes up within the dig. [m²]
        dig_m3: Dug below formation for it, in the ground. [m³]
        fill_m3: Stone that fills that again, compacted. [m³]
        broken_m3: Concrete that is broken out within the dig, instead of soil. [m³]
        length_m: Of a drain: how long it is in the dig. [m]
        new_pipe: Of a drain: whether that length is laid anew.
        open_stone: Whether open stone fills it, as under paving that lets water through.
        working: The sum behind it.
    """

    number: int
    kind: FoundKind
    area: str
    plan_m2: float
    dig_m3: float
    fill_m3: float
    broken_m3: float
    length_m: float
    new_pipe: bool
    open_stone: bool
    working: Working

    @property
    def by_hand(self) -> bool:
        """Whether it is dug by hand, whatever digs the rest: a drain is dug free with a spade."""
        return self.kind is FoundKind.DRAIN
