"""Inputs and answers that the sums of storage share: storms in, balance and verdict out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.sums import Quantity
from pavewright.water._types_parts import PitVerdict

if TYPE_CHECKING:
    from pavewright.sums import Value
    from pavewright.water.ground._sized_pit import HeldPit

VOID = Quantity("void_percent", "%", "voids in the stone", default=30.0)
AREA = Quantity("area_m2", "m2", "area drained")
RATE = Quantity("infiltration_m_per_s", "m/s", "infiltration rate, slowest of three tests")
DURATIONS = Quantity("durations_min", "min", "durations of the storms, from short to long", kind="numbers")
RAIN = Quantity("rain_mm", "mm", "depth of rain of each", kind="numbers")
IN_TIME = Quantity("half_empty_h", "h", "longest time to half empty", figure="water.half_empty_h")
MEANWHILE = Quantity(
    "soaks_meanwhile",
    "",
    "whether water that soaks away during the storm counts",
    kind="word",
    default="yes",
    choices=("yes", "no"),
)
STORMS = (VOID, AREA, RATE, DURATIONS, RAIN, IN_TIME, MEANWHILE)
"""What a storage is checked against."""

SIDES = Quantity("sides_m2", "m2", "sides to half the depth")
GOVERNING = Quantity("governing_min", "min", "duration of the worst")
HALF_EMPTY = Quantity("half_empty_min", "min", "time to half empty")
BALANCE = (
    Quantity("inflow_m3", "m3", "water that comes", kind="numbers"),
    Quantity("outflow_m3", "m3", "water that soaks away", kind="numbers"),
    Quantity("storage_m3", "m3", "storage wanted by each storm", kind="numbers"),
    Quantity("required_m3", "m3", "storage wanted by the worst"),
    GOVERNING,
    Quantity("available_m3", "m3", "storage there is"),
    HALF_EMPTY,
    Quantity("verdict", "", ", ".join(PitVerdict), kind="word"),
)


def answers_of(found: HeldPit) -> dict[str, Value]:
    """Return a storage checked against its storms by the names that the sums have for it."""
    return {
        "sides_m2": found.sides_m2,
        "inflow_m3": found.balance.inflow_m3,
        "outflow_m3": found.balance.outflow_m3,
        "storage_m3": found.balance.storage_m3,
        "required_m3": found.balance.required_m3,
        "governing_min": found.balance.governing_min,
        "available_m3": found.available_m3,
        "half_empty_min": found.balance.half_empty_min,
        "verdict": found.verdict.value,
    }
