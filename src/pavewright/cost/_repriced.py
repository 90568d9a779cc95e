"""What re-pricing changes: two prices of one job, line by line and step by step."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.cost._keys import LineKey
    from pavewright.cost._types import Cost, CostLine


class LineChangeKind(StrEnum):
    """What became of a line."""

    NEW = "new"
    GONE = "gone"
    RATE = "rate"
    QUANTITY = "quantity"
    BOTH = "both"


@dataclass(frozen=True, slots=True)
class LineChange:
    """A line whose amount another pricing changes.

    Attributes:
        key: Key of the line.
        kind: Whether its price, its quantity or both changed, or it is new or gone.
        old: The line before; None where it is new.
        new: The line after; None where it is gone.
        extra_minor: How much more it costs, less than zero where it costs less. [minor units]
    """

    key: LineKey
    kind: LineChangeKind
    old: CostLine | None
    new: CostLine | None
    extra_minor: int


class PriceStep(StrEnum):
    """Steps from the lines to the price."""

    PRIME = "prime"
    OVERHEAD = "overhead"
    MARGIN = "margin"
    NET = "net"
    TAX = "tax"
    TOTAL = "total"


@dataclass(frozen=True, slots=True)
class StepChange:
    """A step of the price, before and after.

    Attributes:
        step: Which step.
        old_minor: Before. [minor units]
        new_minor: After. [minor units]
    """

    step: PriceStep
    old_minor: int
    new_minor: int


@dataclass(frozen=True, slots=True)
class Repriced:
    """What another pricing of the same job changes.

    Attributes:
        lines: Lines that change, what adds most first, what saves most last.
        steps: From the sum of the lines to the price with tax.
        gaps_old: How many things were not in the price.
        gaps_new: How many are not in it now: a price with more of them is no cheaper price.
    """

    lines: tuple[LineChange, ...]
    steps: tuple[StepChange, ...]
    gaps_old: int
    gaps_new: int


def repriced(old: Cost, new: Cost) -> Repriced:
    """Return what changes between two prices of one job, every line that does and no other."""
    before, after = {line.key: line for line in old.lines}, {line.key: line for line in new.lines}
    changes = [_change(before.get(key), after.get(key)) for key in dict.fromkeys((*before, *after))]
    found = [change for change in changes if change is not None]
    steps = tuple(
        StepChange(step, getattr(old, f"{step.value}_minor"), getattr(new, f"{step.value}_minor")) for step in PriceStep
    )
    lines = tuple(sorted(found, key=lambda change: (-change.extra_minor, change.key.text)))
    return Repriced(lines, steps, len(old.gaps), len(new.gaps))


def _change(old: CostLine | None, new: CostLine | None) -> LineChange | None:
    if old is None or new is None:
        line = new or old
        assert line is not None  # noqa: S101 - it has the key from one of the two
        kind = LineChangeKind.NEW if old is None else LineChangeKind.GONE
        return LineChange(line.key, kind, old, new, line.amount_minor if old is None else -line.amount_minor)
    rate, quantity = old.rate_minor != new.rate_minor, old.quantity != new.quantity
    if not rate and not quantity and old.amount_minor == new.amount_minor:
        return None
    kind = LineChangeKind.BOTH if rate and quantity else LineChangeKind.RATE if rate else LineChangeKind.QUANTITY
    return LineChange(old.key, kind, old, new, new.amount_minor - old.amount_minor)
