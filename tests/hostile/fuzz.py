"""Throw things at the program for some minutes and count what comes of it.

    python tests/hostile/fuzz.py --minutes 10 [--seed 1]

Every lot of trials runs in a child of its own, so that one that dies or grows is counted and the rest goes on. Nothing of
it depends on chance: the same seed throws the same things, until the minutes are over.
"""

# ruff: noqa: E402 - its neighbours are found before they are imported

from __future__ import annotations

import argparse
import itertools
import json
import random
import subprocess
import sys
import tempfile
import time
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))

import corpus
import mutate
import names
import trials
import visits
from trials import BAD, NO_WORDS, REFUSED, SERVER_FAULT, TAKEN, TOO_LONG, TRACEBACK

from pavewright import children

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

DIED = "children that died"
COUNTED = (TAKEN, REFUSED, TRACEBACK, SERVER_FAULT, TOO_LONG, NO_WORDS, DIED)
LOT_S = 600.0
"""No lot takes longer, however busy the machine is. [s]"""
MEMORY_MB = 1000
"""No lot and nothing that it starts holds more. [MB]"""
KIB_PER_MB = 1024 if sys.platform != "darwin" else 1024 * 1024


@dataclass
class Tally:
    """What came of all trials so far."""

    words: Counter[str] = field(default_factory=Counter)
    kinds: Counter[str] = field(default_factory=Counter)
    peak_mb: float = 0.0
    longest_s: float = 0.0
    longest: str = ""

    def take(self, reported: dict[str, Any]) -> None:
        """Count one line of a lot."""
        if "peak_mb" in reported:
            self.peak_mb = max(self.peak_mb, reported["peak_mb"])
            return
        self.words[reported["word"]] += 1
        self.kinds[reported["kind"]] += 1
        if reported["seconds"] > self.longest_s:
            self.longest_s, self.longest = reported["seconds"], reported["name"]
        if reported["word"] in BAD:
            sys.stdout.write(f"\n*** {reported['word']}: {reported['name']}\n{reported['told']}\n")

    @property
    def clean(self) -> bool:
        """Whether nothing happened that must not."""
        return not any(self.words[word] for word in (*BAD, DIED)) and self.peak_mb < MEMORY_MB

    def lines(self) -> Iterator[str]:
        """Give the counts in words."""
        yield f"tried                      {sum(self.words.values())} ({', '.join(f'{count} {kind}' for kind, count in sorted(self.kinds.items()))})"
        for word in COUNTED:
            yield f"{word:26} {self.words[word]}"
        yield f"longest                    {self.longest_s:.1f} s of the processor ({self.longest[:100]})"
        yield f"peak memory                {self.peak_mb:.0f} MB"


def jobs(seed: int) -> Iterator[trials.Outcome]:
    """Spoil examples; every one is read and planned, every fourth goes to all screens."""
    sound = mutate.examples()
    for number in range(seed, seed + 40):
        job = mutate.mutated(sound, number)
        act = trials.job_everywhere if number % 4 == 0 else trials.job_planned
        yield trials.tried(job.name, lambda job=job, act=act: act(job.text))


def papers(seed: int) -> Iterator[trials.Outcome]:
    """Make all papers of spoilt jobs, with names of the world in them."""
    sound, dice = mutate.examples(), random.Random(seed)
    every = names.all_names()
    made = 0
    for number in range(seed, seed + 60):
        document = json.loads(mutate.mutated(sound, number).text)
        if isinstance(document.get("identity"), dict):
            document["identity"] |= {
                "title": " ".join(dice.sample(every, 12)),
                "client": dice.choice(every),
                "address": "\n".join(dice.sample(every, 4)),
            }
        text = json.dumps(document)
        outcome = trials.tried(f"papers of {number}", lambda text=text: trials.job_in_papers(text))
        made += outcome.word == TAKEN
        if outcome.bad or outcome.word == TAKEN:
            yield outcome
        if made == 3:  # a pack takes seconds
            return


def files(seed: int) -> Iterator[trials.Outcome]:
    """Spoil foreign files, each read by a child with limits."""
    dice, sound = random.Random(seed), corpus.all_files()
    for number in range(20):
        one = dice.choice(sound)
        content = _spoilt(one.content, dice)
        yield trials.tried(
            f"file {seed}.{number} {one.name}", lambda content=content, one=one: trials.file_read(content, one.asked)
        )


def _spoilt(content: bytes, dice: random.Random) -> bytes:
    """Return bytes with some of them changed, doubled or cut."""
    found = bytearray(content)
    for _ in range(dice.choice((0, 1, 1, 2, 5, 20))):
        if not found:
            return b""
        at, size = dice.randrange(len(found)), dice.choice((1, 1, 2, 4, 8))
        kind = dice.randrange(5)
        if kind == 0:
            found[at : at + size] = dice.randbytes(size)
        elif kind == 1:
            found[at : at + size] = dice.choice((b"\x00", b"\xff", b"9", b"-", b"e", b"\n", b"<", b"{")) * size
        elif kind == 2:
            del found[at : at + dice.choice((1, 10, 1000))]
        elif kind == 3:
            found[at:at] = found[at : at + dice.choice((1, 10, 1000))]
        else:
            del found[at:]
    return bytes(found)


def sums(seed: int) -> Iterator[trials.Outcome]:
    """Give every sum what nobody measures."""
    dice = random.Random(seed)
    for entry in dice.sample(trials.sums_known(), 40):
        for _ in range(6):
            given = {each["name"]: _odd_input(each, dice) for each in entry["inputs"] if dice.random() < 0.97}
            words = f"sum {entry['name']} {json.dumps(given)[:300]}"
            yield trials.tried(words, lambda entry=entry, given=given: trials.sum_answered(entry["name"], given))


def _odd_input(reported: dict[str, Any], dice: random.Random) -> Any:
    """Return something for an input of a sum: mostly of its kind, now and then what nobody measures."""
    if dice.random() < 0.03:
        return dice.choice((*mutate.KINDS, "x"))
    kind, choices = reported["kind"], reported.get("choices")
    if choices or kind == "word":
        return dice.choice(choices or ["a", ""])
    if kind == "words":
        return [dice.choice(("-", "-", "a", "1")) for _ in range(dice.choice((3, 3, 3, 4, 0)))]
    if kind == "numbers":
        return [_odd_number(dice) for _ in range(dice.choice((3, 3, 3, 4, 0)))]
    return _odd_number(dice)


def _odd_number(dice: random.Random) -> float:
    sound = (0.01, 0.5, 1.0, 2.0, 3.0, 10.0, 60.0, 100.0, 1500.0, 3000.0)
    odd = (0.0, -1.0, 90.0, 1e-9, 5e-324, 1e6, 1e9, -1e9, 1e12, 1e15, 1e300)
    return dice.choice(sound if dice.random() < 0.8 else odd)


def requests(seed: int) -> Iterator[trials.Outcome]:
    """Send odd requests to an application with a store and workers of its own."""
    dice = random.Random(seed)
    with tempfile.TemporaryDirectory() as folder, trials.served(folder) as client:
        job = client.post("/api/jobs", json={"start_from": "demo"}).json()["id"]
        odd = client.post("/api/jobs", json={"document": dice.choice(visits.STORED)}).json()["id"]
        sound, foreign, routes = mutate.examples(), corpus.all_files(), client.app.routes
        every = [
            *visits.by_method_and_address(routes, job),
            *visits.by_method_and_address(routes, odd),
            *visits.by_body(routes, job),
            *visits.by_head(job),
        ]
        every += [*visits.deliveries(job), *visits.deliveries(odd), *visits.photos(job), *visits.kinds_of_files()]
        asked = dice.sample(every, 300)
        for number in range(6):
            spoilt = mutate.mutated(sound, seed + number)
            path = dice.choice(
                ("/api/plan", "/api/preview", "/api/outcome", "/api/drawings/levels", "/api/drawings/laying")
            )
            asked.append(visits.Visit(f"{path} {spoilt.name}", "POST", path, spoilt.text.encode()))
            file = dice.choice(foreign)
            asked.append(
                visits.Visit(
                    f"file {file.name}", "POST", f"/api/files?asked={quote(json.dumps(file.asked))}", file.content, {}
                )
            )
        dice.shuffle(asked)
        for visit in asked:
            yield trials.tried(visit.name, lambda visit=visit: trials.request_answered(client, visit))


LOTS: dict[str, Callable[[int], Iterator[trials.Outcome]]] = {
    "jobs": jobs,
    "files": files,
    "requests": requests,
    "sums": sums,
    "papers": papers,
}


def lot(kind: str, seed: int) -> None:
    """Run one lot in this process and write a line for each trial."""
    import resource  # noqa: PLC0415 - not on every system

    children.begin()
    for outcome in LOTS[kind](seed):
        reported = {
            "kind": kind,
            "word": outcome.word,
            "name": outcome.name[:400],
            "seconds": outcome.seconds,
            "told": outcome.reported[-3000:],
        }
        sys.stdout.write(json.dumps(reported) + "\n")
        sys.stdout.flush()
    peak = max(resource.getrusage(who).ru_maxrss for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    sys.stdout.write(json.dumps({"peak_mb": peak / KIB_PER_MB}) + "\n")


def run_lot(kind: str, seed: int, tally: Tally) -> None:
    """Run one lot in a child and count what it says."""
    words = (sys.executable, str(Path(__file__).resolve()), "--lot", kind, "--seed", str(seed))
    with tempfile.TemporaryFile() as errors:
        child = subprocess.Popen(
            words, stdout=subprocess.PIPE, stderr=errors, env=children.surroundings(), start_new_session=True
        )  # noqa: S603
        try:
            answer, _ = child.communicate(timeout=LOT_S)
        except subprocess.TimeoutExpired:
            children.end_group(child.pid)
            answer, _ = child.communicate()
        finally:
            children.end_group(child.pid)
        for line in answer.decode("utf-8", "replace").splitlines():
            tally.take(json.loads(line))
        if child.returncode:
            tally.words[DIED] += 1
            errors.seek(0)
            sys.stdout.write(
                f"\n*** a lot of {kind} from seed {seed} ended with code {child.returncode}\n{errors.read().decode('utf-8', 'replace')[-3000:]}\n"
            )


def main() -> int:
    """Run lots in turn until the minutes are over; 1 where anything happened that must not."""
    options = argparse.ArgumentParser(description="Throw hostile things at the program and count what comes of it.")
    options.add_argument("--minutes", type=float, default=5.0, help="how long to go on")
    options.add_argument("--seed", type=int, default=1, help="where to begin; each lot takes the next")
    options.add_argument("--lot", choices=LOTS, help=argparse.SUPPRESS)
    given = options.parse_args()
    if given.lot:
        lot(given.lot, given.seed)
        return 0
    tally, ends = Tally(), time.monotonic() + 60.0 * given.minutes
    for number, kind in enumerate(itertools.cycle(LOTS)):
        run_lot(kind, given.seed * 1_000_000 + number * 1000, tally)
        sys.stdout.write(
            f"{kind}, seed {given.seed}.{number}: {sum(tally.words.values())} tried, {sum(tally.words[word] for word in (*BAD, DIED))} amiss\n"
        )
        sys.stdout.flush()
        if time.monotonic() > ends:
            break
    sys.stdout.write("\n".join(("", *tally.lines(), "")))
    return 0 if tally.clean else 1


if __name__ == "__main__":
    sys.exit(main())
