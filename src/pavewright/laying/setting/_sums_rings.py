"""The sum of a ring."""

from __future__ import annotations

from pavewright.laying.patterns import ring_joint_mm, units_in_ring
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def ring_of_units(inner_mm: float, round_mm: float, deep_mm: float, joint_min_mm: float) -> dict[str, Value]:
    """Return how many units close a ring, and how its joints taper.

    Source: definition
    """
    if min(inner_mm, round_mm, deep_mm) <= 0.0 or joint_min_mm < 0.0:
        message = "Radius and unit are more than zero, the joint not less than zero."
        raise SumRefusedError(message)
    number = units_in_ring(inner_mm, round_mm, joint_min_mm)
    if number == 0:
        message = "Not even three units close so near to the centre: take a larger radius or a smaller unit."
        raise SumRefusedError(message)
    return {
        "units": float(number),
        "inner_joint_mm": ring_joint_mm(inner_mm, round_mm, number),
        "outer_joint_mm": ring_joint_mm(inner_mm + deep_mm, round_mm, number),
    }


RING_SUM = Sum(
    name="ring-of-units",
    title="Find how many units close a ring and how its joints taper",
    inputs=(
        Quantity("inner_mm", "mm", "from the centre to the middle of the inner side of a unit"),
        Quantity("round_mm", "mm", "size of the unit round the ring"),
        Quantity("deep_mm", "mm", "size of the unit away from the centre"),
        Quantity("joint_min_mm", "mm", "narrowest joint, at the inner corners", default=0.0),
    ),
    outputs=(
        Quantity("units", "", "units in the ring"),
        Quantity("inner_joint_mm", "mm", "joint between inner corners"),
        Quantity("outer_joint_mm", "mm", "joint between outer corners"),
    ),
    formula="n = π / (atan(b / 2r) + asin(j / 2√(r² + b²/4))), rounded down; joint = 2r·sin(π/n) − b·cos(π/n)",
    source="definition",
    compute=ring_of_units,
)
