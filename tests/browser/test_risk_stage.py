"""The risk of a price on the screen: it is that of the prices that the page shows, or it is not shown."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect
from served import Served

pytestmark = pytest.mark.browser
WORKED_OUT_ms = 240_000  # hundreds of prices are drawn: on a busy machine that takes its time, and says so


@pytest.fixture(scope="module")
def own(tmp_path_factory):
    """A server of its own: what stands in its book changes the prices of every job."""
    server = Served(tmp_path_factory.mktemp("risk") / "jobs.sqlite")
    yield server
    server.stop()


def sell_cement_at(served, minor):
    """Change the price of cement in the book."""
    there = served.call("GET", "/api/firm")
    cement = {"key": "cement", "pack_amount": 25, "pack_unit": "kg", "pack_price_minor": minor}
    document = {**there["document"], "rates": {"materials": [cement]}}
    served.call("PUT", "/api/firm", {"rev": there["rev"], "document": document, "note": "a price"})


def document_of(served, job):
    """Return the document of a job."""
    return served.call("GET", f"/api/jobs/{job}")["document"]


def without_cement(served):
    """Make a job like the demo that leaves the price of cement to the book, and return its id."""
    document = document_of(served, served.demo)
    document["identity"] |= {"title": "Cement by the book", "invented": False}
    for each in document["rates"]["materials"]:
        if each["key"] == "cement":
            del each["pack_price_minor"]
    return served.call("POST", "/api/jobs", {"document": document})["id"]


def test_a_risk_found_with_other_prices_is_not_shown_as_that_of_this_plan(own, page):
    sell_cement_at(own, 700)
    job = without_cement(own)
    page.goto(f"{own.address}/jobs/{job}#price")
    page.get_by_text("What the price risks").click(timeout=60_000)
    work_out, found = (
        page.get_by_role("button", name="Work out the risk"),
        page.get_by_text("Price of the plan", exact=True),
    )
    work_out.click()
    expect(found).to_be_visible(timeout=WORKED_OUT_ms)
    expect(page.get_by_text("What has no price comes on top", exact=False)).to_be_visible()
    gaps = own.call("POST", "/api/plan?parts=cost", document_of(own, job))["plan"]["cost"]["gaps"]
    unpriced = sum(not each["ours"] for each in gaps)
    strip = page.get_by_text(f" with VAT, {unpriced} not priced" if unpriced else " with VAT", exact=False)
    expect(strip.first).to_be_visible()
    sell_cement_at(own, 1700)  # this page is planned with the old price still
    work_out.click()
    expect(page.get_by_text("Prices have changed since this plan was made")).to_be_visible(timeout=WORKED_OUT_ms)
