#!/usr/bin/env python3
"""How long a point cloud of a terrace takes to be checked against the plan, against reading the same file alone.

.venv/bin/python tools/benchmark_cloud_check.py [points ...]

Each size runs in a process of its own, so that the memory shown is that of this check and no other.
"""

from __future__ import annotations

import json
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

import laspy
import numpy as np
from shapely import contains_xy, prepare

from pavewright.desk import CloudFile, checked_cloud, make_plan

if TYPE_CHECKING:
    from pavewright.pipeline import Plan

JOB = Path(__file__).resolve().parents[1] / "examples" / "l_terrace.json"
MARKS = frozenset({"BM", "G28", "G31", "G32", "G37", "G38"})
"""Levelled points beside the paving, on all sides of it."""
TURNS = 5
NOISE_MM = 3.0
RATIO, RATIO_TO, MEMORY_MB = 3.0, 1_000_000, 2000
"""What is promised: a million points in so many times their reading, ten million in so much memory."""


def plan() -> Plan:
    """Return the plan of the terrace."""
    return make_plan(JOB.read_bytes())


def marks(made: Plan) -> dict[str, None]:
    """Return levelled points of the job, as the command names them."""
    return dict.fromkeys(each.name for each in made.survey.points if each.name in MARKS)


def written(path: Path, count: int, made: Plan) -> None:
    """Write a cloud of the terrace as it is planned, with the scatter of a scanner and 2 % of its points off it."""
    dice = np.random.default_rng(count)
    shapes = [(made.levels.area(each.name), each.gross.polygon) for each in made.survey.site.areas]
    boxes = np.array([shape.bounds for _, shape in shapes])
    west, south, east, north = (
        boxes[:, 0].min() - 500.0,
        boxes[:, 1].min() - 500.0,
        boxes[:, 2].max() + 500.0,
        boxes[:, 3].max() + 500.0,
    )
    header = laspy.LasHeader(point_format=3, version="1.2")
    header.scales = np.array([0.001] * 3)
    spots = [(each.x_mm, each.y_mm, each.level_mm or 0.0) for each in made.survey.points if each.name in MARKS]
    with laspy.open(path, "w", header=header) as writer:
        for first in range(0, count, 1_000_000):
            many = min(1_000_000, count - first)
            x, y = dice.uniform(west, east, many), dice.uniform(south, north, many)
            z = np.full(many, shapes[0][0].plane.level_mm)
            for finished, shape in shapes:
                prepare(shape)
                on = contains_xy(shape, x, y)
                z[on] = finished.surface.levels_at(x[on], y[on])
            z += dice.normal(0.0, NOISE_MM, many) + 100.0 * (dice.random(many) < 0.02)
            if not first:  # what the cloud holds about every levelled point
                each = 100
                for number, (px, py, level) in enumerate(spots):
                    part = slice(number * each, (number + 1) * each)
                    x[part], y[part] = px + dice.uniform(-40, 40, each), py + dice.uniform(-40, 40, each)
                    z[part] = level + dice.normal(0.0, NOISE_MM, each)
            record = laspy.ScaleAwarePointRecord.zeros(many, header=header)
            record.x, record.y, record.z = x / 1000.0, y / 1000.0, z / 1000.0
            writer.write_points(record)


def read_alone(path: Path) -> float:
    """Return how long the library takes to read the places of a file, chunk by chunk. [s]."""
    begun = time.process_time()
    with laspy.open(path) as reader:
        for points in reader.chunk_iterator(1_000_000):
            np.asarray(points.x), np.asarray(points.y), np.asarray(points.z)
    return time.process_time() - begun


def checked(path: Path, made: Plan) -> tuple[float, int]:
    """Return how long the check takes, and on how many cells. [s]."""
    begun = time.process_time()
    with path.open("rb") as stream:
        found = checked_cloud(made, CloudFile(stream, "las", "m", "", ground_only=False), marks(made))
    return time.process_time() - begun, sum(each.cells for each in found.bays)


def measured(count: int) -> dict[str, float]:
    """Return what a size takes: the smaller of five turns of either, taken in turn: time of the processor."""
    made = plan()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "cloud.las"
        written(path, count, made)
        checked(path, made)
        turns = [(read_alone(path), *checked(path, made)) for _ in range(TURNS)]
    alone, spent = min(each[0] for each in turns), min(each[1] for each in turns)
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    return {"points": count, "read_s": alone, "check_s": spent, "cells": turns[0][2], "memory_mb": most}


def main(words: list[str]) -> int:
    """Print a row for each size; exit 1 where less is kept than is promised."""
    if words and words[0] == "--one":
        print(json.dumps(measured(int(words[1]))))
        return 0
    kept = True
    print(f"{'points':>10} {'read s':>8} {'check s':>8} {'ratio':>6} {'cells':>9} {'greatest MB':>12}")
    for count in [int(word) for word in words] or [1_000_000, 10_000_000]:
        done = subprocess.run(
            [sys.executable, __file__, "--one", str(count)], check=True, capture_output=True, text=True
        )
        row = json.loads(done.stdout)
        ratio = row["check_s"] / row["read_s"]
        print(
            f"{count:10d} {row['read_s']:8.3f} {row['check_s']:8.3f} {ratio:6.2f} {row['cells']:9d} "
            f"{row['memory_mb']:12d}",
            flush=True,
        )
        kept = kept and (count > RATIO_TO or ratio <= RATIO) and row["memory_mb"] <= MEMORY_MB
    return 0 if kept else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
