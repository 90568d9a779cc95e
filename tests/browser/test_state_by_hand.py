"""A state that is set by hand, and a kept view that is chosen again."""

from __future__ import annotations

import pytest
from served import Served

pytestmark = pytest.mark.browser


def test_a_state_is_set_by_hand_and_a_kept_view_finds_it_again(chromium, tmp_path):
    many = Served(tmp_path / "jobs.sqlite")
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
        page.locator(".job-card").nth(1).wait_for()
        page.locator("#view").select_option(label="Not ours")
        page.wait_for_function("() => document.querySelectorAll('.job-card').length === 1")
        card.get_by_role("link", name="Yard to set").wait_for()
        chosen = page.locator("#states").get_by_role("button", name="Lost 1")
        assert chosen.get_attribute("aria-pressed") == "true"
    finally:
        context.close()
        many.stop()
