"""Rates at which ground takes water, from timed falls in a hole: the one engine of sums and jobs."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright import units

_HALF = 0.5
"""From three quarters to one quarter full half of the water goes. [-]"""


@dataclass(frozen=True, slots=True)
class PitFills:
    """Fills of one trial pit.

    Attributes:
        volume_m3: Water that goes in each fall. [m³]
        wetted_m2: Sides to half the depth, and base. [m²]
        rates_m_per_s: Rate of each fall. [m/s]
    """

    volume_m3: float
    wetted_m2: float
    rates_m_per_s: tuple[float, ...]

    @property
    def slowest_m_per_s(self) -> float:
        """The rate that counts for a soakaway. [m/s]."""
        return min(self.rates_m_per_s)


def pit_fills(length_mm: float, width_mm: float, depth_mm: float, times_s: tuple[float, ...]) -> PitFills:
    """Return the rates of several falls of the water in one trial pit, from three quarters to one quarter full.

    Water leaves through the sides to half the depth and through the base; when the soakaway is sized later the base is
    left out.

    Args:
        length_mm: Length of the pit in plan. [mm]
        width_mm: Its width. [mm]
        depth_mm: Depth of water when full. [mm]
        times_s: Time of each fall. [s]

    Valid for: sizes and times above zero.
    Source: bre_digest_365, f = V / (a·t)

    >>> found = pit_fills(1000.0, 750.0, 1000.0, (3360.0, 3300.0))
    >>> found.wetted_m2, f"{found.slowest_m_per_s:.3e}"
    (2.5, '4.464e-05')
    """
    volume = units.mm3_to_m3(length_mm * width_mm * depth_mm * _HALF)
    wetted = units.mm2_to_m2(length_mm * width_mm + (length_mm + width_mm) * depth_mm)
    return PitFills(volume, wetted, tuple(volume / (wetted * each) for each in times_s))


@dataclass(frozen=True, slots=True)
class HoleRate:
    """What one fall in a square percolation hole says.

    Attributes:
        all_m_per_s: Rate through sides and base. [m/s]
        sides_m_per_s: Rate if only the sides are counted. [m/s]
    """

    all_m_per_s: float
    sides_m_per_s: float


def hole_rate(side_mm: float, drop_mm: float, seconds: float) -> HoleRate:
    """Return the rate of a fall from three quarters to one quarter of the depth of a square hole.

    The depth is twice the fall, so the sides are wetted to one fall in the mean. Other forms of the rate that differ
    tenfold are in print; this one is the geometry of the hole.

    Args:
        side_mm: Side of the hole. [mm]
        drop_mm: Fall of the water. [mm]
        seconds: Time of it. [s]

    Valid for: sizes and time above zero.
    Source: definition, water of the fall through wetted sides and base

    >>> f"{hole_rate(300.0, 150.0, 2800.0).all_m_per_s:.3e}"
    '1.786e-05'
    """
    volume = units.mm3_to_m3(side_mm * side_mm * drop_mm)
    sides, base = units.mm2_to_m2(4.0 * side_mm * drop_mm), units.mm2_to_m2(side_mm * side_mm)
    return HoleRate(volume / ((sides + base) * seconds), volume / (sides * seconds))
