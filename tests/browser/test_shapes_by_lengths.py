"""Shapes drawn by typing lengths one after another, by the keyboard alone."""

from __future__ import annotations

import pytest
from kept import document_of, wait_kept
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


def opened(page, served, title):
    job = served.call("POST", "/api/jobs", {"title": title})["id"]
    page.goto(f"{served.address}/jobs/{job}#measure")
    page.locator("#panel details").first.wait_for()
    return job


def test_an_empty_job_offers_first_to_type_its_lengths(page, served):
    job = opened(page, served, "Typed rectangle")
    page.get_by_role("button", name="Type the lengths").focus()
    page.keyboard.press("Enter")
    page.keyboard.type("6000")
    page.keyboard.press("Tab")
    page.keyboard.type("4.0 m")
    page.keyboard.press("Enter")
    kept = wait_kept(page, served, job, lambda document: document["areas"])
    assert kept["measurements"].get("points", []) == []  # a typed side is a tape, no invented coordinate
    assert [(tape["start"], tape["end"], tape["length_mm"]) for tape in kept["measurements"]["tape_plan"]["tapes"]] == [
        ("A", "B", 6000.0),
        ("B", "C", 4000.0),
    ]
    assert len(kept["measurements"]["tape_plan"]["square_corners"]) == 3
    expect(page.locator("#strip")).to_contain_text("Area 1 24.00 m²", timeout=30_000)
    expect(page.get_by_role("button", name="Type the lengths")).to_have_count(0)


def test_an_l_is_typed_with_arrows_a_wall_and_its_level(page, served):
    job = opened(page, served, "Typed L")
    page.get_by_role("button", name="+ Area", exact=True).click()
    for text, arrow in (("6000", None), ("4000", None), ("2500", None), ("1500", "ArrowDown"), ("3500", "ArrowLeft")):
        if arrow:
            page.keyboard.press(arrow)
        page.keyboard.type(text)
        if text == "6000":
            page.keyboard.press("w")
            page.keyboard.press("Tab")
            page.keyboard.type("10150 mm")
        page.keyboard.press("Tab")
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Enter")
    kept = wait_kept(page, served, job, lambda document: document["areas"])
    assert kept["site"]["walls"][0]["dpc_level_mm"] == 10150.0
    assert len(kept["areas"][0]["outline"]) == 6
    expect(page.locator("#strip")).to_contain_text("18.75 m²", timeout=30_000)  # 6.0 × 2.5 and 2.5 × 1.5


def test_an_unclear_side_is_asked_and_escape_leaves_nothing_behind(page, served):
    job = opened(page, served, "Typed and left")
    page.get_by_role("button", name="+ Area", exact=True).click()
    page.keyboard.type("6.0")
    page.keyboard.press("Enter")
    page.get_by_role("button", name="6.0 m = 6000 mm").wait_for()
    page.keyboard.press("Escape")
    page.keyboard.press("Escape")
    expect(page.locator(".sides-typed")).to_have_count(1)
    assert not page.locator(".sides-typed").is_visible()
    page.wait_for_timeout(500)
    page.locator("#saved", has_text="kept").wait_for()
    assert document_of(served, job)["areas"] == []
