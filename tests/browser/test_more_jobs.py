"""The list of jobs goes on below where it has more than a page."""

from __future__ import annotations

import json

import pytest
from served import Served

from pavewright.store import open_file

pytestmark = pytest.mark.browser

MANY = 130


def book(state, number):
    return {
        "state": state, "by_hand": False, "facts": {"measured": True}, "place": "Ashford Green", "people": [],
        "holds_until": None, "owing_minor": 0, "total_minor": None, "currency": "GBP", "stage": 1, "stops": 0,
        "dues": [], "weeks": [], "gaps": [], "number": number,
    }  # fmt: skip


@pytest.fixture(scope="module")
def many(tmp_path_factory):
    """A server of its own over a file that holds more jobs than a page shows."""
    path = tmp_path_factory.mktemp("many") / "jobs.sqlite"
    store = open_file(path)
    for number in range(MANY):
        title = f"Path {number:03}"
        kept = store.add(json.dumps({"identity": {"title": title, "address": "1 Mill Lane, Ashford Green"}}))
        line = book("visit", number)
        line.pop("number")
        store.keep_summary(kept.id, kept.rev, json.dumps({"stage": "measure", "next": "Measure."}), line)
    store.close()
    server = Served(path)
    yield server
    server.stop()


def test_the_next_hundred_jobs_go_on_below(chromium, many):
    context = chromium.new_context(viewport={"width": 1440, "height": 900})
    try:
        page = context.new_page()
        page.goto(many.address)
        page.locator("#where", has_text=f"100 of {MANY + 1}").wait_for()
        assert page.locator(".job-card").count() == 100
        first = page.locator(".job-card h2 a").all_inner_texts()
        page.get_by_role("button", name=f"Show {MANY + 1 - 100} more").click()
        page.locator("#turn").wait_for(state="hidden")
        names = page.locator(".job-card h2 a").all_inner_texts()
        assert len(names) == len(set(names)) == MANY + 1
        assert set(first) < set(names)
    finally:
        context.close()
