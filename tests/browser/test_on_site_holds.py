"""Hold points and finds with a phone: read offline, told at once, kept, sent as changes of the job."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from kept import TOUCHED, wait_kept
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

PHONE = {"viewport": {"width": 390, "height": 844}, "is_mobile": True, "has_touch": True}
DRIVE = json.loads((Path(__file__).parents[2] / "examples" / "front_drive.json").read_text("utf-8"))


@pytest.fixture
def job(served):
    number = served.call("POST", "/api/jobs", {"document": DRIVE})["id"]
    served.call("GET", f"/api/jobs/{number}/site-plan")
    return number


@pytest.fixture
def phone(chromium):
    faults = []
    opened = chromium.new_context(**PHONE)
    opened.on("weberror", lambda problem: faults.append(str(problem.error)))
    yield opened
    opened.close()
    assert faults == []


def at_holds(phone, served, job):
    page = phone.new_page()
    page.goto(f"{served.address}/jobs/{job}/site#holds")
    page.get_by_role("button", name="The dig differs").wait_for(timeout=90_000)
    return page


def press(page, keys):
    for key in keys:
        page.locator(".pad-keys").get_by_text(key, exact=True).click()


def no_wider(page):
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert page.evaluate("[...document.querySelectorAll('#panel button')].every((one) => one.offsetHeight >= 48)")


def test_formation_is_read_from_the_string_without_signal_and_told_at_once(phone, served, job, tmp_path):
    page = at_holds(phone, served, job)
    expect(page.locator("#panel")).to_contain_text("0 of 5 hold points passed")
    phone.set_offline(True)
    down = int(page.locator("#panel .ask b").inner_text().split()[0].replace(",", ""))
    press(page, str(down + 12))
    page.get_by_role("button", name="Save reading").click()
    expect(page.locator("#panel")).to_contain_text("1 of 12 places read")
    expect(page.locator("#panel")).to_contain_text("Low: 0.42 m³ more")
    expect(page.locator("#panel")).to_contain_text("of own cost")
    no_wider(page)
    page.screenshot(path=tmp_path / "formation.png")
    phone.set_offline(False)
    page.evaluate("dispatchEvent(new Event('online'))")
    expect(page.locator("#unsent")).to_contain_text("all sent", timeout=30_000)
    (check,) = wait_kept(page, served, job, lambda document: document["hold_checks"])["hold_checks"]
    assert check["kind"] == "formation"
    assert len(check["readings"]) == 1


def test_a_soft_spot_is_a_change_of_the_job_and_is_taken_back(phone, served, job, tmp_path):
    page = at_holds(phone, served, job)
    page.get_by_role("button", name="The dig differs").click()
    page.get_by_label("Length, m").fill("2")
    page.get_by_label("Width, m").fill("1.5")
    page.get_by_role("button", name="Next").click()
    press(page, "300")
    # from the touch on it is not said that all is sent: the phone may be slow to write
    assert page.get_by_role("button", name="Save it").evaluate(TOUCHED) == "… saving"
    expect(page.locator("#panel")).to_contain_text("Soft spot, Drive: 0.90 m³")
    expect(page.locator("#panel")).to_contain_text("of own cost, before margin")
    no_wider(page)
    page.screenshot(path=tmp_path / "found.png")
    expect(page.locator("#unsent")).to_contain_text("all sent", timeout=30_000)
    (find,) = wait_kept(page, served, job, lambda document: document["dig_found"])["dig_found"]
    assert (find["kind"], find["area_m2"], find["depth_mm"]) == ("soft_spot", 3, 300)
    assert page.get_by_role("button", name="Take back").evaluate(TOUCHED) == "… saving"
    expect(page.locator("#unsent")).to_contain_text("all sent", timeout=30_000)
    wait_kept(page, served, job, lambda document: not document.get("dig_found"))


def test_a_drain_is_read_and_tested(phone, served, job, tmp_path):
    page = at_holds(phone, served, job)
    page.get_by_label("Hold point").select_option("drain.1")
    page.get_by_label("Invert at the head, m").fill("19.5")
    page.get_by_label("Invert at the foot, m").fill("19.4")
    page.get_by_label("Length of pipe, m").fill("4")
    page.get_by_role("button", name="Save the fall").click()
    expect(page.locator("#panel")).to_contain_text("Fall 1 in 40: enough")
    page.get_by_label("The gauge fell by, mm").fill("40")
    page.get_by_role("button", name="Save the test").click()
    expect(page.locator("#panel")).to_contain_text("✕ fail")
    page.get_by_label("The gauge fell by, mm").fill("10")
    page.get_by_role("button", name="Save the test").click()
    expect(page.locator("#panel .verdict")).to_contain_text("✓ pass")
    no_wider(page)
    page.screenshot(path=tmp_path / "drain.png")
    expect(page.locator("#unsent")).to_contain_text("all sent", timeout=30_000)
    wait_kept(page, served, job, lambda document: [one["test"]["drop_mm"] for one in document["hold_checks"]] == [10])


def test_a_string_that_hangs_otherwise_is_read_from_where_it_hangs(phone, served):
    plain = served.call("POST", "/api/jobs", {"document": DRIVE})["id"]
    holds = served.call("GET", f"/api/jobs/{plain}/site-plan")["view"]["parts"]["holds"]["holds"]
    place = holds[0]["places"][0]
    x, y = place["at"]
    hung = {
        "peg": place["label"], "x_mm": x, "y_mm": y, "level_mm": place["planned_mm"] + place["down_mm"] - 30.0,
    }  # fmt: skip
    number = served.call("POST", "/api/jobs", {"document": DRIVE | {"strings_set": [hung]}})["id"]
    page = at_holds(phone, served, number)
    expect(page.locator("#panel .ask b")).to_have_text(f"{place['down_mm'] - 30:.0f} mm")
    press(page, f"{place['down_mm'] - 30 + 10:.0f}")
    page.get_by_role("button", name="Save reading").click()
    expect(page.locator("#panel .verdict")).to_contain_text("10 mm low")
    expect(page.locator("#panel")).to_contain_text("How high the string hangs at Peg 4 was not read")
