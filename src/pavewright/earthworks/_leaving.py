"""What leaves the site: soils and what was found, used again or carted away, with totals over all areas."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.earthworks._broken import added, broken_away
from pavewright.earthworks._loads import barrows, loads, loose, mass, more_loads
from pavewright.earthworks._soils import gathered, used_again
from pavewright.earthworks._types import Dug, Earthworks
from pavewright.geometry import bearing_of
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.buildup import BuildUps
    from pavewright.earthworks._figures import SoilFigures
    from pavewright.earthworks._types import AreaDig, SoilDig, Spread
    from pavewright.earthworks._types_found import FoundDig
    from pavewright.findings import Finding
    from pavewright.geometry import TriangulatedSurface
    from pavewright.job import Ground, Job, Soil


def with_what_leaves(
    job: Job,
    areas: tuple[AreaDig, ...],
    build_ups: BuildUps,
    ground: TriangulatedSurface | None,
    findings: tuple[Finding, ...],
    figures_of: SoilFigures,
    extra: tuple[FoundDig, ...],
) -> Earthworks:
    """Return the digs of all areas with what fills, what stays and what leaves."""
    cut, fill = sum(one.volumes.cut_m3 for one in areas), sum(one.volumes.fill_m3 for one in areas)
    leaving = _leaving(job.site.ground, areas, build_ups, fill, figures_of, extra)
    away_m3, used = leaving.away_m3, leaving.used
    broken_m3 = sum(each.broken_m3 for each in extra)
    loose_m3, tonnes, leaving_workings = _loose_and_mass(leaving, broken_m3, figures_of)
    disposal = job.rates.disposal
    count, load_working = (None, None) if disposal is None else loads(loose_m3, tonnes, disposal)
    allowances = tuple(area.topsoil for area in areas if area.topsoil is not None)
    barrow_count, barrow_working = barrows(loose_m3, figures_of.barrow)
    workings = (
        *(Working(f"{each.soil.words} dug", each.cut_m3, "m³", (), _LAYERED) for each in leaving.soils),
        *used,
        _leaves(away_m3, again=bool(used)),
        *leaving_workings,
        *(each.working for each in extra),
        *((load_working,) if load_working is not None else ()),
        barrow_working,
        *(each.working for each in allowances),
        *_slope(ground),
    )
    return Earthworks(
        areas=areas,
        cut_m3=cut + sum(each.dig_m3 for each in extra),
        fill_m3=fill + sum(each.fill_m3 for each in extra),
        away_m3=away_m3 + broken_m3,
        loose_m3=loose_m3,
        tonnes=tonnes,
        loads=count,
        load_kind=disposal.kind if disposal is not None else "",
        barrows=barrow_count,
        workings=workings if areas else (),
        findings=findings,
        soils=leaving.soils,
        reused_m3=leaving.reused_m3,
        loads_working=load_working,
        provisional=allowances,
        provisional_loads=more_loads(loose_m3, tonnes, leaving.first, allowances, disposal, figures_of),
        found=extra,
    )


def _loose_and_mass(
    leaving: _Leaving, broken_m3: float, figures_of: SoilFigures
) -> tuple[Spread, Spread, tuple[Working, ...]]:
    """Return soil and broken concrete that leave: loose [m³], their mass [t], and the sums."""
    loose_m3, loose_workings = loose(leaving.by_class, figures_of)
    tonnes, mass_workings = mass(leaving.by_class, figures_of)
    broken_loose, broken_tonnes, broken_workings = broken_away(broken_m3, figures_of)
    workings = (*loose_workings, *mass_workings, *broken_workings)
    return added(loose_m3, broken_loose), added(tonnes, broken_tonnes), workings


def _leaves(away_m3: float, *, again: bool) -> Working:
    """Return the sum of what leaves, in the ground. [m³]."""
    note = _USED if again else "spoil is not used again under paving; fill is clean stone"
    return Working(
        "leaves = cut" if not again else f"leaves = {away_m3:.3f} with what is above", away_m3, "m³", (), note
    )


@dataclass(frozen=True, slots=True)
class _Leaving:
    """What leaves the site, what is used again, and the sums.

    Attributes:
        soils: What is dug of each soil over all areas.
        away_m3: What leaves, in the ground. [m³]
        by_class: The same by the class by which it bulks. [m³]
        reused_m3: Fill made of what is dug, compacted. [m³]
        used: The sums.
        first: The soil that is dug first; roots and topsoil bulk as it does.
    """

    soils: tuple[SoilDig, ...]
    away_m3: float
    by_class: dict[Soil, float]
    reused_m3: float
    used: tuple[Working, ...]
    first: Soil


def _leaving(
    known: Ground,
    areas: tuple[AreaDig, ...],
    build_ups: BuildUps,
    fill_m3: float,
    figures_of: SoilFigures,
    extra: tuple[FoundDig, ...],
) -> _Leaving:
    """Return what leaves of all that is dug, trenches of low walls and edges with it."""
    soils = gathered(part for one in areas for part in one.soils)
    away, reused, used = used_again(soils, known, fill_m3, figures_of)
    # roots and soil of one class bulk alike; with layers entered each bulks by its own class
    first = known.strata[0].soil if known.strata else known.soil
    walls = sum(edge.wall.trench_m3 for edge in build_ups.retained if edge.wall is not None)
    edges = sum(up.edge_trench_m3 for up in build_ups.areas)
    for words, trench in (("trenches of low walls", walls), ("trenches for the beds of edges", edges)):
        if areas and trench > 0.0:
            away[Dug(first)] = away.get(Dug(first), 0.0) + trench
            used = (*used, Working(words, trench, "m³", (), "leaves with the rest"))
    away = _with_found(away, known, extra)
    by_class: dict[Soil, float] = {}
    for dug, m3 in away.items():
        name = dug.soil or first
        by_class[name] = by_class.get(name, 0.0) + m3
    return _Leaving(soils, sum(away.values()), by_class or {known.soil: 0.0}, reused, used, first)


def _with_found(away: dict[Dug, float], known: Ground, extra: tuple[FoundDig, ...]) -> dict[Dug, float]:
    """Return what leaves with what was found: soil below formation more, soil in whose place concrete lay less."""
    deepest = Dug(known.strata[-1].soil if known.strata else known.soil)
    more = sum(each.dig_m3 for each in extra)
    if more > 0.0:
        away = away | {deepest: away.get(deepest, 0.0) + more}
    less = sum(each.broken_m3 for each in extra)
    for dug in sorted(away, key=lambda each: each is Dug.TOPSOIL):
        taken = min(away[dug], less)
        away = away | {dug: away[dug] - taken}
        less -= taken
    return {dug: m3 for dug, m3 in away.items() if m3 > 0.0}


_USED = "fill of it and what stays taken off, trenches added"
_LAYERED = "cut under the ground as it lies less the cut under the next layer"


def _slope(ground: TriangulatedSurface | None) -> list[Working]:
    """Return how the ground slopes in general; nothing for ground that is not known or level."""
    if ground is None:
        return []
    plane = ground.general_slope
    fall = math.hypot(plane.slope_x, plane.slope_y)
    if fall < _LEVEL:
        return []
    bearing = bearing_of((-plane.slope_x / fall, -plane.slope_y / fall))
    words = f"ground falls in general towards {bearing:.0f}°, one in"
    return [Working(words, units.fall_to_one_in_n(fall), "", (), "plane that fits all spot levels best")]


_LEVEL = 1e-4
