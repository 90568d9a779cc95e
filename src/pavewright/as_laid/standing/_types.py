"""What is told of standing water on paving as laid."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from pavewright.geometry import XY


class WaterState(StrEnum):
    """What the readings say of standing water."""

    STANDS = "stands"
    UNDECIDED = "undecided"
    CLEARS = "clears"
    UNKNOWN = "unknown"


class WhyUnknown(StrEnum):
    """Why nothing can be said of standing water on an area."""

    FEW_READINGS = "few_readings"
    NO_WAY_OUT = "no_way_out"
    CONTRADICT = "contradict"


@dataclass(frozen=True, slots=True)
class Span:
    """A value with the span that holds nine tenths of the simulations.

    Attributes:
        low: One in twenty is lower. [in the unit of its name]
        middle: Half are lower. [in the unit of its name]
        high: One in twenty is higher. [in the unit of its name]
    """

    low: float
    middle: float
    high: float


@dataclass(frozen=True, slots=True)
class Pond:
    """A place where water may stand.

    Attributes:
        number: Its number on sheets and screens, the likeliest first.
        at: Where it is likeliest. [mm]
        chance: Share of the simulations in which water stands there, somewhere deeper than is looked for. [-]
        state: What the chance comes to.
        depth_mm: Greatest depth where it stands. [mm]
        area_m2: Area under water where it stands. [m²]
        volume_l: Water in it where it stands. [l]
        planned_mm: Depth that stands there on the surface as designed. [mm]
        nearest_mm: How far the nearest reading is. [mm]
    """

    number: int
    at: XY
    chance: float
    state: WaterState
    depth_mm: Span
    area_m2: Span
    volume_l: Span
    planned_mm: float
    nearest_mm: float


@dataclass(frozen=True, slots=True)
class NextPlace:
    """A place where one more reading decides most.

    Attributes:
        label: Its name on sheets and screens.
        area: Name of its area.
        at: Where to read. [mm]
        planned_mm: Finished level planned there. [mm]
        decides: Part of what is undecided on the area that this one reading is expected to settle. [-]
    """

    label: str
    area: str
    at: XY
    planned_mm: float
    decides: float


@dataclass(frozen=True, slots=True)
class Unevenness:
    """How uneven the paving is between readings, as the simulations take it.

    Attributes:
        sd_mm: Standard deviation of the departures from the trend. [mm]
        reach_mm: How far departures are alike. [mm]
        learnt: How much of it the readings told, from zero (all assumed) to one. [-]
    """

    sd_mm: Span
    reach_mm: Span
    learnt: float


@dataclass(frozen=True, eq=False)
class AreaStanding:
    """Standing water on one area as laid.

    Attributes:
        area: Name of the area.
        state: What the readings say.
        why: Why nothing can be said; None where something is.
        readings: Readings that went in.
        farthest_mm: How far a place of it may lie from the nearest reading; infinite where nothing is said. [mm]
        counted_mm: Shallower water is not looked for: readings cannot show it. [mm]
        chance: Share of the simulations in which water stands anywhere on it. [-]
        litres: Water that stands. [l]
        wet_m2: Area under water. [m²]
        ponds: Where water may stand, the likeliest first.
        next_places: Where to read next.
        undecided_m2: Area for which a yes or no is still open, each place by how open it is. [m²]
        unevenness: How uneven it is between readings; None where nothing can be said.
        runs: Simulations.
        cell_mm: Side of the cells. [mm]
        corner: Lower left corner of the cells. [mm]
        chances: Chance of water in each cell, shape (rows, columns), float64; not a number outside. [-]
        off_mm: Level against the plan that is likeliest in each cell, same shape, float64; high is positive. [mm]
        off_sd_mm: Standard deviation of that, same shape, float64. [mm]
    """

    area: str
    state: WaterState
    why: WhyUnknown | None
    readings: int
    farthest_mm: float
    counted_mm: float
    chance: float
    litres: Span
    wet_m2: Span
    ponds: tuple[Pond, ...]
    next_places: tuple[NextPlace, ...]
    undecided_m2: float
    unevenness: Unevenness | None
    runs: int
    cell_mm: float
    corner: XY
    chances: NDArray[np.float64]
    off_mm: NDArray[np.float64]
    off_sd_mm: NDArray[np.float64]
