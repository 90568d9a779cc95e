"""The views of the working screen in a browser: they draw the job and react to a hand."""

from __future__ import annotations

import json
import re
import urllib.request
from pathlib import Path

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
WAIT_MS = 90_000


@pytest.fixture(scope="module")
def server(served):
    return served.address


@pytest.fixture(scope="module")
def browser(chromium):
    return chromium


def brought(server, change=None):
    document = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
    if change:
        change(document)
    body = json.dumps({"document": document}).encode()
    asked = urllib.request.Request(
        f"{server}/api/jobs", body, {"Content-Type": "application/json", "Origin": server}, method="POST"
    )
    with urllib.request.urlopen(asked) as answer:
        return json.load(answer)["id"]


@pytest.fixture(scope="module")
def job(server):
    return brought(server)


@pytest.fixture
def page(browser):
    opened = browser.new_page(viewport={"width": 1280, "height": 900})
    faults = []
    opened.on("pageerror", lambda error: faults.append(str(error)))
    opened.on("console", lambda message: faults.append(message.text) if message.type == "error" else None)
    yield opened
    opened.close()
    assert faults == []


def at(page, server, job, stage):
    page.goto(f"{server}/jobs/{job}#{stage}")
    page.locator("section[aria-label=Results] .fact").first.wait_for(timeout=WAIT_MS)
    return page


def opened(page, words):
    summary = page.locator("summary", has_text=words).first
    summary.click()
    return summary.locator("xpath=..")


FREE_PIECE = """() => {
  for (const one of document.querySelectorAll(".look-pick[fill='var(--slab-cut)']")) {
    const box = one.getBoundingClientRect(), x = box.left + box.width / 2, y = box.top + box.height / 2;
    if (document.elementFromPoint(x, y) === one) return [one.dataset.piece, x, y];
  }
}"""


@pytest.mark.parametrize("width", [390, 1280])
def test_the_section_follows_the_place_chosen_and_fits_its_box(page, server, job, width):
    page.set_viewport_size({"width": width, "height": 844})
    at(page, server, job, "levels")
    section = page.locator(".look-section")
    expect(section).to_have_attribute("aria-label", re.compile(r"step of 178 mm below the threshold at 10\.160"))
    assert section.locator("text", has_text="10.150").count() == 1
    page.get_by_label("Where the section is cut").select_option(label="Wall Extension")
    expect(section).to_have_attribute("aria-label", re.compile("below the DPC"))
    assert "threshold" not in section.get_attribute("aria-label")
    box = section.bounding_box()
    for each in section.locator("text").all():
        inner = each.bounding_box()
        assert inner["x"] >= box["x"] - 1 and inner["x"] + inner["width"] <= box["x"] + box["width"] + 1, (
            each.text_content()
        )


def test_a_clash_is_drawn_as_a_stair_and_its_way_out_tried_and_undone(page, server):
    def too_high(document):
        document["site"]["covers"][0] |= {"fixed": True, "level_mm": 9925.0}

    at(page, server, brought(server, too_high), "levels")
    stair = page.locator(".look-stair").first
    expect(stair).to_be_visible()
    assert stair.locator("text", has_text="mm apart").count() == 1
    page.locator(".chain-ways button").first.click()
    page.locator(".look-stair").first.wait_for(state="detached", timeout=WAIT_MS)
    page.locator(".toast button", has_text="Undo").click()
    page.locator(".look-stair").first.wait_for(timeout=WAIT_MS)


def test_contours_come_at_the_step_that_the_zoom_has_room_for(page, server, job):
    at(page, server, job, "levels")
    page.locator("#layers > summary").click()
    page.get_by_label("Contours and falls").check()
    page.locator("#layers > summary").click()

    def step():
        shown = page.locator("g[data-contours]:not([display])")
        return {each.get_attribute("data-contours") for each in shown.all()}

    assert len(step()) == 1
    for _ in range(8):
        page.locator("#zoom-in").click()
    assert step() == {"10"}
    levels = page.locator("g[data-contours='10'] text").all_text_contents()
    assert levels[0].endswith("0") and len(levels) > 10
    for _ in range(22):
        page.locator("#zoom-out").click()
    assert step() == {"50"}


def test_the_laying_order_is_played_on_the_plan(page, server, job):
    at(page, server, job, "paving")
    box = opened(page, "Laying order of Terrace")
    reported = box.locator("[role=status]")
    expect(reported).to_contain_text("Nothing laid")
    box.get_by_label("One course on").click()
    expect(reported).to_contain_text("course 1")
    box.get_by_label("One piece on").click()
    expect(reported).to_contain_text("course 2")
    laid = page.locator(".look-laid").get_attribute("d")
    box.get_by_role("button", name="Play").click()
    expect(reported).not_to_contain_text("course 2, place 1:", timeout=30_000)
    assert len(page.locator(".look-laid").get_attribute("d")) > len(laid)
    box.get_by_role("button", name="Pause").click()
    opened(page, "Laying order of Terrace")
    expect(page.locator(".look-laid")).to_have_count(0)


def test_the_cut_plan_and_the_plan_pick_pieces_both_ways(page, server, job):
    at(page, server, job, "paving")
    box = opened(page, "Cut plan of Terrace")
    box.locator("select").select_option("3")
    reported = box.locator("[role=status]")
    expect(reported).to_contain_text("Cut 1:")
    box.get_by_text("Next cut").click()
    expect(reported).to_contain_text("Cut 2:")
    first = box.locator(".cut-unit text").first.text_content()
    assert page.locator(f".look-pick[data-piece='{first}']").get_attribute("fill") == "var(--act)"
    number, x, y = page.evaluate(FREE_PIECE)
    page.mouse.click(x, y)
    assert number in box.locator(".cut-unit").get_attribute("aria-label")
    assert page.locator(f".look-pick[data-piece='{number}']").get_attribute("fill") == "var(--act)"


@pytest.mark.parametrize("still", [False, True])
def test_a_storm_is_run_and_played_back(browser, server, job, still):
    page = browser.new_page(
        viewport={"width": 1280, "height": 900}, reduced_motion="reduce" if still else "no-preference"
    )
    at(page, server, job, "water")
    box = opened(page, "minute by minute")
    box.get_by_label("It rains for").fill("2")
    box.get_by_text("Run the storm").click()
    slider = page.get_by_label("Time of the storm")
    slider.wait_for(timeout=WAIT_MS)
    assert box.get_by_role("button", name="Play").count() == (0 if still else 1)
    slider.fill("11")
    reported = box.locator(".storm-player [role=status]")
    expect(reported).to_contain_text("2.0 min, it rains")
    wet = page.locator(".storm-frame").get_attribute("href")
    slider.fill("23")
    expect(reported).to_contain_text("the rain is over")
    assert page.locator(".storm-frame").get_attribute("href") != wet
    assert page.locator(".depth-scale li").count() == 6
    page.close()


def test_the_solid_turns_by_keys_and_its_table_tells_the_levels(page, server, job):
    at(page, server, job, "levels")
    box = opened(page, "Solid view")
    holder = box.locator(".solid")
    holder.locator("canvas").wait_for(timeout=WAIT_MS)
    expect(box.locator("[role=status]")).to_have_text("")
    page.wait_for_timeout(400)
    before = holder.screenshot()
    holder.focus()
    for _ in range(4):
        page.keyboard.press("ArrowRight")
    page.wait_for_timeout(300)
    turned = holder.screenshot()
    assert turned != before
    box.get_by_label("×10").check()
    page.wait_for_timeout(300)
    assert holder.screenshot() != turned
    assert "10.000" in box.get_by_role("region", name="Levels of the corners").text_content()


def test_without_webgl_a_sentence_and_the_table_stay(browser, server, job):
    page = browser.new_page()
    page.add_init_script("HTMLCanvasElement.prototype.getContext = () => null")
    at(page, server, job, "levels")
    box = opened(page, "Solid view")
    expect(box.locator("[role=status]")).to_contain_text("draws no solids")
    expect(box.get_by_role("region", name="Levels of the corners")).to_be_visible()
    page.close()
