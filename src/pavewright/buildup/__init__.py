"""Build-up: the layers under the units and the formation that carries them.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.buildup._types import (
    AreaBuildUp,
    BuildUps,
    Layer,
)

__all__ = [
    "AreaBuildUp",
    "BuildUps",
    "Layer",
]
