"""What a grating takes: the one engine of the sum and of a job."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pavewright import units
from pavewright.water.drains._hydraulics import G_M_PER_S2

WEIR_FACTOR = 1.7
"""Factor of a broad weir round a rim, a constant of the formula in metres and seconds. [m^0.5/s]"""
ORIFICE_FACTOR = 0.6
"""Factor of a sharp-edged orifice, a constant of the formula. [-]"""


@dataclass(frozen=True, slots=True)
class GratingFlow:
    """What a grating takes.

    Attributes:
        rim_l_s: Flow over its rim. [l/s]
        slots_l_s: Flow through its slots. [l/s]
    """

    rim_l_s: float
    slots_l_s: float

    @property
    def flow_l_s(self) -> float:
        """The lesser of the two. [l/s]."""
        return min(self.rim_l_s, self.slots_l_s)


def grating_flow(
    rim_mm: float,
    grating_mm2: float,
    open_percent: float,
    water_mm: float,
    clogged_percent: float,
    weir_factor: float = WEIR_FACTOR,
    orifice_factor: float = ORIFICE_FACTOR,
) -> GratingFlow:
    """Return what a grating takes with water standing over it: a weir round its rim at first, then its slots.

    Leaves clog part of the rim and of the slots alike.

    Args:
        rim_mm: Length of rim over which water comes. [mm]
        grating_mm2: Area of the grating. [mm²]
        open_percent: Slots, part of the grating. [%]
        water_mm: Depth of water over it. [mm]
        clogged_percent: Part of rim and slots that leaves close. [%]
        weir_factor: Factor of the weir round its rim. [m^0.5/s]
        orifice_factor: Factor of its slots. [-]

    Source: common practice, weir of 1.7·P·h^1.5 and orifice of 0.6·A·√(2gh)

    >>> round(grating_flow(600.0, 22_500.0, 40.0, 10.0, 50.0).flow_l_s, 2)
    0.51
    """
    left, head = 1.0 - clogged_percent / 100.0, units.mm_to_m(water_mm)
    over_rim = weir_factor * units.mm_to_m(rim_mm) * left * math.pow(head, 1.5)
    slots = units.mm2_to_m2(grating_mm2) * open_percent / 100.0 * left
    through = orifice_factor * slots * math.sqrt(2.0 * G_M_PER_S2 * head)
    return GratingFlow(over_rim * units.LITRES_PER_M3, through * units.LITRES_PER_M3)
