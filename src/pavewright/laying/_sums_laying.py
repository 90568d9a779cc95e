"""Sums of laying."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.laying.setting import RING_SUM
from pavewright.laying.sheets import SIZE_SUMS
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def slab_weight(length_mm: float, width_mm: float, thickness_mm: float, density_kg_per_m3: float) -> dict[str, Value]:
    """Return the mass of a slab.

    Source: definition
    """
    if min(length_mm, width_mm, thickness_mm, density_kg_per_m3) <= 0.0:
        message = "Length, width, thickness and density are all more than zero."
        raise SumRefusedError(message)
    volume = units.mm3_to_m3(length_mm * width_mm * thickness_mm)
    return {
        "kg": volume * density_kg_per_m3,
        "kg_per_m2": units.mm_to_m(thickness_mm) * density_kg_per_m3,
    }


def slabs_by_area(
    area_m2: float, length_mm: float, width_mm: float, joint_mm: float, waste_percent: float
) -> dict[str, Value]:
    """Return the number of slabs that an area alone calls for: it sees no cuts.

    Source: definition
    """
    if min(area_m2, length_mm, width_mm) <= 0.0 or min(joint_mm, waste_percent) < 0.0:
        message = "Area and slab are more than zero; joint and waste are not less than zero."
        raise SumRefusedError(message)
    one = units.mm2_to_m2((length_mm + joint_mm) * (width_mm + joint_mm))
    net = area_m2 / one
    return {
        "one_with_joint_m2": one,
        "net": net,
        "slabs": float(math.ceil(net * (1.0 + waste_percent / 100.0) - 1e-9)),
    }


def fit_in_run(run_mm: float, unit_mm: float, joint_mm: float) -> dict[str, Value]:
    """Return how many whole units fit in a run, what is left, and the joint with which they would fill it.

    Source: definition
    """
    if min(run_mm, unit_mm) <= 0.0 or joint_mm < 0.0:
        message = "Run and unit are more than zero, the joint not less than zero."
        raise SumRefusedError(message)
    whole = math.floor((run_mm + joint_mm) / (unit_mm + joint_mm) + 1e-9)
    reach = whole * unit_mm + max(whole - 1, 0) * joint_mm
    rest = run_mm - reach
    return {
        "whole": float(whole),
        "reach_mm": reach,
        "rest_mm": rest,
        "cut_mm": max(rest - joint_mm, 0.0) if whole else rest,
        "filling_joint_mm": joint_mm + rest / (whole - 1) if whole > 1 else joint_mm,
        "next_up_mm": (whole + 1) * unit_mm + whole * joint_mm,
    }


def creep(units_in_run: float, difference_mm: float) -> dict[str, Value]:
    """Return how far a run grows when each unit differs from its nominal size.

    Source: definition
    """
    if units_in_run < 0.0:
        message = "The number of units is not less than zero."
        raise SumRefusedError(message)
    return {"growth_mm": units_in_run * difference_mm}


def modular_overhang(small_units: float, joint_mm: float) -> dict[str, Value]:
    """Return how far a row of small units with joints runs past one large unit of the same nominal size.

    Source: paving_corners_page
    """
    if small_units < 1.0 or joint_mm < 0.0:
        message = "Give one small unit or more, and a joint of nothing or more."
        raise SumRefusedError(message)
    return {"overhang_mm": (small_units - 1.0) * joint_mm}


SUMS: tuple[Sum, ...] = (
    Sum(
        "modular-overhang",
        "Find how far small units with joints run past one large unit",
        (
            Quantity("small_units", "", "small units whose nominal sizes make the large one"),
            Quantity("joint_mm", "mm", "joint", figure="laying.joint_mm"),
        ),
        (Quantity("overhang_mm", "mm", "how far they run past it"),),
        "overhang = (n − 1) · joint",
        "paving_corners_page, modular units",
        modular_overhang,
    ),
    Sum(
        "slab-weight",
        "Find what a slab weighs",
        (
            Quantity("length_mm", "mm", "length"),
            Quantity("width_mm", "mm", "width"),
            Quantity("thickness_mm", "mm", "thickness"),
            Quantity("density_kg_per_m3", "kg/m³", "density", figure="laying.concrete_kg_per_m3"),
        ),
        (Quantity("kg", "kg", "mass of one"), Quantity("kg_per_m2", "kg/m²", "mass of a square metre")),
        "mass = length · width · thickness · density",
        "definition; concrete_density for the density of concrete",
        slab_weight,
    ),
    Sum(
        "slabs-by-area",
        "Find how many slabs an area calls for, cuts not seen",
        (
            Quantity("area_m2", "m2", "area to pave"),
            Quantity("length_mm", "mm", "length of a slab"),
            Quantity("width_mm", "mm", "width of a slab"),
            Quantity("joint_mm", "mm", "joint", figure="laying.joint_mm"),
            Quantity("waste_percent", "%", "allowance", default=0.0),
        ),
        (
            Quantity("one_with_joint_m2", "m2", "area of a slab and its joint"),
            Quantity("net", "", "slabs without allowance"),
            Quantity("slabs", "", "whole slabs with allowance"),
        ),
        "slabs = area / ((length + joint) · (width + joint)) · (1 + waste)",
        "definition",
        slabs_by_area,
    ),
    Sum(
        "fit-in-run",
        "Find how many whole units fit in a run and what is left",
        (
            Quantity("run_mm", "mm", "run to fill"),
            Quantity("unit_mm", "mm", "size of a unit along it"),
            Quantity("joint_mm", "mm", "joint", figure="laying.joint_mm"),
        ),
        (
            Quantity("whole", "", "whole units"),
            Quantity("reach_mm", "mm", "run that they fill"),
            Quantity("rest_mm", "mm", "what is left"),
            Quantity("cut_mm", "mm", "cut piece that fills it after one more joint"),
            Quantity("filling_joint_mm", "mm", "joint with which the whole units fill the run"),
            Quantity("next_up_mm", "mm", "run that one unit more would fill"),
        ),
        "reach = n · unit + (n − 1) · joint",
        "definition",
        fit_in_run,
    ),
    Sum(
        "creep",
        "Find how far a run grows when each unit is off its nominal size",
        (
            Quantity("units_in_run", "", "number of units"),
            Quantity("difference_mm", "mm", "real size less nominal size"),
        ),
        (Quantity("growth_mm", "mm", "growth of the run"),),
        "growth = units · difference",
        "definition",
        creep,
    ),
    *SIZE_SUMS,
    RING_SUM,
)
