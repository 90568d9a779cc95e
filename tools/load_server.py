#!/usr/bin/env python3
"""Many at one server: so many clients for so many seconds, each opening, changing, previewing and planning jobs.

    .venv/bin/python tools/load_server.py 50 60

Every client is a person of its own, as a browser is by its cookie. Prints for every kind of request how many there
were, how many failed, the median and the 95th percentile, how busy the machine was, and the memory of the workers.
"""

from __future__ import annotations

import json
import os
import random
import statistics
import sys
import tempfile
import threading
import time
import urllib.error
import urllib.request
from collections import defaultdict
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "browser"))
from served import Served

THINKING_S = 0.5
COMING_S = 10.0
"""Clients come one after the other within this time, as people do. [s]"""


def opened(served: Served) -> str:
    """Open the first page as a browser does, and return the cookie that names it."""
    with urllib.request.urlopen(served.address + "/") as page:  # noqa: S310 - our own server
        return page.headers["Set-Cookie"].partition(";")[0]


def memory_mb(server: int) -> dict[int, int]:
    """Return the memory of the server and of all that it started, by number of the process. [MB]."""
    found = {}
    for status in Path("/proc").glob("[0-9]*/status"):
        try:
            fields = dict(line.split(":", 1) for line in status.read_text().splitlines())
        except OSError:
            continue
        if int(status.parent.name) == server or int(fields["PPid"]) == server:
            found[int(status.parent.name)] = int(fields.get("VmRSS", "0 kB").split()[0]) // 1024
    return found


def client(served: Served, number: int, until: float, reported: dict, failed: dict) -> None:
    """Work like one person with one job until the time is over."""
    chance = random.Random(number)
    time.sleep(COMING_S * chance.random())
    cookie = opened(served)
    job = served.call("POST", "/api/jobs", {"start_from": "demo"}, cookie)["id"]
    kept = served.call("GET", f"/api/jobs/{job}", None, cookie)
    rev, document = kept["rev"], kept["document"]
    along_mm = document["measurements"]["offsets"][0]["along_mm"]

    def timed(name: str, method: str, path: str, body: object = None) -> dict[str, Any] | None:
        began = time.perf_counter()
        try:
            answer = served.call(method, path, body, cookie)
        except (OSError, urllib.error.URLError) as problem:
            failed[name].append(str(problem))
            return None
        reported[name].append(1e3 * (time.perf_counter() - began))
        return answer

    while time.monotonic() < until:
        document["measurements"]["offsets"][0]["along_mm"] = along_mm + chance.randrange(-200, 200)
        timed("list", "GET", "/api/jobs?words=load")
        for _ in range(3):
            timed("preview", "POST", "/api/preview", document)
        answer = timed("save", "PUT", f"/api/jobs/{job}", {"rev": rev, "document": json.dumps(document)})
        rev = answer["rev"] if answer else served.call("GET", f"/api/jobs/{job}")["rev"]
        timed("plan", "POST", "/api/plan", document)
        timed("sum", "POST", "/api/sums", {"name": "fall", "given": {"run_mm": 3000 + number, "one_in": 60}})
        time.sleep(THINKING_S * chance.random() * 2)


def main() -> None:
    """Start a server of its own, let the clients work, print what came of it."""
    clients, seconds = (int(word) for word in (sys.argv[1:3] or ["50", "60"]))
    reported: defaultdict[str, list[float]] = defaultdict(list)
    failed: defaultdict[str, list[str]] = defaultdict(list)
    with tempfile.TemporaryDirectory() as folder:
        served = Served(Path(folder) / "jobs.sqlite")
        served.call("POST", "/api/plan", served.call("GET", f"/api/jobs/{served.demo}")["document"])
        before = os.getloadavg()[0]
        until = time.monotonic() + seconds
        threads = [
            threading.Thread(target=client, args=(served, number, until, reported, failed)) for number in range(clients)
        ]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        memory = memory_mb(served.process.pid)
        served.stop()
    load = f"{before:.1f} before, {os.getloadavg()[0]:.1f} after"
    print(f"{clients} clients for {seconds} s; ms; load of the machine {load}")
    print(f"memory of the server and its workers: {sorted(memory.values())} MB")
    print(f"{'request':>8} {'how many':>9} {'failed':>7} {'median':>8} {'95th':>8} {'greatest':>9}")
    for name, times in reported.items():
        ordered = sorted(times)
        p95 = ordered[min(len(ordered) - 1, int(0.95 * len(ordered)))]
        middle = statistics.median(ordered)
        print(f"{name:>8} {len(ordered):9} {len(failed[name]):7} {middle:8.0f} {p95:8.0f} {ordered[-1]:9.0f}")
    for name, problems in failed.items():
        for words in sorted(set(problems)):
            print(f"{name}: {words}")
    sys.exit(1 if any(failed.values()) else 0)


if __name__ == "__main__":
    main()
