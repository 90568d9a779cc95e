#!/usr/bin/env python3
"""Print how long the design of a folded surface takes against its number of planes.

    python tools/benchmark_levels.py            4, 16 and 40 planes round a gully
    python tools/benchmark_levels.py 4 8        these numbers of planes

Ratios are what to look at.
"""

from __future__ import annotations

import math
import sys
import time
from typing import TYPE_CHECKING

import numpy as np
from shapely.geometry import Polygon

from pavewright.levels.design._arrangements import Arrangement, to_gully
from pavewright.levels.design._bounds import Bound
from pavewright.levels.design._design import Earth, Task, design, samples
from pavewright.levels.design._facet_rows import FallRange
from pavewright.levels.design._rule import RuleKind

if TYPE_CHECKING:
    from collections.abc import Callable

TURNS = 3


class Slope:
    """Ground that falls to one side, with waves."""

    def level_beyond(self, place: tuple[float, float]) -> float:
        """Return its level. [mm]."""
        x, y = place
        return -215.0 + 0.02 * y + 15.0 * math.sin(x / 900.0)

    def levels_beyond(self, xs: np.ndarray, ys: np.ndarray) -> np.ndarray:
        """Return its levels in rows of places. [mm]."""
        return -215.0 + 0.02 * ys + 15.0 * np.sin(xs / 900.0)


def fan(planes: int) -> Task:
    """Return a task of so many planes from the sides of an even polygon of about 60 m² to a gully in its middle."""
    radius = math.sqrt(120.0e6 / (planes * math.sin(2.0 * math.pi / planes)))
    turns = [2.0 * math.pi * number / planes for number in range(planes)]
    outline = tuple((radius * math.cos(turn), radius * math.sin(turn)) for turn in turns)
    arrangement = to_gully(outline, (0.0, 0.0), "gully")
    if not isinstance(arrangement, Arrangement):
        sys.exit("an even polygon sees its middle")
    held = tuple(
        Bound(RuleKind.DPC, "wall", at, -math.inf, -150.0, 0.0, locked=True, words="", path="") for at in outline[:2]
    )
    earth = Earth(samples(Polygon(outline), Slope()), 245.0, 8500.0, 7000.0)  # type: ignore[arg-type]
    return Task(arrangement, held, FallRange(1 / 60, 1 / 30, 1 / 100), earth)


def best(run: Callable[[Task], object], task: Task) -> float:
    """Return the best of a few turns. [s]."""
    spent = []
    for _ in range(TURNS):
        begun = time.perf_counter()
        run(task)
        spent.append(time.perf_counter() - begun)
    return min(spent)


def main(words: list[str]) -> int:
    """Print the table."""
    first = 0.0
    print(" ".join(f"{head:>14}" for head in ("planes", "rounds", "design ms", "against first")))
    for planes in [int(word) for word in words] or [4, 16, 40]:
        task = fan(planes)
        made = design(task)
        slow = best(design, task)
        first = first or slow
        rounds = made.rounds if made is not None else 0
        row = (planes, rounds, 1000.0 * slow, slow / first)
        print(" ".join(f"{value:14.1f}" if isinstance(value, float) else f"{value:14d}" for value in row))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
