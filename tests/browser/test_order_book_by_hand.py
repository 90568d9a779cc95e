"""The order book by hand: a state that is set, a kept view that is chosen again, and the next hundred jobs."""

from __future__ import annotations

import json

import pytest
from served import Served

from pavewright.store import open_file

pytestmark = pytest.mark.browser

MANY = 130


def book(state, number):
    return {
        "state": state, "by_hand": False, "facts": {"measured": True}, "place": "Ashford Green", "people": [],
        "holds_until": None, "owing_minor": 0, "total_minor": None, "currency": "GBP", "stage": 1, "stops": 0,
        "dues": [], "weeks": [], "gaps": [], "number": number,
    }  # fmt: skip


@pytest.fixture(scope="module")
def many(tmp_path_factory):
    """A server of its own over a file that holds more jobs than a page shows."""
    path = tmp_path_factory.mktemp("many") / "jobs.sqlite"
    store = open_file(path)
    for number in range(MANY):
        title = f"Path {number:03}"
        kept = store.add(json.dumps({"identity": {"title": title, "address": "1 Mill Lane, Ashford Green"}}))
        line = book("visit", number)
        line.pop("number")
        store.keep_summary(kept.id, kept.rev, json.dumps({"stage": "measure", "next": "Measure."}), line)
    store.close()
    server = Served(path)
    yield server
    server.stop()


def test_the_next_hundred_jobs_go_on_below(chromium, many):
    context = chromium.new_context(viewport={"width": 1440, "height": 900})
    try:
        page = context.new_page()
        page.goto(many.address)
        page.locator("#where", has_text=f"100 of {MANY + 1}").wait_for()
        assert page.locator(".job-card").count() == 100
        first = page.locator(".job-card h2 a").all_inner_texts()
        page.get_by_role("button", name=f"Show {MANY + 1 - 100} more").click()
        page.locator("#turn").wait_for(state="hidden")
        names = page.locator(".job-card h2 a").all_inner_texts()
        assert len(names) == len(set(names)) == MANY + 1
        assert set(first) < set(names)
    finally:
        context.close()


def test_a_state_is_set_by_hand_and_a_kept_view_finds_it_again(chromium, many):
    context = chromium.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    try:
        many.patio("Yard to set")
        page = context.new_page()
        page.goto(many.address)
        page.locator("#words").fill("Yard to set")
        card = page.locator(".job-card")
        card.get_by_role("link", name="Yard to set").wait_for()
        page.wait_for_function("() => document.querySelectorAll('.job-card').length === 1")
        job = card.locator("h2 a").get_attribute("data-key")
        card.get_by_role("button", name="State: ").tap()
        page.locator("dialog select").nth(0).select_option("lost")
        page.locator("dialog select").nth(1).select_option("price")
        page.get_by_role("button", name="Set", exact=True).tap()
        page.get_by_role("button", name="State: Lost").wait_for()
        assert "by hand" in card.get_by_role("button", name="State: Lost").inner_text()
        hand = many.call("GET", f"/api/jobs/{job}")["document"]["standing"]["by_hand"]
        assert (hand["state"], hand["why"]) == ("lost", "price")

        page.locator("#words").fill("")
        page.locator("#states").get_by_role("button", name="Lost 1").tap()
        page.wait_for_function("() => document.querySelectorAll('.job-card').length === 1")
        page.get_by_role("button", name="Keep this view").tap()
        page.get_by_label("Its name").fill("Not ours")
        page.get_by_role("button", name="Keep", exact=True).tap()
        page.locator("#view option", has_text="Not ours").wait_for(state="attached")

        page.goto(many.address)
        page.locator("#where", has_text="100 of").wait_for()
        page.get_by_label("View", exact=True).select_option(label="Not ours")
        page.wait_for_function("() => document.querySelectorAll('.job-card').length === 1")
        card.get_by_role("link", name="Yard to set").wait_for()
        chosen = page.locator("#states").get_by_role("button", name="Lost 1")
        assert chosen.get_attribute("aria-pressed") == "true"
    finally:
        context.close()
