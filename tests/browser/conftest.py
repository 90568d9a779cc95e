"""A browser and a server for the tests of the screens."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path

import pytest
from playwright.sync_api import expect, sync_playwright

sys.path.insert(0, str(Path(__file__).parent))
from served import FLAGS, Served  # noqa: E402

PATIENT_ms = 90_000
"""What is waited for comes in its own time on a machine that does other things too, or from a server that has just started
and compiles first; a fault is told as well, only later."""
expect.set_options(timeout=30_000)


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
        opened.new_context = _patient(opened.new_context)
        yield opened
        opened.close()


def _patient(new_context):
    """Contexts whose pages wait as long as it takes, where a test says nothing else."""

    def made(**wishes):
        context = new_context(**wishes)
        context.set_default_timeout(PATIENT_ms)
        return context

    return made


@pytest.fixture(scope="session")
def served(tmp_path_factory):
    """One server for all: what a test changes is a job of its own; the demo stays as it is."""
    server = Served(tmp_path_factory.mktemp("served") / "jobs.sqlite")
    # a server that has just started loads and compiles first: no test waits for that
    server.call("POST", "/api/plan", server.call("GET", f"/api/jobs/{server.demo}")["document"])
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
