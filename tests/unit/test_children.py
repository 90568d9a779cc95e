"""Children that cannot outlive or outgrow what they are for."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from pavewright import children

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="limits of Linux")


def script(text):
    return [sys.executable, "-c", "from pavewright import children\n" + text]


def alive(pid):
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


def gone(pid, seconds=10.0):
    until = time.monotonic() + seconds
    while alive(pid) and time.monotonic() < until:
        time.sleep(0.05)
    return not alive(pid)


def test_an_answer_comes_back():
    words = script("import sys\nchildren.begin()\nsys.stdout.write(sys.stdin.read().upper())")
    assert children.answer_of(words, b"level", seconds=30.0) == b"LEVEL"


def test_more_memory_than_it_was_given_ends_it_and_nothing_else():
    words = script("children.begin(memory_bytes=200_000_000)\nheld = bytearray(1_000_000_000)")
    with pytest.raises(children.ChildEndedError, match="MemoryError"):
        children.answer_of(words, b"", seconds=30.0)


def test_more_time_than_it_was_given_ends_it():
    with pytest.raises(children.ChildEndedError):
        children.answer_of(script("children.begin(cpu_s=1)\nwhile True: pass"), b"", seconds=60.0)


def test_what_it_started_ends_with_it(tmp_path):
    note = tmp_path / "pid"
    text = (
        "import subprocess, sys, time\nchildren.begin()\n"
        f"grandchild = subprocess.Popen([sys.executable, '-c', 'import time; time.sleep(60)'])\n"
        f"open({str(note)!r}, 'w').write(str(grandchild.pid))\ntime.sleep(60)"
    )
    with pytest.raises(children.ChildStoppedError):
        children.answer_of(script(text), b"", seconds=2.0)
    assert gone(int(note.read_text()))


def test_it_ends_when_its_parent_is_killed(tmp_path):
    note = tmp_path / "pid"
    inner = f"import os, time; from pavewright import children; children.begin(); open({str(note)!r}, 'w').write(str(os.getpid())); time.sleep(60)"
    parent = subprocess.Popen(
        script(f"import sys\nchildren.answer_of([sys.executable, '-c', {inner!r}], b'', seconds=60.0)")
    )
    until = time.monotonic() + 30.0
    while not (note.exists() and note.read_text()) and time.monotonic() < until:
        time.sleep(0.05)
    child = int(note.read_text())
    assert alive(child)
    os.kill(parent.pid, 9)
    parent.wait()
    assert gone(child)
