"""Which observations of a network are likely slips: standardised residuals, tested and taken out one at a time."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from statistics import NormalDist
from typing import TYPE_CHECKING

import numpy as np

from pavewright.survey.networks._adjustment import Adjustment, LooseNetworkError, UnsettledNetworkError, adjust_network
from pavewright.survey.networks._observations import network_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.geometry import XY
    from pavewright.survey.networks._observations import Array, Observation

_NOTHING = 1e-9
"""Redundancy below this is none. [-]"""
_SURE = 1.5
"""So many standard deviations part an observation from another that may be the one at fault. [-]"""
_SAME = 1e-4
"""Residuals within this part of each other are the same but for the arithmetic. [-]"""


@dataclass(frozen=True, slots=True)
class Slip:
    """An observation that the others contradict.

    Attributes:
        number: Its place among the observations, from 0.
        size: How much too long it was measured; negative for too short. [mm]
        standardised: Its residual over the residual's own standard deviation. [-]
        alike: Places of observations that cannot be told apart from it, itself among them.
    """

    number: int
    size: float
    standardised: float
    alike: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Slips:
    """Slips in the order in which they were taken out, and the network without them.

    Attributes:
        slips: The slips; the last may stand for several that cannot be told apart, and is then not taken out.
        left: Places of the observations that were kept.
        adjustment: The network of those.
        whole: The network of all.
    """

    slips: tuple[Slip, ...]
    left: tuple[int, ...]
    adjustment: Adjustment
    whole: Adjustment


def normal_limit(chance: float) -> float:
    """Return what a standardised residual exceeds, either way, with a given chance when nothing is wrong.

    Args:
        chance: Chance of a false alarm for one observation, such as 0.001. [-]

    Valid for: deviations known beforehand.
    Source: baarda_testing

    >>> round(normal_limit(0.001), 2), round(normal_limit(0.01), 3)
    (3.29, 2.576)
    """
    return NormalDist().inv_cdf(1.0 - chance / 2.0)


def tau_limit(chance: float, spare: int) -> float:
    """Return the same for a residual that is standardised by the network's own scatter.

    The square of tau over the spare observations is spread as sin² of an angle with density cos^(r−2).

    Args:
        chance: Chance of a false alarm for one observation. [-]
        spare: Degrees of freedom, 1 or more; with one every tau is 1. [-]

    Source: pope_tau, t√r / √(r − 1 + t²) with Student's t at chance / 2 and r − 1

    >>> round(tau_limit(0.05, 14), 3), round(tau_limit(0.001, 14), 3)
    (1.923, 2.845)
    """
    if spare == 1:
        return 1.0
    low, high = 0.0, math.pi / 2.0
    for _ in range(100):
        middle = (low + high) / 2.0
        low, high = (middle, high) if _angle_part(spare - 2, middle) < 1.0 - chance else (low, middle)
    return math.sqrt(spare) * math.sin(high)


def _angle_part(power: int, angle: float) -> float:
    """Return the integral of cos^power from zero to an angle over that to a right angle, by its recurrence."""
    start = power % 2
    part, whole = (math.sin(angle), 1.0) if start else (angle, math.pi / 2.0)
    for step in range(start + 2, power + 1, 2):
        part = math.cos(angle) ** (step - 1) * math.sin(angle) / step + (step - 1) / step * part
        whole *= (step - 1) / step
    return part / whole


def standardised(adjustment: Adjustment, observations: Sequence[Observation], *, own_scatter: bool = False) -> Array:
    """Return residuals over their own standard deviations; zero where nothing checks an observation.

    Args:
        adjustment: The network.
        observations: Its observations.
        own_scatter: Whether deviations are taken from the fit (tau) instead of from beforehand (w).
    """
    parts = np.array(adjustment.redundancy)
    sds = np.array([each.sd_mm for each in observations])
    scale = (adjustment.ratio or 0.0) if own_scatter else 1.0
    checked = (parts > _NOTHING) & (scale > 0.0)
    found = np.zeros(len(parts))
    found[checked] = np.array(adjustment.residuals_mm)[checked] / (scale * sds[checked] * np.sqrt(parts[checked]))
    return found


def find_slips(
    places: Mapping[str, XY],
    freedom: Mapping[str, Sequence[XY]],
    observations: Sequence[Observation],
    chance: float,
    *,
    own_scatter: bool = False,
    free: bool = False,
) -> Slips:
    """Return the slips of a network: the worst observation is taken out and the rest adjusted again while one fails.

    Where the worst cannot be told apart from others the search ends with them: an error is there, but not placed.

    Args:
        places: First places of all points. [mm]
        freedom: For each point that may move, the directions in which it may.
        observations: What was measured.
        chance: Chance of a false alarm for each observation. [-]
        own_scatter: Whether the deviations are unknown and taken from the fit (tau test).
        free: Whether nothing holds the network in the plane.

    Source: baarda_testing for known deviations, pope_tau for unknown ones; size −v / r
    """
    left = list(range(len(observations)))
    found: list[Slip] = []
    whole = adjustment = adjust_network(places, freedom, observations, free=free)
    while adjustment.spare > 0:
        kept = [observations[number] for number in left]
        worst = _worst(adjustment, kept, left, own_scatter=own_scatter)
        limit = tau_limit(chance, adjustment.spare) if own_scatter else normal_limit(chance)
        if abs(worst.standardised) <= limit + _NOTHING:
            break
        found.append(worst)
        if len(worst.alike) > 1:
            break
        rest = [number for number in left if number != worst.number]
        try:
            adjustment = adjust_network(places, freedom, [observations[number] for number in rest], free=free)
        except (LooseNetworkError, UnsettledNetworkError):
            break
        left = rest
    return Slips(_sized(found, left, adjustment, observations), tuple(left), adjustment, whole)


def _sized(
    found: Sequence[Slip], left: Sequence[int], adjustment: Adjustment, observations: Sequence[Observation]
) -> tuple[Slip, ...]:
    """Return slips with their sizes read off the network that is left; a slip still in it would have bent the first."""
    out = [slip.number for slip in found if slip.number not in left]
    names = tuple(adjustment.places)
    network = network_of(names, {}, [observations[number] for number in out])
    places = np.array([adjustment.places[name] for name in names])
    sizes = dict(zip(out, (network.measured - network.found(places))[network.order].tolist(), strict=True))
    return tuple(replace(slip, size=sizes.get(slip.number, slip.size)) for slip in found)


def _worst(adjustment: Adjustment, kept: Sequence[Observation], left: Sequence[int], *, own_scatter: bool) -> Slip:
    """Return the observation with the largest standardised residual, and those that may as well be the one."""
    signed = standardised(adjustment, kept, own_scatter=own_scatter)
    sizes = np.abs(signed)
    worst = int(np.argmax(sizes))
    parts = np.array(adjustment.redundancy)
    shared = -adjustment.slopes.through(adjustment.cofactors, worst)
    sure = 0.0 if own_scatter else _SURE  # scatter that holds the slip itself parts nothing further
    alike = tuple(left[number] for number in alike_with(worst, sizes, parts, shared, sure))
    part = adjustment.redundancy[worst]
    size = slip_mm(adjustment.residuals_mm[worst], part) if part > _NOTHING else 0.0
    return Slip(left[worst], size, float(signed[worst]), alike)


def alike_with(worst: int, sizes: Array, parts: Array, shared: Array, sure: float = _SURE) -> list[int]:
    """Return the places of observations that may as well be the one at fault as the worst, itself among them.

    Two standardised residuals of likeness ρ differ by chance with a standard deviation of ``√(2 (1 − |ρ|))``.

    Args:
        worst: Place of the one with the largest standardised residual.
        sizes: Standardised residuals without their signs, shape (n,), float64.
        parts: Redundancy of each, shape (n,), float64.
        shared: How far an error of the worst shows in each, both in their standard deviations, shape (n,), float64.
        sure: So many standard deviations part an observation from the worst. [-]

    Source: baarda_testing, correlation of residuals
    """
    checked = parts > _NOTHING
    checked[worst] = False
    likeness = np.zeros(len(parts))
    likeness[checked] = np.abs(shared[checked]) / np.sqrt(parts[checked] * parts[worst])
    apart = np.sqrt(2.0 * np.maximum(1.0 - likeness, 0.0))
    same = checked & (sizes[worst] - sizes <= sure * apart + _SAME * sizes[worst])
    return sorted({worst, *np.flatnonzero(same).tolist()})


def slip_mm(residual_mm: float, redundancy: float) -> float:
    """Return the size of the slip that a residual points to: measured less true. [mm].

    Args:
        residual_mm: Adjusted less measured. [mm]
        redundancy: How far the other tapes check this one, more than 0, up to 1. [-]

    Valid for: one slip among otherwise sound tapes.
    Source: baarda_testing, −v / r

    >>> slip_mm(-12.0, 0.25)
    48.0
    """
    return -residual_mm / redundancy
