#!/usr/bin/env python3
"""Rounds under fault: something breaks while people write, and nothing acknowledged may be lost or doubled.

    .venv/bin/python tools/chaos.py --rounds 200 --seed 1
    .venv/bin/python tools/chaos.py --rounds 200 --seed 1 --server

Each round lets four people send readings, operations and photos to a server under names of their own, through a
connection of this tool. At a moment of chance something breaks: the server is killed, a worker is, also in the midst of
storms, the disk takes no more or is slow, the server is held, the connection is cut, the clock jumps a day forwards and
two back, or the database server loses a connection or dies (--server). Then all is started again, everybody sends again
what got no answer, and the store is held against what was acknowledged.
A round that fails prints its seed; `--seed` that number with `--rounds 1 --kind KIND` repeats it as far as chance goes.
"""

from __future__ import annotations

import argparse
import contextlib
import http.client
import io
import json
import os
import random
import resource
import shutil
import signal
import socket
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time
import urllib.error
import urllib.request
from collections import Counter
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PIL import Image

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT))
from pavewright.job.operations import between  # noqa: E402 - after the path
from pavewright.record import check_record  # noqa: E402 - after the path
from pavewright.store import Store, open_store  # noqa: E402 - after the path

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.a_database_server import Server

KINDS = ("server", "worker", "disk", "held", "network", "clock", "slow", "storm")
"""What breaks over a file."""
SERVER_KINDS = ("server", "worker", "held", "network", "clock", "storm", "backend", "postmaster")
"""What breaks over a database server."""
PEOPLE, EACH = 4, 5
"""People who write, and what each sends in a round."""
DOCUMENT: dict[str, Any] = json.loads((ROOT / "tests" / "patio.json").read_text("utf-8"))
"""The job that they write into: a rectangle behind a house wall, invented."""
STORM = {"verb": "storm", "document": DOCUMENT, "cell_mm": 120}
"""A storm over that job."""
STORMS = 2
"""Storms begun before the workers are killed; the first is at work by then. [-]"""
_PATIENCE_S = 180.0
_WAIT_S = 8.0
_DAY_S = 86_400
_SYNC_US = 200_000
"""By how much each writing through to the disk is held up where that is slow. [us]"""
_PHOTO, _OPERATION = 2, 1


@dataclass
class Reported:
    """What one round saw.

    Attributes:
        acknowledged: Names of what the server said is kept.
        faults: What is wrong, in words; empty where nothing is.
        interrupted: How many requests got no answer, or one that says try again.
    """

    acknowledged: set[str] = field(default_factory=set)
    faults: list[str] = field(default_factory=list)
    interrupted: int = 0
    lost: int = 0
    doubled: int = 0


class Proxy:
    """A connection that can be cut in the middle: it passes bytes on both ways until it is told to break."""

    def __init__(self) -> None:
        self.port_behind, self.left = 0, 0
        self._open: set[socket.socket] = set()
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.address = f"http://127.0.0.1:{self._listener.getsockname()[1]}"
        threading.Thread(target=self._take, daemon=True).start()

    def cut(self, pieces: int) -> None:
        """Cut what is open now, and so many of the next answers after a few of their bytes."""
        self.left = pieces
        for each in tuple(self._open):
            with contextlib.suppress(OSError):
                each.shutdown(socket.SHUT_RDWR)

    def close(self) -> None:
        """Take no more connections and cut those that are open."""
        self._listener.close()
        self.cut(0)

    def _take(self) -> None:
        while True:
            try:
                near, _ = self._listener.accept()
            except OSError:
                return
            try:
                far = socket.create_connection(("127.0.0.1", self.port_behind), _WAIT_S)
            except OSError:
                near.close()
                continue
            self._open |= {near, far}
            for one, other, answers in ((near, far, False), (far, near, True)):
                threading.Thread(target=self._pass, args=(one, other, answers), daemon=True).start()

    def _pass(self, one: socket.socket, other: socket.socket, answers: bool) -> None:  # noqa: FBT001 - a thread's
        with contextlib.suppress(OSError):
            while piece := one.recv(65_536):
                if answers and self.left > 0:
                    self.left -= 1
                    other.sendall(piece[:20])
                    break
                other.sendall(piece)
        for each in (one, other):
            with contextlib.suppress(OSError):
                each.shutdown(socket.SHUT_RDWR)
            each.close()
            self._open.discard(each)


class Running:
    """The program's own server as a process, and the store that it serves."""

    def __init__(self, where: list[str], proxy: Proxy, log: Path) -> None:
        self.where, self.proxy, self.log, self.clock = where, proxy, log, log.with_name("clock")
        self.start()

    def start(self) -> None:
        """Start the server and lead the connection to it.

        Raises:
            RuntimeError: it does not start; with its last words.
        """
        words = [sys.executable, "-m", "pavewright.cli", "serve", *self.where, "--port", "0", "--no-browser"]
        path = os.pathsep.join(filter(None, (str(ROOT / "tools" / "jumping_clock"), os.environ.get("PYTHONPATH"))))
        around = os.environ | {"PYTHONPATH": path, "JUMPING_CLOCK": str(self.clock)}
        with self.log.open("ab") as log:
            self.process = subprocess.Popen(
                words, stdout=subprocess.PIPE, stderr=log, text=True, start_new_session=True, env=around
            )
        line = self.process.stdout.readline() if self.process.stdout else ""
        if not line:
            message = f"the server does not start: {self.log.read_text('utf-8')[-2_000:]}"
            raise RuntimeError(message)
        self.proxy.port_behind = int(line.split()[0].rstrip("/").rsplit(":", 1)[1])

    def set_clock(self, ahead_s: float) -> None:
        """Let the clock of the server and of its workers go so much ahead of the machine's. [s]."""
        part = self.clock.with_suffix(".part")
        part.write_text(str(ahead_s), "ascii")
        part.replace(self.clock)

    def workers(self) -> list[int]:
        """Return the numbers of the processes that work things out."""
        server = self.process.pid
        return [int(word) for word in Path(f"/proc/{server}/task/{server}/children").read_text().split()]

    def end(self) -> None:
        """Kill the server, held or not."""
        for sign in (signal.SIGCONT, signal.SIGKILL):
            self.process.send_signal(sign)
        self.process.wait()
        if self.process.stdout:
            self.process.stdout.close()


def called(
    address: str, method: str, path: str, body: object = None, media: str = "application/json"
) -> tuple[int, Any]:
    """Return status and answer.

    Raises:
        OSError: no whole answer came.
    """
    content = body if body is None or isinstance(body, bytes) else json.dumps(body).encode()
    asked = urllib.request.Request(address + path, content, {"Content-Type": media}, method=method)  # noqa: S310 - ours
    try:
        with urllib.request.urlopen(asked, timeout=_WAIT_S) as answer:  # noqa: S310 - ours
            return answer.status, json.loads(answer.read())
    except urllib.error.HTTPError as problem:
        text = problem.read()
        try:
            return problem.code, json.loads(text)
        except ValueError:
            return problem.code, text.decode("utf-8", "replace")
    except (ValueError, urllib.error.URLError, OSError, http.client.HTTPException) as problem:
        raise OSError(str(problem)) from problem


def picture() -> bytes:
    """Return a small photo."""
    made = io.BytesIO()
    Image.new("RGB", (40, 30), "grey").save(made, "JPEG")
    return made.getvalue()


class Person:
    """Somebody who writes: he sends each thing until the server has taken it."""

    def __init__(self, job: str, number: int, reported: Reported) -> None:
        self.job, self.number, self.reported = job, number, reported
        self.waiting = [f"w{number}-{one}" for one in range(EACH)]

    def run(self, address: str, until: float) -> None:
        """Send what waits, each until it is taken or the time is over."""
        while self.waiting and time.monotonic() < until:
            name = self.waiting[0]
            try:
                status, answered = self._send(address, name)
            except OSError:
                status, answered = 0, {}
            if status in {200, 201}:
                self.reported.acknowledged.add(name)
                self.waiting.pop(0)
                continue
            self.reported.interrupted += 1
            if status and not (isinstance(answered, dict) and answered.get("message")):
                self.reported.faults.append(f"{name}: {status} without words: {answered!r:.80}")
            if status and status not in {429, 500, 503, 507}:
                self.reported.faults.append(f"{name}: refused by {status}: {answered!r:.200}")
                return
            time.sleep(0.05)

    def _send(self, address: str, name: str) -> tuple[int, Any]:
        path = f"/api/jobs/{self.job}"
        kind = int(name[-1]) % 3
        if kind == _PHOTO:
            return called(address, "POST", f"{path}/photos?id={name}&note={name}", picture(), "image/jpeg")
        if kind == _OPERATION:
            changed = DOCUMENT | {"identity": DOCUMENT["identity"] | {"client": name}}
            body = {"key": name, "rev": 1, "operations": list(between(DOCUMENT, changed)), "note": name}
            return called(address, "POST", f"{path}/operations", body)
        entry = {"start": "A", "end": "C", "length_mm": length_of(name)}
        return called(address, "POST", f"{path}/deliveries", {"id": name, "kind": "tapes", "entries": [entry]})


def length_of(name: str) -> float:
    """Return the length by which a reading is known again. [mm]."""
    person, one = name[1:].split("-")
    return 6_000.0 + 10 * int(person) + int(one)


def look(store: Store, job: str, before: bytes, reported: Reported) -> None:
    """Hold a store against what was acknowledged: nothing lost, nothing twice, the record whole."""
    notes = Counter(one.note for one in store.revisions(job))
    photos = Counter(one.note for one in store.photos(job))
    tapes = json.loads(store.job(job).document)["measurements"].get("tape_plan", {}).get("tapes", [])
    lengths = Counter(one["length_mm"] for one in tapes)
    for name in sorted(reported.acknowledged):
        found = {0: lengths[length_of(name)], 1: notes[name], 2: photos[name]}[int(name[-1]) % 3]
        if found == 0:
            reported.lost += 1
            reported.faults.append(f"{name} was acknowledged and is not there")
        if found > 1:
            reported.doubled += 1
            reported.faults.append(f"{name} is there {found} times")
    revs = [one.rev for one in store.revisions(job)]
    reported.faults += [f"{each} were kept in another order than they were sent" for each in disordered(store, job)]
    if revs != list(range(len(revs), 0, -1)):
        reported.faults.append(f"the revisions have a gap: {revs}")
    content = store.records.content(job)
    faults = check_record(content).faults
    if faults:
        reported.faults.append(f"the record does not hold: {faults[0]}")
    if content.splitlines()[: len(before.splitlines()) - 1] != before.splitlines()[:-1]:
        reported.faults.append("the beginning of the record is another one than before the fault")


def disordered(store: Store, job: str) -> list[list[str]]:
    """Return what each person sent one after the other and the revisions hold in another order."""
    notes = [one.note for one in reversed(store.revisions(job))]
    mine = [[note for note in notes if note.startswith(f"w{person}-")] for person in range(PEOPLE)]
    return [each for each in mine if each != sorted(each)]


def sound(path: Path) -> bool:
    """Return whether a file passes the database's own check."""
    with closing(sqlite3.connect(path)) as raw:
        good = raw.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        return good and not raw.execute("PRAGMA foreign_key_check").fetchall()


class Rounds:
    """Rounds over one store; the server is started once and again whenever it broke."""

    def __init__(self, folder: Path, database: Server | None = None) -> None:
        self.folder, self.database = folder, database
        self.file = folder / "jobs.sqlite"
        self.url = database.new_database() if database is not None else f"sqlite:///{self.file}"
        self.where = ["--database", self.url] if database is not None else ["--data", str(self.file)]
        self.proxy = Proxy()
        open_store(self.url).close()
        self.running = Running(self.where, self.proxy, folder / "log")
        self.plan = self.planned(DOCUMENT)
        self.storm: bytes | None = None

    def close(self) -> None:
        """End the server and the connection."""
        self.running.end()
        self.proxy.close()

    def planned(self, document: object) -> object:
        """Return a plan, asked for again where the worker was killed over it.

        Raises:
            RuntimeError: none comes in time.
        """
        until = time.monotonic() + _PATIENCE_S
        while time.monotonic() < until:
            with contextlib.suppress(OSError):
                status, plan = called(self.proxy.address, "POST", "/api/plan", document)
                if status == 200:
                    return plan
            time.sleep(0.2)
        message = "no plan comes"
        raise RuntimeError(message)

    def round(self, kind: str, seed: int) -> Reported:
        """Let one thing break while people write, and return what came of it."""
        chance, reported = random.Random(seed), Reported()
        job = self._made(f"job-{seed}-{kind}-{time.time_ns()}")
        store = open_store(self.url)
        before = store.records.content(job)
        store.close()
        storms = self._storms_begun() if kind == "storm" else []
        people = [Person(job, number, reported) for number in range(PEOPLE)]
        until = time.monotonic() + _PATIENCE_S
        threads = [threading.Thread(target=each.run, args=(self.proxy.address, until)) for each in people]
        for thread in threads:
            thread.start()
        time.sleep(chance.uniform(0.0, 0.5))
        self._break(kind, chance)
        for thread in threads:
            thread.join()
        reported.faults += [f"{each.waiting} were never taken" for each in people if each.waiting]
        # looked at before anything is sent again: a repeat would put back what was lost
        self._look(job, before, reported)
        for each in people:
            each.waiting = [f"w{each.number}-{one}" for one in range(EACH)]
            each.run(self.proxy.address, time.monotonic() + _PATIENCE_S)
        if not reported.faults:
            self._look(job, before, reported)
        if self.database is None and not sound(self.file):
            reported.faults.append("the file does not pass its check")
        if kind in {"server", "worker", "postmaster"} and self.planned(DOCUMENT) != self.plan:
            reported.faults.append("the plan of the same job is another one than before")
        if kind == "storm":
            reported.faults += self._after_storms(storms)
        return reported

    def _storms_begun(self) -> list[str]:
        """Begin storms and return their names, once one of them is at work; the first time one is worked out before."""
        if self.storm is None:
            self.storm = self._stormed()
        begun = [self._asked("POST", "/api/long-tasks", STORM)["long_task"] for _ in range(STORMS)]
        until = time.monotonic() + _PATIENCE_S
        while self._state(begun[0]) == "waiting" and time.monotonic() < until:
            time.sleep(0.02)
        return begun

    def _after_storms(self, storms: list[str]) -> list[str]:
        """Return what is wrong with storms whose workers were killed: each ends, and another one is as the first."""
        states = [self._ended(each) for each in storms]
        faults = [f"a storm stays {state}" for state in states if state not in {"done", "failed", "refused", "stopped"}]
        return faults if self._stormed() == self.storm else [*faults, "the storm of the same job is another one"]

    def _stormed(self) -> bytes:
        name = self._asked("POST", "/api/long-tasks", STORM)["long_task"]
        state = self._ended(name)
        if state != "done":
            message = f"no storm comes: {state}"
            raise RuntimeError(message)
        return json.dumps(self._asked("GET", f"/api/long-tasks/{name}/result"), sort_keys=True).encode()

    def _state(self, name: str) -> str:
        return str(self._asked("GET", f"/api/long-tasks/{name}")["state"])

    def _ended(self, name: str) -> str:
        until = time.monotonic() + 2 * _PATIENCE_S
        while (state := self._state(name)) in {"waiting", "working"} and time.monotonic() < until:
            time.sleep(0.1)
        return state

    def _asked(self, method: str, path: str, body: object = None) -> Any:  # noqa: ANN401 - JSON
        """Return what the server answers, asked again where it does not.

        Raises:
            RuntimeError: it refuses, or gives no answer for so long.
        """
        until, said = time.monotonic() + _PATIENCE_S, ""
        while time.monotonic() < until:
            try:
                status, answer = called(self.proxy.address, method, path, body)
            except OSError as problem:
                status, said = 0, str(problem)
            if status in {200, 201, 202}:
                return answer
            if status:
                said = f"{status} {answer}"
            time.sleep(0.1)
        message = f"{method} {path}: {said}"
        raise RuntimeError(message)

    def _look(self, job: str, before: bytes, reported: Reported) -> None:
        store = open_store(self.url)
        look(store, job, before, reported)
        store.close()

    def _made(self, key: str) -> str:
        until = time.monotonic() + _PATIENCE_S
        while True:
            try:
                status, kept = called(self.proxy.address, "POST", "/api/jobs", {"document": DOCUMENT, "key": key})
                if status in {200, 201}:
                    return str(kept["id"])
            except OSError:
                kept = "no answer"
            if time.monotonic() > until:
                message = f"no job can be made: {kept}"
                raise RuntimeError(message)
            time.sleep(0.05)

    def _break(self, kind: str, chance: random.Random) -> None:
        breaks: dict[str, Callable[[random.Random], None]] = {
            "server": self._kill_server,
            "worker": self._kill_workers,
            "storm": self._kill_workers,
            "disk": self._fill_disk,
            "slow": self._slow_disk,
            "held": self._hold,
            "network": lambda chance: self.proxy.cut(chance.randrange(1, 8)),
            "clock": self._jump,
            "backend": self._end_connections,
            "postmaster": self._kill_database,
        }
        breaks[kind](chance)

    def _kill_server(self, _chance: random.Random) -> None:
        self.running.end()
        self.running.start()

    def _kill_workers(self, _chance: random.Random) -> None:
        for worker in self.running.workers():
            with contextlib.suppress(ProcessLookupError):
                os.kill(worker, signal.SIGKILL)

    def _fill_disk(self, chance: random.Random) -> None:
        server, log = self.running.process.pid, self.folder / "jobs.sqlite-wal"
        room = (log.stat().st_size if log.exists() else 0) + chance.randrange(60_000)
        _, most = resource.prlimit(server, resource.RLIMIT_FSIZE)
        resource.prlimit(server, resource.RLIMIT_FSIZE, (room, most))
        time.sleep(0.4)
        resource.prlimit(server, resource.RLIMIT_FSIZE, (most, most))

    def _hold(self, chance: random.Random) -> None:
        self.running.process.send_signal(signal.SIGSTOP)
        time.sleep(chance.uniform(0.1, 0.6))
        self.running.process.send_signal(signal.SIGCONT)

    def _jump(self, chance: random.Random) -> None:
        for ahead_s in (_DAY_S, -_DAY_S, 0):
            self.running.set_clock(ahead_s)
            time.sleep(chance.uniform(0.1, 0.4) if ahead_s else 0.0)

    def _end_connections(self, _chance: random.Random) -> None:
        with self._database().as_superuser().connect() as connection:
            connection.exec_driver_sql(
                "SELECT pg_terminate_backend(pid) FROM pg_stat_activity "
                "WHERE pid <> pg_backend_pid() AND backend_type = 'client backend'"
            )

    def _kill_database(self, _chance: random.Random) -> None:
        self._database().fall()
        self._database().rise()

    def _database(self) -> Server:
        """Return the database server.

        Raises:
            ValueError: there is none.
        """
        if self.database is None:
            message = "this needs a database server: --server"
            raise ValueError(message)
        return self.database

    def _slow_disk(self, chance: random.Random) -> None:
        """Hold up each writing through to the disk for a while; watching for it slows all else down too."""
        server, seconds = self.running.process.pid, chance.uniform(0.5, 1.5)
        calls = "fsync,fdatasync"
        inject = f"inject={calls}:delay_enter={_SYNC_US}"
        words = ["strace", "-f", "-q", "-o", "/dev/null", "-e", f"trace={calls}", "-e", inject, "-p", str(server)]
        slowing = subprocess.Popen(words, stderr=subprocess.DEVNULL)
        time.sleep(seconds)
        slowing.send_signal(signal.SIGINT)
        slowing.wait(_PATIENCE_S)


def kinds_here(kinds: tuple[str, ...]) -> tuple[str, ...]:
    """Return what can be broken on this machine: a slow disk needs a tool of its system."""
    return tuple(each for each in kinds if each != "slow" or shutil.which("strace"))


def main() -> None:
    """Run rounds, print what came of each kind."""
    asked = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    asked.add_argument("--rounds", type=int, default=12)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--kind", choices=sorted({*KINDS, *SERVER_KINDS}))
    asked.add_argument("--server", action="store_true", help="over a database server of its own, not over a file")
    asked.add_argument("--seconds", type=float, default=1e9, help="no round begins after this")
    told = asked.parse_args()
    wanted = (told.kind,) if told.kind else SERVER_KINDS if told.server else KINDS
    kinds = kinds_here(wanted)
    if kinds != wanted:
        print("strace is not here: no round with a slow disk", flush=True)
    with tempfile.TemporaryDirectory() as folder:
        database = None
        if told.server:
            from tests.a_database_server import ended, started  # noqa: PLC0415 - for this alone

            database = started()
        rounds = Rounds(Path(folder), database)
        try:
            sys.exit(_told(rounds, kinds, told))
        finally:
            rounds.close()
            if database is not None:
                ended(database)


def _told(rounds: Rounds, kinds: tuple[str, ...], told: argparse.Namespace) -> int:
    """Run the rounds and print a table; return how many failed, at most one."""
    counts: dict[str, Counter[str]] = {kind: Counter() for kind in kinds}
    until = time.monotonic() + told.seconds
    for number in range(told.rounds):
        if time.monotonic() > until:
            break
        kind, seed = kinds[number % len(kinds)], told.seed + number
        done = rounds.round(kind, seed)
        counts[kind] += Counter(
            rounds=1,
            acknowledged=len(done.acknowledged),
            interrupted=done.interrupted,
            lost=done.lost,
            doubled=done.doubled,
            failed=bool(done.faults),
        )
        for words in done.faults:
            print(f"{kind}, seed {seed}: {words}", flush=True)
    columns = ("rounds", "interrupted", "acknowledged", "lost", "doubled", "failed")
    print("| broke | " + " | ".join(columns) + " |")
    print("|---" * (len(columns) + 1) + "|")
    for kind in kinds:
        print(f"| {kind} | " + " | ".join(str(counts[kind][name]) for name in columns) + " |")
    return int(any(each["failed"] for each in counts.values()))


if __name__ == "__main__":
    main()
