"""A server that is killed at any instant loses no change that it acknowledged."""

from __future__ import annotations

import http.client
import json
import os
import random
import threading
import time
import urllib.error

from served import Served

from pavewright.job.operations import between

ROUNDS = int(os.environ.get("KILL_ROUNDS", "4"))
"""More of them on a long evening: KILL_ROUNDS=25."""

PEOPLE_SENT = 12


def test_a_killed_server_loses_no_acknowledged_change(tmp_path):
    served = Served(tmp_path / "jobs.sqlite")
    chance = random.Random(7)
    job = served.demo
    document = served.call("GET", f"/api/jobs/{job}")["document"]
    acknowledged = 0
    for _ in range(ROUNDS):
        rev = served.call("GET", f"/api/jobs/{job}")["rev"]
        end, begun = threading.Timer(chance.uniform(0.05, 0.7), served.process.kill), acknowledged
        try:
            while True:
                document["identity"]["revision"] = acknowledged + 1
                rev = served.call("PUT", f"/api/jobs/{job}", {"rev": rev, "document": json.dumps(document)})["rev"]
                acknowledged += 1
                if acknowledged == begun + 1:
                    end.start()  # a server on a busy machine answers once before it is killed
        except (OSError, urllib.error.URLError, http.client.HTTPException, ValueError):
            pass  # killed in the midst of an answer: not acknowledged
        served.kill()
        served.start()
        reported = served.call("GET", f"/api/jobs/{job}")
        assert reported["document"]["identity"]["revision"] in {acknowledged, acknowledged + 1}
        acknowledged = reported["document"]["identity"]["revision"]
        revisions = [one["rev"] for one in served.call("GET", f"/api/jobs/{job}/revisions")["revisions"]]
        assert revisions == list(range(reported["rev"], 0, -1))
    served.stop()
    assert acknowledged >= ROUNDS


def test_two_phones_and_an_office_lose_and_double_nothing_while_the_server_is_killed(tmp_path):
    """Real processes, ended by SIGKILL in the midst of answers; each sender sends a batch until it is answered."""
    served = Served(tmp_path / "jobs.sqlite")
    job, began = served.demo, time.monotonic()
    document = served.call("GET", f"/api/jobs/{job}")["document"]
    before = len(document["measurements"]["tape_plan"]["tapes"])
    acknowledged, over = [], threading.Event()

    def phone(name, start):
        for number in range(start, start + PEOPLE_SENT):
            tape = {"start": "A", "end": "C", "length_mm": 9000.0 + number}
            add = {"op": "add", "at": ["measurements", "tape_plan", "tapes"], "item": tape}
            sent = {"id": f"{name}-{number}", "kind": "operations", "entries": [add], "rev": 1, "from": name}
            until_answered(served, f"/api/jobs/{job}/deliveries", sent)
            acknowledged.append(number)

    def office():
        seen, rev = document, 1
        for number in range(PEOPLE_SENT):
            after = json.loads(json.dumps(seen))
            after["identity"]["client"] = f"Client {number}"
            sent = {
                "key": f"o{number}",
                "rev": rev,
                "operations": between(seen, after),
                "note": "named",
                "from": "office",
            }
            told = until_answered(served, f"/api/jobs/{job}/operations", sent)
            seen, rev = told.get("document") or after, told["rev"]

    def killer():
        chance = random.Random(5)
        while not over.is_set():
            over.wait(chance.uniform(0.3, 1.2))
            served.kill()
            served.start()

    senders = [threading.Thread(target=phone, args=("one", 0)), threading.Thread(target=phone, args=("two", 500)),
               threading.Thread(target=office)]  # fmt: skip
    ending = threading.Thread(target=killer)
    for each in (*senders, ending):
        each.start()
    for each in senders:
        each.join(timeout=240)
    over.set()
    ending.join()
    reported = served.call("GET", f"/api/jobs/{job}")
    served.stop()
    lengths = [
        tape["length_mm"] - 9000.0 for tape in reported["document"]["measurements"]["tape_plan"]["tapes"][before:]
    ]
    assert sorted(lengths) == sorted(acknowledged)
    assert len(acknowledged) == 2 * PEOPLE_SENT
    assert reported["document"]["identity"]["client"] == f"Client {PEOPLE_SENT - 1}"
    assert reported["clashes"] == []
    assert time.monotonic() - began < 240


def until_answered(served, path, body):
    while True:
        try:
            return served.call("POST", path, body)
        except (OSError, urllib.error.URLError, http.client.HTTPException, ValueError):
            time.sleep(0.05)  # killed in the midst of an answer: it is sent again as it was
