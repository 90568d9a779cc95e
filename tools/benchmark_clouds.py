#!/usr/bin/env python3
"""How long a point cloud takes down to a grid of 10 mm, against reading the same file alone, and with how much memory.

.venv/bin/python tools/benchmark_clouds.py [points ...]
"""

from __future__ import annotations

import resource
import sys
import tempfile
import time
from pathlib import Path

import laspy
import numpy as np

from pavewright.files import read_las

CELL_MM = 10.0


def written(path: Path, count: int) -> None:
    """Write a cloud of a garden, dense as a scanner leaves it."""
    dice = np.random.default_rng(count)
    header = laspy.LasHeader(point_format=3, version="1.2")
    header.scales = np.array([0.001] * 3)
    side = max(2.0, (count / 40_000.0) ** 0.5)
    with laspy.open(path, "w", header=header) as writer:
        for first in range(0, count, 1_000_000):
            many = min(1_000_000, count - first)
            record = laspy.ScaleAwarePointRecord.zeros(many, header=header)
            record.x, record.y = dice.uniform(0.0, side, many), dice.uniform(0.0, side, many)
            record.z = 10.0 - np.asarray(record.x) / 60.0 + dice.normal(0.0, 0.003, many)
            writer.write_points(record)


def read_alone(path: Path) -> float:
    """Return how long the library takes to read the places of a file, chunk by chunk."""
    begun = time.perf_counter()
    with laspy.open(path) as reader:
        for points in reader.chunk_iterator(1_000_000):
            np.asarray(points.x), np.asarray(points.y), np.asarray(points.z)
    return time.perf_counter() - begun


def gridded(path: Path) -> tuple[float, int]:
    """Return how long the grid takes, and its cells."""
    begun = time.perf_counter()
    with path.open("rb") as stream:
        found = read_las(stream, CELL_MM, ground_only=False)
    return time.perf_counter() - begun, len(found.spots)


def main(words: list[str]) -> None:
    """Print a row for each size: the smaller of three turns of either, taken in turn."""
    with tempfile.TemporaryDirectory() as folder:
        written(Path(folder) / "warm.las", 1000)
        gridded(Path(folder) / "warm.las")
        print(f"{'points':>10} {'read s':>8} {'grid s':>8} {'ratio':>6} {'cells':>9} {'greatest MB':>12}")
        for count in [int(word) for word in words] or [1_000_000, 10_000_000]:
            path = Path(folder) / f"{count}.las"
            written(path, count)
            turns = [(read_alone(path), *gridded(path)) for _ in range(3)]
            alone, grid, cells = min(each[0] for each in turns), min(each[1] for each in turns), turns[0][2]
            most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
            print(f"{count:10d} {alone:8.3f} {grid:8.3f} {grid / alone:6.2f} {cells:9d} {most:12d}")
            path.unlink()


if __name__ == "__main__":
    main(sys.argv[1:])
