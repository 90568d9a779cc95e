"""People of different roles on one job and on the list: who is told what, by which name, and never an amount."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import expect
from served import Served

from pavewright.store import open_installation

pytestmark = pytest.mark.browser

AMOUNT = 7_713_377
"""An amount that stands nowhere else. [minor units]"""
EARS = """window.told = []; const Own = EventSource;
window.EventSource = class extends Own {
  constructor(...given) {
    super(...given);
    for (const name of ['stand', 'change', 'here', 'anew'])
      this.addEventListener(name, (event) => window.told.push(JSON.parse(event.data)));
  }
};"""
"""Keeps what a page is told by its stream."""


@pytest.fixture
def server(tmp_path):
    """A server of its own: once somebody is entered everybody has to sign in."""
    own = Served(tmp_path / "jobs.sqlite")
    yield own
    own.stop()


def titled(server, job, title, cookie=None):
    told = server.call("GET", f"/api/jobs/{job}", cookie=cookie)
    operation = {"op": "set", "at": ["identity", "title"], "was": told["document"]["identity"]["title"], "to": title}
    asked = {
        "key": title.replace(" ", "-").replace(",", ""),
        "rev": told["rev"],
        "operations": [operation],
        "note": "titled",
    }
    server.call("POST", f"/api/jobs/{job}/operations", asked, cookie)


def priced(value):
    """Put the amount in the place of every price of a document, and return how many there were."""
    if isinstance(value, list):
        return sum(priced(each) for each in value)
    if not isinstance(value, dict):
        return 0
    found = [name for name, each in value.items() if name == "pack_price_minor" and isinstance(each, int)]
    value |= dict.fromkeys(found, AMOUNT)
    return len(found) + sum(priced(each) for each in value.values())


def test_a_crew_is_told_by_name_and_without_money(chromium, server):
    with_people = open_installation(server.data)
    accounts, firm = with_people.accounts, with_people.first_id
    cookies, pages, contexts, faults = [], [], [], []
    for role, name in (("owner", "Ada Flagg"), ("crew", "Bo Kerb")):
        person = accounts.add_person(role, name)
        accounts.join(person.id, firm, role, ())
        cookies.append(accounts.begin_sign_in(person.id, firm, "test", 1)[1])
    with_people.close()
    for cookie in cookies:
        contexts.append(chromium.new_context(viewport={"width": 1280, "height": 800}))
        contexts[-1].add_cookies([{"name": "pavewright-sign-in", "value": cookie, "url": server.address}])
        pages.append(contexts[-1].new_page())
        pages[-1].on("pageerror", lambda error: faults.append(str(error)))
        pages[-1].on("console", lambda message: message.type == "error" and faults.append(message.text))
    office, crew = pages
    crew.add_init_script(EARS)
    answers = []
    crew.on(
        "response", lambda answer: "/api/live" not in answer.url and "/api/" in answer.url and answers.append(answer)
    )
    for page in pages:
        page.goto(f"{server.address}/jobs/{server.demo}")
        page.locator("#strip", has_text="whole").wait_for()
    expect(office.locator("#others")).to_contain_text("Also here: Bo Kerb (Measure)")
    expect(crew.locator("#others")).to_contain_text("Also here: Ada Flagg (Measure)")
    office.get_by_role("button", name="Levels").first.click()
    expect(crew.locator("#others")).to_contain_text("Also here: Ada Flagg (Levels)")

    cookie = f"pavewright-sign-in={cookies[0]}"
    told = server.call("GET", f"/api/jobs/{server.demo}", cookie=cookie)
    assert priced(told["document"]) > 0
    asked = {"rev": told["rev"], "document": json.dumps(told["document"])}
    server.call("PUT", f"/api/jobs/{server.demo}", asked, cookie)
    titled(server, server.demo, "Told by name", cookie)
    expect(crew.locator("#title")).to_have_text("Told by name")
    expect(crew.locator("#others")).to_contain_text("Changed by Ada Flagg")
    told = crew.evaluate("window.told")
    assert any(each.get("kind") == "changed" for each in told)
    assert all(set(each) <= {"job", "rev", "kind"} for each in told)
    texts = [each.text() for each in answers if each.status == 200 and "json" in each.headers.get("content-type", "")]
    assert any("Told by name" in each for each in texts)
    assert not any(str(AMOUNT) in each for each in texts)
    office.close()
    expect(crew.locator("#others")).not_to_contain_text("Also here")
    for each in contexts:
        each.close()
    assert faults == []


def test_the_list_is_brought_up_to_date_and_does_not_move_under_a_hand(page, server):
    job = server.patio("Front path")
    page.goto(server.address)
    row = page.locator(".job-card", has=page.locator(f'[data-key="{job}"]'))
    row.locator(".price, .signs > *").first.wait_for()
    page.mouse.move(2, 2)
    titled(server, job, "Front path, wider")
    expect(row.locator("h2")).to_have_text("Front path, wider")
    row.hover()
    server.patio("Came meanwhile")
    page.get_by_role("button", name="Show changes").wait_for()
    assert page.get_by_role("link", name="Came meanwhile").count() == 0
    titled(server, job, "Front path, wider still")
    expect(row.locator("h2")).to_have_text("Front path, wider still")
    page.get_by_role("button", name="Show changes").click()
    page.get_by_role("link", name="Came meanwhile").wait_for()
    expect(page.get_by_role("button", name="Show changes")).to_be_hidden()
