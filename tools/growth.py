"""How the cost of re-pricing grows with the number of jobs: prints what a thousand jobs cost, and the exponent.

    python tools/growth.py 100 1000 [--job examples/mixed_patio.json] [--workers 2] [--sizes 100] [--ratio]

A store is filled with variants of a job, each with a size and a name of its own and with the prices of the firm's book;
then one price changes and all are priced again, in full, and once more by what is known. With ``--sizes`` only so many
of them differ: all others say the same as one of these, their plans are known, and what is measured is the asking side,
the database and the answers. The ratio of one worker and two is taken in turn on the smallest number.
"""

from __future__ import annotations

import argparse
import itertools
import json
import math
import os
import resource
import tempfile
import time
from pathlib import Path

from pavewright.desk import Replan, ReplanQuestion
from pavewright.engine import LocalCores
from pavewright.store import open_file

EXAMPLES = Path(__file__).parents[1] / "examples"
_STEPS = 1e6
"""One part of so many is the step from the size of one job to that of the next: ten thousand differ by a hundredth."""
BOOK = json.loads((EXAMPLES / "firm" / "book.json").read_text(encoding="utf-8"))


def variant(job: dict, number: int) -> str:
    """Return a job with a name of its own."""
    told = json.loads(json.dumps(job))
    told["identity"] |= {"title": f"Job {number}", "client": f"Client {number}"}
    told |= {"rates": {}, "crew": {}}
    told.pop("handed_over", None)
    told["identity"]["address"] = f"{number} Invented Street"
    return json.dumps(told)


def scaled(job: dict, number: int) -> dict:
    """Return a job whose measured places lie some thousandths further apart, so that it stays one that holds."""
    more = 1.0 + number / _STEPS
    told = json.loads(json.dumps(job))

    def stretch(value: object) -> object:
        if isinstance(value, dict):
            return {key: each * more if key in {"x_mm", "y_mm"} else stretch(each) for key, each in value.items()}
        return [stretch(each) for each in value] if isinstance(value, list) else value

    for part in ("measurements", "site"):
        told[part] = stretch(told[part])
    return told


def filled(folder: Path, job: dict, count: int, sizes: int):  # noqa: ANN201 - a store
    """Return a store with so many jobs, of so many variants of one, and the seconds that filling took."""
    begun = time.perf_counter()
    store = open_file(folder / f"{count}.sqlite")
    store.firm.save(0, json.dumps(BOOK))
    for number in range(count):
        store.add(variant(scaled(job, number % sizes), number % sizes))
    return store, time.perf_counter() - begun


def dearer(store) -> None:  # noqa: ANN001 - a store
    """Change one price of the book."""
    kept = store.firm.book()
    book = json.loads(kept.document)
    book["rates"]["materials"][1]["pack_price_minor"] += 100
    store.firm.save(kept.rev, json.dumps(book))


class Timed:
    """A database whose time is counted, from the question to the answer."""

    def __init__(self, store) -> None:  # noqa: ANN001 - a store
        """Listen to its engine."""
        from sqlalchemy import event  # noqa: PLC0415

        self.seconds = self.begun = 0.0
        engine = store._engine  # noqa: SLF001 - measured from inside
        event.listen(engine, "before_cursor_execute", lambda *_: setattr(self, "begun", time.perf_counter()))
        event.listen(engine, "after_cursor_execute", lambda *_: self._over())

    def _over(self) -> None:
        self.seconds += time.perf_counter() - self.begun


def measured(store, engine: LocalCores, *, short: bool) -> dict:  # noqa: ANN001 - a store
    """Return what one re-pricing takes."""
    timed = Timed(store)
    before, begun, own = _cpu_of_workers(engine), time.perf_counter(), time.process_time()
    replan = Replan(store, ReplanQuestion(), short=short)
    run = replan.begin()
    replan.do(run, engine)
    wall = time.perf_counter() - begun
    answers = sum(len(each.answer) for each in store.runs.results(run.id))
    cpu = _cpu_of_workers(engine) - before
    counts = replan.counts
    return {
        "jobs": counts.jobs,
        "wall_s": wall,
        "own_cpu_s": time.process_time() - own,
        "workers_cpu_s": cpu,
        "database_s": timed.seconds,
        "answer_bytes": answers,
        "plans": counts.planned,
        "known": counts.kept + counts.twins,
    }


def _cpu_of_workers(engine: LocalCores) -> float:
    """Return the processor's time of the workers so far. [s]."""
    tick = os.sysconf("SC_CLK_TCK")
    total = 0.0
    for pid in engine.process_ids:
        fields = Path(f"/proc/{pid}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()
        total += (int(fields[11]) + int(fields[12])) / tick
    return total


def _peak_mb(pid: int | str = "self") -> float:
    for line in Path(f"/proc/{pid}/status").read_text(encoding="utf-8").splitlines():
        if line.startswith("VmHWM"):
            return int(line.split()[1]) / 1024.0
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0


def told(what: str, found: dict) -> None:
    """Print what a thousand jobs cost."""
    per = 1000.0 / found["jobs"]
    cpu = found["own_cpu_s"] + found["workers_cpu_s"]
    wall, database = per * found["wall_s"], per * found["database_s"]
    print(
        f"{what:22} {found['jobs']:6} jobs in {found['wall_s']:.1f} s; a thousand: wall {wall:.1f} s, "
        f"processor {per * cpu:.1f} s ({per * found['own_cpu_s']:.1f} of the asking side), database {database:.1f} s, "
        f"answers {per * found['answer_bytes'] / 1e6:.2f} MB; {found['plans']} plans made, {found['known']} known",
        flush=True,
    )


def main() -> None:
    """Measure."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("counts", type=int, nargs="+")
    parser.add_argument("--job", type=Path, default=EXAMPLES / "mixed_patio.json")
    parser.add_argument("--workers", type=int, default=None)
    parser.add_argument("--sizes", type=int, default=None, help="different jobs; each of its own where none is given")
    parser.add_argument("--ratio", action="store_true", help="compare one worker and two on the smallest number")
    asked = parser.parse_args()
    job = json.loads(asked.job.read_text(encoding="utf-8"))
    points = []
    with tempfile.TemporaryDirectory() as where, LocalCores(asked.workers) as engine:
        for count in sorted(asked.counts):
            store, filling = filled(Path(where), job, count, asked.sizes or count)
            size = Path(where, f"{count}.sqlite").stat().st_size / 1e6
            print(f"{count} jobs put in in {filling:.1f} s, {size:.1f} MB", flush=True)
            dearer(store)
            found = measured(store, engine, short=True)
            points.append((count, found["own_cpu_s"] + found["workers_cpu_s"]))
            told("first, nothing known", found)
            told("again, all known", measured(store, engine, short=True))
            dearer(store)
            told("one price more", measured(store, engine, short=True))
            peaks = ", ".join(f"{_peak_mb(pid):.0f}" for pid in engine.process_ids)
            print(f"peak memory: asking side {_peak_mb():.0f} MB, workers {peaks} MB", flush=True)
            if asked.ratio and count == min(asked.counts):
                ratio(store)
            store.close()
    for (few, cost), (many, more) in itertools.pairwise(points):
        exponent = math.log(more / cost) / math.log(many / few)
        print(f"from {few} to {many} jobs the processor's time grows with the power {exponent:.3f}")


def ratio(store) -> None:  # noqa: ANN001 - a store
    """Print how much quicker two workers are than one, in turn."""
    walls: dict[int, list[float]] = {1: [], 2: []}
    engines = {count: LocalCores(count) for count in walls}
    for count, engine in engines.items():  # warm
        measured(store, engine, short=False)
        walls[count].clear()
    for _ in range(2):
        for count, engine in engines.items():
            walls[count].append(measured(store, engine, short=False)["wall_s"])
    for engine in engines.values():
        engine.close()
    one, two = min(walls[1]), min(walls[2])
    print(f"one worker {one:.1f} s, two {two:.1f} s: ratio {one / two:.2f}", flush=True)


if __name__ == "__main__":
    main()
