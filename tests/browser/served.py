"""A server of its own for tests and tools."""

from __future__ import annotations

import json
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]  # fmt: skip


class Served:
    """A server of its own on a free port, with the demo in a new database."""

    def __init__(self, data, *options):
        self.data = data
        self.options = options
        self.port = 0
        self.start()
        self.demo = self.call("POST", "/api/jobs", {"start_from": "demo", "key": "the-demo"})["id"]

    def start(self):
        words = [sys.executable, "-m", "pavewright.cli", "serve", "--data", str(self.data), "--port", str(self.port),
                 "--no-browser", *self.options]  # fmt: skip
        self.process = subprocess.Popen(words, stdout=subprocess.PIPE, text=True, start_new_session=True)
        reported = self.process.stdout.readline()
        self.address = reported.split()[0].rstrip("/")
        self.port = int(self.address.rsplit(":", 1)[1])
        for _ in range(600):
            try:
                self.call("GET", "/api/jobs")
            except OSError:
                time.sleep(0.05)
            else:
                return
        raise AssertionError("the server does not answer")

    def kill(self):
        self.process.kill()
        self.process.wait()
        self.process.stdout.close()

    def stop(self):
        self.process.terminate()
        self.process.wait(timeout=20)
        self.process.stdout.close()

    def patio(self, title):
        """Make a job of a rectangle behind a house wall, all of it invented, and return its id."""
        document = json.loads((Path(__file__).parents[1] / "patio.json").read_text("utf-8"))
        document["identity"]["title"] = title
        return self.call("POST", "/api/jobs", {"document": document})["id"]

    def call(self, method, path, body=None, cookie=None):
        content = None if body is None else json.dumps(body).encode()
        headers = {"Content-Type": "application/json"} | ({"Cookie": cookie} if cookie else {})
        asked = urllib.request.Request(self.address + path, method=method, data=content, headers=headers)
        with urllib.request.urlopen(asked, timeout=180) as answer:
            text = answer.read()
        return json.loads(text) if "json" in answer.headers.get("content-type", "") else text
