"""A point cloud of the finished paving against the plan."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from pavewright import rulebook
from pavewright.as_laid import MIN_MARKS, CloudCells, CloudMark, check_cloud
from pavewright.files import FileRefusedError, aligned, level_near, read_las, read_ply, read_xyz

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import BinaryIO

    from pavewright.as_laid import CloudCheck
    from pavewright.files import CloudSurface
    from pavewright.geometry import XYZ
    from pavewright.pipeline import Plan

_REACH = 0.75
"""A mark is seen in the cells whose middle lies so many of their sides about it. [-]"""


class CloudFile(NamedTuple):
    """A cloud and what it does not say of itself.

    Attributes:
        stream: The file, which can be sought.
        kind: ``las``, ``ply`` or ``csv``.
        unit: Unit of a file that does not state it.
        order: Order of the columns of lines of text.
        ground_only: Whether only points of the class ground are taken.
    """

    stream: BinaryIO
    kind: str
    unit: str
    order: str
    ground_only: bool


def checked_cloud(
    made: Plan, cloud: CloudFile, marks: Mapping[str, XYZ | None], cell_mm: float | None = None
) -> CloudCheck:
    """Return a point cloud of the finished paving against a plan.

    Args:
        made: The plan.
        cloud: The file.
        marks: Names of levelled points of the job, each with its place in the cloud; without a place where the cloud
            stands on the site grid already. [mm]
        cell_mm: Side of a cell; the rulebook's where none is given. [mm]

    Raises:
        FileRefusedError: the file cannot be read, or it cannot be laid onto these points.
    """
    rules = rulebook.load(made.edition)
    side = rules.value("as_laid.cloud_cell_mm") if cell_mm is None else cell_mm
    known = _levelled(made, marks)
    found = _cells(cloud, side, int(rules.value("as_laid.cloud_min_points")))
    laid, steps = found.spots, _steps(found)
    pairs, names = [], []
    for name, place in marks.items():
        true = known[name]
        pairs.append((place or _seen(found, true, name), true))
        names.append(name)
    spots, how = aligned(laid, tuple(pairs))
    placed = tuple(
        CloudMark(name, (true[0], true[1]), plan, level)
        for name, (_, true), (plan, level) in zip(names, pairs, how.residuals_mm, strict=True)
    )
    cells = CloudCells(spots, steps, found.cell_mm, found.counts[1])
    return check_cloud(made.job, made.survey, made.levels, rules, cells, placed, made.laying)


def _levelled(made: Plan, marks: Mapping[str, XYZ | None]) -> dict[str, XYZ]:
    """Return the points of a job that are named, with their levels.

    Raises:
        FileRefusedError: fewer than four, or one that the job does not have with a level.
    """
    known = {each.name: (each.x_mm, each.y_mm, each.level_mm) for each in made.survey.points}
    levelled = {name: (x, y, level) for name, (x, y, level) in known.items() if level is not None}
    missing = [name for name in marks if name not in levelled]
    if missing:
        message = f"The job has no levelled point {', '.join(missing)}; it has {', '.join(sorted(levelled)) or 'none'}."
        raise FileRefusedError(message)
    if len(marks) < MIN_MARKS:
        message = (
            f"A cloud is laid onto {MIN_MARKS} levelled points or more, so that one shows whether it fits: name more."
        )
        raise FileRefusedError(message)
    return levelled


def _cells(cloud: CloudFile, cell_mm: float, least: int) -> CloudSurface:
    if cloud.kind == "las":
        return read_las(cloud.stream, cell_mm, ground_only=cloud.ground_only, least=least)
    if cloud.kind == "ply":
        return read_ply(cloud.stream, cell_mm, cloud.unit, least)
    return read_xyz(cloud.stream, cell_mm, cloud.unit, cloud.order, least)


def _steps(found: CloudSurface) -> np.ndarray:
    """Return column and row of each cell, shape (n, 2), int64.

    Raises:
        FileRefusedError: no cell holds points enough.
    """
    if not len(found.spots):
        message = f"No cell of {found.cell_mm:g} mm holds points enough: take wider cells, or a denser cloud."
        raise FileRefusedError(message)
    low = found.spots[:, :2].min(axis=0)
    return np.asarray(np.rint((found.spots[:, :2] - low) / found.cell_mm), dtype=np.int64)


def _seen(found: CloudSurface, true: XYZ, name: str) -> XYZ:
    """Return a levelled point as the cloud has it, which stands on the site grid.

    Raises:
        FileRefusedError: the cloud holds nothing there.
    """
    level = level_near(found.spots, (true[0], true[1]), _REACH * found.cell_mm)
    if level is None:
        message = f"The cloud holds no point at {name}: name another, or say where {name} lies in the cloud."
        raise FileRefusedError(message)
    return true[0], true[1], level
