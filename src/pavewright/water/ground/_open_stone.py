"""How thick open stone under paving on a fall has to be for its storms: only what lies below the spill is counted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from shapely.affinity import rotate
from shapely.geometry import box

from pavewright import units
from pavewright.water._types_parts import PitVerdict
from pavewright.water.ground._sized_pit import verdict_on
from pavewright.water.ground._water_balance import balance

if TYPE_CHECKING:
    from shapely.geometry import MultiPolygon, Polygon

_STRIPS = 100
"""Strips across the fall into which an area is cut."""
_STEPS = 200
"""Thicknesses that are tried, from the first to the thickest."""


@dataclass(frozen=True, slots=True)
class Rains:
    """What falls on a square metre and how fast the ground takes it.

    Attributes:
        ratio: Sealed area that drains on to the paving, over its own area. [-]
        rate_m_per_s: Infiltration rate of formation. [m/s]
        void_percent: Voids in the stone. [%]
        storms: Durations and depths of the storms. [min, mm]
        half_empty_h: Longest time to half empty. [h]
    """

    ratio: float
    rate_m_per_s: float
    void_percent: float
    storms: tuple[tuple[float, float], ...]
    half_empty_h: float


@dataclass(frozen=True, slots=True)
class StoneNeed:
    """What open stone of one thickness does.

    Attributes:
        thickness_mm: Of the stone. [mm]
        wanted_mm: Depth of stone over the whole area that the worst storm fills. [mm]
        counted_mm: What counts of the stone on its fall, over the whole area. [mm]
        wet_percent: Part of formation that stands in water when it is full. [%]
        governing_min: Duration of the worst storm. [min]
        half_empty_h: Time until half of what is stored is gone. [h]
        verdict: What is to be said of it.
    """

    thickness_mm: float
    wanted_mm: float
    counted_mm: float
    wet_percent: float
    governing_min: float
    half_empty_h: float
    verdict: PitVerdict

    @property
    def holds(self) -> bool:
        """Whether it holds its storms."""
        return self.verdict is not PitVerdict.TOO_SMALL


def strips_up(polygon: Polygon | MultiPolygon, uphill_deg: float) -> tuple[tuple[float, float], ...]:
    """Cut an area across its fall: how far the upper end of each strip lies from the low end, and its area. [mm, mm²].

    Args:
        polygon: The area in plan. [mm]
        uphill_deg: Direction in which it rises, from the x axis to the left. [deg]
    """
    turned = rotate(polygon, -uphill_deg, origin=(0.0, 0.0))
    west, south, east, north = turned.bounds
    wide = (east - west) / _STRIPS
    cut = (turned.intersection(box(west + n * wide, south, west + (n + 1) * wide, north)).area for n in range(_STRIPS))
    return tuple(((n + 1) * wide, float(area)) for n, area in enumerate(cut))


def stone_need(thickness_mm: float, fall: float, strips: tuple[tuple[float, float], ...], rains: Rains) -> StoneNeed:
    """Return what open stone of one thickness does: it spills where its top is lowest, and what lies above stays dry.

    Only ground that stands in water is counted as taking any, so a steeper fall asks for more on both counts.

    Args:
        thickness_mm: Of the stone. [mm]
        fall: Of the surface and of formation, rise over run. [rise over run]
        strips: Area across its fall, from the low end. [mm, mm²]
        rains: What falls and how fast the ground takes it.

    Source: icpi_permeable, depth = (rain · (1 + R) − f·t) / void; the wedge under a level surface by definition
    """
    whole = sum(area for _, area in strips)
    held = sum(area * max(thickness_mm - fall * up, 0.0) for up, area in strips)
    wet = sum(area for up, area in strips if fall * up < thickness_mm) / whole
    durations, depths = tuple(each for each, _ in rains.storms), tuple(each for _, each in rains.storms)
    # one square metre of the paving; where no strip is under water nothing soaks away, and nothing is held either
    found = balance(1.0 + rains.ratio, max(wet, 1.0 / _STRIPS), rains.rate_m_per_s, durations, depths)
    void = rains.void_percent / units.ALL_PERCENT
    counted = held / whole
    return StoneNeed(
        thickness_mm=thickness_mm,
        wanted_mm=units.m_to_mm(found.required_m3 / void),
        counted_mm=counted,
        wet_percent=units.ALL_PERCENT * wet,
        governing_min=found.governing_min,
        half_empty_h=found.half_empty_min / units.MINUTES_PER_HOUR,
        verdict=verdict_on(found, durations, units.mm_to_m(counted) * void, rains.half_empty_h),
    )


def thinnest(most_mm: float, fall: float, strips: tuple[tuple[float, float], ...], rains: Rains) -> StoneNeed | None:
    """Return the thinnest open stone that holds its storms, in even steps; None where none does.

    Args:
        most_mm: The thickest that is proposed. [mm]
        fall: Of the surface and of formation, rise over run. [rise over run]
        strips: Area across its fall, from the low end. [mm, mm²]
        rains: What falls and how fast the ground takes it.
    """
    tried = (stone_need(most_mm * n / _STEPS, fall, strips, rains) for n in range(1, _STEPS + 1))
    return next((each for each in tried if each.holds), None)
