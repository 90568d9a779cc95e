"""Every stage of every example, on a phone and on a laptop: nothing is wrong in the console, every stage shows something.

With PAVEWRIGHT_PICTURES set to a folder, pictures of all of it are put there to be looked at.
"""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from pavewright.desk import STAGES

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted(path.stem for path in (ROOT / "examples").glob("*.json"))
SIZES = {"phone": (390, 844), "laptop": (1440, 900)}
WAIT_MS = 90_000


def picture(page, name):
    folder = os.environ.get("PAVEWRIGHT_PICTURES")
    if folder:
        page.screenshot(path=Path(folder) / f"{name}.png", timeout=WAIT_MS)


@pytest.mark.parametrize("example", EXAMPLES)
def test_every_stage_of_an_example_shows_itself_without_a_fault(chromium, served, example):
    document = json.loads((ROOT / "examples" / f"{example}.json").read_text("utf-8"))
    job = served.call("POST", "/api/jobs", {"document": document})["id"]
    served.call("POST", "/api/plan", document)  # once: every page of the same document shares the answer
    faults = []
    for size, (width, height) in SIZES.items():
        context = chromium.new_context(viewport={"width": width, "height": height}, has_touch=size == "phone")
        context.set_default_timeout(WAIT_MS)
        page = context.new_page()
        page.on("pageerror", lambda error, at=size: faults.append(f"{at}: {error}"))
        page.on("console", lambda said, at=size: said.type == "error" and faults.append(f"{at}: {said.text}"))
        try:
            stages_of(page, f"{served.address}/jobs/{job}", f"{example}-{size}")
        finally:
            context.close()
    assert faults == []


def stages_of(page, address, name):
    page.goto(address)
    page.locator("#strip", has_text="m²").wait_for()
    for stage in STAGES:
        page.locator("#rail").get_by_role("button", name=stage.name).first.click()
        shown = page.locator(f"[data-stage={stage.key}]")
        shown.wait_for(state="attached")
        opened = page.evaluate(
            "() => { const all = [...document.querySelectorAll('#panel details:not([open])')];"
            " for (const one of all) one.open = true; return all.length; }"
        )
        page.wait_for_timeout(60)
        assert opened or shown.inner_text().strip(), stage.key
        wide = page.evaluate("() => document.documentElement.scrollWidth - window.innerWidth")
        assert wide <= 1, f"{stage.key} is {wide} px wider than the screen"
        picture(page, f"{name}-{stage.key}")
    page.goto(f"{address}/site")
    page.locator("#panel .start").wait_for()
    picture(page, f"{name}-site-start")
    for tab in ("Check", "Photos", "Measure"):
        page.locator("#tabs").get_by_text(tab).click()
        page.locator("#panel > *").first.wait_for()
        picture(page, f"{name}-site-{tab.lower()}")
