"""A storm let run over the finished paving: flows at the outlets, films and how soon it is clear, as bands."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from pavewright.flow import storm
from pavewright.levels import drained_grid
from pavewright.water._figures import water_figures
from pavewright.water._types import Band

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from numpy.typing import NDArray

    from pavewright.flow import Grid, Storm
    from pavewright.levels import Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey

_WATCHED = 2.0
"""The water is watched for this many times as long as it rains."""
_TIMES = 30
"""Depths are kept at so many even times at most."""
_MAX_CELLS = 20_000
"""Cells are refused past this number: an evening would not be enough."""


class StormRefusedError(ValueError):
    """A storm that cannot be run, with a sentence that says why."""


@dataclass(frozen=True, slots=True)
class StormOutlet:
    """What leaves by one outlet.

    Attributes:
        outlet: What it is and its name.
        peak_l_s: Greatest flow, over the roughness of paving. [l/s]
        litres: Water that leaves while it is watched. [l]
    """

    outlet: str
    peak_l_s: Band
    litres: Band


@dataclass(frozen=True, eq=False)
class AreaStorm:
    """A storm on one area.

    Attributes:
        area: Name of the area.
        rain_mm_per_h: Rain. [mm/h]
        rain_min: How long it rains. [min]
        outlets: What leaves where.
        deepest_mm: Greatest depth, over the roughness of paving. [mm]
        clears_s: From the end of the rain until nine tenths of what then leaves has left. [s]
        lost_share: Rain that is not accounted for, greatest part of it; rounding. [-]
        cautions: Why not to trust it, in words.
        grid: The cells.
        depth_mm: Greatest depth in each cell at the greater roughness, shape (rows, columns), float64. [mm]
        depths_mm: Depth in each cell at even times, the last at the end, at the greater roughness, shape (times, rows,
            columns), float64; not a number outside. [mm]
        every_s: Time between them. [s]
    """

    area: str
    rain_mm_per_h: float
    rain_min: float
    outlets: tuple[StormOutlet, ...]
    deepest_mm: Band
    clears_s: Band
    lost_share: float
    cautions: tuple[str, ...]
    grid: Grid
    depth_mm: NDArray[np.float64]
    depths_mm: NDArray[np.float64]
    every_s: float


def run_storm(
    survey: Survey,
    levels: Levels,
    rules: Rulebook,
    rain_mm_per_h: float | None = None,
    rain_min: float = 10.0,
    cell_mm: float = 100.0,
    report: Callable[[str], None] | None = None,
) -> tuple[AreaStorm, ...]:
    """Return what a storm does on every area, run at the smallest and the greatest roughness of paving.

    Args:
        survey: The site.
        levels: Finished levels.
        rules: The rulebook.
        rain_mm_per_h: Rain; the design rain if none is given. [mm/h]
        rain_min: How long it rains. [min]
        cell_mm: Side of the cells: 100 shows the flows, 50 the films; the work grows with the third power. [mm]
        report: Takes what is run before it starts; may raise to stop the work.

    Raises:
        StormRefusedError: rain or cells are not what they can be.
    """
    study = storm_study(survey, levels, rules, rain_mm_per_h, rain_min, cell_mm)
    tell = report or (lambda _: None)
    runs = {}
    for part in study.parts:
        tell(part)
        runs[part] = study.run(part)
    return study.whole(runs)


@dataclass(frozen=True, slots=True)
class _Paving:
    """The paving of an area as cells, and by what names water leaves it."""

    grid: Grid
    labels: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class StormStudy:
    """A storm on a site in parts, one for each area and roughness: each may run anywhere.

    Attributes:
        rain_mm_per_h: Rain. [mm/h]
        rain_min: How long it rains. [min]
        roughness: Manning's n of paving, the smallest and the greatest. [s/m^(1/3)]
        status: How far the roughness is to be trusted, in words.
        pavings: The cells by the name of their area.
    """

    rain_mm_per_h: float
    rain_min: float
    roughness: tuple[float, float]
    status: str
    pavings: Mapping[str, _Paving]

    @property
    def parts(self) -> tuple[str, ...]:
        """Names of the parts, as they are told to whoever waits."""
        return tuple(self._parts())

    def run(self, part: str) -> Storm:
        """Return the storm of a part.

        Args:
            part: Its name.
        """
        area, manning_n = self._parts()[part]
        watched_min = self.rain_min * _WATCHED
        return storm(self.pavings[area].grid, self.rain_mm_per_h, self.rain_min, watched_min, manning_n, times=_TIMES)

    def whole(self, runs: Mapping[str, Storm]) -> tuple[AreaStorm, ...]:
        """Return what the storm does on every area, of the storms of all parts.

        Args:
            runs: The storms by the names of their parts.
        """
        by_area: dict[str, list[Storm]] = {}
        for part, (area, _) in self._parts().items():
            by_area.setdefault(area, []).append(runs[part])
        least, most = self.roughness
        rough = f"{least:g} to {most:g}, {self.status}"
        rain, found = (self.rain_mm_per_h, self.rain_min), []
        for area, ran in by_area.items():
            paving = self.pavings[area]
            found.append(_told(area, *rain, ran, paving.grid, paving.labels, rough))
        return tuple(found)

    def _parts(self) -> dict[str, tuple[str, float]]:
        return {
            f"storm on {area}, n {manning_n:g}": (area, manning_n)
            for area in self.pavings
            for manning_n in self.roughness
        }


def storm_study(
    survey: Survey,
    levels: Levels,
    rules: Rulebook,
    rain_mm_per_h: float | None = None,
    rain_min: float = 10.0,
    cell_mm: float = 100.0,
) -> StormStudy:
    """Return a storm on every area in parts, each of them run at the smallest or the greatest roughness of paving.

    Args:
        survey: The site.
        levels: Finished levels.
        rules: The rulebook.
        rain_mm_per_h: Rain; the design rain if none is given. [mm/h]
        rain_min: How long it rains. [min]
        cell_mm: Side of the cells: 100 shows the flows, 50 the films; the work grows with the third power. [mm]

    Raises:
        StormRefusedError: rain or cells are not what they can be.
    """
    figures = water_figures(rules)
    rain = figures.rain_mm_per_h.value if rain_mm_per_h is None else rain_mm_per_h
    if not 0.0 < rain <= _MAX_RAIN or not 0.0 < rain_min <= _MAX_MINUTES:
        message = f"Rain is up to {_MAX_RAIN:g} mm/h and falls for up to {_MAX_MINUTES:g} minutes."
        raise StormRefusedError(message)
    if not _MIN_CELL_MM <= cell_mm <= _MAX_CELL_MM:
        message = f"Cells have sides of {_MIN_CELL_MM:g} to {_MAX_CELL_MM:g} mm."
        raise StormRefusedError(message)
    rough = figures.film_n
    pavings = {}
    for area in survey.site.areas:
        grid, paved, takers = drained_grid(area, survey, levels.area(area.name).surface, rules, cell_mm)
        if np.count_nonzero(paved) > _MAX_CELLS:
            message = f"{area.name} takes {np.count_nonzero(paved)} cells of {cell_mm:g} mm; choose larger ones."
            raise StormRefusedError(message)
        pavings[area.name] = _Paving(_without_rim(grid, paved), tuple(taker.words for taker in takers))
    ends = (rough.low or rough.value, rough.high or rough.value)
    return StormStudy(rain, rain_min, ends, rough.status.words, pavings)


_MAX_RAIN = 500.0
_MAX_MINUTES = 60.0
_MIN_CELL_MM, _MAX_CELL_MM = 25.0, 1000.0


def _without_rim(grid: Grid, paved: NDArray[np.bool_]) -> Grid:
    """Return the paving alone: its cells beside the rim past its free edges are exits where the paving falls outward.

    Along an edge that water only follows it is held, as it is by the joint and by its own skin.
    """
    exits = np.where(paved, grid.exits, -1)
    rows, columns = grid.exits.shape
    rim = np.pad(np.where(grid.inside & ~paved, grid.exits, -1), 1, constant_values=-1)
    levels = np.pad(grid.levels_mm, 1, constant_values=np.nan)
    outward = _OUTWARD * grid.cell_mm
    for row, column in ((1, 0), (1, 2), (0, 1), (2, 1)):
        beside = rim[row : row + rows, column : column + columns]
        lower = levels[row : row + rows, column : column + columns] < grid.levels_mm - outward
        exits = np.where(paved & (exits < 0) & (beside >= 0) & lower, beside, exits)
    return replace(grid, inside=grid.inside & paved, exits=exits.astype(np.int32))


_OUTWARD = 1.0 / 500.0
"""A free edge lets water go where the paving falls outward by more than this. [-]"""


def _told(
    area: str, rain: float, rain_min: float, runs: list[Storm], grid: Grid, labels: tuple[str, ...], rough: str
) -> AreaStorm:
    outlets = tuple(
        StormOutlet(
            name,
            _range([run.peak_l_s[number] for run in runs]),
            _range([run.volume_l[number] for run in runs]),
        )
        for number, name in enumerate(labels)
        if max(run.volume_l[number] for run in runs) > _TOLD_L
    )
    return AreaStorm(
        area=area,
        rain_mm_per_h=rain,
        rain_min=rain_min,
        outlets=outlets,
        deepest_mm=_range([run.deepest_mm for run in runs]),
        clears_s=_range([run.clears_after_s for run in runs]),
        lost_share=max(abs(run.lost_share) for run in runs),
        cautions=(
            f"Roughness of paving, Manning's n {rough}.",
            *dict.fromkeys(w for run in runs for w in run.cautions),
        ),
        grid=grid,
        depth_mm=runs[-1].greatest_depth_mm,
        depths_mm=runs[-1].depths_mm,
        every_s=runs[-1].interval_s * runs[-1].held_l.size / max(len(runs[-1].depths_mm), 1),
    )


_TOLD_L = 0.1
"""Less than this is not shown. [l]"""


def _range(values: list[float]) -> Band:
    return Band(min(values), max(values))
