"""Litres in the design storm to every edge, drain and boundary: before the job, off the ground, and after it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.findings import Finding, Severity
from pavewright.job import Beyond, GroundCover
from pavewright.levels import THEIRS, Taker, TakerKind, drained_surface
from pavewright.water import _words_runs as words
from pavewright.water._codes import Code
from pavewright.water._types import SheetStorm, StormShare
from pavewright.water.rain import storms

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.geometry import XY, TriangulatedSurface
    from pavewright.job import Rain
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey
    from pavewright.water._figures import WaterFigures
    from pavewright.water._types import Catchment

_GROUND_CELL_MM = 200.0
"""Cells of the ground before the job: spot levels show no more. [mm]"""
_MORE_LITRES = 1.0
"""A rise smaller than this is none. [l]"""


@dataclass(frozen=True, slots=True)
class _Ground:
    """The ground as a surface that can be filled."""

    ground: TriangulatedSurface

    def level_at(self, point: XY) -> float:
        return self.ground.level_beyond(point)

    def levels_at(self, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
        return self.ground.levels_beyond(x, y)


def before_and_after(
    survey: Survey, caught: tuple[Catchment, ...], rain: Rain | None, figures: WaterFigures, rules: Rulebook
) -> tuple[SheetStorm, list[Finding]]:
    """Return litres before and after to each place, and what is said where a boundary gets more than before.

    Before, the ground as surveyed sheds a part of the rain that depends on what it bears; what it keeps soaks in.
    After, all paving sheds. Without spot levels nothing is known of before.
    """
    minutes = figures.sheet_storm_min.value
    depth, reported = _depth(rain, minutes, figures)
    after: dict[_Key, float] = {}
    runoff = figures.runoff
    for each in caught:
        if each.kind is not TakerKind.NEXT_AREA:
            key = each.kind, each.to, each.beyond
            after[key] = after.get(key, 0.0) + each.whole_m2 * depth * runoff.value
    before = _before(survey, depth, figures, rules) if survey.ground is not None else None
    keys = list(dict.fromkeys([*after, *(before or {})]))
    shares = tuple(
        StormShare(*key, None if before is None else before.get(key, 0.0), after.get(key, 0.0))
        for key in keys
        if after.get(key, 0.0) + (before or {}).get(key, 0.0) >= _MORE_LITRES
    )
    storm = SheetStorm(minutes, depth, reported, shares)
    return storm, [_more(share, storm) for share in shares if _is_more(share)]


_Key = tuple[TakerKind, str, Beyond | None]


def _depth(rain: Rain | None, minutes: float, figures: WaterFigures) -> tuple[float, str]:
    """Return the depth of the design storm, and where it comes from. [mm]."""
    if rain is None:
        rate = figures.rain_mm_per_h
        return rate.value * minutes / 60.0, f"flat rate of {rate.value:g} mm/h, no rain of the place given"
    falling = storms(rain, figures.storms)
    durations, depths = zip(*falling, strict=True)
    depth = float(np.interp(minutes, durations, depths))
    source = "the user's own table" if rain.depths else "five-year hour and tables from memory"
    return depth, f"{rain.years:g}-year storm, {source}, climate {rain.climate_percent:g} % added"


def _before(survey: Survey, depth: float, figures: WaterFigures, rules: Rulebook) -> dict[_Key, float]:
    """Return litres off the ground to each place before the job.

    What runs on to the ground of another area leaves there as the water of that area does, by its shares.
    """
    table = figures.ground_runoff
    shares = {area.name: _ground_shares(area, survey, rules) for area in survey.site.areas}
    coming = {
        area.name: area.gross.area_m2 * depth * table.figure(_SURFACES[area.area.before], "runoff").value
        for area in survey.site.areas
    }
    found: dict[_Key, float] = {}
    for _ in survey.site.areas:
        onward: dict[str, float] = {}
        for name, litres in coming.items():
            for taker, share in shares[name]:
                if taker.kind is TakerKind.NEXT_AREA:
                    onward[taker.name] = onward.get(taker.name, 0.0) + share * litres
                else:
                    key = taker.kind, taker.name, taker.beyond
                    found[key] = found.get(key, 0.0) + share * litres
        coming = onward
    return found


_SURFACES = {GroundCover.GARDEN: "garden", GroundCover.PAVING: "road or paving", GroundCover.PATH: "path"}


def _ground_shares(area: PlanArea, survey: Survey, rules: Rulebook) -> tuple[tuple[Taker, float], ...]:
    """Return who takes the water of the ground under an area, each with its share; what stands is in none."""
    if survey.ground is None:
        return ()
    drained = drained_surface(area, survey, _Ground(survey.ground), rules, _GROUND_CELL_MM)
    return tuple((taker, area_m2 / area.gross.area_m2) for taker, area_m2 in drained.areas_m2)


def _is_more(share: StormShare) -> bool:
    theirs = share.beyond in THEIRS
    return theirs and share.before_l is not None and share.after_l > share.before_l + _MORE_LITRES


def _more(share: StormShare, storm: SheetStorm) -> Finding:
    before = share.before_l or 0.0
    what = "boundary" if share.kind is TakerKind.BOUNDARY else "edge"
    said, options = words.more_over_boundary(share, storm, before)
    place, code = f"{what} {share.to}", Code.MORE_OVER_BOUNDARY
    return Finding(code, Severity.CHECK, place, said, share.after_l, before, "l", options=options)
