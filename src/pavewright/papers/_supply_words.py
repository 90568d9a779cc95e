"""What deliveries, orders and loads are called on paper and in the calendar."""

from __future__ import annotations

from typing import TYPE_CHECKING, assert_never

from pavewright.programme import LoadKind

if TYPE_CHECKING:
    from pavewright.programme import LoadDay


def lead_words(lead_days: int | None, *, known: bool) -> str:
    """Return a lead time in words, with what is not known of it. [days]."""
    if lead_days is None:
        return "lead time not known: ask"
    days = f"{lead_days} working day{'' if lead_days == 1 else 's'} from order"
    return days if known else f"{days} or more: not every item has a lead time"


def load_words(load: LoadDay) -> str:
    """Return what happens on a day on which spoil leaves."""
    match load.kind:
        case LoadKind.SKIP_COMES:
            return f"Skip comes (likely {load.of} in all)"
        case LoadKind.SKIP_CHANGED:
            return f"Skip {load.number} of {load.of} is full: changed"
        case LoadKind.SKIP_GOES:
            return f"Skip {load.number} of {load.of} goes"
        case LoadKind.LOAD_LEAVES:
            return f"Load {load.number} of {load.of} leaves"
        case _:
            assert_never(load.kind)
