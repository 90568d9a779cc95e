"""The sentences of the findings on deliveries."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.writing import day_text

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

_NAMED = 3


def what(names: Sequence[str], supplier: str) -> str:
    """Return what comes, and of whom."""
    shown = ", ".join(names[:_NAMED]) + (f" and {len(names) - _NAMED} more" if len(names) > _NAMED else "")
    return f"{shown} of {supplier}" if supplier else shown


def lead_too_long(what_comes: str, lead_days: int, ordered: dt.date, comes: dt.date, on: dt.date) -> str:
    """Say that something comes too late. [days]."""
    return (
        f"{what_comes}: {lead_days} working days from order to delivery. Ordered on the date of the job, "
        f"{day_text(ordered)}, it comes on {day_text(comes)}; it is to be there on {day_text(on)}."
    )


def begin_later(begins: dt.date) -> str:
    """Offer a later start."""
    return f"Begin on {day_text(begins)} or later."


def another_supplier(left: int) -> str:
    """Offer another supplier. [days]."""
    return f"Buy it of a supplier who brings it within {left} working days, or from stock."


def ordered_already(on: dt.date) -> str:
    """Offer that it is on its way."""
    return f"It is ordered already: have the supplier confirm {day_text(on)}."


def carriage_again(supplier: str, days: Sequence[dt.date], all_of_it: str, saved: str) -> str:
    """Say that a supplier is paid to come on several days."""
    shown = ", ".join(day_text(each) for each in days)
    whom = supplier or "The supplier who is not named"
    return (
        f"{whom} comes on {len(days)} days: {shown}. The carriage of these deliveries comes to {all_of_it}; "
        f"one delivery costs {saved} less."
    )


def bring_at_once(first: dt.date) -> str:
    """Offer one delivery."""
    return f"Have all of it brought by {day_text(first)}, where there is room to set it down."


def same_day(suppliers: Mapping[dt.date, Sequence[str]]) -> str:
    """Say on which days several suppliers come."""
    days = "; ".join(f"{day_text(on)}: {_named(names)}" for on, names in suppliers.items())
    return (
        f"Several suppliers come on one day. {days}. Their lorries may stand in each other's way, and somebody has to "
        f"unload and check what each of them brings."
    )


def _named(suppliers: Sequence[str]) -> str:
    named = [each for each in suppliers if each]
    others = len(suppliers) - len(named)
    unnamed = ["one without a name" if others == 1 else f"{others} without a name"] if others else []
    return ", ".join([*named, *unnamed])


def keep_apart() -> tuple[str, ...]:
    """Return what can be done where several come on one day."""
    return ("Agree with each at what hour he comes.", "Have one of them come a day earlier, where there is room.")


def room_not_known(on: dt.date, suppliers: int, wanted_m2: float, known: bool) -> str:  # noqa: FBT001 - as counted
    """Ask how much room there is. [m²]."""
    return (
        f"How much room there is where lorries set down is not known. On {day_text(on)} "
        f"{_come(suppliers)} and take{'s' if suppliers == 1 else ''} about {wanted_m2:.0f} m²{_at_least(known)}."
    )


def ask_room() -> str:
    """Ask for the room."""
    return "Measure where a lorry can set down, and enter it under what is arranged."


def room_short(on: dt.date, suppliers: int, wanted_m2: float, known: bool, room_m2: float) -> str:  # noqa: FBT001 - as counted
    """Say that more comes than there is room for. [m²]."""
    return (
        f"On {day_text(on)} {_come(suppliers)} and take{'s' if suppliers == 1 else ''} about {wanted_m2:.0f} m²"
        f"{_at_least(known)}; there is room for {room_m2:.0f} m² where lorries set down."
    )


def make_room(suppliers: int) -> tuple[str, ...]:
    """Return what can be done where room is short."""
    split = "Have it brought in two parts: a second delivery has its own carriage."
    apart = ("Have one of them come a day earlier.",) if suppliers > 1 else ()
    return (*apart, split, "Find room elsewhere: a permit is needed to leave anything on the road.")


def _come(suppliers: int) -> str:
    return "one supplier comes" if suppliers == 1 else f"{suppliers} suppliers come"


def _at_least(known: bool) -> str:  # noqa: FBT001 - as counted
    return "" if known else " at least: not all of it has a mass"
