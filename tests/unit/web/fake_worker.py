"""A worker whose work is done when a test says so: ``hold`` ends when the pipe named in its payload is opened."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from pavewright import children
from pavewright.web import _worker
from pavewright.web._frames import READY, put


def hold(payload, report):
    report("held")
    return Path(os.fsdecode(payload)).read_bytes()


def forever(payload, report):
    report("held")
    while True:
        pass


def greedy(payload, report):
    return bytes(10**11)


CHILD = """
import sys, os, time
from pavewright import children
children.begin()
with open(sys.argv[1], "w") as pipe:
    pipe.write(str(os.getpid()))
time.sleep(3600)
"""


def child(payload, report):
    """Start a child that does not end, which tells its own number before."""
    return children.answer_of((sys.executable, "-c", CHILD, os.fsdecode(payload)), b"", seconds=3600.0)


def main():
    _worker.end_with_server()
    sink = _worker.own_output()
    put(sink, READY, b"")
    verbs = {"hold": hold, "plan": hold, "summary": hold, "preview": forever, "greedy": greedy, "child": child,
             "name": lambda payload, report: str(os.getpid()).encode()}  # fmt: skip
    _worker.work(sys.stdin.buffer, sink, verbs)


if __name__ == "__main__":
    main()
