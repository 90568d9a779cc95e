"""Prices of the walk: those of the newest job of one's own are taken with one touch, those of an example never."""

from __future__ import annotations

import pytest
from kept import wait_kept
from hand import PHONE, Hand
from playwright.sync_api import expect
from served import Served

pytestmark = pytest.mark.browser

UNIT = {"name": "Slab", "length_mm": 600.0, "width_mm": 600.0, "thickness_mm": 40.0, "kg_each": 33.0, "per_pack": 20}


def job(served, title, **parts):
    """A job of one's own with a patio of one unit."""
    made = served.call("POST", "/api/jobs", {"title": title})["id"]
    got = served.call("GET", f"/api/jobs/{made}")
    document = got["document"]
    document["measurements"]["points"] = [
        {"name": name, "x_mm": x, "y_mm": y} for name, x, y in (("A", 0, 0), ("B", 6000, 0), ("C", 6000, 4000))
    ]
    document["areas"] = [{"name": "Patio", "outline": [{"point": name} for name in "ABC"], "laying": {"unit": "Slab"}}]
    document["units"] = [UNIT]
    served.call("PUT", f"/api/jobs/{made}", {"rev": got["rev"], "document": document | parts, "note": "a patio"})
    return made


@pytest.fixture
def alone(tmp_path):
    """A server of its own: what others keep there would be a last job too."""
    server = Served(tmp_path / "jobs.sqlite")
    yield server
    server.stop()


def test_prices_of_my_last_job_are_taken_and_those_of_the_example_are_not_offered(chromium, alone):
    served = alone
    walked = job(served, "Walked")
    page = chromium.new_context(**PHONE).new_page()
    hand = Hand(page)
    page.goto(f"{served.address}/jobs/{walked}/walk#price")
    expect(page.locator("#panel .question")).to_have_text("What does one person cost for an hour?", timeout=60_000)
    page.wait_for_timeout(1500)
    assert page.get_by_role("button", name="Take the prices of").count() == 0  # the demo is an example
    rates = {"labour_minor_per_hour": 3100, "overhead_percent": 11.0, "margin_percent": 14.0, "tax_percent": 20.0}
    job(served, "Mine before", rates=rates, crew={"people": 3})
    page.reload()
    hand.touch("Take the prices of Mine before")
    expect(page.locator("#panel .question")).not_to_have_text("What does one person cost for an hour?")
    expect(page.locator("#unsent")).to_have_text("✓ sent", timeout=60_000)
    document = wait_kept(page, served, walked, lambda kept: kept["crew"]["people"] == 3)
    assert document["rates"] | rates == document["rates"]
    page.context.close()
