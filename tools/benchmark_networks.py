"""Tape networks of invented gardens: how often a planted slip is named, how often a sound network is blamed, and speed.

Run: .venv/bin/python tools/benchmark_networks.py [gardens]
"""

from __future__ import annotations

import math
import sys
import time

import numpy as np
from scipy.optimize import least_squares

from pavewright.survey.networks._adjustment import Adjustment, adjust_network
from pavewright.survey.networks._observations import Distance, Network, network_of
from pavewright.survey.networks._slips import find_slips, normal_limit

CHANCE = 0.001
BOTH = ((1.0, 0.0), (0.0, 1.0))
Garden = tuple[dict[str, tuple[float, float]], dict[str, tuple[tuple[float, float], ...]], list[Distance]]


def garden(rng: np.random.Generator, points: int, spare: int) -> Garden:
    """Return places, freedom and sound tapes of a garden up to 15 m wide, each point well cut by its tapes."""
    while True:
        spots = rng.uniform(0.0, 15_000.0, (points, 2))
        apart = np.hypot(*(spots[:, None] - spots[None]).transpose(2, 0, 1)) + np.eye(points) * 1e9
        if apart.min() > 1500.0:
            break
    places = {f"P{n}": (float(x), float(y)) for n, (x, y) in enumerate(spots)}
    base = (places["P1"][0] - places["P0"][0], places["P1"][1] - places["P0"][1])
    length = math.hypot(*base)
    freedom: dict[str, tuple[tuple[float, float], ...]] = {"P1": ((base[0] / length, base[1] / length),)} | {
        f"P{n}": BOTH for n in range(2, points)
    }
    pairs = {(0, 1)}
    for n in range(2, points):
        pairs |= {(min(n, int(m)), max(n, int(m))) for m in rng.choice(n, 2, replace=False)}
    every = [(a, b) for a in range(points) for b in range(a + 1, points) if (a, b) not in pairs]
    pairs |= {every[k] for k in rng.choice(len(every), min(spare, len(every)), replace=False)}
    tapes = []
    for a, b in sorted(pairs):
        true = math.dist(places[f"P{a}"], places[f"P{b}"])
        sd = math.hypot(2.0, 0.2 * true / 1e3)
        tapes.append(Distance(f"P{a}", f"P{b}", true + float(rng.normal(0.0, sd)), sd))
    return places, freedom, tapes


def blame(gardens: int) -> None:
    """Print how often a planted slip is named, and how often a sound network is blamed."""
    rng = np.random.default_rng(2026)
    named = {True: [0, 0], False: [0, 0]}
    apart = [0, 0]
    wrongly = {True: 0, False: 0}
    silent = {True: 0, False: 0}
    among = alarms = tapes_seen = alarmed = sound = unsettled = 0
    while sound < gardens:
        places, freedom, tapes = garden(rng, int(rng.integers(6, 16)), int(rng.integers(3, 13)))
        try:
            fit = adjust_network(places, freedom, tapes)
            found = find_slips(places, freedom, tapes, CHANCE)
        except ValueError:
            unsettled += 1
            continue
        sound += 1
        tapes_seen += len(tapes)
        alarms += len(found.slips)
        alarmed += bool(found.slips)
        bad = int(rng.integers(len(tapes)))
        well = fit.redundancy[bad] >= 0.3
        slip = float(rng.uniform(50.0, 100.0) * rng.choice((-1.0, 1.0)))
        wrong = [Distance(t.start, t.end, t.length_mm + slip * (n == bad), t.sd_mm) for n, t in enumerate(tapes)]
        try:
            first = find_slips(places, freedom, wrong, CHANCE).slips[:1]
        except ValueError:
            unsettled += 1
            continue
        named[well][1] += 1
        right = bool(first) and first[0].number == bad and len(first[0].alike) == 1
        named[well][0] += right
        if well and likeness(fit, bad) < 0.9:
            apart[1] += 1
            apart[0] += right
        silent[well] += not first
        wrongly[well] += bool(first) and bad not in first[0].alike
        among += bool(first) and not right and bad in first[0].alike
    for well, words in ((True, "at least 0.3"), (False, "below 0.3")):
        of_these, all_ = named[well]
        print(f"slips of 50 to 100 mm in a tape of redundancy {words}: {of_these} of {all_}, {of_these / all_:.1%}")
        print(f"    {wrongly[well]} blamed on another, {silent[well]} not noticed, the rest reported among several")
    print(f"of the well checked ones, where no other tape looks alike (|correlation| of residuals below 0.9): "
          f"{apart[0]} of {apart[1]} named ({apart[0] / apart[1]:.1%})")  # fmt: skip
    print(f"more where the tape is among those that cannot be told apart: {among}")
    print(f"sound networks: {alarmed} of {sound} raise an alarm; {alarms} alarms for {tapes_seen} tapes "
          f"({alarms / tapes_seen:.3%} against {CHANCE:.3%} for a tape that is wholly checked)")  # fmt: skip
    print(f"limit {normal_limit(CHANCE):.2f}; {unsettled} gardens that could not be laid down left out")


def likeness(fit: Adjustment, bad: int) -> float:
    """Return the greatest correlation of a tape's residual with that of another."""
    parts = np.array(fit.redundancy)
    shared = np.abs(fit.slopes.through(fit.cofactors, bad))
    reported = np.where(parts > 1e-9, shared / np.sqrt(np.maximum(parts * parts[bad], 1e-12)), 0.0)
    reported[bad] = 0.0
    return float(reported.max())


def twin(network: Network, start: np.ndarray, size: int) -> None:
    """Settle a network with scipy, derivatives given."""
    least_squares(
        lambda step: network.misfits(network.moved(start, step)),
        np.zeros(size),
        jac=lambda step: -network.slopes(network.moved(start, step)).table,
        xtol=1e-12,
        ftol=1e-12,
    )


def speed() -> None:
    """Print the time of an adjustment against scipy's on the same network, in turn."""
    rng = np.random.default_rng(7)
    for points, times in ((10, 200), (200, 3)):
        places, freedom, tapes = wide_garden(rng, points)
        shaken = {
            name: (x + float(rng.normal(0, 30)), y + float(rng.normal(0, 30))) if name in freedom else (x, y)
            for name, (x, y) in places.items()
        }
        network = network_of(tuple(shaken), freedom, tapes)
        start = np.array(list(shaken.values()))
        size = len(network.points)
        ours, theirs = [], []
        for _ in range(times):
            begun = time.perf_counter()
            adjust_network(shaken, freedom, tapes)
            ours.append(time.perf_counter() - begun)
            begun = time.perf_counter()
            twin(network, start, size)
            theirs.append(time.perf_counter() - begun)
        one, two = np.median(ours), np.median(theirs)
        print(f"{points} points, {len(tapes)} tapes: ours {1e3 * one:.2f} ms with redundancy and spreads, "
              f"scipy least_squares {1e3 * two:.2f} ms: {two / one:.2f} times")  # fmt: skip


def wide_garden(rng: np.random.Generator, points: int) -> Garden:
    """Return a network that spreads over a grid, each point taped to its six nearest."""
    side = math.ceil(math.sqrt(points))
    spots = np.array([(3000.0 * (n % side), 3000.0 * (n // side)) for n in range(points)])
    spots += rng.uniform(0.0, 900.0, spots.shape)
    pairs = set()
    for n in range(points):
        near = np.argsort(np.hypot(*(spots - spots[n]).T))[1:7]
        pairs |= {(min(n, int(m)), max(n, int(m))) for m in near}
    places = {f"P{n}": (float(x), float(y)) for n, (x, y) in enumerate(spots)}
    tapes = [
        Distance(f"P{a}", f"P{b}", math.dist(spots[a], spots[b]) + float(rng.normal(0.0, 3.0)), 3.0)
        for a, b in sorted(pairs)
    ]
    return places, {f"P{n}": BOTH for n in range(2, points)}, tapes


if __name__ == "__main__":
    blame(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
    speed()
