"""A stage that is added as docs/adding.md says stands on the screen."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest
from served import Served

pytestmark = pytest.mark.browser


@pytest.fixture
def adding(tmp_path):
    found = importlib.util.spec_from_file_location("adding", Path(__file__).parents[1] / "adding" / "conftest.py")
    module = importlib.util.module_from_spec(found)
    found.loader.exec_module(module)
    return module.Copy(tmp_path)


def test_a_stage(chromium, adding, monkeypatch):
    assert adding.add("A stage of the screens") == [
        "src/pavewright/desk/_stages.py",
        "src/pavewright/web/static/job/stages/notes.js",
    ]
    monkeypatch.setenv("PYTHONPATH", adding.surroundings["PYTHONPATH"])
    server = Served(adding.place / "jobs.sqlite")
    page = chromium.new_context(viewport={"width": 1440, "height": 900}).new_page()
    try:
        faults = []
        page.on("pageerror", lambda error: faults.append(str(error)))
        page.goto(f"{server.address}/jobs/{server.demo}")
        page.locator("#rail button", has_text="Notes").click()
        assert page.locator("#panel h2").first.inner_text() == "Notes"
        page.locator("#panel", has_text="findings in all").wait_for()
        assert faults == []
    finally:
        page.context.close()
        server.stop()
