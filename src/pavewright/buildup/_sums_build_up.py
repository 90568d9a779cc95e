"""Sums of the build-up."""

from __future__ import annotations

import itertools

from pavewright.buildup._base_rules import million_axles_mm, road_step
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


def road_table(
    cbr_percent: float, from_percent: tuple[float, ...], capping_mm: tuple[float, ...], sub_base_mm: tuple[float, ...]
) -> dict[str, Value]:
    """Return the layers that a road table gives for a bearing ratio, rounded down to a step of the table.

    Source: leics_design_guide, table 34 and text
    """
    steps = len(from_percent)
    rises = all(low < high for low, high in itertools.pairwise(from_percent))
    if not steps or not rises or {len(capping_mm), len(sub_base_mm)} != {steps}:
        message = "A table takes one capping and one sub-base for each step, the weakest ground first."
        raise SumRefusedError(message)
    if cbr_percent < from_percent[0]:
        message = "The ground is weaker than the table goes: it needs a design of its own."
        raise SumRefusedError(message)
    at = road_step(cbr_percent, from_percent, (0.0,) * steps)
    total = build_up_mm((capping_mm[at], sub_base_mm[at]))
    return {
        "step_percent": from_percent[at],
        "capping_mm": capping_mm[at],
        "sub_base_mm": sub_base_mm[at],
        "total_mm": total,
    }


def million_axles(
    cbr_percent: float,
    weak_mm: float,
    weaker_mm: float,
    firm_mm: float,
    weak_cbr_percent: float,
    firm_cbr_percent: float,
    none_cbr_percent: float,
) -> dict[str, Value]:
    """Return the sub-base of a road for a million standard axles.

    Source: highway_engineering_textbook, page 230, step 4
    """
    ratios = weak_cbr_percent, firm_cbr_percent, none_cbr_percent
    found = million_axles_mm(cbr_percent, (weak_mm, weaker_mm, firm_mm), ratios)
    if found is None:
        message = "The source prints no thickness between its weak and its firm ground: none is known here."
        raise SumRefusedError(message)
    return {"sub_base_mm": found}


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
    Sum(
        "road-table",
        "Find capping and sub-base of a road by its bearing ratio",
        (
            Quantity("cbr_percent", "%", "bearing ratio of the ground"),
            Quantity("from_percent", "%", "where each step of the table begins, the weakest first", kind="numbers"),
            Quantity("capping_mm", "mm", "capping of each step", kind="numbers"),
            Quantity("sub_base_mm", "mm", "sub-base of each step", kind="numbers"),
        ),
        (
            Quantity("step_percent", "%", "the step that holds"),
            Quantity("capping_mm", "mm", "its capping"),
            Quantity("sub_base_mm", "mm", "its sub-base"),
            Quantity("total_mm", "mm", "both together"),
        ),
        "a bearing ratio between two steps is rounded down; an upper end for a drive, no rule for a patio",
        "leics_design_guide, table 34 and text",
        road_table,
    ),
    Sum(
        "road-sub-base",
        "Find the sub-base of a road for a million standard axles",
        (
            Quantity("cbr_percent", "%", "bearing ratio of the ground"),
            Quantity("weak_mm", "mm", "at the weak end", figure="buildup.million_axles_weak_mm"),
            Quantity("weaker_mm", "mm", "more on ground weaker still", figure="buildup.million_axles_weaker_mm"),
            Quantity("firm_mm", "mm", "on firm ground", figure="buildup.million_axles_firm_mm"),
            Quantity("weak_cbr_percent", "%", "the weak end", figure="buildup.million_axles_weak_cbr_percent"),
            Quantity("firm_cbr_percent", "%", "firm over this", figure="buildup.million_axles_firm_cbr_percent"),
            Quantity("none_cbr_percent", "%", "none needed over this", figure="buildup.million_axles_none_cbr_percent"),
        ),
        (Quantity("sub_base_mm", "mm", "sub-base"),),
        "as printed at both ends, not known between; an upper end for a drive, no rule for a patio",
        "highway_engineering_textbook, page 230, step 4",
        million_axles,
    ),
)
