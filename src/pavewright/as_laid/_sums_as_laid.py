"""Sums of checking what is laid."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.as_laid import flatness, movement, planes
from pavewright.as_laid._sums_regimes import REGIME_SUMS
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

if TYPE_CHECKING:
    from collections.abc import Mapping


class Joint(StrEnum):
    """How the joints of a way for everybody are filled."""

    FLUSH = "flush"
    RECESSED = "recessed"
    OPEN = "open"


class Laid(StrEnum):
    """What lies under the straight edge."""

    BLOCKS = "blocks"
    FLAGS = "flags"


_PASSES = "within the limit"
_FAILS = "over the limit"


def _verdict(found: float, limit: float) -> str:
    return _PASSES if found <= limit else _FAILS


def step_between_units(
    lip_mm: float, joint_mm: float, joint: str, step_limit_mm: float, flush_most_mm: float, us_limit_mm: float
) -> dict[str, Value]:
    """Return whether a step between two units is within the limits of three regimes that disagree.

    Source: nbs_2014
    """
    if min(lip_mm, joint_mm) < 0.0 or min(step_limit_mm, flush_most_mm, us_limit_mm) <= 0.0:
        message = "Step and joint are not less than zero, limits are more than zero."
        raise SumRefusedError(message)
    limits: Mapping[Joint, float] = {
        Joint.FLUSH: min(2.0 * joint_mm, flush_most_mm),
        Joint.RECESSED: step_limit_mm,
        Joint.OPEN: step_limit_mm,
    }
    access = limits[Joint(joint)]
    return {
        "access_limit_mm": access,
        "access": _verdict(lip_mm, access),
        "paving": _verdict(lip_mm, step_limit_mm),
        "us_route": _verdict(lip_mm, us_limit_mm),
    }


def gap_under_straight_edge(gap_mm: float, laid: str, blocks_mm: float, flags_mm: float) -> dict[str, Value]:
    """Return whether a gap under a straight edge of 3 m is within the limit for what is laid.

    Source: nbs_2014
    """
    if gap_mm < 0.0 or min(blocks_mm, flags_mm) <= 0.0:
        message = "The gap is not less than zero, limits are more than zero."
        raise SumRefusedError(message)
    limit = {Laid.BLOCKS: blocks_mm, Laid.FLAGS: flags_mm}[Laid(laid)]
    return {"limit_mm": limit, "verdict": _verdict(gap_mm, limit)}


SUMS: tuple[Sum, ...] = (
    Sum(
        "step-between-units",
        "Find whether a step between two slabs or blocks is within the limits",
        (
            Quantity("lip_mm", "mm", "step from one unit to the next"),
            Quantity("joint_mm", "mm", "width of the joint"),
            Quantity("joint", "", "how the joint is filled", kind="word", choices=tuple(Joint)),
            Quantity("step_limit_mm", "mm", "limit on any paving", figure="as_laid.step_between_units_mm"),
            Quantity("flush_most_mm", "mm", "most on a way for everybody", figure="as_laid.step_flush_joint_mm"),
            Quantity("us_limit_mm", "mm", "limit on a US way on foot", figure="as_laid.step_us_route_mm"),
        ),
        (
            Quantity("access_limit_mm", "mm", "limit on a way for everybody, with this joint"),
            Quantity("access", "", "on a way for everybody", kind="word"),
            Quantity("paving", "", "on any paving by UK practice", kind="word"),
            Quantity("us_route", "", "on a US way on foot", kind="word"),
        ),
        "flush joint: limit = min(2 · joint, 5); recessed or open: limit = 2",
        "nbs_2014",
        step_between_units,
    ),
    Sum(
        "gap-under-straight-edge",
        "Find whether a gap under a straight edge of 3 m is within the limit",
        (
            Quantity("gap_mm", "mm", "largest gap under the straight edge"),
            Quantity("laid", "", "what is laid", kind="word", choices=tuple(Laid)),
            Quantity("blocks_mm", "mm", "limit on blocks", figure="as_laid.straightedge_blocks_mm"),
            Quantity("flags_mm", "mm", "limit on flags and slabs", figure="as_laid.straightedge_flags_mm"),
        ),
        (
            Quantity("limit_mm", "mm", "limit for what is laid"),
            Quantity("verdict", "", "whether the gap is within it", kind="word"),
        ),
        "gap ≤ limit",
        "nbs_2014",
        gap_under_straight_edge,
    ),
    *REGIME_SUMS,
    *planes.SUMS,
    *flatness.SUMS,
    *movement.SUMS,
)
"""Sums of this room."""
