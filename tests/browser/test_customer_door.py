"""A customer opens his quotation on a phone: he accepts it with a drawn signature, and reads it without scripts."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest
from hand import PHONE
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

AXE = (files("axe_playwright_python") / "axe.min.js").read_text("utf-8")
RUN = """
(place) => axe.run(document.querySelector(place), {resultTypes: ['violations']}).then((told) => told.violations.map((one) =>
  [one.id, one.nodes.slice(0, 3).map((node) => node.html.slice(0, 160))]))
"""


@pytest.fixture(scope="module")
def job(served):
    """A job of its own with an option; each test makes a link of its own."""
    document = served.call("GET", f"/api/jobs/{served.demo}")["document"]
    document["identity"]["title"] = "Shown to its customer"
    document["terms"]["options"] = [{"name": "Three people", "changes": [{"path": "crew.people", "number": 3}]}]
    return served.call("POST", "/api/jobs", {"document": document})["id"]


def _address(served, job):
    made = served.call("POST", f"/api/jobs/{job}/quotations", {})
    return f"{served.address}/quotation/{made['ways'][0]['address'].rpartition('/')[2]}"


def _sign(page):
    canvas = page.locator("canvas")
    canvas.scroll_into_view_if_needed()
    box = canvas.bounding_box()
    page.mouse.move(box["x"] + 30, box["y"] + 40)
    page.mouse.down()
    for step in range(12):
        page.mouse.move(box["x"] + 30 + 18 * step, box["y"] + 30 + 40 * (step % 2))
    page.mouse.up()


def test_a_quotation_is_read_and_accepted_without_scripts(served, job, chromium):
    context = chromium.new_context(**PHONE, java_script_enabled=False)
    page = context.new_page()
    page.goto(_address(served, job))
    before = page.locator("[data-total]").last.inner_text()
    for words in ("What is done", "At your door", "Not in the price", "What is promised", "Questions"):
        expect(page.get_by_role("heading", name=words)).to_be_visible()
    expect(page.locator("canvas")).to_be_hidden()
    page.get_by_label("Three people").check()
    page.get_by_role("button", name="Show the total").click()
    expect(page.get_by_label("Three people")).to_be_checked()
    assert page.locator("[data-total]").last.inner_text() != before
    page.get_by_label("Your name", exact=True).fill("Ada Example")
    page.get_by_role("button", name="Accept: this is an order").click()
    expect(page.get_by_role("alert")).to_contain_text("Sign: draw your signature, or type your name")
    page.get_by_label("Or type your name").fill("Ada Example")
    page.get_by_label("Three people").uncheck()  # what was not read is not accepted
    page.get_by_role("button", name="Accept: this is an order").click()
    expect(page.get_by_role("alert")).to_contain_text("Look at it, and accept again")
    context.close()


def test_a_quotation_is_accepted_on_a_phone_and_shown_to_the_contractor(served, job, chromium, page):
    context = chromium.new_context(**PHONE)
    phone = context.new_page()
    faults = []
    phone.on("pageerror", lambda error: faults.append(str(error)))
    phone.on("console", lambda message: message.type == "error" and faults.append(message.text))
    phone.goto(_address(served, job))
    before = phone.locator("[data-total]").first.inner_text()
    phone.get_by_label("Three people").check()
    expect(phone.locator("[data-total]").first).to_have_text(re.compile("£"))
    expect(phone.locator("[data-total]").first).not_to_have_text(before)
    total = phone.locator("[data-total]").first.inner_text()
    phone.evaluate(AXE)
    for look in ("dark", "light"):
        phone.emulate_media(color_scheme=look)
        assert phone.evaluate(RUN, "body") == []
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["viewport"]["width"]
    phone.get_by_label("Your name", exact=True).fill("Ada Example")
    _sign(phone)
    phone.get_by_role("button", name="Accept: this is an order").click()
    expect(phone.get_by_role("heading", name="Accepted")).to_be_visible()
    expect(phone.locator("#accepted")).to_contain_text(total)
    expect(phone.locator("#accepted svg path")).to_have_attribute("d", re.compile(r"^M\d+ \d+L"))
    phone.evaluate(AXE)
    assert phone.evaluate(RUN, "body") == []
    digest = phone.locator("#accepted .digest").inner_text()
    assert phone.evaluate("caches.keys().then((names) => names.length)") == 0
    context.close()
    assert faults == []
    page.goto(f"{served.address}/jobs/{job}#papers")
    page.locator("summary", has_text="Quotation on the customer's phone").click(timeout=60_000)
    card = page.locator(".quotation-link", has_text="ACCEPTED")
    expect(card).to_contain_text("by Ada Example")
    expect(card).to_contain_text("Options taken: Three people")
    expect(card).to_contain_text(digest)
    page.evaluate(AXE)
    assert page.evaluate(RUN, "details:has(> .inside > div > .quotation-link)") == []
