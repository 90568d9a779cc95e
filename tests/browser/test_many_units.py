"""A drive of 25 000 setts on a phone: what is drawn, sent and asked for, counted."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / "tools"))
import benchmark_drag

pytestmark = pytest.mark.browser

PHONE = {"width": 390, "height": 844}
NODES_MAX = 600
"""Nodes of the sheet, however many units there are: signs, handles and tiles."""


@pytest.fixture(scope="module")
def drive(served):
    return served.call("POST", "/api/jobs", {"document": benchmark_drag.setts()})["id"]


@pytest.fixture
def sheet(chromium, served, drive):
    context = chromium.new_context(viewport=PHONE)
    page = context.new_page()
    faults, answers = [], []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("console", lambda message: message.type == "error" and faults.append(message.text))
    page.on("response", lambda answer: answers.append(answer) if "/api/plan" in answer.url else None)
    page.answers = answers
    page.goto(f"{served.address}/jobs/{drive}#paving")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    page.locator("#plan .courses path, #plan .units path").first.wait_for(state="attached")
    yield page
    context.close()
    assert faults == []


def nearer(page, times):
    for _ in range(times):
        page.locator("#plan svg[role=application]").press("+")


def nodes(page):
    return page.evaluate("document.querySelectorAll('#plan *').length")


def test_some_hundred_nodes_stand_for_twenty_five_thousand_setts(sheet):
    assert nodes(sheet) <= NODES_MAX
    assert sheet.locator("#plan .courses path").count() == 3  # specks from afar: courses
    assert sheet.locator("#plan .units path").count() == 0
    nearer(sheet, 8)
    sheet.locator("#plan .units path").first.wait_for(state="attached")
    assert sheet.locator("#plan .courses path").count() == 0
    assert nodes(sheet) <= NODES_MAX
    near = sheet.locator("#plan .units path").count()
    nearer(sheet, 6)
    sheet.wait_for_timeout(100)
    assert 1 <= sheet.locator("#plan .units path").count() < near  # only what is on the screen


def test_the_numbers_of_pieces_stand_where_they_can_be_read(sheet):
    sheet.set_viewport_size({"width": 1440, "height": 900})
    sheet.locator("#layers > summary").click()
    sheet.get_by_label("Piece numbers").check()
    sheet.locator("#layers > summary").click()
    assert sheet.locator("#plan .numbers text").count() == 0
    nearer(sheet, 16)
    sheet.locator("#plan .numbers text").first.wait_for(state="attached")
    assert sheet.locator("#plan .numbers text").count() <= 4 * 400
    size = sheet.evaluate("document.querySelector('#plan .numbers text').getBoundingClientRect().height")
    assert size >= 7


def test_the_answer_for_twenty_five_thousand_setts_is_a_few_hundred_kilobytes(sheet):
    (answer,) = sheet.answers
    told = json.loads(answer.body())
    assert sum(len(each["kind"]) for each in told["pieces"]) > 24_000
    assert len(answer.body()) < 800_000
    assert int(answer.headers["content-length"]) < 120_000


def test_the_outline_follows_the_hand_though_the_server_says_nothing(sheet):
    asked = []

    def unanswered(route):
        asked.append(route)

    sheet.route("**/api/preview", unanswered)
    corner = sheet.locator("[data-corner=C] circle").first
    box = corner.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    ring = "document.querySelector('[data-ring=\"0.-1\"]')"
    sheet.evaluate(f"(window.kept = {ring}).tagName")
    sheet.mouse.move(x, y)
    sheet.mouse.down()
    seen = set()
    for step in range(1, 31):
        sheet.mouse.move(x - step, y + step)
        sheet.evaluate("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")
        seen.add(sheet.evaluate(f"{ring}.getAttribute('d')"))
    assert len(seen) >= 20
    assert sheet.evaluate(f"window.kept === {ring}")  # moved, not made anew
    assert len(asked) == 1  # one request under way, however far the hand goes
    sheet.keyboard.press("Escape")
    sheet.mouse.up()
    for route in asked:
        route.fulfill(json={"faults": []})


def test_forty_areas_are_a_sheet_of_some_thousand_nodes_and_a_form_is_made_when_it_is_opened(chromium, served):
    job = served.call("POST", "/api/jobs", {"document": benchmark_drag.areas()})["id"]
    context = chromium.new_context(viewport=PHONE)
    page = context.new_page()
    page.goto(f"{served.address}/jobs/{job}#paving")
    page.locator("#strip", has_text="40 areas 360.00 m²").wait_for(timeout=120_000)
    assert page.locator("#strip span").count() <= 4  # their sum, not forty lines over the plan
    assert page.evaluate("document.querySelectorAll('*').length") < 8000
    part = page.locator("details", has=page.locator("summary", has_text="Area 7: use and edges")).last
    assert part.locator("input, select").count() == 0
    part.locator("summary").click()
    part.locator("input, select").first.wait_for(state="attached")
    context.close()
