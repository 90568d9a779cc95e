"""The programme stage: a bar is moved by keys and by hand, its pin is kept with its reason, and work is shown as done."""

from __future__ import annotations

import datetime as dt
import itertools
import json
from pathlib import Path

import pytest
from kept import wait_kept
from playwright.sync_api import Error

ROOT = Path(__file__).parents[2]
LAY = "lay.area1"


def opened(page, served, *, attached=False, example="mixed_patio"):
    document = json.loads((ROOT / "examples" / f"{example}.json").read_text("utf-8"))
    job = served.call("POST", "/api/jobs", {"document": document})["id"]
    page.goto(f"{served.address}/jobs/{job}#programme")
    page.locator(f".bar[data-task='{LAY}']").wait_for(timeout=60_000, state="attached" if attached else "visible")
    return job


def seen(page, shape):
    """Return where a shape stands; a plan that comes anew meanwhile draws it anew."""
    for _ in range(20):
        try:
            shape.scroll_into_view_if_needed(timeout=2000)
            box = shape.bounding_box()
        except Error:
            box = None
        page.wait_for_timeout(300)
        if box is not None and shape.bounding_box() == box:
            return box
    raise AssertionError


def test_a_bar_is_moved_by_a_key_then_by_hand_with_its_reason_then_done(page, served):
    job = opened(page, served)
    before = served.call("POST", "/api/plan", served.call("GET", f"/api/jobs/{job}")["document"])
    task = next(one for one in before["plan"]["programme"]["tasks"] if one["key"] == LAY)
    bar = page.locator(f".bar[data-task='{LAY}']")
    bar.focus()
    page.keyboard.press("ArrowRight")
    pinned = wait_kept(page, served, job, lambda document: document.get("pins"))["pins"]
    assert [pin["task"] for pin in pinned] == [LAY]
    first = dt.date.fromisoformat(pinned[0]["on"])
    assert first > dt.date.fromisoformat(task["start"][:10])
    page.get_by_text("It does not begin earlier because it is pinned").wait_for()
    page.get_by_label("Why").fill("The slabs come then")
    page.get_by_label("Why").press("Tab")
    wait_kept(page, served, job, lambda document: document["pins"][0].get("reason") == "The slabs come then")
    box = seen(page, page.locator(f".bar[data-task='{LAY}'] .shape"))
    page.mouse.move(box["x"] + 10, box["y"] + 5)
    page.mouse.down()
    page.mouse.move(box["x"] + 180, box["y"] + 5, steps=4)
    page.mouse.up()
    wait_kept(page, served, job, lambda document: dt.date.fromisoformat(document["pins"][0]["on"]) > first)
    page.get_by_role("button", name="Done today", exact=True).click()
    done = wait_kept(page, served, job, lambda document: document.get("done"))["done"]
    assert (done[0]["task"], done[0].get("done_percent", 100)) == (LAY, 100)


def test_a_bar_that_is_moved_before_its_time_says_why_it_cannot(page, served):
    job = opened(page, served)
    page.locator(f".bar[data-task='{LAY}']").focus()
    page.keyboard.press("ArrowLeft")
    page.locator(".toast", has_text="It cannot begin earlier").wait_for()
    assert not served.call("GET", f"/api/jobs/{job}")["document"].get("pins")
    # what is critical is told by a sign in words too, not by its colour
    assert page.locator(".bar-names span", has_text="◆").count() > 0
    assert page.locator(".task-card button").first.bounding_box()["height"] >= 48


@pytest.fixture
def phone(chromium):
    context = chromium.new_context(viewport={"width": 390, "height": 844}, has_touch=True)
    yield context.new_page()
    context.close()


def test_on_a_phone_the_work_that_comes_next_is_shown_as_done_and_the_rest_is_planned_anew(phone, served):
    job = opened(phone, served, attached=True)
    rows = phone.locator(".next-tasks li")
    for _ in range(2):
        name = rows.first.locator("strong").inner_text()
        rows.first.get_by_role("button", name=f"Done today: {name}", exact=True).click()
        phone.locator(".next-tasks strong", has_text=name).wait_for(state="detached")
    rows.first.get_by_role("button", name="Half done today").click()
    done = wait_kept(phone, served, job, lambda document: len(document.get("done", [])) == 3)["done"]
    assert [each.get("done_percent", 100) for each in done] == [100, 100, 50]
    phone.get_by_text("50 % done").first.wait_for()
    for button in rows.first.locator("button").all():
        assert button.bounding_box()["height"] >= 48
    # what is told of it does not stand over half of the screen
    assert phone.locator(".toast").bounding_box()["width"] > 300
    assert phone.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_names_of_bars_stay_in_sight_and_none_is_cut_off(phone, served):
    opened(phone, served, attached=True)
    room = phone.locator(".gantt-room")
    room.scroll_into_view_if_needed()
    for by in (0, 300):
        room.evaluate("(node, by) => { node.scrollLeft = by; }", by)
        left, right = room.evaluate("node => [node.getBoundingClientRect().left, node.getBoundingClientRect().right]")
        boxes = phone.locator(".bar-names span").evaluate_all(
            "all => all.map((one) => { const b = one.getBoundingClientRect(); return [b.left, b.right, b.top, b.bottom]; })"
        )
        assert all(left <= box[0] and box[1] <= right for box in boxes)
        assert all(one[3] <= other[2] for one, other in itertools.pairwise(boxes))
    assert "…" not in phone.locator(".bar-names").inner_text()


def test_what_comes_and_goes_has_rows_of_its_own_with_a_sign_for_each_thing(page, served):
    job = opened(page, served, example="front_drive")
    told = served.call("POST", "/api/plan", served.call("GET", f"/api/jobs/{job}")["document"])["plan"]["programme"]
    suppliers = {(each["supplier"], each["supplier_kind"]) for each in told["deliveries"]}
    hired = [each for each in told["hires"] if each["on"]]
    assert len(suppliers) >= 2
    assert hired
    assert told["loads"]
    rows = page.locator(".gantt .comes")
    assert rows.count() == len(suppliers) + len(hired) + 1
    names = page.locator(".bar-names span").all_inner_texts()[-rows.count() :]
    assert [name.split(":")[0] for name in names[len(suppliers) :]] == ["On hire"] * len(hired) + ["Spoil leaves"]
    # every day stands in words too, and shapes tell what colour does not
    assert rows.locator(".triangle, .arrival, .square").count() == len(told["deliveries"]) + len(told["loads"])
    assert rows.locator(".hire").count() == len(hired)
    labels = [row.get_attribute("aria-label") for row in rows.all()]
    assert all("call off at the end of" in label for label in labels[len(suppliers) : -1])
    left = page.locator(".gantt").bounding_box()["x"]
    assert all(sign.bounding_box()["x"] >= left for sign in rows.locator("path").all())
    legend = page.locator(".programme > p.quiet").first.inner_text()
    assert "on hire" in legend
    assert "order" in legend


def test_bad_days_are_typed_month_by_month_on_a_phone(phone, served):
    job = opened(phone, served, attached=True)
    phone.get_by_role("button", name="Stage", exact=True).click()
    phone.locator("summary", has_text="Bad weather by month").click()
    for words, value in (("wet days", "9"), ("mean temperature", "-1,5")):
        phone.get_by_label(f"July, {words}").fill(value)
        phone.get_by_label(f"July, {words}").press("Tab")
    wanted = [{"month": 7, "wet_days": 9, "mean_c": -1.5}]
    wait_kept(phone, served, job, lambda document: document["calendar"].get("weather") == wanted)
    phone.get_by_label("July, wet days").fill("40")
    phone.get_by_label("July, wet days").press("Tab")
    phone.get_by_text("a number from 0 to 31, or nothing").wait_for()
    assert phone.get_by_label("July, wet days").get_attribute("aria-invalid") == "true"
    for words in ("wet days", "mean temperature"):
        phone.get_by_label(f"July, {words}").fill("")
        phone.get_by_label(f"July, {words}").press("Tab")
    wait_kept(phone, served, job, lambda document: not document["calendar"].get("weather"))


def test_orders_with_their_days_stand_on_the_stage(page, served):
    opened(page, served)
    table = page.get_by_label("Orders and deliveries")
    assert "Wold Stone" in table.inner_text()
    assert "working days" in table.inner_text()
    assert page.get_by_label("Plant on hire").is_visible()
