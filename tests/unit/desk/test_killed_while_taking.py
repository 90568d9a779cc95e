"""A process that is killed while it takes readings: what it acknowledged is there, and nothing is there twice."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from pavewright.desk import deliver_into, demo_document
from pavewright.store import open_store

TAKER = """
import sys
from pavewright.desk import deliver_into
from pavewright.store import open_store

store = open_store(sys.argv[1])
for line in sys.stdin:
    number = int(line)
    delivery = {"kind": "tapes", "entries": [{"start": "A", "end": "C", "length_mm": 9000.0 + number}]}
    store.deliver(f"d{number}", sys.argv[2], line, lambda text: deliver_into(text, delivery), "tape")
    print(number, flush=True)
"""


def taker(url, job):
    return subprocess.Popen(
        [sys.executable, "-c", TAKER, url, job], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )


@pytest.mark.parametrize("after", [1, 4, 9])
def test_nothing_acknowledged_is_lost_and_nothing_is_doubled(tmp_path, after):
    url = f"sqlite:///{tmp_path / 'jobs.sqlite'}"
    store = open_store(url)
    job = store.add(demo_document().decode()).id
    before = len(json.loads(store.job(job).document)["measurements"]["tape_plan"]["tapes"])
    # twenty are on their way when it is killed, at whatever it does just then
    process = taker(url, job)
    process.stdin.write("".join(f"{number}\n" for number in range(20)))
    process.stdin.flush()
    acknowledged = [int(process.stdout.readline()) for _ in range(after)]
    process.kill()
    rest, _ = process.communicate()
    acknowledged += [int(line) for line in rest.split()]

    def lengths():
        taken = json.loads(store.job(job).document)["measurements"]["tape_plan"]["tapes"][before:]
        return [tape["length_mm"] - 9000.0 for tape in taken]

    had = lengths()
    assert set(acknowledged) <= set(had)
    assert len(had) == len(set(had)) <= len(acknowledged) + 1
    # the phone sends everything again that it has no answer to, and more
    for number in range(20):
        delivery = {"kind": "tapes", "entries": [{"start": "A", "end": "C", "length_mm": 9000.0 + number}]}
        done = store.deliver(f"d{number}", job, "", lambda text, given=delivery: deliver_into(text, given), "tape")
        assert done.repeated == (number in had)
    assert lengths() == list(range(20))
    store.close()
