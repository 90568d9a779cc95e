"""The price stage records an acceptance, enters a variation, undoes it in one step, and bills what was agreed."""

from __future__ import annotations

import os

import pytest
from kept import wait_kept
from hand import PHONE
from playwright.sync_api import expect
from served import Served

pytestmark = pytest.mark.browser
_SHOTS = os.environ.get("PAVEWRIGHT_SHOTS", "")


@pytest.fixture(scope="module")
def own(tmp_path_factory):
    """A server of its own: the demo is changed."""
    server = Served(tmp_path_factory.mktemp("account") / "jobs.sqlite")
    yield server
    server.stop()


def _part(page):
    part = page.locator("details").filter(has=page.locator("summary", has_text="Agreed: variations, bills")).last
    expect(part).to_be_attached(timeout=60_000)
    if not part.evaluate("one => one.open"):
        part.locator("summary").first.click()
    return part


def _shot(page, name):
    if _SHOTS:
        page.screenshot(path=f"{_SHOTS}/{name}.png", full_page=True)


def test_a_job_is_accepted_varied_and_billed_on_a_phone(own, chromium):
    page = chromium.new_context(**PHONE).new_page()
    job = own.demo
    page.goto(f"{own.address}/jobs/{job}#price")
    part = _part(page)
    part.get_by_role("button", name="Record the acceptance").click()
    page.locator("dialog input[type=date]").fill("2027-03-20")
    page.get_by_role("button", name="Record it").click()
    agreed = wait_kept(page, own, job, lambda document: document["accepted"])["accepted"]
    assert agreed["stored_revision"] == 1
    part = _part(page)
    expect(part.get_by_text("Accepted by")).to_be_visible(timeout=60_000)
    part.get_by_role("button", name="Dig deeper").click()
    page.locator("dialog input[type=number]").fill("120")
    _shot(page, "dig-deeper")
    page.get_by_role("button", name="Plan it, and enter it").click()
    slip = wait_kept(page, own, job, lambda document: document["variations"])["variations"][0]
    assert {"kind": "dig_depth"}.items() <= slip["measures"][0].items()
    assert slip["measures"][0]["after"] - slip["measures"][0]["before"] == 120.0
    part = _part(page)
    part.get_by_role("button", name="Variation 1 is signed").click()
    page.get_by_role("button", name="Record it").click()
    wait_kept(page, own, job, lambda document: document["variations"][0]["state"] == "approved")
    part = _part(page)
    part.get_by_role("button", name="Bill: deposit").click()
    page.get_by_role("button", name="Make the bill").click()
    wait_kept(page, own, job, lambda document: document["bills"])
    part = _part(page)
    expect(part.get_by_text("Owing with it").first).to_be_attached(timeout=60_000)
    _shot(page, "account-phone")
    assert part.evaluate("one => one.scrollWidth <= document.documentElement.clientWidth")
    small = part.locator("button:visible").evaluate_all("all => all.filter((one) => one.offsetHeight < 44).length")
    assert small == 0


def test_a_deeper_dig_is_undone_in_one_step(own, page):
    job = own.call("POST", "/api/jobs", {"start_from": "demo", "key": "undone"})["id"]
    page.goto(f"{own.address}/jobs/{job}#price")
    part = _part(page)
    part.get_by_role("button", name="Record the acceptance").click()
    page.get_by_role("button", name="Record it").click()
    before = wait_kept(page, own, job, lambda document: document["accepted"])
    part = _part(page)
    expect(part.get_by_role("button", name="Dig deeper")).to_be_visible(timeout=60_000)
    part.get_by_role("button", name="Dig deeper").click()
    page.get_by_role("button", name="Plan it, and enter it").click()
    wait_kept(page, own, job, lambda document: document["variations"])
    _part(page)
    _shot(page, "account-laptop")
    page.get_by_role("button", name="Undo").first.click()
    after = wait_kept(page, own, job, lambda document: not document.get("variations"))
    assert {name: part for name, part in after.items() if part} == {name: part for name, part in before.items() if part}
