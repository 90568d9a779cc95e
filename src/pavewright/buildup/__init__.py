"""Build-up: the layers under the units and the formation that carries them.

Use, bed and ground decide which layers an area gets and how thick; each layer says what decided it. The formation is
the finished surface lowered by all of them. What is dug is the paving and its base past free edges.
"""

from pavewright.buildup._build_up import build_up, depth_under
from pavewright.buildup._sums_build_up import SUMS
from pavewright.buildup._types import (
    AreaBuildUp,
    BuildUps,
    Layer,
)

__all__ = [
    "SUMS",
    "AreaBuildUp",
    "BuildUps",
    "Layer",
    "build_up",
    "depth_under",
]
