"""A job that knows little: every stage says what comes next, and none falls over."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from pavewright.desk import screen_lists
from tests.unit.desk.test_so_far import STEPS

STAGES = screen_lists()["stages"]


@pytest.fixture
def troubles(page):
    found = []
    page.on("pageerror", lambda problem: found.append(str(problem)))
    page.on("console", lambda line: found.append(line.text) if line.type == "error" else None)
    return found


@pytest.mark.parametrize("step", ["nothing", "unit", "level"])
def test_every_stage_shows_what_is_known_and_what_comes_next(page, served, troubles, step):
    job = served.call("POST", "/api/jobs", {"document": STEPS[step]})["id"]
    page.goto(f"{served.address}/jobs/{job}#measure")
    expect(page.locator("#panel .missing")).to_contain_text("Next: ", timeout=60_000)
    for stage in STAGES:
        page.locator("#rail button", has_text=stage["name"]).click()
        expect(page.locator("#panel h2").first).to_have_text(stage["name"])
        expect(page.locator("#panel")).not_to_contain_text("working it out")
        expect(page.locator("#panel")).to_contain_text("Next: ")
    assert troubles == []


def test_the_next_line_opens_its_stage(page, served):
    job = served.call("POST", "/api/jobs", {"document": STEPS["level"]})["id"]
    page.goto(f"{served.address}/jobs/{job}#price")
    page.locator("#panel .missing a").click(timeout=60_000)
    expect(page.locator("#panel h2").first).to_have_text("Water")


def test_a_customer_is_shown_no_price_before_there_is_one(page, served, troubles):
    job = served.call("POST", "/api/jobs", {"document": STEPS["unit"]})["id"]
    page.goto(f"{served.address}/jobs/{job}/customer")
    expect(page.locator(".not-ready")).to_contain_text("no price yet", timeout=60_000)
    expect(page.locator(".pay")).to_have_text("not known yet")
    expect(page.locator("main")).not_to_contain_text("£")
    assert troubles == []
