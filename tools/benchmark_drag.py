#!/usr/bin/env python3
"""How soon the screen follows the hand, on a phone's sheet with the browser slowed four times.

    .venv/bin/python tools/benchmark_drag.py                  every job, three runs each
    .venv/bin/python tools/benchmark_drag.py drive yard       these jobs: demo, yard, areas, drive, setts, round
    .venv/bin/python tools/benchmark_drag.py --save now.json  keep what was found
    .venv/bin/python tools/benchmark_drag.py --beside now.json  print it beside what was kept
    .venv/bin/python tools/benchmark_drag.py --source DIR     measure the program in DIR (the src of another revision)

A run opens the job, drags a corner in 60 moves, lets it go and waits for the plan. Times run from the pointer event to
the frame after what it brought about: the outline, and the counts that the server answers. Beside times, which a busy
machine spoils, stand those that it does not: nodes of the page, bytes, requests, and processor time of the page.
Medians of the runs are printed; of a drag the 95th percentile of each run. A frame is 16.7 ms.
"""

from __future__ import annotations

import argparse
import copy
import json
import os
import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING, Any

from playwright.sync_api import Browser, Page, sync_playwright

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests" / "browser"))
from served import FLAGS, Served  # noqa: E402 - found by the line before

if TYPE_CHECKING:
    from collections.abc import Callable

SLOWED = 4
MOVES = 60
RUNS = 3
PHONE = {"width": 390, "height": 844}
WATCH = """
window.outline = []; window.counts = []; window.asked = {};
let moved = 0;
addEventListener("pointermove", (event) => {
  const from = moved = event.timeStamp;
  requestAnimationFrame(() => setTimeout(() => window.outline.push(performance.now() - from), 0));
}, true);
const ask = window.fetch;
window.fetch = async (...words) => {
  const from = moved, path = String(words[0]).split("?")[0], answer = await ask(...words);
  const seen = (window.asked[path] ??= { count: 0, bytes: 0, sent: 0 });
  seen.count += 1;
  seen.sent += String(words[1]?.body ?? "").length;
  answer.clone().text().then((text) => { seen.bytes = Math.max(seen.bytes, text.length); });
  if (path.includes("/api/preview")) {
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


def job(slabs: int) -> dict[str, Any]:
    """Return a square patio of about so many slabs, on the first job that a demo shows."""
    document: dict[str, Any] = json.loads((ROOT / "src/pavewright/desk/demo.json").read_text("utf-8"))
    side = round(slabs**0.5) * 610.0
    places = {"A": (0.0, 0.0), "B": (side, 0.0), "C": (side, side), "D": (0.0, side)}
    document["measurements"] = {
        "datum": document["measurements"]["datum"],
        "points": [{"name": name, "x_mm": x, "y_mm": y} for name, (x, y) in places.items()],
    }
    soil = {"soil": document["site"]["ground"]["soil"], "topsoil_mm": 200.0}
    document["site"] = {"walls": [{"name": "House wall", "start": "A", "end": "B", "kind": "house"}], "ground": soil}
    document["steps"], document["ground"], document["as_laid"], document["handed_over"] = [], {}, {}, {}
    document["units"] = [copy.deepcopy(UNIT)]
    document["areas"] = [square("Patio", "ABCD")]
    document["areas"][0]["fall"] = {"away_from": "House wall", "level_at": "A", "level_mm": 10_000.0}
    return {name: value for name, value in document.items() if value not in ([], {})}


UNIT = {"name": "Slab 600", "kind": "flag", "material": "pressed concrete", "length_mm": 600.0, "width_mm": 600.0,
        "thickness_mm": 40.0, "kg_each": 33.0, "per_pack": 20, "pack_price_minor": 23_800,
        "joint_min_mm": 2.0, "joint_max_mm": 15.0}  # fmt: skip


def square(name: str, corners: str | list[str]) -> dict[str, Any]:
    """Return an area between four points, without its fall."""
    return {
        "name": name,
        "outline": [{"point": each} for each in corners],
        "use": "foot",
        "laying": {"unit": "Slab 600", "pattern": "running", "along": [corners[0], corners[1]], "joint_mm": 10.0,
                   "bedding": "mortar_on_concrete"},
        "edges": [{"corner": each, "restraint": "haunch"} for each in corners],
    }  # fmt: skip


def drive() -> dict[str, Any]:
    """Return a square drive of 300 m² of blocks of 200 × 100 in a herringbone."""
    return _blocks(job(841), 100.0, "herringbone", 3.0)


def setts() -> dict[str, Any]:
    """Return the same of 25 000 setts of 100 × 100."""
    document = _blocks(job(841), 100.0, "running", 12.0)
    document["units"][0]["length_mm"] = 100.0
    return document


def rounded() -> dict[str, Any]:
    """Return one of setts with two curved sides, courses that lie square to none, and a stop that has options."""
    document = setts()
    document["measurements"]["points"].append({"name": "E", "x_mm": 21_000.0, "y_mm": 9000.0})
    area = document["areas"][0]
    area["outline"] = [{"point": each} for each in "ABECD"]
    area["outline"][2]["rise_mm"] = area["outline"][4]["rise_mm"] = 600.0
    area["edges"].append({"corner": "E", "restraint": "haunch"})
    area["laying"]["along"] = ["A", "E"]
    high = {"name": "Path", "start": "D", "end": "C", "start_level_mm": 10_400.0, "end_level_mm": 10_400.0}
    document["site"]["tie_ins"] = [high | {"beyond": "own_paving"}]
    return document


def _blocks(document: dict[str, Any], width_mm: float, pattern: str, joint_mm: float) -> dict[str, Any]:
    document["units"][0] |= {"name": "Block", "length_mm": 2 * width_mm, "width_mm": width_mm, "thickness_mm": 60.0,
                             "kg_each": 2.8}  # fmt: skip
    document["areas"][0]["laying"] |= {"unit": "Block", "pattern": pattern, "joint_mm": joint_mm}
    return document


def areas(count: int = 40) -> dict[str, Any]:
    """Return a job of so many areas of 3 × 3 m, a metre apart."""
    document = job(36)
    document["measurements"]["points"], document["areas"], document["site"]["walls"] = [], [], []
    for number in range(count):
        left, near = number % 8 * 4000.0, number // 8 * 4000.0
        names = [f"{each}{number + 1}" for each in "ABCD"]
        for name, (x, y) in zip(names, ((0, 0), (3000, 0), (3000, 3000), (0, 3000)), strict=True):
            document["measurements"]["points"].append({"name": name, "x_mm": left + x, "y_mm": near + y})
        area = square(f"Area {number + 1}", names)
        area["fall"] = {"bearing_deg": 180.0, "level_at": names[0], "level_mm": 10_000.0}
        document["areas"].append(area)
    return document


def _kept(path: str) -> dict[str, Any]:
    document: dict[str, Any] = json.loads((ROOT / path).read_text("utf-8"))
    return document


JOBS: dict[str, tuple[Callable[[], dict[str, Any]], str, float]] = {
    "demo": (lambda: _kept("src/pavewright/desk/demo.json"), "C", 1.0),
    "yard": (lambda: _kept("examples/gully_yard.json"), "C", 1.0),
    "areas": (areas, "C40", -0.3),
    "drive": (drive, "C", 1.0),
    "setts": (setts, "C", 1.0),
    "round": (rounded, "C", 1.0),
}
"""Each job with the corner that is dragged, and how far inwards."""


SETTLED = """() => {
  const strip = document.querySelector("#strip").textContent;
  return window.asked["/api/plan"] && strip.includes("whole") && !strip.includes("about");
}"""
BYTES = "window.asked['/api/plan'].bytes"
CLEAR = "window.outline = []; window.counts = []; window.asked = {}"
PAINTED = "new Promise((done) => requestAnimationFrame(() => setTimeout(done, 0)))"
NODES = """({ "nodes of the plan": document.querySelectorAll("#plan *").length,
  "nodes of the page": document.querySelectorAll("*").length })"""


def p95(times: list[float]) -> float:
    """Return the 95th percentile of times."""
    return sorted(times)[min(len(times) - 1, int(0.95 * len(times)))] if times else float("nan")


def settled(page: Page) -> float:
    """Return how long until the plan of what was changed stands on the screen. [s]."""
    begun = time.monotonic()
    page.wait_for_function(SETTLED, timeout=120_000)
    page.evaluate(PAINTED)
    return time.monotonic() - begun


def run(browser: Browser, address: str, name: str, far: float, slowed: float) -> dict[str, float]:
    """Open a job, drag a corner and let it go; return what was measured."""
    context = browser.new_context(viewport=PHONE, has_touch=True, bypass_csp=True)  # type: ignore[arg-type]
    page = context.new_page()
    page.add_init_script(WATCH)
    within = context.new_cdp_session(page)
    within.send("Performance.enable", {"timeDomain": "threadTicks"})
    within.send("Emulation.setCPUThrottlingRate", {"rate": slowed})

    def busy_ms() -> float:
        values = {each["name"]: each["value"] for each in within.send("Performance.getMetrics")["metrics"]}
        return float(1000 * values["TaskDuration"])

    begun = time.monotonic()
    page.goto(address)
    page.locator("#strip", has_text="whole").wait_for(timeout=180_000)
    page.evaluate(PAINTED)
    found = {"open s": time.monotonic() - begun, "page to open ms": busy_ms()}
    found |= page.evaluate(NODES)
    page.wait_for_timeout(1500)
    found["bytes of the plan"] = page.evaluate(BYTES)
    handle = page.locator(f"[data-corner={name}] circle").first
    handle.evaluate("(one) => one.scrollIntoView({ block: 'nearest' })")
    box = handle.bounding_box(timeout=60_000)
    if box is None:
        sys.exit("The corner is not on the page.")
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.evaluate(CLEAR)
    page.mouse.move(x, y)
    page.mouse.down()
    before = busy_ms()
    for step in range(MOVES):
        page.mouse.move(x - far * step * 0.9, y + far * step * 0.6)
        page.wait_for_timeout(25)
    found["page for a move ms"] = (busy_ms() - before) / MOVES
    page.wait_for_timeout(1000)
    outline, counts, asked = page.evaluate("[window.outline, window.counts, window.asked]")
    page.evaluate("delete window.asked['/api/plan']; document.querySelector('#strip').textContent = 'about'")
    before = busy_ms()
    page.mouse.up()
    found |= {
        "outline p95 ms": p95(outline),
        "counts p95 ms": p95(counts),
        "requests of the drag": sum(each["count"] for each in asked.values()),
        "settled s": settled(page),
        "page to settle ms": busy_ms() - before,
    }
    context.close()
    return found


def main() -> None:
    """Measure and print."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("jobs", nargs="*", choices=[*JOBS, []])
    asked.add_argument("--runs", type=int, default=RUNS)
    asked.add_argument("--slowed", type=float, default=SLOWED, help="how many times the browser is slowed")
    asked.add_argument("--save", type=Path)
    asked.add_argument("--beside", type=Path)
    asked.add_argument("--source", default=str(ROOT / "src"))
    words = asked.parse_args()
    os.environ["PYTHONPATH"] = words.source
    kept = json.loads(words.beside.read_text("utf-8")) if words.beside else {}
    every: dict[str, dict[str, float]] = {}
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as driver:
        served = Served(Path(folder) / "jobs.sqlite")
        browser = driver.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
        for name in words.jobs or JOBS:
            make, corner, far = JOBS[name]
            runs = []
            for _ in range(words.runs):
                made = served.call("POST", "/api/jobs", {"document": make()})
                runs.append(run(browser, f"{served.address}/jobs/{made['id']}#paving", corner, far, words.slowed))
            every[name] = {key: statistics.median(each[key] for each in runs) for key in runs[0]}
            for key, value in every[name].items():
                before = kept.get(name, {}).get(key)
                print(f"{name:8} {key:24} {value:12.1f}" + ("" if before is None else f" {before:12.1f}"), flush=True)
        browser.close()
        served.stop()
    if words.save:
        words.save.write_text(json.dumps(every, indent=1) + "\n", "utf-8")


if __name__ == "__main__":
    main()
