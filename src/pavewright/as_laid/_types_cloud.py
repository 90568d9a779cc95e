"""What the check of a point cloud hands on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.as_laid._regimes import Limit, Regime
    from pavewright.as_laid._types_surface import BayAsLaid
    from pavewright.as_laid._verdicts import Verdict
    from pavewright.geometry import XY


@dataclass(frozen=True, slots=True)
class CloudMark:
    """A levelled point by which a cloud was laid onto the plan.

    Attributes:
        name: Its name.
        at: Where it was measured. [mm]
        off_plan_mm: How far the cloud lies off it in plan. [mm]
        off_level_mm: How far the cloud lies above it. [mm]
    """

    name: str
    at: XY
    off_plan_mm: float
    off_level_mm: float


@dataclass(frozen=True)
class CloudEdge:
    """The largest gap that a straight edge found on a bay of a cloud.

    Attributes:
        edge_mm: Length of the edge. [mm]
        gap_mm: The gap. [mm]
        sd_mm: Standard deviation of it from the scatter of the cells, warp of the cloud left out. [mm]
        contacts: Where the edge lay. [mm]
        at: Where the gap is. [mm]
        rows: How many rows of cells it was rolled along.
        limit: What it is held to.
        verdict: Pass, fail or inconclusive, that it is the largest of many allowed for; None where the regime has no
            such edge.
    """

    edge_mm: float
    gap_mm: float
    sd_mm: float
    contacts: tuple[XY, XY]
    at: XY
    rows: int
    limit: Limit
    verdict: Verdict | None


@dataclass(frozen=True)
class CloudBay:
    """A bay in a point cloud.

    Attributes:
        bay: The bay against the plane that was planned; its plane is as sure as the cells and the levelled points are.
        cells: Cells that lie on it.
        left_out: Cells on it that are no paving: something stands there.
        scatter_mm: Scatter of the cells about its plane: flatness and noise together. [mm]
        high_mm: Height above the plan that one cell in twenty exceeds. [mm]
        low_mm: Height above the plan that one cell in twenty stays under. [mm]
        beyond_share: Part of the cells farther off the plan than levels may be. [-]
        edge: What a straight edge found; None where the bay is too small, or the regime has no edge.
    """

    bay: BayAsLaid
    cells: int
    left_out: int
    scatter_mm: float
    high_mm: float
    low_mm: float
    beyond_share: float
    edge: CloudEdge | None


@dataclass(frozen=True)
class CloudCheck:
    """A point cloud against the plan; it indicates, and decides nothing that a levelled reading could decide.

    Attributes:
        marks: The levelled points onto which it was laid.
        unchecked: Names of those of which no other would show that they are wrong.
        level_sd_mm: Standard deviation of the cloud at a levelled point. [mm]
        noise_mm: Scatter of one cell against its neighbours. [mm]
        seen_from_mm: Depth of a dip that is told from the noise of a cell. [mm]
        cell_mm: Side of a cell. [mm]
        points: Points that were taken.
        regime: What flatness is held to.
        bays: Each bay that has cells, by area.
        unseen: Areas on which no cell lies.
    """

    marks: tuple[CloudMark, ...]
    unchecked: tuple[str, ...]
    level_sd_mm: float
    noise_mm: float
    seen_from_mm: float
    cell_mm: float
    points: int
    regime: Regime
    bays: tuple[CloudBay, ...]
    unseen: tuple[str, ...]
