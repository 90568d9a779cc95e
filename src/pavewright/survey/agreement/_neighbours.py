"""Spot levels that their neighbours do not confirm: each is predicted from the others and compared with its reading."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from shapely.geometry import MultiPoint, Point

from pavewright.survey.agreement._chance import chance_beyond

if TYPE_CHECKING:
    from pavewright.geometry import XYZ

_TREND = 3
"""A sloping plane has three unknowns."""
_FEWEST = _TREND + 4
"""So many spots tell a plane, how rough the ground is about it, and one that does not fit."""
_NEAREST = 40
"""A spot is foretold from so many of its nearest neighbours."""
_REACHES = (0.6, 1.2, 2.5, 6.0)
"""How far unevenness reaches, in typical distances between spots. [-]"""
_ROUGH = (0.05, 0.3, 0.8, 1.0)
"""Part of the unevenness that no neighbour foretells: tufts, ruts and the reading itself; one: all of it. [-]"""
_OUTSIDE = 1.5
"""Past the outermost of its neighbours a spot is trusted to lie off so many times as far: there ground may turn. [-]"""
_LOOKED_AT = 2
"""So many of the worst for each kind of ground are looked at closely."""


@dataclass(frozen=True, slots=True)
class Stranger:
    """A spot that its neighbours do not bear out.

    Attributes:
        number: Which of the spots.
        foretold_mm: Its level as the others foretell it. [mm]
        sd_mm: Standard deviation of that. [mm]
        chance: How likely so large a deviation is, were the spot as the others. [-]
    """

    number: int
    foretold_mm: float
    sd_mm: float
    chance: float


@lru_cache(maxsize=16)
def strangers(spots: tuple[XYZ, ...], chance: float, min_mm: float) -> tuple[Stranger, ...]:
    """Return the spots that their neighbours do not bear out, the worst first, each left out before the next is sought.

    What was found is kept: a job that is planned in two hundred other ways has the same ground in each.

    The ground is taken for a slope with unevenness about it, partly shared by neighbours; how far it reaches and how
    much of it is shared is what suits the other spots best, so that a rough garden is allowed to be rough.

    Args:
        spots: East, north and level of the spots. [mm]
        chance: Chance that one of all the spots is named though it is sound. [-]
        min_mm: Smaller deviations are never named. [mm]

    Valid for: ground without a break between neighbours.
    Source: universal_kriging, leave-one-out deviation
    """
    kept = list(range(len(spots)))
    found: list[Stranger] = []
    while len(kept) >= _FEWEST and len(found) * 5 <= len(spots):
        data = np.array([spots[number] for number in kept])
        judged = [_judged(data, place) for place in _worst(data)]
        place, worst = min(judged, key=lambda each: each[1].chance)
        off = abs(float(data[place][2]) - worst.foretold_mm)
        if worst.chance * len(kept) > chance or off < min_mm:
            break
        found.append(Stranger(kept[place], worst.foretold_mm, worst.sd_mm, worst.chance))
        del kept[place]
    return tuple(found)


def _worst(data: np.ndarray) -> list[int]:
    """Return the spots that stand out most on any kind of ground."""
    near = _nearest_apart(data)
    found: dict[int, None] = {}
    for reach in _REACHES:
        for rough in _ROUGH:
            inverse, _ = _projected(data, reach * near, rough)
            sizes = np.abs(inverse @ data[:, 2]) / np.sqrt(np.maximum(np.diag(inverse), 1e-12))
            found |= dict.fromkeys(int(each) for each in np.argsort(-sizes)[:_LOOKED_AT])
    return list(found)


def _judged(data: np.ndarray, place: int) -> tuple[int, Stranger]:
    """Return what the neighbours of a spot foretell, on the ground that suits them best."""
    order = np.argsort(np.hypot(*(data[:, :2] - data[place, :2]).T), kind="stable")
    others = data[order[1 : _NEAREST + 1]]
    near = _nearest_apart(others)
    freedom = len(others) - _TREND
    best: tuple[float, float, float] | None = None
    for reach in _REACHES:
        for rough in _ROUGH:
            inverse, log_size = _projected(others, reach * near, rough)
            square = max(float(others[:, 2] @ inverse @ others[:, 2]), 1e-6) / freedom
            likeness = -0.5 * (freedom * math.log(square) + log_size)
            if best is None or likeness > best[0]:
                best = (likeness, reach * near, rough)
    _, reach_mm, rough = best or (0.0, near, 1.0)
    full = np.vstack([data[place], others])
    inverse, _ = _projected(full, reach_mm, rough)
    weighted = inverse @ full[:, 2]
    off, part = float(weighted[0] / inverse[0, 0]), float(inverse[0, 0])
    spread = max(float(full[:, 2] @ weighted) - float(weighted[0]) ** 2 / part, 1.0) / freedom
    sd = math.sqrt(spread / part) * (1.0 if _is_among(data[place], others) else _OUTSIDE)
    return place, Stranger(place, float(data[place][2]) - off, sd, chance_beyond(off / sd, freedom))


def _is_among(spot: np.ndarray, others: np.ndarray) -> bool:
    """Return whether a spot lies among others, not past the outermost of them."""
    hull = MultiPoint(others[:, :2]).convex_hull
    return hull.intersects(Point(spot[:2]))


def _projected(data: np.ndarray, reach_mm: float, rough: float) -> tuple[np.ndarray, float]:
    """Return the inverse covariance with the slope taken out, and the logarithm of its size."""
    apart = np.hypot(*(data[:, None, :2] - data[None, :, :2]).transpose(2, 0, 1)) * (math.sqrt(3.0) / reach_mm)
    covariance = (1.0 - rough) * (1.0 + apart) * np.exp(-apart) + (rough + 1e-6) * np.eye(len(data))
    inverse = np.linalg.inv(covariance)
    centre = data[:, :2].mean(axis=0)
    scale = max(float(np.abs(data[:, :2] - centre).max()), 1.0)
    trend = np.column_stack([np.ones(len(data)), (data[:, :2] - centre) / scale])
    normal = trend.T @ inverse @ trend + 1e-12 * np.eye(_TREND)
    taken = inverse @ trend
    projected = inverse - taken @ np.linalg.solve(normal, taken.T)
    return projected, float(np.linalg.slogdet(covariance)[1] + np.linalg.slogdet(normal)[1])


def _nearest_apart(data: np.ndarray) -> float:
    """Return the middle one of the distances from each spot to its nearest neighbour. [mm]."""
    apart = np.hypot(*(data[:, None, :2] - data[None, :, :2]).transpose(2, 0, 1))
    np.fill_diagonal(apart, math.inf)
    return max(float(np.median(apart.min(axis=1))), 1.0)
