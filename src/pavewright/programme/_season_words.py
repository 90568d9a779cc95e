"""The sentences of the findings on weather, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import worded
from pavewright.programme._gates import Gate

if TYPE_CHECKING:
    from pavewright.findings import Option
    from pavewright.programme._cure_clock import CureTime
    from pavewright.programme._gates import GateLimits

_WORK = {
    Gate.MORTAR_COLD: "Mortar",
    Gate.CONCRETE_COLD: "Concrete",
    Gate.JOINT_HOT: "Filling of joints",
    Gate.CONCRETE_HOT: "Concrete",
}


def gate_met(limits: GateLimits, temperature_c: float, *, typed: bool, others: int) -> tuple[str, tuple[Option, ...]]:
    """Say what temperature work falls at, and every source's limit. [°C]."""
    source = "the temperature entered" if typed else "the mean of its month"
    more = f", and in {others} more task{'s' if others > 1 else ''}" if others else ""
    every = "; ".join(f"{each.value:g} °C ({each.label})" for each in limits.limits)
    side = "no colder than" if limits.gate.cold else "no warmer than"
    words = (
        f"{_WORK[limits.gate]} falls here{more} at {temperature_c:g} °C, {source}. Sources disagree, {side}: {every}. "
        f"The strictest decides: {limits.deciding.value:g} °C."
    )
    if limits.gate.cold:
        return words, worded(("Work only on days above the limit, and read a thermometer first.", "Move the start."))
    return words, worded(("Work in the cool of the morning, in shade.", "Move the start."))


def frost_days(days: float) -> tuple[str, tuple[Option, ...]]:
    """Say how many days of the month have frost while mortar or concrete is fresh."""
    count = "a day" if days == 1.0 else f"{days:g} days"
    words = f"This month has {count} with frost in the mean, while mortar or concrete is fresh."
    return words, worded(("Cover fresh work against frost for a day, and watch the forecast.", "Move the start."))


def no_hardening(time: CureTime) -> tuple[str, tuple[Option, ...]]:
    """Say that a bay does not harden at its temperature."""
    at = "" if time.from_c is None else f" at {time.from_c:g} °C"
    words = (
        f"By {time.regimes[0].figure.label} this does not harden{at} within a year. "
        f"The dates after it are not to be relied on."
    )
    return words, worded(("Move the start to warmer months.", "Keep the bay warm, and enter its temperature."))


def clock_changes() -> tuple[str, tuple[Option, ...]]:
    """Say that nobody knows when clocks change at the site."""
    words = (
        "The time zone of the site is not known, so a change of the clocks is not counted: a wait over such a night "
        "ends an hour earlier or later by the clock on the wall than is shown here."
    )
    return words, worded(("Look up whether clocks change in these weeks, and allow the hour.",))
