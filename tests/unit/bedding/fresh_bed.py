"""A slab on a fresh bed, made by chance: an uneven bed that gives and stays, corners read with error, a mallet."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pavewright.as_laid import TRUSTED
from pavewright.bedding import Act, Limits, advise, plate
from pavewright.bedding._taps import places

CELLS = 7
"""Springs along each side of the slab."""
MOST_TAPS = 60
LIMITS = Limits(
    share_percent=67.0,
    gives_percent=50.0,
    at_once_mm=3.0,
    tap_from_mm=0.5,
    proud_mm=5.0,
    most_mm=10.0,
    step_mm=2.0,
    thinnest_mm=25.0,
)


class FreshBed:
    """A rigid slab on springs of different stiffness that stay where they were pressed to."""

    def __init__(self, chance, size=(600.0, 400.0), unevenness=0.35):
        a, b = size
        self.corners = ((0.0, 0.0), (a, 0.0), (a, b), (0.0, b))
        along = (np.arange(CELLS) + 0.5) / CELLS
        x, y = np.meshgrid(along * a - a / 2, along * b - b / 2)
        self.at = np.column_stack([np.ones(x.size), x.ravel(), y.ravel()])
        self.stiff = np.exp(unevenness * chance.standard_normal(x.size))
        self.rows = np.array([[1.0, cx - a / 2, cy - b / 2] for cx, cy in self.corners])
        self.middle = (a / 2, b / 2)
        # set proud by 2 to 9 mm, tilted so that no corner lies below what is wanted
        tilt = chance.uniform(-1.0, 1.0, 2) * chance.uniform(0.0, 3.0)
        proud = chance.uniform(2.0, 9.0)
        over = proud + self.rows[:, 1] / (a / 2) * tilt[0] + self.rows[:, 2] / (b / 2) * tilt[1]
        self.over = over - min(0.0, over.min())
        self.chance = chance

    def tap(self, at, near, down_mm, held):
        """Hit until the corners meant to go down are down so far, as near as a man can see; nobody's foot lifts."""
        gain = float(np.clip(np.exp(0.2 * self.chance.standard_normal()), 0.5, 1.5))
        if down_mm <= 0.0:
            return
        load = np.array([1.0, at[0] - self.middle[0], at[1] - self.middle[1]])
        flex = np.linalg.inv(self.at.T @ (self.stiff[:, None] * self.at))
        on = list(held)
        move = self.rows @ flex @ load
        while on:  # a foot pushes and never pulls
            force = np.linalg.solve(self.rows[on] @ flex @ self.rows[on].T, -move[on])
            if np.all(force >= 0.0):
                move = move + self.rows @ flex @ self.rows[on].T @ force
                break
            on = [corner for corner, each in zip(on, force, strict=True) if each >= 0.0]
        self.over = self.over - move * (down_mm * gain / float(np.mean(move[list(near)])))

    def read(self, sd_mm):
        return self.over + sd_mm * self.chance.standard_normal(4)


@dataclass(frozen=True)
class Laid:
    taps: int
    done: bool
    lowest_mm: float
    highest_mm: float
    act: str


def by_advice(bed: FreshBed, sd_mm: float) -> Laid:
    """Tap as advised until the advice is to leave it, to look or to lift."""
    lowest = float(bed.over.min())
    for taps in range(MOST_TAPS):
        found = advise(bed.corners, list(bed.read(sd_mm)), sd_mm, LIMITS)
        if found.tap is None:
            return Laid(taps, found.act is Act.LEAVE, lowest, float(bed.over.max()), found.act.value)
        near = [number for number, down in enumerate(found.tap.down_mm) if down == max(found.tap.down_mm)]
        bed.tap(found.tap.at, near, max(found.tap.down_mm), found.tap.held)
        lowest = min(lowest, float(bed.over.min()))
    return Laid(MOST_TAPS, False, lowest, float(bed.over.max()), "never")


def by_chance(bed: FreshBed, sd_mm: float) -> Laid:
    """Tap anywhere by some of what stands proud there, until the same reading says that it lies or is too low."""
    slab = plate(bed.corners)
    spots = list(places(slab))
    lowest = float(bed.over.min())
    for taps in range(MOST_TAPS):
        read = bed.read(sd_mm)
        if np.all(np.abs(read) <= LIMITS.step_mm - TRUSTED * sd_mm):
            return Laid(taps, True, lowest, float(bed.over.max()), "leave")
        if advise(bed.corners, list(read), sd_mm, LIMITS).act is Act.LIFT:
            return Laid(taps, False, lowest, float(bed.over.max()), "lift")
        _, corners, at = spots[bed.chance.integers(len(spots))]
        near = corners or range(4)
        bed.tap(at, near, float(bed.chance.uniform(0.0, max(float(np.mean(read[list(near)])), 0.5))), ())
        lowest = min(lowest, float(bed.over.min()))
    return Laid(MOST_TAPS, False, lowest, float(bed.over.max()), "never")
