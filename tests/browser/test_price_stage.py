"""The price stage: the steps to the price, terms typed in, and the cash with its lowest point."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from kept import wait_kept
from hand import PHONE
from playwright.sync_api import expect

pytestmark = pytest.mark.browser
ROOT = Path(__file__).parents[2]
STAGES = [{"event": "deposit", "percent": 20}, {"event": "laid", "percent": 50}, {"event": "complete"}]


def _job(served, terms):
    document = json.loads((ROOT / "examples" / "mixed_patio.json").read_text("utf-8")) | {"terms": terms}
    return served.call("POST", "/api/jobs", {"document": document})["id"], document


def _opened(page, served, job):
    page.goto(f"{served.address}/jobs/{job}#price")
    page.locator("#panel figcaption", has_text="From cost to price").wait_for(timeout=60_000)


def _pence(words):
    return int("".join(sign for sign in words if sign.isdigit()))


def test_the_steps_shown_are_those_of_the_plan(page, served):
    job, document = _job(served, {})
    cost = served.call("POST", "/api/plan", document)["plan"]["cost"]
    _opened(page, served, job)
    shown = page.locator("#panel .chart").first.locator("li")
    said = [row.split("\n") for row in shown.all_inner_texts()]
    values = {row[0].strip(): _pence(row[-1]) for row in said}
    assert values["Cost"] == cost["prime_minor"]
    assert values["Overhead"] == cost["overhead_minor"]
    assert values["Price before tax"] == cost["net_minor"]
    assert values["Price"] == cost["total_minor"]


def test_the_cash_says_what_to_say_first_then_its_lowest_point(page, served):
    job, _ = _job(served, {})
    _opened(page, served, job)
    page.locator("#panel summary", has_text="Payments and cash").click()
    page.get_by_text("The cash of this job is not known yet").wait_for(timeout=30_000)
    page.locator("#panel summary", has_text="Terms: stage payments").click()
    page.get_by_role("button", name="+ stage payment").click()
    page.locator("[data-path='terms.stages.0.event'] select").select_option("complete")
    page.get_by_text("Lowest point:").wait_for(timeout=60_000)
    said = ["complete"]
    wait_kept(page, served, job, lambda kept: [stage["event"] for stage in kept["terms"]["stages"]] == said)


@pytest.mark.parametrize("size", [PHONE, {"viewport": {"width": 1440, "height": 900}}], ids=["phone", "laptop"])
def test_the_cash_fits_the_screen(chromium, served, size):
    job, document = _job(served, {"stages": STAGES, "days_to_pay": 7, "supplier_days": 30, "retention_percent": 5})
    context = chromium.new_context(**size)
    page = context.new_page()
    _opened(page, served, job)
    page.locator("#panel summary", has_text="Payments and cash").click()
    expect(page.locator("#panel figcaption", has_text="Cash of the job")).to_be_visible(timeout=30_000)
    paid = page.locator("#panel table").filter(has_text="Falls due when")
    total = served.call("POST", "/api/plan", document)["plan"]["cost"]["total_minor"]
    *each, together = map(_pence, paid.locator("tbody tr td:last-child").all_inner_texts())
    assert sum(each) == together == total
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    context.close()


def test_a_price_that_is_not_settled_stops_no_crew(page, served):
    document = json.loads((ROOT / "examples" / "mixed_patio.json").read_text("utf-8"))
    document["rates"].pop("overhead_percent")
    stops = [one for one in served.call("POST", "/api/plan", document)["plan"]["findings"] if one["severity"] == "stop"]
    assert [one["code"] for one in stops] == ["cost.percent_not_known"]
    job = served.call("POST", "/api/jobs", {"document": document})["id"]
    page.goto(f"{served.address}/jobs/{job}#papers")
    told = page.locator("#panel .finding.stop[role=alert]")
    expect(told).to_have_count(1, timeout=60_000)
    expect(told).to_contain_text("The papers for the crew can go; no price may be sent before this is settled:")
    expect(told).to_contain_text("Nobody has said what overhead is")
    page.goto(f"{served.address}/jobs/{job}/walk#papers")
    settle = page.locator("summary", has_text="To settle before the price is sent: 1")
    expect(settle).to_be_visible(timeout=60_000)
    assert page.locator("summary", has_text="To settle before laying").count() == 0
