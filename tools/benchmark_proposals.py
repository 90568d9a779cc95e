"""Time the search for better ways: so many plans of the demo by one worker and by two, in turn, and their ratio.

Run it on a machine that does nothing else: ``python tools/benchmark_proposals.py [PLANS]``. Workers are loaded and warm
before the clock starts. It prints wall time, processor's time of the workers for each plan, which other work on the
machine hardly changes, and the load; it asserts nothing but that both found the same.
"""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path

from pavewright.desk import BetterAsked, Here, demo_document, find_better
from pavewright.engine import LocalCores

USUAL = 200


def searched(workers: int, plans: int) -> tuple[float, float, dict[str, object]]:
    """Return how long a search takes, the processor's time of its workers, and what it finds."""
    with LocalCores(workers) as engine:

        def search(count: int) -> dict[str, object]:
            here = Here(engine, lambda _done, _of: None, lambda: False, {}, lambda _key, _answer: None)
            return find_better(demo_document(), None, BetterAsked(plans=count), here)

        search(2 * workers)
        begun, spent = time.perf_counter(), processor_s(engine)
        found = search(plans)
        return time.perf_counter() - begun, processor_s(engine) - spent, found


def processor_s(engine: LocalCores) -> float:
    """Return the processor's time of the workers so far. [s]."""
    fields = [
        Path(f"/proc/{pid}/stat").read_text(encoding="utf-8").rpartition(")")[2].split() for pid in engine.process_ids
    ]
    return sum(int(each[11]) + int(each[12]) for each in fields) / os.sysconf("SC_CLK_TCK")


def main() -> None:
    """Time both."""
    plans = int(sys.argv[1]) if len(sys.argv) > 1 else USUAL
    one_s, one_cpu_s, one = searched(1, plans)
    two_s, two_cpu_s, two = searched(2, plans)
    if one != two:
        sys.exit("one worker and two found different plans")
    count = int(str(one["planned"]))
    print(f"{count} plans: one worker {one_s:.1f} s, two {two_s:.1f} s, ratio {one_s / two_s:.2f}")
    print(f"processor: {one_cpu_s / count:.3f} s a plan by one worker, {two_cpu_s / count:.3f} s by two")
    print("load of the machine in the last 1, 5, 15 minutes:", *(f"{each:.1f}" for each in os.getloadavg()))


if __name__ == "__main__":
    main()
