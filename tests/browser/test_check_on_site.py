"""The check on a phone without signal: a gap, a grating, a hose test and a snag are kept, and sent when it is back."""

from __future__ import annotations

import pytest
from kept import wait_kept
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

PHONE = {"viewport": {"width": 390, "height": 844}, "is_mobile": True, "has_touch": True}


@pytest.fixture
def phone(chromium):
    faults = []
    opened = chromium.new_context(**PHONE)
    opened.on("weberror", lambda problem: faults.append(str(problem.error)))
    yield opened
    opened.close()
    assert faults == []


def press(page, keys):
    for key in keys:
        page.locator(".pad-keys").get_by_text(key, exact=True).click()


def tab(page, name):
    page.get_by_role("button", name=name, exact=True).click()


def test_what_is_checked_without_signal_reaches_the_job(phone, served):
    job = served.call("POST", "/api/jobs", {"start_from": "demo"})["id"]
    page = phone.new_page()
    page.goto(f"{served.address}/jobs/{job}/site")
    page.locator("#panel .start, #panel .row-tabs").first.wait_for(timeout=90_000)
    page.locator("#tabs").get_by_text("Check").click()
    tab(page, "Water")
    expect(page.locator("#panel")).to_contain_text("Terrace: not decided", timeout=90_000)
    expect(page.get_by_role("button", name="N1: decides")).to_be_visible()
    phone.set_offline(True)
    tab(page, "Edge, step")
    press(page, "5")
    page.locator(".pad-keep").click()
    expect(page.locator(".verdict")).to_contain_text("✕ Fail: G1, 5.0 mm")
    tab(page, "Water")
    tab(page, "Gratings")
    page.get_by_role("button", name="Paving below it").click()
    press(page, "3")
    page.locator(".pad-keep").click()
    expect(page.locator(".verdict")).to_contain_text("✕ Fail: Fence channel, 3.0 mm below")
    tab(page, "Hose test")
    page.get_by_text("The whole area was wetted").click()
    tab(page, "Begin")
    page.get_by_role("button", name="I looked at all of it").click()
    expect(page.get_by_role("button", name="Looked at all of it")).to_have_attribute("aria-pressed", "true")
    tab(page, "Snags")
    tab(page, "Add a snag")
    page.get_by_label("In a few words").fill("dip at the corner")
    page.get_by_label("Who sees to it").fill("second gang")
    tab(page, "Save it")
    expect(page.locator(".glance")).to_contain_text("1 open of 1")
    expect(page.locator("#panel")).to_contain_text("second gang, no day agreed")
    expect(page.locator("#unsent")).to_contain_text("5 unsent")
    phone.set_offline(False)
    page.reload()
    expect(page.locator("#unsent")).to_have_text("✓ all sent", timeout=60_000)
    kept = wait_kept(page, served, job, lambda document: document["snags"])
    assert [(one["name"], one["gap_mm"], one["edge_mm"]) for one in kept["as_laid"]["gaps"]] == [("G1", 5, 3000)]
    assert [(one["drain"], one["above_mm"]) for one in kept["drain_marks"]] == [("Fence channel", -3)]
    (hose,) = kept["hose_tests"]
    assert (hose["all_wet"], hose["all_seen"], hose["after_min"]) == (True, True, 30)
    (snag,) = kept["snags"]
    assert (snag["kind"], snag["owner"], snag["area"]) == ("standing_water", "second gang", "Terrace")


def test_the_verdict_counts_standing_water_and_stays_without_signal(phone, served):
    job = served.call("POST", "/api/jobs", {"start_from": "demo"})["id"]
    page = phone.new_page()
    page.goto(f"{served.address}/jobs/{job}/site#check")
    page.locator("#tabs").get_by_text("Check").click(timeout=90_000)
    tab(page, "As laid")
    together = page.locator("details", has=page.get_by_text("Together:"))
    expect(together).to_contain_text("Terrace ✕ Fail", timeout=90_000)
    expect(together).to_contain_text("pond that may stand, not decided", timeout=90_000)
    together.locator("summary").click()
    expect(together).to_contain_text("level off the plan")
    phone.set_offline(True)
    tab(page, "Water")
    expect(page.locator("#panel")).to_contain_text("Terrace: not decided")
