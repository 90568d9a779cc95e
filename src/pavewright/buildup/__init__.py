"""Build-up: the layers under the units and the formation that carries them.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.buildup._types import (
    AreaBuildUp,
    BuildUps,
    Layer,
)
from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = ()
"""Sums of this room."""

__all__ = [
    "SUMS",
    "AreaBuildUp",
    "BuildUps",
    "Layer",
]
