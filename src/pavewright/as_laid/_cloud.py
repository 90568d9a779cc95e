"""A point cloud against the plan: its cells by bay."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright.as_laid._bays import bays_of, judged, unjudged
from pavewright.as_laid._figures import figures
from pavewright.as_laid._regimes import held
from pavewright.as_laid._regimes import regime as regime_of
from pavewright.as_laid._types_cloud import CloudBay, CloudCheck, CloudEdge
from pavewright.as_laid._verdicts import TRUSTED
from pavewright.as_laid.flatness import rolled_rows
from pavewright.as_laid.movement import RISK, normal_limit
from pavewright.as_laid.planes import bent_plane, weighed_plane

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.as_laid._bays import Bay
    from pavewright.as_laid._figures import AsLaidFigures
    from pavewright.as_laid._regimes import Regime
    from pavewright.as_laid._types_cloud import CloudMark
    from pavewright.as_laid.flatness import RolledEdge
    from pavewright.as_laid.planes import RobustPlane
    from pavewright.job import Job
    from pavewright.laying import LayingPlan
    from pavewright.levels import FinishedArea, Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey

MIN_MARKS = 4
"""Levelled points onto which a cloud is laid: three carry a plane, the fourth shows whether it fits."""
_FEWEST_CELLS = 9
_SLOPES = 3
_DIP = 3.0
"""Standard deviations of a cell from which a dip is told. [-]"""
_MAD = 1.4826
_SECOND = math.sqrt(6.0)
"""Standard deviation of a bend of three cells over that of one. [-]"""
_TWENTIETH = 5.0


@dataclass(frozen=True)
class CloudCells:
    """A cloud down to cells, laid onto the site grid.

    Attributes:
        spots: East, north, median level, shape (n, 3), float64. [mm]
        steps: Column and row of each cell in the cloud's own grid, shape (n, 2), int64.
        cell_mm: Side of a cell. [mm]
        points: Points that were taken.
    """

    spots: np.ndarray
    steps: np.ndarray
    cell_mm: float
    points: int


def check_cloud(
    job: Job,
    survey: Survey,
    levels: Levels,
    rules: Rulebook,
    cells: CloudCells,
    marks: tuple[CloudMark, ...],
    laying: LayingPlan | None = None,
) -> CloudCheck:
    """Return a point cloud against the plan, bay by bay.

    Args:
        job: The job.
        survey: Its survey.
        levels: Its finished levels.
        rules: The rulebook.
        cells: The cloud, laid onto the site grid.
        marks: The levelled points by which that was done.
        laying: Where its units lie, from which its movement joints come; None where that is not known.

    Raises:
        ValueError: fewer than four levelled points.
        JobInvalid: the rulebook has no such regime.
    """
    if len(marks) < MIN_MARKS:
        message = f"A cloud is laid onto {MIN_MARKS} levelled points or more: name another."
        raise ValueError(message)
    read, regime = figures(job.tolerance, rules), regime_of(job, rules)
    noise = _noise(cells)
    spread = _spread(marks, rules.value("as_laid.cloud_mark_sd_mm"))
    outside, off = rules.value("as_laid.cloud_outside_mm"), rules.value("as_laid.cloud_off_mm")
    found: list[CloudBay] = []
    unseen = []
    for area in survey.site.areas:
        finished = levels.area(area.name)
        joints = () if laying is None else tuple(
            ends for each in laying.areas if each.area == area.name for ends in each.movement.placed
        )  # fmt: skip
        inside = area.gross.polygon.buffer(-outside)
        seen = [
            each
            for bay in bays_of(finished, joints)
            for each in _bay(finished, bay, cells, inside, _Held(read, regime, noise, spread, off))
        ]
        found += seen
        if not seen:
            unseen.append(area.name)
    return CloudCheck(
        marks=marks,
        unchecked=unchecked(marks),
        level_sd_mm=spread.sd_mm,
        noise_mm=noise,
        seen_from_mm=_DIP * noise,
        cell_mm=cells.cell_mm,
        points=cells.points,
        regime=regime,
        bays=tuple(found),
        unseen=tuple(unseen),
    )


@dataclass(frozen=True)
class _Marked:
    """How sure the levels of a cloud are for the points onto which it was laid.

    Attributes:
        sd_mm: Standard deviation at one point. [mm]
        places: East, north of the points, shape (n, 2), float64. [mm]
    """

    sd_mm: float
    places: np.ndarray

    def about(self, origin: tuple[float, float]) -> np.ndarray:
        """Return what the points leave unsure of level and slopes about a place, shape (3, 3). [mm²]."""
        rows = np.column_stack([np.ones(len(self.places)), self.places - np.array(origin)])
        return np.asarray(self.sd_mm**2 * np.linalg.inv(rows.T @ rows))


@dataclass(frozen=True)
class _Held:
    """What a bay is held to, and how sure its cells are."""

    figures: AsLaidFigures
    regime: Regime
    noise_mm: float
    marked: _Marked
    off_mm: float


def _spread(marks: tuple[CloudMark, ...], least_mm: float) -> _Marked:
    """Return how sure the cloud is by its marks, never surer than a mark is at best."""
    off = [mark.off_level_mm for mark in marks]
    sd = math.sqrt(sum(each * each for each in off) / (len(off) - _SLOPES))
    return _Marked(max(sd, least_mm), np.array([mark.at for mark in marks]))


def unchecked(marks: tuple[CloudMark, ...]) -> tuple[str, ...]:
    """Return the marks of which no other would show that they are wrong: the tilt of the cloud hangs on each of them.

    Args:
        marks: The marks.

    Source: definition, redundancy of a reading in a fit by least squares
    """
    rows = np.column_stack([np.ones(len(marks)), np.array([mark.at for mark in marks])])
    rows[:, 1:] -= rows[:, 1:].mean(axis=0)
    leans = np.einsum("ij,jk,ik->i", rows, np.linalg.inv(rows.T @ rows), rows)
    return tuple(mark.name for mark, lean in zip(marks, leans, strict=True) if 1.0 - lean < _CHECKED)


_CHECKED = 0.1
"""Part of a mistake of a mark that has to show in what is left over. [-]"""


def _noise(cells: CloudCells) -> float:
    """Return the scatter of one cell against its neighbours, from the bends along rows of three. [mm]."""
    order = np.lexsort((cells.steps[:, 0], cells.steps[:, 1]))
    steps, level = cells.steps[order], cells.spots[order, 2]
    beside = (np.diff(steps[:, 0]) == 1) & (np.diff(steps[:, 1]) == 0)
    three = beside[1:] & beside[:-1]
    bends = np.diff(level, 2)[three]
    return _MAD * float(np.median(np.abs(bends))) / _SECOND if len(bends) else 0.0


def _bay(
    finished: FinishedArea, bay: Bay, cells: CloudCells, inside: shapely.Geometry, held_to: _Held
) -> Iterator[CloudBay]:
    """Give a bay with its cells; nothing where too few lie on it."""
    shape = bay.polygon.intersection(inside)
    if shape.is_empty:
        return
    shapely.prepare(shape)
    west, south, east, north = shape.bounds
    x, y = cells.spots[:, 0], cells.spots[:, 1]
    near = np.flatnonzero((x >= west) & (x <= east) & (y >= south) & (y <= north))
    near = near[shapely.contains_xy(shape, x[near], y[near])]
    off = cells.spots[near, 2] - bay.planned.levels_at(x[near], y[near])
    paving = np.abs(off - np.median(off)) <= held_to.off_mm if len(near) else np.zeros(0, dtype=np.bool_)
    on, off = near[paving], off[paving]
    if len(on) < _FEWEST_CELLS:
        return
    spots = cells.spots[on]
    fit = weighed_plane(spots)
    level = held_to.figures.level.value
    sure = _as_sure(fit, held_to.marked)
    blank = unjudged(finished.area, bay, (), held_to.figures)
    told = replace(judged(blank, sure, (), held_to.figures), twist=bent_plane(spots[list(fit.kept)], fit.sd_mm))
    yield CloudBay(
        bay=told,
        cells=len(on),
        left_out=len(near) - len(on),
        scatter_mm=fit.sd_mm,
        high_mm=float(np.percentile(off, 100.0 - _TWENTIETH)),
        low_mm=float(np.percentile(off, _TWENTIETH)),
        beyond_share=float((np.abs(off) > level).mean()),
        edge=_edge(cells, on, held_to),
    )


def _as_sure(fit: RobustPlane, marked: _Marked) -> RobustPlane:
    """Return a plane that is no surer than the levelled points onto which the cloud was laid."""
    sd = max(fit.sd_mm, _EXACT)
    spread = np.array(fit.spread) + marked.about(fit.plane.origin_mm) / sd**2
    return replace(fit, kept=(), out=(), sd_mm=sd, spread=tuple((float(a), float(b), float(c)) for a, b, c in spread))


_EXACT = 1e-9


def _edge(cells: CloudCells, on: np.ndarray, held_to: _Held) -> CloudEdge | None:
    """Return the largest gap under an edge rolled along every row and column of the cells of a bay."""
    edge = held_to.regime.edge_mm
    if edge is None:
        return None
    best: tuple[RolledEdge, np.ndarray] | None = None
    rows = 0
    for along, across in ((0, 1), (1, 0)):
        order, ends = _rows(cells.steps[on], along, across, edge / cells.cell_mm / _CLOSE)
        if not len(order):
            continue
        row = on[order]
        places = cells.steps[row, along] * cells.cell_mm
        rolled = rolled_rows(places, cells.spots[row, 2], ends, edge, cells.cell_mm)
        rows += len(ends)
        if rolled is not None and (best is None or rolled.gap_mm > best[0].gap_mm):
            best = rolled, row
    if best is None or best[0].contacts is None or best[0].lowest is None:
        return None
    _, row = best
    first, second, lowest = (
        (float(cells.spots[row[each], 0]), float(cells.spots[row[each], 1]))
        for each in (*best[0].contacts, best[0].lowest)
    )
    sd = held_to.noise_mm * best[0].reading_share
    limit = held_to.regime.gap_limit(edge, min(math.dist(first, second), edge), None)
    gap = best[0].gap_mm
    # the largest of so many gaps is large by chance alone
    wide = sd * normal_limit(RISK / len(on)) / TRUSTED
    return CloudEdge(edge, gap, sd, (first, second), lowest, rows, limit, held(gap, limit, wide))


_CLOSE = 20.0
"""Cells stand this many times closer than the edge is long, or the row ends there. [-]"""


def _rows(steps: np.ndarray, along: int, across: int, widest: float) -> tuple[np.ndarray, np.ndarray]:
    """Return numbers of cells in rows without a wide gap, one row behind the other, and where each row ends."""
    order = np.lexsort((steps[:, along], steps[:, across]))
    ordered = steps[order]
    cut = (np.diff(ordered[:, across]) != 0) | (np.diff(ordered[:, along]) > max(widest, 1.0))
    ends = np.concatenate([np.flatnonzero(cut) + 1, [len(order)]]).astype(np.int64)
    lengths = np.diff(ends, prepend=0)
    long = lengths >= _ROW
    return order[np.repeat(long, lengths)], np.cumsum(lengths[long], dtype=np.int64)


_ROW = 3
"""Cells in a row that an edge is laid on."""
