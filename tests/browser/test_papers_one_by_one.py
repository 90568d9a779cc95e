"""The papers of a job, made one by one: looked at page by page, read as plain text, kept; or what is missing first."""

from __future__ import annotations

import io
import json
from importlib.resources import files
from pathlib import Path

import pypdf
import pytest
from hand import PHONE
from playwright.sync_api import expect

pytestmark = pytest.mark.browser
ROOT = Path(__file__).parents[2]
AXE = (files("axe_playwright_python") / "axe.min.js").read_text("utf-8")


@pytest.mark.parametrize("size", [PHONE, {"viewport": {"width": 1440, "height": 900}}], ids=["phone", "laptop"])
def test_a_paper_is_made_looked_at_read_and_kept(chromium, served, size):
    context = chromium.new_context(**size, accept_downloads=True)
    page = context.new_page()
    page.goto(f"{served.address}/jobs/{served.demo}#papers")
    make = page.get_by_role("button", name="Make: Piece numbers, in parts")
    make.focus()
    page.keyboard.press("Enter")
    card = page.locator("li.paper-card", has_text="Piece numbers, in parts")
    first = card.get_by_role("img").first
    first.wait_for(timeout=60_000)
    with page.expect_download() as kept:
        card.get_by_role("link", name="Get piece-numbers.pdf").click()
    pages = pypdf.PdfReader(io.BytesIO(Path(kept.value.path()).read_bytes())).pages
    assert card.get_by_role("img").count() == len(pages)
    first.scroll_into_view_if_needed()
    page.wait_for_function("(one) => one.complete && one.naturalWidth > 900", arg=first.element_handle())
    before = first.bounding_box()["width"]
    card.get_by_role("button", name="Larger").click()
    assert first.bounding_box()["width"] > before
    card.locator("summary", has_text="As plain text").click()
    expect(card.locator("pre")).to_contain_text("Laying plan")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.evaluate(AXE)
    found = page.evaluate("axe.run(document).then((told) => told.violations.map((one) => one.id))")
    assert found == []
    context.close()


def test_a_paper_that_cannot_be_made_yet_says_what_comes_first(page, served):
    document = json.loads((ROOT / "examples" / "mixed_patio.json").read_text("utf-8"))
    document["calendar"].pop("start")
    job = served.call("POST", "/api/jobs", {"document": document})["id"]
    page.goto(f"{served.address}/jobs/{job}#papers")
    card = page.locator("li.paper-card", has_text="programme.ics")
    card.get_by_role("link", name="Say on which day work may start").wait_for(timeout=60_000)
    assert card.get_by_role("button").count() == 0
    assert page.get_by_role("button", name="Make: Order list").is_visible()
    card.get_by_role("link").first.click()
    page.locator("#panel h2", has_text="Programme").wait_for()
