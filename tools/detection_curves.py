"""How often standing water is found, missed and wrongly told: simulated paving with known dips, read with known error.

    python tools/detection_curves.py [trials] [--write]

Each trial lays slabs with small errors of their own on a plane that falls, and in half of the trials one round dish.
The paving is read on a grid with a known error, and what the check says of it is held to what stands on the paving
itself. With ``--write`` the table goes into the manual.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import shapely

from pavewright import rulebook
from pavewright.as_laid.standing import Paved, StandingFigures, WaterState, standing_figures, standing_on
from pavewright.flow import Grid, fill, rasterise, with_exit_line

WIDE_MM, DEEP_MM, CELL_MM, SLAB_MM = 6000.0, 4000.0, 50.0, 600.0
CORNER_SD_MM = 0.7
"""How far a corner of a slab is off, standard deviation. [mm]"""
PAGE = Path(__file__).parents[1] / "docs" / "standing-water-found.md"


@dataclass(frozen=True)
class Setting:
    """One row of the table.

    Attributes:
        one_in: Fall, n of 1 in n.
        reading_sd_mm: Standard deviation of a reading. [mm]
        apart_mm: Distance of the readings. [mm]
    """

    one_in: float
    reading_sd_mm: float
    apart_mm: float


@dataclass(frozen=True)
class Shares:
    """What came of many trials.

    Attributes:
        setting: Fall, error and grid.
        trials: How many.
        with_water: Trials in which water stands that is deep enough to count.
        found: Of these, the share in which the place was told.
        called_clear: Of these, the share in which the area was said to clear.
        dry: Trials in which no water stands, not half as deep.
        false: Of these, the share in which water was said to stand.
        false_told: Of these, the share in which a place was told.
        mean_chance: Mean of the chances told. [-]
        share_wet: Share of the trials in which water stands that is deep enough to count. [-]
    """

    setting: Setting
    trials: int
    with_water: int
    found: float
    called_clear: float
    dry: int
    false: float
    false_told: float
    mean_chance: float
    share_wet: float


SETTINGS = (
    *(Setting(80.0, sd, 1000.0) for sd in (0.5, 1.0, 1.5, 2.0, 3.0)),
    *(Setting(80.0, 1.0, apart) for apart in (500.0, 700.0, 1500.0, 2000.0)),
    *(Setting(one_in, 1.0, 1000.0) for one_in in (40.0, 60.0, 120.0)),
)


def paving(one_in: float) -> Paved:
    """Return a patio that falls to its free side."""
    outline = shapely.box(0.0, 0.0, WIDE_MM, DEEP_MM)
    grid = rasterise(outline, CELL_MM, lambda _, y: 1000.0 - y / one_in)
    out = shapely.LineString([(0.0, DEEP_MM), (WIDE_MM, DEEP_MM)])
    grid = with_exit_line(grid, "lawn", out)
    return Paved("Patio", grid, grid.inside, 24.0, lambda at: 1000.0 - at[1] / one_in)


def laid(chance: np.random.Generator, grid: Grid, *, dished: bool) -> np.ndarray:
    """Return how far the paving is off its design: slabs off at their corners, and a dish or none. [mm]."""
    rows, columns = int(DEEP_MM // SLAB_MM) + 2, int(WIDE_MM // SLAB_MM) + 2
    corners = chance.normal(0.0, CORNER_SD_MM, (rows, columns))
    x, y = grid.centres()
    across, up = x / SLAB_MM, y / SLAB_MM
    left, low = across.astype(int), up.astype(int)
    right, high = across - left, up - low
    off = (
        corners[low, left] * (1 - right) * (1 - high)
        + corners[low, left + 1] * right * (1 - high)
        + corners[low + 1, left] * (1 - right) * high
        + corners[low + 1, left + 1] * right * high
    )
    if dished:
        depth, radius = chance.uniform(5.0, 25.0), chance.uniform(400.0, 1400.0)
        at = chance.uniform((600.0, 600.0), (WIDE_MM - 600.0, DEEP_MM - 600.0))
        away = np.hypot(x - at[0], y - at[1]) / radius
        off = off - depth * np.maximum(1.0 - away**2, 0.0)
    return off


def read(chance: np.random.Generator, off: np.ndarray, setting: Setting) -> np.ndarray:
    """Return readings of the paving on a grid: east, north and level against the design, with their error. [mm]."""
    apart = setting.apart_mm

    def along(span: float) -> np.ndarray:
        return np.linspace(250.0, span - 250.0, max(round((span - 500.0) / apart), 1) + 1)

    x, y = (each.ravel() for each in np.meshgrid(along(WIDE_MM), along(DEEP_MM)))
    level = off[(y // CELL_MM).astype(int), (x // CELL_MM).astype(int)]
    return np.column_stack([x, y, level + chance.normal(0.0, setting.reading_sd_mm, len(x))])


def shares(setting: Setting, trials: int, figures: StandingFigures, seed: int = 1) -> Shares:
    """Return what came of many trials of one setting."""
    made = paving(setting.one_in)
    counted = figures.counted_mm(setting.reading_sd_mm)
    wet: list[tuple[bool, WaterState]] = []
    dry: list[tuple[bool, WaterState]] = []
    chances, stood = [], []
    for trial in range(trials):
        chance = np.random.default_rng((seed, trial))
        off = laid(chance, made.grid, dished=trial % 2 == 0)
        depth = _depth(made.grid, off)
        told = standing_on(made, read(chance, off, setting), setting.reading_sd_mm, figures)
        chances.append(told.chance)
        stood.append(depth.max() > counted)
        if stood[-1]:
            wet.append((_is_found(depth, made.grid, told.ponds), told.state))
        elif depth.max() < counted / 2.0:
            dry.append((bool(told.ponds), told.state))
    return Shares(
        setting,
        trials,
        len(wet),
        _share([found for found, _ in wet]),
        _share([state is WaterState.CLEARS for _, state in wet]),
        len(dry),
        _share([state is WaterState.STANDS for _, state in dry]),
        _share([found for found, _ in dry]),
        float(np.mean(chances)),
        float(np.mean(stood)),
    )


def _depth(grid: Grid, off: np.ndarray) -> np.ndarray:
    """Return the water that stands on the paving itself. [mm]."""
    levels = grid.levels_mm + off
    return fill(Grid(grid.x0_mm, grid.y0_mm, grid.cell_mm, levels, grid.inside, grid.exits, grid.outlets)).depth_mm


def _is_found(depth: np.ndarray, grid: Grid, ponds: tuple) -> bool:
    """Return whether a place that was told lies in or beside the deepest water."""
    row, column = np.unravel_index(int(depth.argmax()), depth.shape)
    x, y = grid.centre(int(row), int(column))
    return any(np.hypot(pond.at[0] - x, pond.at[1] - y) <= BESIDE_MM for pond in ponds)


BESIDE_MM = 700.0
"""A place told this near to the deepest water counts as found. [mm]"""


def _share(yes: list[bool]) -> float:
    return sum(yes) / len(yes) if yes else float("nan")


def page(rows: list[Shares]) -> str:
    """Return the page of the manual with the table."""
    lines = [HEAD.format(trials=rows[0].trials, beside=f"{BESIDE_MM:g}", corner=f"{CORNER_SD_MM:g}")]
    lines += [
        f"| 1 in {row.setting.one_in:g} | {row.setting.reading_sd_mm:g} | {row.setting.apart_mm / 1000.0:g} "
        f"| {row.with_water} | {_percent(row.found)} | {_percent(1.0 - row.found)} | {_percent(row.called_clear)} "
        f"| {_percent(row.false)} | {_percent(row.false_told)} | {_percent(row.mean_chance)} "
        f"| {_percent(row.share_wet)} |"
        for row in rows
    ]
    return "\n".join(lines) + "\n"


def _percent(share: float) -> str:
    return "–" if np.isnan(share) else f"{100.0 * share:.0f}"


HEAD = """# How much standing water readings find

Made by `tools/detection_curves.py`: {trials} trials for each row. Each lays 600 mm slabs, their corners off by
{corner} mm (standard deviation), on 6 × 4 m that falls to its free side; every second trial has one round dish, 5 to
25 mm deep and 400 to 1400 mm in radius, anywhere. The paving is read on a grid and checked; what the check says is held
to what stands on the paving itself, deeper than the check looks for: 3 mm, or three standard deviations of a reading.

Found: a place is told within {beside} mm of the deepest water. Called clear: the area is said to clear though water
stands; that is the worst fault. False: of the trials in which water stands not half as deep, those said to have it.
Named: of the same, those in which a place is named at all, with whatever chance. The last two columns are to be near
each other: the mean of the chances told, and how often water stood.

| fall | reading ± mm | grid m | with water | found % | missed % | called clear % | false % | named % | told % | was % |
|---|---|---|---|---|---|---|---|---|---|---|"""


def main() -> None:
    """Print the table, and write it into the manual where that is asked for."""
    trials = next((int(each) for each in sys.argv[1:] if each.isdigit()), 60)
    figures = standing_figures(rulebook.load("england"))
    rows = []
    for setting in SETTINGS:
        rows.append(shares(setting, trials, figures))
        print(rows[-1], flush=True)
    if "--write" in sys.argv:
        PAGE.write_text(page(rows), "utf-8")


if __name__ == "__main__":
    main()
