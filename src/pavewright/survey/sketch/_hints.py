"""What a sketch hints at, as observations that are trusted so little that they move nothing which a tape holds."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright import units
from pavewright.survey.networks import network_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.geometry import XY
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey.networks import Array, Network, Observation
    from pavewright.survey.sketch._laid import Laid

_SETTLED = 1e-7
"""A step below this is rest. [mm]"""
_MAX_ROUNDS = 60
_HALVINGS = 30


@dataclass(frozen=True, slots=True)
class Hint:
    """How far a point lies from another in one direction, or from zero where there is no other. [mm]."""

    point: str
    other: str | None
    way: XY
    distance_mm: float
    sd_mm: float


def hints_of(
    sketch: Mapping[str, XY],
    pairs: Sequence[tuple[str, str]],
    laid: Laid,
    figures: SurveyFigures,
) -> list[Hint]:
    """Return what a sketch shows: the direction of every stretch between neighbours well, its length less well.

    Args:
        sketch: Points as drawn. [mm]
        pairs: Neighbours on it.
        laid: How it is laid on the site.
        figures: Figures of the survey.
    """
    found = []
    finger = figures.sketch_finger_mm.value
    for first, second in pairs:
        start, end = laid.on_site(sketch[first]), laid.on_site(sketch[second])
        length = math.dist(start, end)
        if length < _NO_LENGTH:
            continue
        along = (end[0] - start[0]) / length, (end[1] - start[1]) / length
        ahead, aside = (
            max(figure.value * units.mm_to_m(length), finger)
            for figure in (figures.sketch_length_mm_per_m, figures.sketch_direction_mm_per_m)
        )
        found.append(Hint(second, first, along, length, ahead))
        found.append(Hint(second, first, (-along[1], along[0]), 0.0, aside))
    for name, place in sketch.items():
        found += near(name, laid.on_site(place), PLACE)
    return found


def near(name: str, place: XY, sd_mm: float) -> list[Hint]:
    """Return that a point stands about a place."""
    return [Hint(name, None, (1.0, 0.0), place[0], sd_mm), Hint(name, None, (0.0, 1.0), place[1], sd_mm)]


PLACE = 3000.0
"""How far the place of one point on a sketch says where it stands: it only keeps what nothing joins. [mm]"""
_NO_LENGTH = 1e-6


@dataclass(frozen=True, slots=True)
class SoftlySettled:
    """Places that fit what was measured, and the sketch in what that leaves free.

    Attributes:
        places: Every point. [mm]
        unknowns: For each unknown its point and direction.
        cofactors: Covariance of the unknowns. [mm²]
    """

    places: dict[str, XY]
    unknowns: tuple[tuple[str, XY], ...]
    cofactors: Array


def settle_softly(
    first: Mapping[str, XY],
    freedom: Mapping[str, Sequence[XY]],
    observations: Sequence[Observation],
    hints: Sequence[Hint],
    weaker: float,
) -> SoftlySettled | None:
    """Return the places that fit observations and hints best; None where something may still move freely.

    Args:
        first: First places of all points. [mm]
        freedom: For each point that may move, the directions in which it may.
        observations: What was measured.
        hints: What the sketch shows.
        weaker: How many times less than stated the hints are trusted. [-]

    Source: mahun_least_squares, chapter F, with weak observations beside the measured ones
    """
    names = tuple(first)
    net = _Soft(network_of(names, freedom, observations), *_table(names, hints, weaker))
    places = np.array([first[name] for name in names], dtype=np.float64)
    try:
        places = net.at_rest(places)
        cofactors = np.linalg.inv(net.normal(places)).astype(np.float64)
    except np.linalg.LinAlgError:
        return None
    if not np.isfinite(cofactors).all():
        return None
    points = zip(net.network.points.tolist(), net.network.directions, strict=True)
    return SoftlySettled(
        {name: (float(x), float(y)) for name, (x, y) in zip(names, places, strict=True)},
        tuple((names[point], (float(x), float(y))) for point, (x, y) in points),
        cofactors,
    )


class _Soft:
    """Observations and hints as arrays."""

    def __init__(self, network: Network, slant: Array, wanted: Array) -> None:
        self.network = network
        self._slant = slant
        self._wanted = wanted
        ways = np.zeros((slant.shape[1], len(network.points)))
        for number, (point, way) in enumerate(zip(network.points.tolist(), network.directions, strict=True)):
            ways[2 * point : 2 * point + 2, number] = way
        self._table = slant @ ways
        self._firm = self._table.T @ self._table

    def normal(self, places: Array) -> Array:
        """Return the normal matrix."""
        whole: Array = self.network.slopes(places).normal() + self._firm
        return whole

    def misfit(self, places: Array) -> float:
        """Return the sum of squared misfits, each over its deviation."""
        off = self._wanted - self._slant @ places.ravel()
        return float(np.sum(self.network.misfits(places) ** 2) + np.sum(off**2))

    def step(self, places: Array) -> Array:
        """Return the step of the unknowns that makes the misfits least, were they linear."""
        pull = self.network.slopes(places).pulled(self.network.misfits(places))
        pull += self._table.T @ (self._wanted - self._slant @ places.ravel())
        return np.linalg.solve(self.normal(places), pull).astype(np.float64)

    def at_rest(self, places: Array) -> Array:
        """Return the places where nothing moves any more; a step that makes the fit worse is halved."""
        now = self.misfit(places)
        for _ in range(_MAX_ROUNDS):
            step = self.step(places)
            rest = float(np.max(np.abs(step), initial=0.0))
            for halving in range(_HALVINGS):
                trial = self.network.moved(places, step)
                fit = self.misfit(trial)
                if fit <= now * (1.0 + 1e-12) + 1e-18 or rest < _SETTLED or halving == _HALVINGS - 1:
                    break
                step, rest = step / 2.0, rest / 2.0
            places, now = trial, fit
            if rest < _SETTLED:
                break
        return places


def _table(names: tuple[str, ...], hints: Sequence[Hint], weaker: float) -> tuple[Array, Array]:
    """Return hints as rows over the coordinates of all points, each over its deviation, and what they want."""
    index = {name: number for number, name in enumerate(names)}
    kept = [each for each in hints if each.point in index and (each.other is None or each.other in index)]
    rows = np.zeros((len(kept), 2 * len(names)))
    for number, each in enumerate(kept):
        way = np.array(each.way) / (weaker * each.sd_mm)
        at = 2 * index[each.point]
        rows[number, at : at + 2] += way
        if each.other is not None:
            at = 2 * index[each.other]
            rows[number, at : at + 2] -= way
    return rows, np.array([each.distance_mm / (weaker * each.sd_mm) for each in kept])
