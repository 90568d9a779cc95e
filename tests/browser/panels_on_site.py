"""Every panel of the page on site, opened one by one, with each of its parts."""

from __future__ import annotations

import re
from importlib.resources import files

REGISTER = (files("pavewright") / "web" / "static" / "site" / "panels.js").read_text("utf-8")
PANELS = tuple(key for key, on in re.findall(r'\{ key: "(\w+)".*? on: "(\w+)"', REGISTER) if on != "sheet")
"""Keys of the panels of the page, as its own register has them: a new one is walked as soon as it stands there."""

CHOICES = "#panel .row-tabs, #panel [aria-label='With what']"
LONG_ms = 120_000


def site_of(page, served, job):
    """Open the page on site of a job and wait for its plan: without it a panel says only that it waits."""
    page.goto(f"{served.address}/jobs/{job}/site#setout")
    page.locator("#panel[data-panel=setout] .row-tabs").first.wait_for(timeout=LONG_ms)


def panel_of(page, key):
    page.evaluate("(to) => { location.hash = to; }", key)
    page.locator(f"#panel[data-panel={key}] > *").first.wait_for(state="attached", timeout=LONG_ms)


def every_part(page, depth=0, said=()):
    """Press each choice of parts after the other, those inside of others too, and tell what is pressed."""
    group = page.locator(CHOICES).nth(depth)
    if not group.count():
        page.evaluate("document.querySelectorAll('#panel details').forEach((one) => { one.open = true; })")
        yield ", ".join(said)
        return
    buttons = group.locator("button")
    for index, face in enumerate(buttons.all_inner_texts()):
        buttons.nth(index).click()
        group.locator("button[aria-pressed=true]", has_text=face).wait_for()
        yield from every_part(page, depth + 1, (*said, face))


def under_way(served):
    """A job in the middle of its work, so that panels show what was read, found, laid and logged; all of it invented."""
    document = served.call("GET", f"/api/jobs/{served.demo}")["document"]
    day, area = "2026-05-04", document["areas"][0]["name"]
    reading = document["as_laid"]["readings"][0]
    place = {"x_mm": reading["x_mm"], "y_mm": reading["y_mm"]}
    document |= {
        "hold_checks": [
            {"name": "Look 1", "kind": "formation", "area": area, "date": day,
             "readings": [{"label": "F1", **place, "level_mm": reading["level_mm"] - 300}]},
        ],
        "dig_found": [
            {"name": "Old slab", "kind": "concrete", "area": area, "found_on": day, "depth_mm": 150, "area_m2": 2.5},
            {"name": "Soft spot by the gate", "kind": "deeper", "area": area, "found_on": day, "depth_mm": 80},
        ],
        "units_read": [
            {"area": area, "piece": 1, **place, "way": "wedge", "sd_mm": 0.5, "date": day,
             "corners": [{"corner": one, "level_mm": reading["level_mm"]} for one in "ABCD"]},
        ],
        "bags_used": [{"area": area, "opened": 9, "up_to_piece": 1, "date": day}],
        "phone_slopes": [
            {"name": "Slope 1", "tool": "bubble", "pairs": [{"first_deg": 0.7, "turned_deg": -0.6}], "read_on": day}
        ],
        "site_days": [
            {"name": "Log 1", "date": day, "present": [{"name": "Ann", "there_h": 8}],
             "worked": [{"task": "set_out.area1", "person_h": 8, "done_percent": 50}],
             "bays": [{"area": area, "stage": "base", **place}],
             "weather": {"sky": "showers", "lowest_c": 4},
             "waste": [{"ticket": "T1", "what": "soil", "mass_tonnes": 6}],
             "stops": [{"why": "rain", "lost_h": 1}], "note": "Rain from three."},
        ],
        "snags": [{"name": "S1", "kind": "lip", "what": "step at the door", "area": area, **place, "found_on": day}],
        "hose_tests": [{"name": "H1", "area": area, "date": day, "after_min": 30, "all_wet": True}],
    }  # fmt: skip
    return served.call("POST", "/api/jobs", {"document": document})["id"]
