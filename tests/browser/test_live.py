"""Two people on one job: each sees at once what the other changes and that he is there, and nobody loses a word."""

from __future__ import annotations

import json
import re
import sys

import pytest
from kept import wait_kept
from playwright.sync_api import expect
from served import Served

pytestmark = pytest.mark.browser

READY = "/api/live"
POINTS = "measurements.points"
TITLE = '[data-path="identity.title"] :is(input, textarea)'

ACKNOWLEDGED = """performance.timeOrigin + Math.max(...performance.getEntriesByType('resource')
.filter((one) => one.name.endsWith('/operations')).map((one) => one.responseEnd))"""
"""When the server had answered that it has the last change. [ms]"""


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    """A server of its own: what is told here is of these tests alone."""
    own = Served(tmp_path_factory.mktemp("live") / "jobs.sqlite")
    own.call("POST", "/api/plan", own.call("GET", f"/api/jobs/{own.demo}")["document"])
    yield own
    own.stop()


@pytest.fixture
def two(chromium):
    """Two browsers, each with a page whose faults fail the test."""
    faults, contexts = [], []

    def page():
        context = chromium.new_context(viewport={"width": 1280, "height": 800})
        contexts.append(context)
        opened = context.new_page()
        opened.on("pageerror", lambda error: faults.append(str(error)))
        opened.on("console", lambda message: message.type == "error" and faults.append(message.text))
        return opened

    yield page(), page()
    for each in contexts:
        each.close()
    assert faults == []


def opened(page, server, job):
    """Open a job and wait until its stream stands."""
    with page.expect_response(lambda answer: READY in answer.url and answer.status == 200):
        page.goto(f"{server.address}/jobs/{job}")
    page.locator("#strip", has_text=re.compile("whole|laid|m²")).wait_for()
    page.get_by_text("Who and where").click()
    return page


def test_a_change_of_one_is_seen_by_the_other_at_once_and_both_see_who_is_there(two, server):
    job = server.patio("Two on one job")
    one, other = (opened(each, server, job) for each in two)
    for page in (one, other):
        expect(page.locator("#others")).to_contain_text("Also here: another screen")
    other.evaluate(
        """() => new MutationObserver(() => { window.seen ??= document.querySelector('#title').textContent === 'By one' ? Date.now() : undefined; })
        .observe(document.querySelector('#title'), { childList: true, characterData: true, subtree: true })"""
    )
    one.locator(TITLE).fill("By one")
    one.locator(TITLE).press("Tab")
    expect(other.locator("#title")).to_have_text("By one")
    took_s = (other.evaluate("window.seen") - one.evaluate(ACKNOWLEDGED)) / 1000
    sys.stdout.write(f"from acknowledged to drawn: {took_s:.3f} s\n")
    expect(other.locator(TITLE)).to_have_value("By one")
    expect(other.locator("#others")).to_contain_text("Changed on another screen")
    one.close()
    expect(other.locator("#others")).not_to_contain_text("Also here")


def test_what_is_being_typed_stays_where_it_is_while_somebody_elses_change_comes(two, server):
    job = server.patio("Typed meanwhile")
    page = opened(two[0], server, job)
    box = page.locator('[data-path="identity.client"] :is(input, textarea)')
    box.fill("Half a na")
    box.evaluate("node => node.setSelectionRange(2, 4)")
    page.evaluate("window.typedIn = document.activeElement")
    titled(server, job, "While the other types")
    expect(page.locator("#title")).to_have_text("While the other types")
    assert page.evaluate("document.activeElement === window.typedIn")
    assert box.input_value() == "Half a na"
    assert box.evaluate("node => [node.selectionStart, node.selectionEnd]") == [2, 4]
    box.evaluate("node => node.setSelectionRange(9, 9)")
    page.keyboard.type("me")
    page.keyboard.press("Tab")
    document = wait_kept(page, server, job, lambda kept: kept["identity"]["client"] == "Half a name")
    assert document["identity"]["title"] == "While the other types"


def test_a_row_that_is_being_typed_in_moves_with_its_list(two, server):
    job = server.patio("Rows")
    page = opened(two[0], server, job)
    page.locator("summary", has_text="Points by coordinates").click()
    page.locator(f'[data-path="{POINTS}.1.x_mm"] input').first.click()
    page.keyboard.press("End")
    page.keyboard.type("77")
    told = server.call("GET", f"/api/jobs/{job}")
    document, points = told["document"], told["document"]["measurements"]["points"]
    whole = [dict(each) for each in points]
    points.insert(0, {"name": "New", "x_mm": 1.0, "y_mm": 2.0})
    server.call("PUT", f"/api/jobs/{job}", {"rev": told["rev"], "document": json.dumps(document)})
    moved = page.locator(f'[data-path="{POINTS}.2.x_mm"] input').first
    expect(moved).to_be_focused()
    assert moved.input_value().endswith("77")
    page.keyboard.press("Escape")
    expect(page.locator("#saved")).to_have_text("✓ kept")
    kept = server.call("GET", f"/api/jobs/{job}")["document"]["measurements"]["points"]
    assert [(each["name"], each["x_mm"]) for each in kept[1:]] == [(each["name"], each["x_mm"]) for each in whole]


def titled(server, job, title):
    """Somebody else gives a job another title."""
    told = server.call("GET", f"/api/jobs/{job}")
    operation = {"op": "set", "at": ["identity", "title"], "was": told["document"]["identity"]["title"], "to": title}
    server.call("POST", f"/api/jobs/{job}/operations",
                {"key": title.replace(" ", "-"), "rev": told["rev"], "operations": [operation], "note": "titled"})  # fmt: skip
