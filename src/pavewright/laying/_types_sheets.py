"""What the laying room hands on for its sheets: growth of runs, marks of the first course, templates."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.geometry import XY


class Way(StrEnum):
    """Which way a run goes by the courses."""

    ALONG = "along"
    ACROSS = "across"


@dataclass(frozen=True, slots=True)
class RunGrowth:
    """How the longest run of an area grows with units as they were measured.

    Attributes:
        unit: Name of the paving unit.
        way: Which way it runs.
        measured: How many units were measured.
        work_mm: Work size. [mm]
        mean_mm: Mean of those measured. [mm]
        spread_mm: Standard deviation of one unit. [mm]
        units_in_run: Whole units in the longest run; cut pieces are cut to fit.
        growth_mm: Growth of the run when it is laid with the joint of the plan. [mm]
        doubt_mm: Doubt of that growth either way, twice the standard error of the mean. [mm]
        joint_mm: Joint of the plan. [mm]
        absorbing_joint_mm: Joint with which the run ends where it was planned. [mm]
    """

    unit: str
    way: Way
    measured: int
    work_mm: float
    mean_mm: float
    spread_mm: float
    units_in_run: int
    growth_mm: float
    doubt_mm: float
    joint_mm: float
    absorbing_joint_mm: float


@dataclass(frozen=True, slots=True)
class GaugeMark:
    """Where a piece of the first course begins and ends, from the beginning of the first one.

    Attributes:
        piece: Number of the piece.
        start_mm: [mm]
        end_mm: [mm]
    """

    piece: int
    start_mm: float
    end_mm: float


@dataclass(frozen=True, slots=True)
class Ordinate:
    """Where a piece begins and ends across its box, at one place along it; or the other way about.

    Attributes:
        at_mm: Place along the box, or up it. [mm]
        spans_mm: From where to where, counted from the edge of the box; several where a hole lies between. [mm]
    """

    at_mm: float
    spans_mm: tuple[XY, ...]


@dataclass(frozen=True, slots=True)
class Template:
    """A cut piece in its box, seen from above, the length of its unit along the box.

    Attributes:
        piece: Number of the piece.
        unit: Name of the paving unit from which it is cut.
        along_mm: Length of the box. [mm]
        across_mm: Width of the box. [mm]
        rings_mm: Outline and holes, counted from a corner of the box. [mm]
        corners_mm: Corners of the outline and of holes, points of curves left out. [mm]
        ordinates: Offsets at equal steps along the box; none where corners tell all.
        upright: Whether the steps run up the box instead, because the curve does.
    """

    piece: int
    unit: str
    along_mm: float
    across_mm: float
    rings_mm: tuple[tuple[XY, ...], ...]
    corners_mm: tuple[XY, ...]
    ordinates: tuple[Ordinate, ...]
    upright: bool
