"""Setting out: pegs, strings and the tapes that prove them, with the height of every layer below the string.

Every string runs at one height over the finished surface and so carries its fall; at each peg the sheet says how far
down the finished surface, the bed, the base and the formation lie. Sides, diagonals, a 3-4-5 triangle and offsets of
arcs are listed for the tape.
"""

from pavewright.setting_out._set_out import set_out
from pavewright.setting_out._sums_strings import SUMS
from pavewright.setting_out._types import (
    LayerHeight,
    Peg,
    SettingOut,
    StringLine,
    TapeCheck,
)

__all__ = [
    "SUMS",
    "LayerHeight",
    "Peg",
    "SettingOut",
    "StringLine",
    "TapeCheck",
    "set_out",
]
