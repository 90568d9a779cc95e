"""A server that is killed at any instant loses no change that it acknowledged."""

from __future__ import annotations

import http.client
import json
import os
import random
import threading
import urllib.error

from served import Served

ROUNDS = int(os.environ.get("KILL_ROUNDS", "4"))
"""More of them on a long evening: KILL_ROUNDS=25."""


def test_a_killed_server_loses_no_acknowledged_change(tmp_path):
    served = Served(tmp_path / "jobs.sqlite")
    chance = random.Random(7)
    job = served.demo
    document = served.call("GET", f"/api/jobs/{job}")["document"]
    acknowledged = 0
    for _ in range(ROUNDS):
        rev = served.call("GET", f"/api/jobs/{job}")["rev"]
        threading.Timer(chance.uniform(0.05, 0.7), served.process.kill).start()
        try:
            while True:
                document["identity"]["revision"] = acknowledged + 1
                rev = served.call("PUT", f"/api/jobs/{job}", {"rev": rev, "document": json.dumps(document)})["rev"]
                acknowledged += 1
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
    assert acknowledged > ROUNDS
