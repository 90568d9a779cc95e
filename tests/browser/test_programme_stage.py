"""The programme stage: a bar is moved by keys and by hand, its pin is kept with its reason, and work is shown as done."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

ROOT = Path(__file__).parents[2]
LAY = "lay.area1"


def opened(page, served):
    document = json.loads((ROOT / "examples" / "mixed_patio.json").read_text("utf-8"))
    job = served.call("POST", "/api/jobs", {"document": document})["id"]
    page.goto(f"{served.address}/jobs/{job}#programme")
    page.locator(f".bar[data-task='{LAY}']").wait_for(timeout=60_000)
    return job


def kept(page, served, job, wanted):
    """Return the document once it holds what is wanted."""
    for _ in range(100):
        document = served.call("GET", f"/api/jobs/{job}")["document"]
        if wanted(document):
            return document
        page.wait_for_timeout(100)
    raise AssertionError(document.get("pins"), document.get("done"))


def test_a_bar_is_moved_by_a_key_then_by_hand_with_its_reason_then_done(page, served):
    job = opened(page, served)
    before = served.call("POST", "/api/plan", served.call("GET", f"/api/jobs/{job}")["document"])
    task = next(one for one in before["plan"]["programme"]["tasks"] if one["key"] == LAY)
    bar = page.locator(f".bar[data-task='{LAY}']")
    bar.focus()
    page.keyboard.press("ArrowRight")
    pinned = kept(page, served, job, lambda document: document.get("pins"))["pins"]
    assert [pin["task"] for pin in pinned] == [LAY]
    first = dt.date.fromisoformat(pinned[0]["on"])
    assert first > dt.date.fromisoformat(task["start"][:10])
    page.get_by_text("It does not begin earlier because it is pinned").wait_for()
    page.get_by_label("Why").fill("The slabs come then")
    page.get_by_label("Why").press("Tab")
    kept(page, served, job, lambda document: document["pins"][0].get("reason") == "The slabs come then")
    shape = page.locator(f".bar[data-task='{LAY}'] .shape")
    shape.scroll_into_view_if_needed()
    box = shape.bounding_box()
    page.mouse.move(box["x"] + 10, box["y"] + 5)
    page.mouse.down()
    page.mouse.move(box["x"] + 180, box["y"] + 5, steps=4)
    page.mouse.up()
    kept(page, served, job, lambda document: dt.date.fromisoformat(document["pins"][0]["on"]) > first)
    page.get_by_role("button", name="Done today", exact=True).click()
    done = kept(page, served, job, lambda document: document.get("done"))["done"]
    assert (done[0]["task"], done[0].get("done_percent", 100)) == (LAY, 100)


def test_a_bar_that_is_moved_before_its_time_says_why_it_cannot(page, served):
    job = opened(page, served)
    page.locator(f".bar[data-task='{LAY}']").focus()
    page.keyboard.press("ArrowLeft")
    page.locator(".toast", has_text="It cannot begin earlier").wait_for()
    assert not served.call("GET", f"/api/jobs/{job}")["document"].get("pins")
    # what is critical is told by a sign in words too, not by its colour
    assert page.locator(".gantt text", has_text="◆").count() > 0
    assert page.locator(".task-card button").first.bounding_box()["height"] >= 48
