"""Sums of packs of mixed sizes."""

from __future__ import annotations

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def pack_coverage(
    lengths_mm: tuple[float, ...],
    widths_mm: tuple[float, ...],
    counts: tuple[float, ...],
    joint_mm: float,
    stated_m2: float,
    tolerance_percent: float,
) -> dict[str, Value]:
    """Return the area that a pack covers with its joints, refused where the stated area is another.

    Source: definition
    """
    if not lengths_mm or not len(lengths_mm) == len(widths_mm) == len(counts):
        message = "Give as many lengths as widths and counts, one of each or more."
        raise SumRefusedError(message)
    if min(*lengths_mm, *widths_mm) <= 0.0 or min(*counts, joint_mm, stated_m2, tolerance_percent) < 0.0:
        message = "Sizes are more than zero; counts, joint, stated area and tolerance are not less than zero."
        raise SumRefusedError(message)
    rows = list(zip(lengths_mm, widths_mm, counts, strict=True))
    bare = units.mm2_to_m2(sum(length * width * count for length, width, count in rows))
    covers = units.mm2_to_m2(sum((length + joint_mm) * (width + joint_mm) * count for length, width, count in rows))
    if covers == 0.0:
        message = "The pack holds nothing."
        raise SumRefusedError(message)
    off = 100.0 * (stated_m2 / covers - 1.0) if stated_m2 > 0.0 else 0.0
    if abs(off) > tolerance_percent:
        message = (
            f"The units of the pack cover {covers:.2f} m² with their joints ({bare:.2f} m² without), "
            f"not {stated_m2:.2f} m²: count them again."
        )
        raise SumRefusedError(message)
    return {"covers_m2": covers, "units_m2": bare, "off_percent": off}


SUMS: tuple[Sum, ...] = (
    Sum(
        "pack-coverage",
        "Find what a pack of mixed sizes covers, and whether its stated area adds up",
        (
            Quantity("lengths_mm", "mm", "length of each size", kind="numbers"),
            Quantity("widths_mm", "mm", "width of each size", kind="numbers"),
            Quantity("counts", "", "units of each size in one pack", kind="numbers"),
            Quantity("joint_mm", "mm", "joint", figure="laying.joint_mm"),
            Quantity("stated_m2", "m2", "area that it is said to cover; zero where it is not said", default=0.0),
            Quantity("tolerance_percent", "%", "by how much the stated area may be off", default=1.0),
        ),
        (
            Quantity("covers_m2", "m2", "area that it covers, joints included"),
            Quantity("units_m2", "m2", "area of its units without joints"),
            Quantity("off_percent", "%", "stated area against it"),
        ),
        "covers = Σ count · (length + joint) · (width + joint)",
        "definition",
        pack_coverage,
    ),
)
