"""The price stage quotes a job, shows that it keeps its prices, and what those of today would change."""

from __future__ import annotations

import pytest
from kept import wait_kept
from hand import PHONE
from playwright.sync_api import expect
from served import Served

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def own(tmp_path_factory):
    """A server of its own: what stands in its book changes the prices of every job."""
    server = Served(tmp_path_factory.mktemp("quoted") / "jobs.sqlite")
    yield server
    server.stop()


def _book(own, labour: int) -> None:
    """Keep the prices of the demo in the book, with an hour at this price."""
    demo = own.call("GET", f"/api/jobs/{own.demo}")["document"]
    rates = {**demo["rates"], "labour_minor_per_hour": labour}
    document = {"format": "pavewright.firm", "version": 1, "rates": rates, "units": demo["units"]}
    rev = own.call("GET", "/api/firm")["rev"]
    own.call("PUT", "/api/firm", {"rev": rev, "document": document, "note": "prices"})


def _job(own) -> str:
    """Make a job that leaves its prices to the book, and return its id."""
    document = own.call("GET", f"/api/jobs/{own.demo}")["document"]
    document["identity"]["title"] = "Priced by the book"
    document["rates"] = {"plant": [{"key": one["key"], "name": one["name"]} for one in document["rates"]["plant"]]}
    for unit in document["units"]:
        unit.pop("pack_price_minor", None)
    return own.call("POST", "/api/jobs", {"document": document})["id"]


def _opened(page):
    part = page.locator("details").filter(has=page.locator("summary", has_text="Quotation")).last
    expect(part).to_be_attached(timeout=60_000)
    if not part.evaluate("one => one.open"):
        part.locator("summary").first.click()
    return part


def test_a_quoted_job_keeps_its_prices_and_shows_what_re_pricing_changes(own, page):
    _book(own, 2850)
    job = _job(own)
    page.goto(f"{own.address}/jobs/{job}#price")
    part = _opened(page)
    part.locator("[name=quoted_on]").fill("2027-04-01")
    part.get_by_role("button", name="Quote with the prices of today").click()
    expect(page.get_by_text("Quoted on 1 April 2027 as revision")).to_be_visible(timeout=60_000)
    _book(own, 3050)
    page.reload()
    part = _opened(page)
    part.get_by_role("button", name="Show what the prices of today change").click()
    row = part.get_by_role("row").filter(has_text="Bed and lay, Terrace")
    expect(row).to_contain_text("£28.50", timeout=60_000)
    expect(row).to_contain_text("£30.50")
    kept = wait_kept(page, own, job, lambda document: document["quoted"])
    assert kept["quoted"]["rates"]["labour_minor_per_hour"] == 2850
    assert "labour_minor_per_hour" not in kept["rates"]
    part.get_by_role("button", name="Forget the quotation").click()
    expect(page.get_by_text("Not quoted yet")).to_be_visible(timeout=60_000)


def test_the_quotation_fits_a_phone(own, chromium):
    context = chromium.new_context(**PHONE)
    phone = context.new_page()
    phone.goto(f"{own.address}/jobs/{_job(own)}#price")
    _opened(phone)
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["viewport"]["width"]
    context.close()
