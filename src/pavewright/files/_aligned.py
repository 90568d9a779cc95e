"""A cloud laid onto levelled points: turned and shifted in plan, levelled by a plane."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pavewright.files._read import FileRefusedError


@dataclass(frozen=True, slots=True)
class Alignment:
    """How a cloud was laid onto levelled points.

    Attributes:
        bearing_deg: Turn about the upright, clockwise. [deg]
        shift_mm: Shift after the turn, east, north, up. [mm]
        tilt: Slopes of what was taken off its levels, east and north. [-]
        residuals_mm: For each point: in plan and in level, laid-on less measured. [mm]
    """

    bearing_deg: float
    shift_mm: tuple[float, float, float]
    tilt: tuple[float, float]
    residuals_mm: tuple[tuple[float, float], ...]


def aligned(
    spots: np.ndarray, pairs: tuple[tuple[tuple[float, float, float], tuple[float, float, float]], ...]
) -> tuple[np.ndarray, Alignment]:
    """Return spots laid onto measured points: turned and shifted in plan, levelled by a plane through the differences.

    Args:
        spots: East, north, level, shape (n, 3), float64. [mm]
        pairs: Places of three or more points in the cloud, and where they were measured. [mm]

    Valid for: clouds that are upright but for a slight tilt, in true size.
    Source: definition, least squares of a turn and a shift; plane z = a + bx + cy through the differences of level

    Raises:
        FileRefusedError: fewer than three points, or all on one line.
    """
    if len(pairs) < _MIN_PAIRS:
        message = "A cloud is laid onto three or more levelled points: name more."
        raise FileRefusedError(message)
    cloud, true = np.array([each for each, _ in pairs]), np.array([each for _, each in pairs])
    a, b = cloud[:, :2] - cloud[:, :2].mean(axis=0), true[:, :2] - true[:, :2].mean(axis=0)
    if min(np.linalg.svd(a, compute_uv=False)) < _MIN_WIDTH_MM:
        message = "The points stand nearly on one line: a cloud cannot be levelled by them. Take one to the side."
        raise FileRefusedError(message)
    angle = np.arctan2((a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]).sum(), (a * b).sum())
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    shift = true[:, :2].mean(axis=0) - turn @ cloud[:, :2].mean(axis=0)

    def laid(places: np.ndarray) -> np.ndarray:
        found: np.ndarray = places[:, :2] @ turn.T + shift
        return found

    plan = laid(cloud)
    middle = plan.mean(axis=0)
    columns = np.column_stack([np.ones(len(plan)), plan - middle])
    plane, *_ = np.linalg.lstsq(columns, true[:, 2] - cloud[:, 2], rcond=None)
    flat = laid(spots)
    levels = spots[:, 2] + plane[0] + (flat - middle) @ plane[1:]
    off_plan = np.hypot(*(plan - true[:, :2]).T)
    off_level = cloud[:, 2] + columns @ plane - true[:, 2]
    return np.column_stack([flat, levels]), Alignment(
        bearing_deg=float(-np.degrees(angle) % 360.0),
        shift_mm=(float(shift[0]), float(shift[1]), float(plane[0])),
        tilt=(float(plane[1]), float(plane[2])),
        residuals_mm=tuple((float(one), float(other)) for one, other in zip(off_plan, off_level, strict=True)),
    )


_MIN_PAIRS = 3
_MIN_WIDTH_MM = 200.0


def level_near(spots: np.ndarray, at_mm: tuple[float, float], reach_mm: float) -> float | None:
    """Return the median level of the spots about a place, None where there is none. [mm].

    Args:
        spots: East, north, level, shape (n, 3), float64. [mm]
        at_mm: The place. [mm]
        reach_mm: How far about it. [mm]
    """
    near = spots[np.hypot(spots[:, 0] - at_mm[0], spots[:, 1] - at_mm[1]) <= reach_mm]
    return float(np.median(near[:, 2])) if len(near) else None
