"""A browser and a server for the tests of the screens."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import time
import urllib.request

import pytest
from playwright.sync_api import sync_playwright

FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]  # fmt: skip


class Served:
    """A server of its own on a free port, with the demo in a new database."""

    def __init__(self, data):
        self.data = data
        self.port = 0
        self.start()

    def start(self):
        words = [sys.executable, "-m", "pavewright.cli", "serve", "--data", str(self.data), "--port", str(self.port),
                 "--no-browser"]  # fmt: skip
        self.process = subprocess.Popen(words, stdout=subprocess.PIPE, text=True, start_new_session=True)
        told = self.process.stdout.readline()
        self.address = told.split()[0].rstrip("/")
        self.port = int(self.address.rsplit(":", 1)[1])
        for _ in range(600):
            try:
                self.call("GET", "/api/jobs")
            except OSError:
                time.sleep(0.05)
            else:
                return
        pytest.fail("the server does not answer")

    def kill(self):
        self.process.kill()
        self.process.wait()
        self.process.stdout.close()

    def stop(self):
        self.process.terminate()
        self.process.wait(timeout=20)
        self.process.stdout.close()

    def call(self, method, path, body=None):
        content = None if body is None else json.dumps(body).encode()
        asked = urllib.request.Request(
            self.address + path, method=method, data=content, headers={"Content-Type": "application/json"}
        )
        with urllib.request.urlopen(asked, timeout=60) as answer:
            text = answer.read()
        return json.loads(text) if "json" in answer.headers.get("content-type", "") else text

    @property
    def demo(self):
        return next(job["id"] for job in self.call("GET", "/api/jobs")["jobs"] if "Terrace" in job["title"])


@pytest.fixture(scope="session")
def chromium():
    path = shutil.which("chromium")
    if path is None:
        words = "no chromium: install Debian's chromium to run the browser tests"
        if os.environ.get("CI"):
            pytest.fail(words)
        pytest.skip(words)
    with sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=path, args=FLAGS)
        yield opened
        opened.close()


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    server = Served(tmp_path_factory.mktemp("served") / "jobs.sqlite")
    yield server
    if server.process.poll() is None:
        server.stop()


@pytest.fixture
def page(chromium, served):
    """A page of laptop size that fails the test when the page does."""
    context = chromium.new_context(viewport={"width": 1440, "height": 900})
    opened = context.new_page()
    faults = []
    opened.on("pageerror", lambda error: faults.append(str(error)))
    opened.on("console", lambda message: message.type == "error" and faults.append(message.text))
    opened.faults = faults
    yield opened
    context.close()
    assert faults == []
