"""The ground stage: other build-ups compared, one chosen and undone; compaction and the sections at the edges."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from kept import wait_kept
from hand import PHONE
from playwright.sync_api import expect

pytestmark = pytest.mark.browser
ROOT = Path(__file__).parents[2]
LAPTOP = {"viewport": {"width": 1440, "height": 900}}
LONG_MS = 90_000


def _opened(page, served, example="front_drive"):
    document = json.loads((ROOT / "examples" / f"{example}.json").read_text("utf-8"))
    job = served.call("POST", "/api/jobs", {"document": document})["id"]
    page.goto(f"{served.address}/jobs/{job}#ground")
    page.locator("#panel summary", has_text="Other build-ups").wait_for(timeout=LONG_MS)
    return job


def _compared(page):
    page.locator("#panel summary", has_text="Other build-ups").click()
    page.get_by_role("button", name="Compare build-ups").click()
    table = page.get_by_role("region", name="Build-ups of Drive")
    table.wait_for(timeout=LONG_MS)
    return table


def test_a_build_up_is_chosen_by_keyboard_compared_again_and_undone_in_one(page, served):
    job = _opened(page, served)
    table = _compared(page)
    before = served.call("GET", f"/api/jobs/{job}")["document"]["areas"][0]
    planned = table.locator("tr", has_text="✓ planned")
    expect(planned).to_have_count(1)
    expect(planned).to_contain_text("unbound")
    choose = table.get_by_role("button", name="Choose Drive: bound: mortar bed on a concrete base; plain concrete")
    choose.focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("region", name="Build-ups of Drive").locator("tr", has_text="✓ planned")).to_contain_text(
        "plain concrete of a drive", timeout=LONG_MS
    )
    after = wait_kept(page, served, job, lambda document: document["areas"][0] != before)["areas"][0]
    assert (after["laying"]["bedding"], after["base_rule"]) == ("mortar_on_concrete", "concrete_drive")
    page.keyboard.press("Control+z")
    expect(page.get_by_role("region", name="Build-ups of Drive").locator("tr", has_text="✓ planned")).to_contain_text(
        "unbound", timeout=LONG_MS
    )
    wait_kept(page, served, job, lambda document: document["areas"][0] == before)


def test_a_comparison_is_stopped_and_what_is_refused_says_why(page, served):
    _opened(page, served)
    page.locator("#panel summary", has_text="Other build-ups").click()
    page.get_by_role("button", name="Compare build-ups").click()
    page.locator("#panel").get_by_role("button", name="Stop").click()
    page.get_by_text("Stopped.").wait_for(timeout=30_000)
    page.get_by_role("button", name="Compare build-ups").click()
    refused = page.locator("#panel .finding.stop", has_text="mortar bed on a sub-base")
    expect(refused.first).to_contain_text("STOP", timeout=LONG_MS)


@pytest.mark.parametrize("size", [PHONE, LAPTOP], ids=["phone", "laptop"])
def test_the_build_ups_fit_the_screen_and_a_finger(chromium, served, size):
    context = chromium.new_context(**size)
    page = context.new_page()
    _opened(page, served)
    table = _compared(page)
    why = table.get_by_role("button", name="Why: Drive: unbound", exact=False).first
    why.click()
    expect(table).to_contain_text("What other published rules say")
    expect(table).to_contain_text("What is not known")
    for button in table.get_by_role("button").all():
        assert button.bounding_box()["height"] >= 48.0
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    context.close()


def test_the_ground_says_how_the_sub_base_is_compacted_and_draws_bed_and_haunch(page, served):
    _opened(page, served)
    course = page.get_by_role("region", name="Compaction of Drive")
    expect(course).to_contain_text("not known")
    expect(course).to_contain_text("which plate?")
    page.locator("#panel summary", has_text="Sections at the edges").click()
    page.get_by_role("img", name="Sections at the edges").wait_for(timeout=60_000)
