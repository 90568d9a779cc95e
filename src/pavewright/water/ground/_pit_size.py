"""The size of a soakaway: as entered, or proposed for the storms of the place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job import PitFill
from pavewright.water._types_parts import PitSize
from pavewright.water.ground._pit_tests import rate_of
from pavewright.water.ground._sized_pit import Demand, holds, smallest
from pavewright.water.rain import storms

if TYPE_CHECKING:
    from pavewright.job import Outfall, Rain, Soakaway
    from pavewright.water._figures import WaterFigures


def size_of(outfall: Outfall, area_m2: float, rain: Rain | None, figures: WaterFigures) -> PitSize | None:
    """Return the size of a soakaway; None where one is left out and none can be proposed.

    The length is proposed where it is left out, else the width, else the depth: the smallest that holds all storms and
    is half empty in time, the others as entered or those of the rulebook.
    """
    pit = outfall.soakaway
    if pit is None:
        return None
    length, width, depth = pit.length_mm, pit.width_mm, pit.depth_mm
    if length is not None and width is not None and depth is not None:
        return _made(outfall.name, pit, (length, width, depth), figures, proposed=False)
    rate = rate_of(pit)[0]
    if rain is None or area_m2 <= 0.0 or rate < figures.min_infiltration_m_per_s.value:
        return None
    demand = Demand(area_m2, rate, storms(rain, figures.storms), figures.half_empty_h.value)
    deep = depth or figures.soakaway_depth_mm.value
    wide = width or figures.soakaway_width_mm.value
    longest = figures.soakaway_longest_mm.value
    if length is None:
        found = smallest(lambda side: holds((side, wide, deep), pit.void_percent, demand), longest)
        sizes = None if found is None else (found, wide, deep)
    elif width is None:
        found = smallest(lambda side: holds((length, side, deep), pit.void_percent, demand), longest)
        sizes = None if found is None else (length, found, deep)
    else:
        most = figures.soakaway_deepest_mm.value
        found = smallest(lambda side: holds((length, width, side), pit.void_percent, demand), most)
        sizes = None if found is None else (length, width, found)
    return None if sizes is None else _made(outfall.name, pit, sizes, figures, proposed=True)


def _made(
    outfall: str, pit: Soakaway, sizes: tuple[float, float, float], figures: WaterFigures, *, proposed: bool
) -> PitSize:
    length, width, depth = sizes
    by_voids = PitFill.CRATES if pit.void_percent > figures.crates_void_percent.value else PitFill.STONE
    return PitSize(
        outfall=outfall,
        length_mm=length,
        width_mm=width,
        depth_mm=depth,
        cover_mm=figures.soakaway_cover_mm.value if pit.cover_mm is None else pit.cover_mm,
        fill=pit.fill or by_voids,
        void_percent=pit.void_percent,
        proposed=proposed,
        cover_assumed=pit.cover_mm is None,
    )
