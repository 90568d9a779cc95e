"""A gully that is added by hand asks at once what drains to it, and shows what each answer changes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from kept import wait_kept
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

PATIO = Path(__file__).parents[2] / "examples" / "mixed_patio.json"


@pytest.fixture
def patio(served):
    """A patio of one plane without a gully."""
    made = served.call("POST", "/api/jobs", {"title": "Asked"})["id"]
    rev = served.call("GET", f"/api/jobs/{made}")["rev"]
    document = json.loads(PATIO.read_text())
    document["site"]["gullies"] = []
    served.call("PUT", f"/api/jobs/{made}", {"rev": rev, "document": document, "note": "a patio"})
    return made


def put_a_gully(page, served, job):
    page.goto(f"{served.address}/jobs/{job}#water")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    tool = page.get_by_role("button", name="+ Gully", exact=True)
    if not tool.is_visible():
        page.locator(".tool-menu > summary").click()
    tool.click()
    box = page.locator("#plan").bounding_box()
    page.mouse.click(box["x"] + box["width"] * 0.5, box["y"] + box["height"] * 0.5)
    asked = page.get_by_role("dialog", name="What drains to Gully 1?")
    expect(asked).to_contain_text("As the paving falls now", timeout=60_000)
    return asked


def test_a_new_gully_asks_what_drains_to_it_and_the_answer_folds_the_area(page, served, patio):
    asked = put_a_gully(page, served, patio)
    fold = asked.get_by_role("button", name="by valleys that cross there")
    expect(fold).to_contain_text("28.6 of 28.6 m² reach a drain")
    expect(fold).to_contain_text("Levels:")
    fold.click()
    expect(asked).to_be_hidden()
    document = wait_kept(page, served, patio, lambda kept: kept["areas"][0]["fall"]["folding"] == "crossed_valley")
    assert document["areas"][0]["fall"]["gully"] == "Gully 1"


def test_the_question_is_left_as_it_is_and_does_not_come_back(page, served, patio):
    asked = put_a_gully(page, served, patio)
    asked.get_by_role("button", name="Leave it as it is").click()
    expect(asked).to_be_hidden()
    page.keyboard.press("Control+z")
    page.wait_for_timeout(500)
    expect(asked).to_be_hidden()


def test_a_new_outfall_shows_that_nothing_drains_to_it(page, served, patio):
    page.goto(f"{served.address}/jobs/{patio}#water")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    page.get_by_role("button", name="+ outfall").click()
    asked = page.get_by_role("dialog", name="What drains to Outfall?")
    expect(asked).to_contain_text("As the paving falls now, 0.0 of", timeout=60_000)
    asked.get_by_role("button", name="Leave it as it is").click()
    page.locator("#saved", has_text="kept").wait_for()
