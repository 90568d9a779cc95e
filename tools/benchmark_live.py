"""How late those who listen to one server are told: from a change that is sent, and acknowledged, to its arrival.

Few and many listen in turn, each to every job of the server, while one client changes one job after the other. What a
listener is not told is lost, what it is told twice is doubled. Less than zero: it was told before the client had its
own answer. The last lines say how many times later the many are told. All clients are one process, which takes its time
too.

python tools/benchmark_live.py 20 200 --changes 40
"""

from __future__ import annotations

import argparse
import asyncio
import contextlib
import json
import statistics
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

import httpx2

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "browser"))
from served import Served

PATIENT_S = 120.0
"""How long is waited for the last arrival. [s]"""
BETWEEN_S = 0.25
"""How long the client rests between two changes. [s]"""


@dataclass
class Ear:
    """Somebody who listens: when it heard of each revision, and what it heard twice."""

    stands: asyncio.Event = field(default_factory=asyncio.Event)
    heard_s: dict[tuple[str, int], float] = field(default_factory=dict)
    doubled: int = 0
    anew: int = 0

    async def listen(self, client: httpx2.AsyncClient, number: int) -> None:
        """Listen as a browser of its own until it is cancelled."""
        headers = {"Accept": "text/event-stream", "Cookie": f"pavewright={number:032x}"}
        async with client.stream("GET", "/api/live", headers=headers) as answer:
            answer.raise_for_status()
            event = ""
            async for line in answer.aiter_lines():
                if line.startswith("event: "):
                    event = line.removeprefix("event: ")
                elif line.startswith("data: "):
                    self._take(event, json.loads(line.removeprefix("data: ")), time.perf_counter())

    def _take(self, event: str, told: dict[str, str | int], now_s: float) -> None:
        if event == "stand":
            self.stands.set()
        self.anew += event == "anew"
        if event != "change" or told["kind"] != "changed":
            return
        key = (str(told["job"]), int(told["rev"]))
        self.doubled += key in self.heard_s
        self.heard_s.setdefault(key, now_s)


@dataclass
class Outcome:
    """What came of one run: how late each arrival was, and what did not come or came twice."""

    sent_s: list[float]
    late_s: list[float]
    lost: int
    doubled: int
    anew: int

    def rows(self, listeners: int) -> str:
        """Return it in two lines, in milliseconds."""
        told = f"  {self.lost:5d}  {self.doubled:7d}  {self.anew:5d}"
        named = (("sent", self.sent_s, told), ("acknowledged", self.late_s, ""))
        return "\n".join(f"{listeners:9d}  from {name:12s}  {spread(found)}{more}" for name, found, more in named)


def spread(late_s: list[float]) -> str:
    """Return the min, the median, what 95 % are under and the max, in milliseconds."""
    late = sorted(each * 1000 for each in late_s)
    parts = [late[0], statistics.median(late), late[int(0.95 * (len(late) - 1))], late[-1]]
    return "  ".join(f"{each:7.0f}" for each in parts)


async def run(server: Served, jobs: list[str], listeners: int, changes: int, turn: str) -> Outcome:
    """Let so many listen while so many changes are made."""
    limits = httpx2.Limits(max_connections=None, max_keepalive_connections=None)
    async with httpx2.AsyncClient(base_url=server.address, timeout=None, limits=limits) as client:
        ears = [Ear() for _ in range(listeners)]
        tasks = [asyncio.create_task(each.listen(client, number)) for number, each in enumerate(ears, start=1)]
        async with asyncio.timeout(PATIENT_S):
            await asyncio.gather(*(each.stands.wait() for each in ears))
        done_s: dict[tuple[str, int], tuple[float, float]] = {}
        for number in range(changes):
            job = jobs[number % len(jobs)]
            done_s |= await change(client, job, f"{turn}-{number}")
            await asyncio.sleep(BETWEEN_S)
        with contextlib.suppress(TimeoutError):
            async with asyncio.timeout(PATIENT_S):
                while any(done_s.keys() - each.heard_s.keys() for each in ears):  # noqa: ASYNC110 - many ears
                    await asyncio.sleep(0.05)
        for each in tasks:
            each.cancel()
        await asyncio.gather(*tasks, return_exceptions=True)
    heard = [(each.heard_s[key], at_s) for each in ears for key, at_s in done_s.items() if key in each.heard_s]
    from_sent, from_answer = ([now_s - at_s[which] for now_s, at_s in heard] for which in (0, 1))
    lost = sum(len(done_s.keys() - each.heard_s.keys()) for each in ears)
    return Outcome(from_sent, from_answer, lost, sum(each.doubled for each in ears), sum(each.anew for each in ears))


async def change(client: httpx2.AsyncClient, job: str, title: str) -> dict[tuple[str, int], tuple[float, float]]:
    """Change the title of a job and return when which revision was sent, and acknowledged."""
    told = (await client.get(f"/api/jobs/{job}")).json()
    was = told["document"]["identity"]["title"]
    operation = {"op": "set", "at": ["identity", "title"], "was": was, "to": title}
    asked = {"key": title, "rev": told["rev"], "operations": [operation], "note": "titled"}
    sent_s = time.perf_counter()
    answer = await client.post(f"/api/jobs/{job}/operations", json=asked)
    answer.raise_for_status()
    return {(job, answer.json()["rev"]): (sent_s, time.perf_counter())}


def main() -> None:
    """Run few and many in turn, and print how late they were told."""
    words = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    words.add_argument("listeners", nargs=2, type=int, help="few and many")
    words.add_argument("--changes", type=int, default=40)
    words.add_argument("--rounds", type=int, default=2)
    given = words.parse_args()
    found: dict[int, list[float]] = {each: [] for each in given.listeners}
    with tempfile.TemporaryDirectory() as folder:
        server = Served(Path(folder) / "jobs.sqlite")
        try:
            jobs = [server.patio(f"Job {number}") for number in range(5)]
            print("listeners                     min ms   median     95 %      max   lost  doubled   anew")
            for turn in range(given.rounds):
                for listeners in given.listeners:
                    name = f"t{turn}-{listeners}"
                    outcome = asyncio.run(run(server, jobs, listeners, given.changes, name))
                    print(outcome.rows(listeners), flush=True)
                    found[listeners] += outcome.sent_s
        finally:
            server.stop()
    few, many = (sorted(found[each]) for each in given.listeners)
    print(f"median of many to that of few: {statistics.median(many) / statistics.median(few):.2f}")
    print(f"95 % of many to that of few: {many[int(0.95 * len(many))] / few[int(0.95 * len(few))]:.2f}")


if __name__ == "__main__":
    main()
