"""Standing water on paving as laid, with its chance given how well and where it was read."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from scipy.spatial import cKDTree

from pavewright import units
from pavewright.as_laid.standing._figures import standing_figures
from pavewright.as_laid.standing._next import best_apart, judged, tried, worth_of
from pavewright.as_laid.standing._ponds import flooded, ponds, span, state_of
from pavewright.as_laid.standing._simulating import Cells, simulated
from pavewright.as_laid.standing._types import AreaStanding, NextPlace, Span, WaterState, WhyUnknown
from pavewright.levels import drained_grid

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from pavewright.as_laid.standing._figures import StandingFigures
    from pavewright.as_laid.standing._ponds import Flooded
    from pavewright.as_laid.standing._simulating import Simulated
    from pavewright.flow import Grid
    from pavewright.geometry import XY
    from pavewright.job import Job
    from pavewright.levels import FinishedArea, Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey

_CELL_MM = 50.0
_MOST_CELLS = 16_000.0
"""Cells are made larger rather than more than this."""
_FEWEST = 5
"""Fewer readings tell of a plane and of nothing beside it."""
_MOST_READINGS = 350
"""More readings than this are first joined to the middle one of each small square."""
_SEED = 20_270_618
_NEXT = 5
"""So many places are named to read next."""
_NEXT_APART_MM = 700.0


def standing(
    job: Job, survey: Survey, levels: Levels, rules: Rulebook, report: Callable[[str], None] | None = None
) -> tuple[AreaStanding, ...]:
    """Return what stands on every area that was read, with the chance that it does.

    Args:
        job: The job.
        survey: The site.
        levels: Finished levels.
        rules: The rulebook.
        report: Takes the name of each area before it starts; may raise to stop the work.
    """
    taken = job.as_laid
    if taken is None:
        return ()
    figures, tell, found = standing_figures(rules), report or (lambda _: None), []
    for area in survey.site.areas:
        finished = levels.area(area.name)
        read = np.array(
            [
                (each.x_mm, each.y_mm, each.level_mm - finished.surface.level_at((each.x_mm, each.y_mm)))
                for each in taken.readings
                if each.area == area.name and each.level_mm is not None
            ],
            dtype=np.float64,
        ).reshape(-1, 3)
        if len(read):
            tell(area.name)
            found.append(_area(area, finished, survey, rules, read, taken.reading_sd_mm, figures))
    return numbered(tuple(found))


def numbered(areas: tuple[AreaStanding, ...]) -> tuple[AreaStanding, ...]:
    """Return the areas with places to read next named N1, N2, … through the whole job."""
    found, number = [], 0
    for area in areas:
        named = tuple(replace(each, label=f"N{number + index}") for index, each in enumerate(area.next_places, start=1))
        number += len(named)
        found.append(replace(area, next_places=named))
    return tuple(found)


def _area(
    area: PlanArea,
    finished: FinishedArea,
    survey: Survey,
    rules: Rulebook,
    read: NDArray[np.float64],
    sd_mm: float,
    figures: StandingFigures,
) -> AreaStanding:
    cell = max(_CELL_MM, math.sqrt(area.gross.polygon.area / _MOST_CELLS))
    grid, paved, _ = drained_grid(area, survey, finished.surface, rules, cell)
    return standing_on(
        Paved(area.name, grid, paved, area.gross.area_m2, finished.surface.level_at), read, sd_mm, figures
    )


@dataclass(frozen=True, eq=False)
class Paved:
    """Paving on cells, as designed.

    Attributes:
        area: Name of the area.
        grid: The surface as designed, with its exits.
        paved: Cells that are paving, shape (rows, columns), bool; others are the rim past its free edges.
        area_m2: Area of the paving. [m²]
        level_at: Gives the level designed at a plan place. [mm]
    """

    area: str
    grid: Grid
    paved: NDArray[np.bool_]
    area_m2: float
    level_at: Callable[[XY], float]

    @property
    def cells(self) -> Cells:
        """The cells over which surfaces are simulated."""
        rows, columns = self.grid.inside.shape
        return Cells(self.grid.x0_mm, self.grid.y0_mm, self.grid.cell_mm, (rows, columns))

    @property
    def cell_m2(self) -> float:
        """Paving that a cell stands for. [m²]."""
        return self.area_m2 / max(int(np.count_nonzero(self.paved)), 1)


def standing_on(
    paving: Paved, read: NDArray[np.float64], reading_sd_mm: float, figures: StandingFigures
) -> AreaStanding:
    """Return what stands on paving, by levels read against its design.

    Args:
        paving: The paving as designed.
        read: East, north and level against the design, shape (readings, 3), float64. [mm]
        reading_sd_mm: Standard deviation of a reading. [mm]
        figures: By what it is judged.
    """
    grid, counted = paving.grid, figures.counted_mm(reading_sd_mm)
    if len(read) < _FEWEST:
        return _unknown(paving.area, WhyUnknown.FEW_READINGS, len(read), counted, grid)
    if not (grid.exits >= 0).any():
        return _unknown(paving.area, WhyUnknown.NO_WAY_OUT, len(read), counted, grid)
    joined = thinned(read, paving.area_m2)
    try:
        made = simulated(
            paving.cells,
            grid.inside,
            joined,
            reading_sd_mm,
            figures.common,
            int(figures.runs.value),
            _SEED,
        )
    except ValueError:
        return _unknown(paving.area, WhyUnknown.CONTRADICT, len(read), counted, grid)
    water = flooded(grid, paving.paved, made.off_mm, counted, paving.cell_m2)
    told = _told(paving, joined, made, water, counted, figures)
    nexts, undecided = _next_places(paving, joined, reading_sd_mm, made, water)
    return replace(told, readings=len(read), next_places=nexts, undecided_m2=undecided)


def _told(
    paving: Paved,
    read: NDArray[np.float64],
    made: Simulated,
    water: Flooded,
    counted_mm: float,
    figures: StandingFigures,
) -> AreaStanding:
    """Return everything but where to read next."""
    sure, clear, told_from = (each.value / 100.0 for each in (figures.sure, figures.clear, figures.told_from))
    chance = float((water.depth_mm.max(axis=(1, 2)) > counted_mm).mean())
    grid, paved = paving.grid, paving.paved
    farthest = _farthest(paving, read)
    return AreaStanding(
        area=paving.area,
        state=_state(chance, sure, clear, wide=farthest > figures.within.value),
        why=None,
        readings=len(read),
        farthest_mm=farthest,
        counted_mm=counted_mm,
        chance=chance,
        litres=span(water.depth_mm.sum(axis=(1, 2)) * water.cell_m2),
        wet_m2=span(water.wet.sum(axis=(1, 2)) * water.cell_m2),
        ponds=ponds(water, grid, read[:, :2], sure, clear, told_from, counted_mm),
        next_places=(),
        undecided_m2=0.0,
        unevenness=made.learnt.told,
        runs=len(made.off_mm),
        cell_mm=grid.cell_mm,
        corner=(grid.x0_mm, grid.y0_mm),
        chances=np.where(paved, water.chances, np.nan),
        off_mm=np.where(paved, made.mean_mm, np.nan),
        off_sd_mm=np.where(paved, made.sd_mm, np.nan),
    )


def _state(chance: float, sure: float, clear: float, *, wide: bool) -> WaterState:
    """Return what a chance comes to; where readings are wide apart a dip may hide, and nothing is called clear."""
    state = state_of(chance, sure, clear)
    return WaterState.UNDECIDED if wide and state is WaterState.CLEARS else state


def _farthest(paving: Paved, read: NDArray[np.float64]) -> float:
    """Return how far the place of the paving that is farthest from a reading lies from it. [mm]."""
    centres = paving.cells.centres()[paving.paved.ravel()]
    return float(np.max(cKDTree(read[:, :2]).query(centres)[0], initial=0.0))


def _next_places(
    paving: Paved, read: NDArray[np.float64], reading_sd_mm: float, made: Simulated, water: Flooded
) -> tuple[tuple[NextPlace, ...], float]:
    """Return where to read next, and the area on which a yes or no is still open. [m²]."""
    cells, paved = paving.cells, paving.paved
    places, looked = tried(paved, cells.cell_mm, cells.of(read[:, :2])), judged(paved)
    runs = len(made.off_mm)
    wet = water.wet.reshape(runs, -1)[:, looked]
    worth, now = worth_of(made.off_mm.reshape(runs, -1)[:, places], wet, reading_sd_mm)
    open_m2 = now * paving.area_m2 / max(len(looked), 1)
    if open_m2 < _SETTLED_M2:
        return (), open_m2
    at = cells.centres()[places]
    found = []
    for one in best_apart(worth, at, _NEXT, _NEXT_APART_MM):
        where, decides = (round(float(at[one][0])), round(float(at[one][1]))), float(worth[one] / now)
        if decides >= _WORTH:
            found.append(NextPlace("", paving.area, where, paving.level_at(where), decides))
    return tuple(found), open_m2


_SETTLED_M2 = 0.01
"""Where less than this is undecided no more readings are asked for. [m²]"""
_WORTH = 0.01
"""A reading that settles less of what is undecided than this is not asked for. [-]"""


def thinned(read: NDArray[np.float64], area_m2: float) -> NDArray[np.float64]:
    """Return readings, where there are very many the middle one of each small square, shape (readings, 3), float64.

    The joined reading keeps the error of a single one: errors of a scan are alike nearby and do not average out.

    Args:
        read: East, north and level against the plan, shape (readings, 3), float64. [mm]
        area_m2: Area over which they lie. [m²]
    """
    if len(read) <= _MOST_READINGS:
        return read
    side = units.m_to_mm(math.sqrt(area_m2 / _MOST_READINGS))
    squares = np.floor(read[:, :2] / side).astype(np.int64)
    _, which = np.unique(squares, axis=0, return_inverse=True)
    which = which.ravel()
    order = np.lexsort((read[:, 2], which))
    starts = np.flatnonzero(np.diff(which[order], prepend=-1))
    counts = np.diff(np.append(starts, len(order)))
    return np.asarray(read[order[starts + counts // 2]], dtype=np.float64)


def _unknown(name: str, why: WhyUnknown, readings: int, counted_mm: float, grid: Grid) -> AreaStanding:
    nothing, none = np.full(grid.inside.shape, np.nan), Span(0.0, 0.0, 0.0)
    return AreaStanding(
        area=name,
        state=WaterState.UNKNOWN,
        why=why,
        readings=readings,
        farthest_mm=math.inf,
        counted_mm=counted_mm,
        chance=math.nan,
        litres=none,
        wet_m2=none,
        ponds=(),
        next_places=(),
        undecided_m2=math.nan,
        unevenness=None,
        runs=0,
        cell_mm=grid.cell_mm,
        corner=(grid.x0_mm, grid.y0_mm),
        chances=nothing,
        off_mm=nothing,
        off_sd_mm=nothing,
    )
