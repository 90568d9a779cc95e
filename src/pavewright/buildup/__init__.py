"""Build-up: the layers under the units and the formation that carries them.

Use, bed and ground decide which layers an area gets and how thick; each layer says what decided it. The formation is
the finished surface lowered by all of them. What is dug is the paving and its base past free edges. Edges that stand
higher than what holds them get a wall.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.buildup._base_rules import BaseCase, BasePart, RuledLayer
    from pavewright.buildup._build_up import build_up, depth_under, open_stone_under
    from pavewright.buildup._edge_types import EdgeSection, Haunch, edge_foot_mm, haunch_mean_mm
    from pavewright.buildup._regimes import Regime, ground_bearing, permeable_regime, regimes, rules_for_base
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
    "BaseCase",
    "BasePart",
    "Beyond",
    "BuildUps",
    "EdgeSection",
    "Haunch",
    "Layer",
    "LayerKey",
    "LayerMaterial",
    "LowWall",
    "OpenEdge",
    "OpenKind",
    "Regime",
    "Remedy",
    "RetainedEdge",
    "RuledLayer",
    "build_up",
    "depth_under",
    "edge_foot_mm",
    "ground_bearing",
    "haunch_mean_mm",
    "open_stone_under",
    "permeable_regime",
    "regimes",
    "rules_for_base",
]
