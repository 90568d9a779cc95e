"""The first visit: from an empty store to a quotation, on a phone, without signal but for the first page."""

from __future__ import annotations

import math
import sys

import pytest
from hand import PHONE, Hand
from playwright.sync_api import expect
from served import Served
from visit_measured import TRUE, measured

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
    page.set_default_timeout(10_000)
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
