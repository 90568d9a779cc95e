"""The sentences of the findings at hold points, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import worded
from pavewright.job.on_site import HoldCheckKind, HoldLayer

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.findings import Option
    from pavewright.hold_points._types import Hold, PlaceRead

NAMES: Mapping[HoldCheckKind, str] = {
    HoldCheckKind.FORMATION: "formation",
    HoldCheckKind.LAYER: "layer",
    HoldCheckKind.DRAIN: "drain",
    HoldCheckKind.FIRST_ROW: "first row",
    HoldCheckKind.BED: "bed",
}
"""What each kind of hold point is called."""
LAYERS: Mapping[HoldLayer, str] = {
    HoldLayer.CAPPING: "capping",
    HoldLayer.SUB_BASE: "sub-base",
    HoldLayer.BASE: "base",
}
"""What each layer is called."""


def surface(hold: Hold) -> str:
    """Return what a hold point looks at, and where ("sub-base of Terrace")."""
    if hold.drain:
        return hold.drain
    name = NAMES[hold.key.kind] if hold.key.layer is None else LAYERS[hold.key.layer]
    return f"{name} of {hold.area}"


def _worst(worst: PlaceRead) -> str:
    if worst.off_mm is None:
        return f"{worst.label} lies off its string"
    way = "high" if worst.off_mm > 0.0 else "low"
    return f"{worst.label} lies {units.millimetres_text(abs(worst.off_mm))} {way}"


def fails(hold: Hold, count: int, worst: PlaceRead) -> tuple[str, tuple[Option, ...]]:
    """Say that places of a hold point are out of their limit."""
    words = f"The {surface(hold)}: {count} of {len(hold.read)} places are out of the limit; {_worst(worst)}."
    return words, worded((
        "Put it right, and read it again before work goes on.",
        "Let the next layer take it up, where it is thick enough for that.",
        "Where the ground is the cause: enter that the dig differs.",
    ))  # fmt: skip


def not_decided(hold: Hold, count: int) -> str:
    """Say that readings are too near to the limit to decide."""
    return (
        f"The {surface(hold)}: {count} of {len(hold.read)} places are too near to the limit to decide with these "
        "readings. Read them again with a better instrument, or bring them well inside."
    )


def thin_bed(hold: Hold, left_mm: float, planned_mm: float, label: str) -> str:
    """Say that what lies above a high place becomes thinner. [mm]."""
    return (
        f"The {surface(hold)} lies high: at {label} {left_mm:.0f} mm of the {planned_mm:.0f} mm above it are left. "
        "Take it down, or have it decided whether that carries."
    )


def drain_fails(hold: Hold, *, back: bool, flat: bool, leaks: bool) -> tuple[str, tuple[Option, ...]]:
    """Say what is wrong with a drain while it lies open."""
    said = [
        words
        for holds, words in (
            (back, "a stretch of it runs uphill"),
            (flat, "it falls less than it should"),
            (leaks, "it does not hold its test"),
        )
        if holds
    ]
    return f"{surface(hold)}: {', and '.join(said)}. Do not cover it.", worded((
        "Lay it to its fall, and read and test it again.",
    ))  # fmt: skip
