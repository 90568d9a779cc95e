"""The first visit: from an empty store to a quotation, on a phone, without signal but for the first page."""

from __future__ import annotations

import math
import sys

import pytest
from hand import PHONE, Hand
from playwright.sync_api import expect
from served import Served
from visit_measured import TRUE, measured
from visit_seen import in_the_ground, in_the_wall, priced, round_the_house

pytestmark = pytest.mark.browser

ACTIONS_MAX = 60
NUMBERS_MAX = 25


@pytest.fixture(scope="module")
def empty(tmp_path_factory):
    """A server that holds no job."""
    server = Served(tmp_path_factory.mktemp("empty") / "jobs.sqlite")
    server.call("POST", f"/api/jobs/{server.demo}/archived", {"archived": True})
    yield server
    server.stop()


@pytest.fixture
def hand(chromium, empty):
    """A hand on a phone that fails the test when the page does."""
    context = chromium.new_context(**PHONE)
    page = context.new_page()
    page.set_default_timeout(60_000)
    faults = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.goto(empty.address)
    yield Hand(page)
    context.close()
    assert faults == []


def begin(hand):
    """Begin a job from the list; returns its name on the server."""
    page = hand.page
    hand.at(page.locator(".begin .main").or_(page.locator("#new")).first, "New job")
    page.wait_for_url("**/walk*")
    page.locator("#panel[data-kept]").wait_for(timeout=60_000)
    return page.url.split("/")[4]


def test_the_shape_and_its_heights_are_measured_without_signal(hand, empty):
    job = begin(hand)
    page = hand.page
    page.context.set_offline(True)
    page.reload()  # the page and what it knows come from the phone
    page.locator("#panel .question").wait_for()
    measured(hand)
    sys.stdout.write(f"\n{hand.told()}\n")
    assert hand.actions <= 16
    assert hand.numbers == 0
    assert hand.readings == 8 + 11
    before = empty.call("GET", f"/api/jobs/{job}")
    assert before["document"].get("areas", []) == []
    page.context.set_offline(False)
    page.evaluate("window.dispatchEvent(new Event('online'))")
    expect(page.locator("#unsent")).to_have_text("✓ sent", timeout=60_000)
    document = empty.call("GET", f"/api/jobs/{job}")["document"]
    assert len(document["measurements"]["tape_plan"]["tapes"]) == 8
    assert [wall["kind"] for wall in document["site"]["walls"]] == ["house"]
    planned = empty.call("POST", "/api/plan", document)["plan"]
    found = {point["name"]: (point["x_mm"], point["y_mm"]) for point in planned["survey"]["points"]}
    for one in TRUE:
        for other in TRUE:
            assert math.dist(found[one], found[other]) == pytest.approx(math.dist(TRUE[one], TRUE[other]), abs=2.0)
    levels = {point["name"]: point["level_mm"] for point in planned["survey"]["points"]}
    assert levels["G"] == pytest.approx(9780.0, abs=2.0)


def test_a_whole_first_visit_from_an_empty_store_to_a_quotation(hand, empty):
    """12 tapes, 15 staff readings, and everything else by touch: counted, and without signal but for first and last."""
    job = begin(hand)
    page = hand.page
    page.context.set_offline(True)
    places = measured(hand)
    in_the_wall(hand)
    in_the_ground(hand, places)
    round_the_house(hand)
    priced(hand)
    page.context.set_offline(False)
    page.evaluate("window.dispatchEvent(new Event('online'))")
    hand.touch("At the customer's home")
    hand.touch("Make the quotation")
    paper = page.get_by_role("link", name="Open the quotation")
    paper.wait_for(timeout=300_000)
    sys.stdout.write(f"\n{hand.told()}\n{page.locator('#panel').inner_text()}\n")
    assert hand.readings == 12 + 15
    assert hand.actions <= ACTIONS_MAX
    assert hand.numbers <= NUMBERS_MAX
    answer = page.request.get(f"{empty.address}{paper.get_attribute('href')}")
    assert answer.ok
    assert answer.body().startswith(b"%PDF")
    notice = page.get_by_role("link", name="Open the notice on cancelling").get_attribute("href")
    assert page.request.get(f"{empty.address}{notice}").body().startswith(b"%PDF")
    expect(page.locator("#unsent")).to_have_text("✓ sent", timeout=60_000)
    document = empty.call("GET", f"/api/jobs/{job}")["document"]
    assert sum(len(book["rows"]) for book in document["measurements"]["level_books"]) >= 15
    assert document["site"]["ground"] | {"soil": "sandy_clay", "topsoil_mm": 150} == document["site"]["ground"]
    told = empty.call("POST", "/api/plan", document)
    assert told["plan"]["cost"]["total_minor"] > 0
    (share,) = [each for each in told["plan"]["water"]["shares"] if each["kind"] == "gully"]
    assert share["reaches_m2"] > 0.9 * share["whole_m2"]
