"""Find better: a search is begun, stopped with the best so far, one proposal is tried and undone in one step."""

from __future__ import annotations

import pytest
from kept import wait_kept
from playwright.sync_api import expect

pytestmark = pytest.mark.browser
LONG_MS = 120_000


def test_a_search_is_stopped_and_one_of_what_it_found_is_tried_and_undone(page, served):
    job = served.patio("Find better")
    page.goto(f"{served.address}/jobs/{job}#paving")
    page.locator("#panel summary", has_text="Find better").click(timeout=LONG_MS)
    page.get_by_role("button", name="Find better").click()
    table = page.get_by_role("region", name="Better ways")
    expect(table.locator("tbody tr").nth(1)).to_be_visible(timeout=LONG_MS)
    stop = page.get_by_role("button", name="Stop", exact=True)
    if stop.is_visible():
        stop.click()
        expect(page.get_by_role("button", name="Find better")).to_be_visible(timeout=LONG_MS)
    expect(page.locator(".better-why")).not_to_be_empty()
    before = served.call("GET", f"/api/jobs/{job}")["document"]
    table.get_by_role("button", name="Try").first.click()
    expect(table.get_by_text("✓ taken")).to_be_visible(timeout=LONG_MS)
    wait_kept(page, served, job, lambda document: document != before)
    page.keyboard.press("Control+z")
    wait_kept(page, served, job, lambda document: document["areas"] == before["areas"])
