#!/usr/bin/env python3
"""Print how the fill of a bay with packs of mixed sizes grows with its area.

    python tools/benchmark_mixed.py            10 to 1000 m² with joints up to 3.0 m and 1.8 m
    python tools/benchmark_mixed.py 15 90      these areas

Steps and ratios are what to look at: steps are the same on every run, times are not.
"""

from __future__ import annotations

import math
import sys
import time
from dataclasses import replace

import numpy as np

from pavewright import rulebook
from pavewright.laying._figures import mix_figures
from pavewright.laying.mixed import MixedRefusal, Pack, SoldSize, fill_bay, mix_rules, pack_of

MIXES = 5
SIZES = (
    SoldSize("large", 890.0, 590.0, 12),
    SoldSize("square", 590.0, 590.0, 12),
    SoldSize("oblong", 590.0, 290.0, 16),
    SoldSize("small", 290.0, 290.0, 16),
)


def bay_of(area_m2: float, pack: Pack) -> np.ndarray:
    """Return a bay of about that area, a little longer than wide."""
    cells = area_m2 / pack.coverage_of(1)
    rows = math.ceil(math.sqrt(cells * 1.2))
    return np.ones((rows, round(cells / rows)), dtype=bool)


def main(words: list[str]) -> int:
    """Print the table."""
    known = mix_figures(rulebook.load("england"))
    pack = pack_of(SIZES, 300.0, 10.0, 15.12, known)
    if isinstance(pack, MixedRefusal):
        sys.exit(pack.words)
    fill_bay(bay_of(5.0, pack), pack, mix_rules(pack, known), mix=0)
    heads = ("m2", "joint m", "filled", "bays", "units", "steps median", "ms median", "ms worst", "against first")
    print(" ".join(f"{head:>13}" for head in heads))
    for longest in (10, 6):
        first, kept = 0.0, replace(mix_rules(pack, known), longest_joint_cells=longest)
        for area_m2 in [float(word) for word in words] or [10.0, 30.0, 60.0, 120.0, 250.0, 500.0, 1000.0]:
            bay, spent, steps, units, bays = bay_of(area_m2, pack), [], [], 0, 0
            for mix in range(MIXES):
                begun = time.perf_counter()
                found = fill_bay(bay, pack, kept, mix=mix)
                spent.append(1000.0 * (time.perf_counter() - begun))
                if not isinstance(found, MixedRefusal):
                    steps.append(found.steps)
                    units, bays = len(found.placed), found.bays
            middle = sorted(spent)[MIXES // 2]
            first = first or middle
            row = (
                pack.coverage_of(int(bay.sum())),
                0.3 * longest,
                f"{len(steps)} of {MIXES}",
                bays,
                units,
                sorted(steps)[len(steps) // 2] if steps else 0,
                middle,
                max(spent),
                middle / first,
            )
            print(" ".join(f"{value:13.1f}" if isinstance(value, float) else f"{value!s:>13}" for value in row))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
