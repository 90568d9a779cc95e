"""Sums of real sizes: growth of a run, and what size a drawing shows."""

from __future__ import annotations

from pavewright.laying.sheets._real_sizes import growth_mm, joint_that_absorbs_mm, measured_sizes
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_SAME_MM = 0.5
"""Sizes on drawings are whole millimetres. [mm]"""


def run_growth(
    sizes_mm: tuple[float, ...],
    work_mm: float,
    units_in_run: float,
    joint_mm: float,
    joint_min_mm: float,
    joint_max_mm: float,
) -> dict[str, Value]:
    """Return how far a run of measured units grows, and the joint that absorbs it.

    Source: definition
    """
    if not sizes_mm or min(sizes_mm) <= 0.0 or work_mm <= 0.0:
        message = "Give at least one size, all of them and the work size above zero: measure ten units."
        raise SumRefusedError(message)
    if units_in_run != int(units_in_run) or units_in_run < 2.0:  # noqa: PLR2004 - a joint lies between two
        message = "Give a whole number of units in the run, two or more: one has no joint."
        raise SumRefusedError(message)
    if not 0.0 <= joint_min_mm <= joint_max_mm or joint_mm < 0.0:
        message = "Joints are zero or more, and the widest is not below the narrowest."
        raise SumRefusedError(message)
    real = measured_sizes(sizes_mm)
    growth = growth_mm(int(units_in_run), real.mean_mm, work_mm)
    joint = joint_that_absorbs_mm(joint_mm, growth, int(units_in_run) - 1)
    return {
        "mean_mm": real.mean_mm,
        "spread_mm": real.spread_mm,
        "growth_mm": growth,
        "absorbing_joint_mm": joint,
        "verdict": "joints absorb it" if joint_min_mm <= joint <= joint_max_mm else "joints cannot absorb it",
    }


def nominal_or_work_size(drawn_mm: float, work_mm: float, joint_mm: float, units_in_run: float) -> dict[str, Value]:
    """Return whether a size on a drawing is the unit itself or the unit with its joint, and what the run really takes.

    Source: definition
    """
    if min(drawn_mm, work_mm) <= 0.0 or joint_mm < 0.0 or units_in_run < 1.0:
        message = "Sizes are above zero, the joint is zero or more, and the run has a unit or more."
        raise SumRefusedError(message)
    modular = work_mm + joint_mm
    is_work, is_modular = abs(drawn_mm - work_mm) <= _SAME_MM, abs(drawn_mm - modular) <= _SAME_MM
    verdict = {
        (True, True): "either: there is no joint to tell them apart",
        (True, False): "work size: joints come on top",
        (False, True): "modular size: unit and joint",
        (False, False): "neither: ask which unit and joint are meant",
    }[is_work, is_modular]
    real = units_in_run * work_mm + (units_in_run - 1.0) * joint_mm
    return {
        "modular_mm": modular,
        "verdict": verdict,
        "run_as_drawn_mm": units_in_run * drawn_mm,
        "run_as_laid_mm": real,
        "difference_mm": real - units_in_run * drawn_mm,
    }


SIZE_SUMS: tuple[Sum, ...] = (
    Sum(
        "run-growth",
        "Find how far a run grows with units as measured, and the joint that absorbs it",
        (
            Quantity("sizes_mm", "mm", "sizes of the units measured, ten or so", kind="numbers"),
            Quantity("work_mm", "mm", "work size"),
            Quantity("units_in_run", "", "whole units in the run"),
            Quantity("joint_mm", "mm", "joint of the plan", figure="laying.joint_mm"),
            Quantity("joint_min_mm", "mm", "narrowest joint that serves", default=0.0),
            Quantity("joint_max_mm", "mm", "widest joint that serves", default=50.0),
        ),
        (
            Quantity("mean_mm", "mm", "mean size"),
            Quantity("spread_mm", "mm", "standard deviation of one unit"),
            Quantity("growth_mm", "mm", "growth of the run with the joint of the plan"),
            Quantity("absorbing_joint_mm", "mm", "joint with which the run ends where it was planned"),
            Quantity("verdict", "", "whether that joint serves", kind="word"),
        ),
        "growth = n · (mean − work size); joint' = joint − growth / (n − 1)",
        "definition",
        run_growth,
    ),
    Sum(
        "nominal-or-work-size",
        "Find whether a drawing shows units by their work size or with their joint",
        (
            Quantity("drawn_mm", "mm", "size of a unit on the drawing"),
            Quantity("work_mm", "mm", "work size as the maker gives it"),
            Quantity("joint_mm", "mm", "joint", figure="laying.joint_mm"),
            Quantity("units_in_run", "", "units in a run", default=1.0),
        ),
        (
            Quantity("modular_mm", "mm", "work size and joint"),
            Quantity("verdict", "", "what the drawing shows", kind="word"),
            Quantity("run_as_drawn_mm", "mm", "run by the size drawn"),
            Quantity("run_as_laid_mm", "mm", "run as it is laid, joints between the units only"),
            Quantity("difference_mm", "mm", "as laid less as drawn"),
        ),
        "modular size = work size + joint; run = n · work size + (n − 1) · joint",
        "definition",
        nominal_or_work_size,
    ),
)
