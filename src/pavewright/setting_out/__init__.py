"""Setting out: pegs, strings, checks and heights.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.setting_out._types import (
    LayerHeight,
    Peg,
    SettingOut,
    StringLine,
    TapeCheck,
)
from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = ()
"""Sums of this room."""

__all__ = [
    "SUMS",
    "LayerHeight",
    "Peg",
    "SettingOut",
    "StringLine",
    "TapeCheck",
]
