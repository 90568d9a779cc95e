"""Engines that are started once."""

import json
import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from pavewright.engine import Cluster, LocalCores

HERE = Path(__file__).parent


@pytest.fixture(scope="module")
def register():
    """The verbs of these tests, where workers find them."""
    sys.path.insert(0, str(HERE))
    yield "verbs_of_tests"
    sys.path.remove(str(HERE))


@pytest.fixture(scope="module")
def two(register):
    with LocalCores(2) as engine:
        yield engine


class Machines:
    """A scheduler and its workers on this machine, each a process of its own, by the commands that users run."""

    def __init__(self, folder, tls=()):
        self.folder, self.started, self.tls = folder, [], tls
        self.file = folder / "scheduler.json"
        self.surroundings = os.environ | {
            "PYTHONPATH": os.pathsep.join([str(HERE), *(each for each in sys.path if each)]),
            "DASK_DISTRIBUTED__SCHEDULER__WORK_STEALING": "True",
            "DASK_LOGGING__DISTRIBUTED": "error",
        }

    def run(self, *words):
        process = subprocess.Popen(
            [sys.executable, "-m", "dask", *words, "--no-dashboard"],
            cwd=self.folder,
            env=self.surroundings,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        self.started.append(process)
        return process

    def begin(self):
        protocol = ("--protocol", "tls") if self.tls else ()
        where = ("--host", "127.0.0.1", "--port", "0", "--scheduler-file", str(self.file))
        self.run("scheduler", *where, *protocol, *self.tls)
        return [self.add_worker() for _ in range(1 if self.tls else 2)]

    def add_worker(self):
        where = ("--scheduler-file", str(self.file), "--host", "127.0.0.1", "--local-directory", str(self.folder))
        return self.run("worker", *where, *self.tls, "--nworkers", "1", "--nthreads", "1", "--no-nanny")

    @property
    def address(self):
        until = time.monotonic() + 60
        while time.monotonic() < until:
            try:
                return json.loads(self.file.read_text())["address"]
            except (OSError, ValueError):
                time.sleep(0.05)
        raise TimeoutError("no scheduler")

    def end(self):
        for each in reversed(self.started):
            each.kill()
        for each in self.started:
            each.wait()


@pytest.fixture(scope="module")
def machines_with():
    """Give the class, for machines of another kind."""
    return Machines


@pytest.fixture(scope="module")
def machines(tmp_path_factory, register):
    pytest.importorskip("distributed")
    found = Machines(tmp_path_factory.mktemp("machines"))
    found.workers = found.begin()
    yield found
    found.end()


@pytest.fixture(scope="module")
def cluster(machines):
    with Cluster(machines.address, seconds=60) as engine:
        until = time.monotonic() + 60
        while engine.workers < 2 and time.monotonic() < until:
            time.sleep(0.1)
        assert engine.workers == 2
        yield engine
