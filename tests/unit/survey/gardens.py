"""Invented gardens with spot levels: sloping, uneven, with a bank; and slips to plant in them."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Garden:
    """Spots of one garden: east, north, level. [mm]."""

    spots: tuple[tuple[float, float, float], ...]

    def with_slip(self, number: int, by_mm: float) -> tuple[tuple[float, float, float], ...]:
        x, y, level = self.spots[number]
        return (*self.spots[:number], (x, y, level + by_mm), *self.spots[number + 1 :])


def garden(seed: int, *, count: int, uneven_mm: float, tufts_mm: float, bank_mm: float = 0.0) -> Garden:
    """Return an invented garden: a slope, waves of a few metres, tufts of grass, perhaps a bank right across."""
    chance = np.random.default_rng(seed)
    columns = next(each for each in (5, 4, 3) if count % each == 0)
    apart = chance.uniform(1200.0, 2500.0)
    places = [
        (apart * (number % columns) + chance.normal(0.0, 0.15 * apart), apart * (number // columns))
        for number in range(count)
    ]
    slope, turn = chance.uniform(0.0, 0.12), chance.uniform(0.0, 2.0 * math.pi)
    waves = [
        (chance.uniform(4000.0, 12000.0), chance.uniform(0.0, math.tau), chance.uniform(0.0, math.tau))
        for _ in range(4)
    ]
    at_bank = apart * (count // columns) * chance.uniform(0.35, 0.65)
    spots = []
    for x, y in places:
        level = 10_000.0 - slope * (x * math.cos(turn) + y * math.sin(turn))
        for length, way, phase in waves:
            along = x * math.cos(way) + y * math.sin(way)
            level += (
                uneven_mm / math.sqrt(2.0) * math.sin(math.tau * along / length + phase) / math.sqrt(len(waves)) * 2.0
            )
        level -= bank_mm / (1.0 + math.exp(-(y - at_bank) / 300.0))
        spots.append((x, y, round(float(level + chance.normal(0.0, tufts_mm)))))
    return Garden(tuple(spots))
