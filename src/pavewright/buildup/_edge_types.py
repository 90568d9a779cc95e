"""The section of what holds a side: its unit, the concrete bed under it and the haunch beside it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.job import EdgeRestraint
    from pavewright.rules import Figure


@dataclass(frozen=True, slots=True)
class Haunch:
    """Concrete beside what holds a side: upright against it, sloped away from it.

    Attributes:
        foot_mm: Width at its foot. [mm]
        top_mm: Width at its top; zero for a triangle, that of the foot for a square one. [mm]
        height_mm: [mm]
        decided_by: Figures that decided.
    """

    foot_mm: float
    top_mm: float
    height_mm: float
    decided_by: tuple[Figure, ...]

    @property
    def mean_mm(self) -> float:
        """Mean width. [mm]."""
        return haunch_mean_mm(self.foot_mm, self.top_mm)


def haunch_mean_mm(foot_mm: float, top_mm: float) -> float:
    """Return the mean width of a haunch. [mm].

    Args:
        foot_mm: Width at its foot. [mm]
        top_mm: Width at its top. [mm]

    Source: definition, a trapezium

    >>> haunch_mean_mm(150.0, 100.0)
    125.0
    """
    return (foot_mm + top_mm) / 2.0


@dataclass(frozen=True, slots=True)
class EdgeSection:
    """The section of what holds sides of an area, of one kind.

    Attributes:
        restraint: What it is.
        unit_mm: Width and height of kerb or edging; zeros where concrete alone holds. [mm]
        top_mm: Its top over the paving, or that of the haunch where there is no unit; below it negative. [mm]
        bed_mm: Width and thickness of the bed; zeros for none. [mm]
        back: Haunch on the side away from the paving; None for none.
        front: Haunch on the side of the paving, under units and their bed; None for none.
        trench_mm: How far its foot goes below formation: so deep a trench is dug for its bed. [mm]
        decided_by: Figures of unit and bed.
    """

    restraint: EdgeRestraint
    unit_mm: tuple[float, float]
    top_mm: float
    bed_mm: tuple[float, float]
    back: Haunch | None
    front: Haunch | None
    trench_mm: float
    decided_by: tuple[Figure, ...]

    @property
    def past_paving_mm(self) -> float:
        """How far it stands past the paving. [mm]."""
        return self.unit_mm[0] + (self.back.foot_mm if self.back is not None else 0.0)

    @property
    def before_mm(self) -> float:
        """How far its bed runs in under the paving. [mm]."""
        return max(self.bed_mm[0] - self.past_paving_mm, 0.0)

    @property
    def foot_mm(self) -> float:
        """How far its foot lies below the paving. [mm]."""
        high = self.unit_mm[1] or (self.back.height_mm if self.back is not None else 0.0)
        return edge_foot_mm(high, self.top_mm, self.bed_mm[1])


def edge_foot_mm(height_mm: float, top_mm: float, bed_mm: float) -> float:
    """Return how far the foot of what holds a side lies below the paving. [mm].

    Args:
        height_mm: Height of the unit, or of the haunch where there is none. [mm]
        top_mm: Its top over the paving. [mm]
        bed_mm: Thickness of the bed under it. [mm]

    Source: definition

    >>> edge_foot_mm(255.0, 100.0, 150.0)
    305.0
    """
    return height_mm - top_mm + bed_mm
