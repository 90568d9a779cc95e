#!/usr/bin/env python3
"""How soon the plan follows a dragged corner, with the browser slowed four times: the outline, then counts and falls.

    .venv/bin/python tools/benchmark_drag.py

Times run from the pointer event to the frame after what it brought about. A frame is 16.7 ms.
"""

from __future__ import annotations

import json
import shutil
import statistics
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "browser"))
from served import FLAGS, Served

SLOWED = 4
MOVES = 80
WATCH = """
window.outline = []; window.counts = [];
let moved = 0;
addEventListener("pointermove", (event) => {
  moved = event.timeStamp;
  const from = moved;
  requestAnimationFrame(() => setTimeout(() => window.outline.push(performance.now() - from), 0));
}, true);
const ask = window.fetch;
window.fetch = async (...words) => {
  const from = moved, answer = await ask(...words);
  if (String(words[0]).includes("/api/preview")) {
    const json = answer.json.bind(answer);
    answer.json = async () => {
      const told = await json();
      requestAnimationFrame(() => setTimeout(() => window.counts.push(performance.now() - from), 0));
      return told;
    };
  }
  return answer;
};
"""


def job(slabs: int) -> dict:
    """Return a square patio of about so many slabs."""
    document = json.loads((Path(__file__).parents[1] / "tests/patio.json").read_text("utf-8"))
    side = round(slabs**0.5) * 610.0
    for point, (x, y) in zip(document["measurements"]["points"], ((0, 0), (1, 0), (1, 1), (0, 1)), strict=True):
        point["x_mm"], point["y_mm"] = x * side, y * side
    return document


def reported(name: str, times: list[float]) -> str:
    """Return median, 95th percentile and greatest of times."""
    ordered = sorted(times)
    p95 = ordered[min(len(ordered) - 1, int(0.95 * len(ordered)))]
    return f"{name} {statistics.median(ordered):6.0f} {p95:6.0f} {ordered[-1]:6.0f}  ({len(ordered)})"


def dragged(page: Page, address: str, name: str) -> None:
    """Drag the third corner about and print how soon things followed."""
    page.goto(address)
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    page.wait_for_timeout(1500)
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
    box = page.locator("[data-corner=C]").bounding_box()
    if box is None:
        sys.exit("The corner is not on the page.")
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    for step in range(MOVES):
        page.mouse.move(x - step * 1.3, y + step * 0.9)
        page.wait_for_timeout(25)
    page.wait_for_timeout(500)
    outline, counts = page.evaluate("[window.outline, window.counts]")
    page.mouse.up()
    print(f"{name:>14}  {reported('outline', outline)}   {reported('counts', counts)}")


def main() -> None:
    """Drag on squares of about 300 and 1500 slabs."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as driver:
        served = Served(Path(folder) / "jobs.sqlite")
        browser = driver.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
        print(f"browser slowed {SLOWED} times; ms: median, 95th percentile, greatest (how many)")
        for slabs in (300, 1500):
            made = served.call("POST", "/api/jobs", {"document": job(slabs)})
            page = browser.new_page(viewport={"width": 1440, "height": 900})
            page.add_init_script(WATCH)
            dragged(page, f"{served.address}/jobs/{made['id']}#paving", f"{slabs} slabs")
            page.close()
        browser.close()
        served.stop()


if __name__ == "__main__":
    main()
