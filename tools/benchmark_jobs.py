"""How long the list of jobs, its filters and what is due take, against how many jobs there are.

Below each line but the first stands how many times longer each took than with the jobs of the line before.

python tools/benchmark_jobs.py 100 1000 10000
"""

from __future__ import annotations

import datetime as dt
import json
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.order_book import JobState, due_items
from pavewright.store import JobsAsked, Store, open_store
from pavewright.store._tables import JOBS
from pavewright.store.orders._orders import keep_line

if TYPE_CHECKING:
    from collections.abc import Callable

TODAY = dt.date(2027, 5, 10)
LISTED = 200
"""Due things that the page is told at once."""
STATES = [each.value for each in JobState]


def filled(store: Store, first: int, count: int) -> None:
    """Put invented jobs into a store, with the lines that a worker would keep."""
    with store.writing() as connection:
        for number in range(first, count):
            job, day = f"{number:016x}", TODAY + dt.timedelta(days=number % 60 - 30)
            row = {"id": job, "rev": 1, "title": f"Patio {number}", "words": f"patio {number} mill lane"}
            kept = {"document": json.dumps({"filler": "x" * 20_000}), "summary": json.dumps({"stage": "levels"})}
            more = {"archived": False, "changed": f"2027-05-01T00:00:{number:08d}", "summary_rev": 1}
            connection.execute(JOBS.insert().values(row | kept | more))
            due = {"kind": "order_by", "key": "k", "on": day.isoformat(), "until": None, "what": "slabs"}
            week = {"week": (day - dt.timedelta(days=day.weekday())).isoformat(), "owing_minor": 1, "expected_minor": 1}
            book = {
                "state": STATES[number % len(STATES)],
                "by_hand": False,
                "facts": {"measured": True},
                "place": f"ZZ{number % 40}",
                "people": ["Sam"],
                "holds_until": day.isoformat(),
                "owing_minor": number % 3,
                "total_minor": number,
                "currency": "GBP",
                "stage": 1,
                "stops": 0,
                "dues": [due | {"amount_minor": None, "count": 1}],
                "weeks": [week | {"out_minor": 1}],
                "gaps": [],
            }
            keep_line(connection, job, 1, book)


def best_ms(act: Callable[[], object]) -> float:
    """Return the shortest of five times. [ms]."""
    times = []
    for _ in range(5):
        begun = time.perf_counter()
        act()
        times.append(time.perf_counter() - begun)
    return 1e3 * min(times)


def main(counts: list[int]) -> None:
    """Print the table."""
    asked = {
        "page ms": JobsAsked(TODAY),
        "deep ms": JobsAsked(TODAY, start=max(0, counts[-1] - 200)),
        "state ms": JobsAsked(TODAY, state=JobState.QUOTED),
        "words ms": JobsAsked(TODAY, words="mill 99"),
        "place ms": JobsAsked(TODAY, place="ZZ7", owing=True),
    }
    others = ("all due", "due ms", "places ms", "money ms")
    print("    jobs  " + "  ".join(f"{name:>9}" for name in (*asked, *others)))
    with tempfile.TemporaryDirectory() as folder:
        store = open_store(sa.URL.create("sqlite", database=str(Path(folder) / "jobs.sqlite")))
        first, before = 0, []
        for count in counts:
            filled(store, first, count)
            first = count
            times = [best_ms(lambda one=one: store.orders.page(one)) for one in asked.values()]
            times.append(best_ms(lambda: due_items(store.orders.dues(TODAY), TODAY)))
            times.append(best_ms(lambda: store.orders.due_list(TODAY, LISTED, money=True)))
            times.append(best_ms(lambda: (store.orders.places(), store.orders.due_places(TODAY, money=True))))
            times.append(best_ms(lambda: store.orders.money(TODAY)))
            print(f"{count:>8}  " + "  ".join(f"{each:>9.1f}" for each in times))
            if before:
                print("   times  " + "  ".join(f"{now / then:>9.1f}" for now, then in zip(times, before, strict=True)))
            before = times
        store.close()


if __name__ == "__main__":
    main([int(word) for word in sys.argv[1:]] or [100, 1000, 10_000])
