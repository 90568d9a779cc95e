"""Sentences on drains that take no paving, in one place: facts in, words and options out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import worded
from pavewright.job import Folding

if TYPE_CHECKING:
    from pavewright.findings import Option
    from pavewright.water._types import InletShare

_NONE_M2 = 0.05
"""Less than this is written as nothing. [m²]"""


def drains_nothing(share: InletShare) -> str:
    """Say how little of the paving beside it reaches a drain."""
    little = "nothing" if share.reaches_m2 < _NONE_M2 else "next to nothing"
    beside = " and ".join(share.areas)
    return (
        f"{share.name} drains {little}: {share.reaches_m2:.1f} of the {share.whole_m2:.1f} m² of {beside} reach it. "
        f"What is to drain to it?"
    )


def blocked(name: str, takes_m2: float) -> tuple[str, tuple[Option, ...]]:
    """Say that a drain did not run when it was tried. [m²]."""
    words = f"Water that was poured into {name} did not run away, and {takes_m2:.1f} m² of paving drain to it."
    ways = (
        "Have it cleared and its run looked at, then pour a bucket again.",
        "Lead the paving to another drain or to a border.",
    )
    return words, worded(ways)


def outfall_unused(name: str) -> str:
    """Say that nothing leads to an outfall."""
    return f"Nothing drains to {name}: no gully or channel leads there, and no paving runs over an edge to it."


def fold_to(name: str) -> str:
    """Option: fold the area to a channel."""
    return f"Fold the area to {name}."


def fold_by(name: str, kind: Folding) -> str:
    """Option: fold the area to a gully in one of the ways that bring all of it there."""
    how = "by valleys that cross there" if kind is Folding.CROSSED_VALLEY else "with a plane from each side"
    return f"Fold the area to {name}, {how}."


def turn_to(name: str) -> str:
    """Option: one plane that falls to a drain at the edge."""
    return f"Turn the fall towards {name}."


def move_to_low_edge(name: str) -> str:
    """Option: move a new gully to the low edge."""
    return f"Move {name} to the low edge, where the water goes now."


def channel_at_low_edge(name: str) -> str:
    """Option: a channel along the low edge instead."""
    return f"Put a channel along the low edge, where the water goes now, and keep {name} for what else it serves."


def not_meant(name: str) -> str:
    """Option: the drain serves something else."""
    return f"{name} is not meant to take the paving: it serves a downpipe or something else."


def connect(drain: str, outfall: str) -> str:
    """Option: lead a drain to an outfall."""
    return f"Lead {drain} to {outfall}."
