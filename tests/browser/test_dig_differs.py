"""The dig differs on the working screen: one dialog, one step, what it adds, a slip, and undo."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from kept import wait_kept
from playwright.sync_api import expect

from pavewright.desk import AccountStep, account_step
from pavewright.job.operations import apply

pytestmark = pytest.mark.browser

DRIVE = json.loads((Path(__file__).parents[2] / "examples" / "front_drive.json").read_text("utf-8"))
SIZES = {"phone": (390, 844), "laptop": (1366, 768)}


def accepted():
    asked = {"on": "2027-05-06", "by": "A. Customer"}
    return apply(DRIVE, account_step(json.dumps(DRIVE), AccountStep.ACCEPT, asked)).document


@pytest.mark.parametrize("size", sorted(SIZES))
def test_a_find_is_entered_compared_and_undone(chromium, served, tmp_path, size):
    number = served.call("POST", "/api/jobs", {"document": accepted()})["id"]
    width, height = SIZES[size]
    opened = chromium.new_context(viewport={"width": width, "height": height})
    page = opened.new_page()
    page.goto(f"{served.address}/jobs/{number}#ground")
    part = page.locator("details").filter(has=page.locator("summary", has_text="The dig differs")).last
    expect(part).to_be_attached(timeout=90_000)
    expect(page.locator("summary", has_text="Hold points:")).to_be_attached(timeout=90_000)
    if not part.evaluate("one => one.open"):
        part.locator("summary").first.click()
    part.get_by_role("button", name="The dig differs").click()
    page.get_by_label("How much of the ground, m²").fill("6")
    page.screenshot(path=tmp_path / f"dialog-{size}.png")
    page.get_by_role("button", name="Plan it, and enter it").click()
    expect(page.locator("body")).to_contain_text("What Soft spot adds", timeout=60_000)
    expect(page.locator("body")).to_contain_text("It stands as variation 1")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.get_by_text("What Soft spot adds").scroll_into_view_if_needed()
    page.screenshot(path=tmp_path / f"added-{size}.png")
    document = wait_kept(page, served, number, lambda kept: kept.get("dig_found"))
    assert [each["name"] for each in document["dig_found"]] == ["Soft spot"]
    assert [each["name"] for each in document["variations"]] == ["Soft spot"]
    page.get_by_role("button", name="Undo").first.click()
    expect(page.get_by_role("button", name="Take Soft spot out of the job")).to_have_count(0, timeout=30_000)
    document = wait_kept(page, served, number, lambda kept: not kept.get("dig_found"))
    assert not document.get("dig_found")
    assert not document.get("variations")
    opened.close()
