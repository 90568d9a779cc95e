"""Build-up: the layers under the units and the formation that carries them.

Use, bed and ground decide which layers an area gets and how thick; each layer says what decided it. The formation is
the finished surface lowered by all of them. What is dug is the paving and its base past free edges. Edges that stand
higher than what holds them get a wall.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.buildup._build_up import build_up, depth_under
    from pavewright.buildup._regimes import (
        Regime,
        RegimeKey,
        RegimeLayer,
        RegimePart,
        ground_bearing,
        permeable_regime,
        regimes,
    )
    from pavewright.buildup._sums_build_up import SUMS
    from pavewright.buildup._types import (
        AreaBuildUp,
        Beyond,
        BuildUps,
        Layer,
        LayerKey,
        LayerMaterial,
        LowWall,
        OpenEdge,
        OpenKind,
        Remedy,
        RetainedEdge,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "AreaBuildUp",
    "Beyond",
    "BuildUps",
    "Layer",
    "LayerKey",
    "LayerMaterial",
    "LowWall",
    "OpenEdge",
    "OpenKind",
    "Regime",
    "RegimeKey",
    "RegimeLayer",
    "RegimePart",
    "Remedy",
    "RetainedEdge",
    "build_up",
    "depth_under",
    "ground_bearing",
    "permeable_regime",
    "regimes",
]
