"""Sums of the build-up."""

from __future__ import annotations

from pavewright.buildup._layers import build_up_mm, dig_below_dpc_mm
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def dig_depth(
    dpc_mm: float, below_dpc_mm: float, thicknesses_mm: tuple[float, ...], ground_mm: tuple[float, ...]
) -> dict[str, Value]:
    """Return how deep to dig from the damp-proof course, the clearance and the build-up.

    Source: definition
    """
    if below_dpc_mm < 0.0 or not thicknesses_mm or any(thickness < 0.0 for thickness in thicknesses_mm):
        message = "Paving lies below the damp-proof course and layers are not thinner than zero."
        raise SumRefusedError(message)
    if len(ground_mm) > 1:
        message = "ground_mm takes one level, or none where the ground was not read."
        raise SumRefusedError(message)
    total = build_up_mm(thicknesses_mm)
    below = dig_below_dpc_mm(below_dpc_mm, total)
    formation = dpc_mm - below
    return {
        "build_up_mm": total,
        "dig_below_dpc_mm": below,
        "formation_mm": formation,
        "below_ground_mm": tuple(level - formation for level in ground_mm),
    }


SUMS: tuple[Sum, ...] = (
    Sum(
        "dig-depth",
        "Find how deep to dig from the damp-proof course and the build-up",
        (
            Quantity("dpc_mm", "mm", "level of the damp-proof course", default=0.0),
            Quantity("below_dpc_mm", "mm", "finished paving below it", figure="levels.below_dpc_mm"),
            Quantity("thicknesses_mm", "mm", "layers from the top down", kind="numbers"),
            Quantity("ground_mm", "mm", "level of the ground there, if it was read", "numbers", ()),
        ),
        (
            Quantity("build_up_mm", "mm", "all layers"),
            Quantity("dig_below_dpc_mm", "mm", "formation below the damp-proof course"),
            Quantity("formation_mm", "mm", "level of the formation"),
            Quantity(
                "below_ground_mm",
                "mm",
                "depth of the dig below the ground; empty where the ground was not read",
                "numbers",
            ),
        ),
        "formation = dpc − clearance − sum of layers",
        "definition",
        dig_depth,
    ),
)
