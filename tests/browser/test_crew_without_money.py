"""What a crew without leave to see money opens by address: no stage, step, field, paper or button of money stands there."""

from __future__ import annotations

import re

import pytest
from served import Served
from tests.browser.test_access import STAGES

from pavewright.store import open_installation

pytestmark = pytest.mark.browser

MONEY = re.compile(
    r"£|\bpack price|load price|cut price|fill price|prices of changes|labour, |overhead|cost sheet|quotation|what the customer sees"
    r"|sort by price|backup",
    re.IGNORECASE,
)
HIDDEN_ROUTES = ("/api/site-log", "/api/cash", "/api/account", "/api/firm", "/quotations", "/api/reprice")
OPEN = "document.querySelectorAll('#panel details').forEach((one) => { one.open = true; })"


class Crewed(Served):
    """A server on which an owner and somebody of the crew are signed in."""

    def __init__(self, data):
        self.cookie = None
        super().__init__(data)
        self.stop()
        installation = open_installation(data)
        accounts, firm = installation.accounts, installation.first_id
        owner, crew = (accounts.add_person(name, name.title()) for name in ("olive", "bo"))
        accounts.join(owner.id, firm, "owner")
        accounts.join(crew.id, firm, "crew")
        self.cookie, self.crew = (
            f"pavewright-sign-in={accounts.begin_sign_in(each.id, firm, 'test', 1)[1]}" for each in (owner, crew)
        )
        installation.close()
        self.start()

    def call(self, method, path, body=None, cookie=None):
        return super().call(method, path, body, cookie or self.cookie)


@pytest.fixture(scope="module")
def crewed(tmp_path_factory):
    server = Crewed(tmp_path_factory.mktemp("crewed") / "jobs.sqlite")
    yield server
    server.stop()


@pytest.fixture(params=["crew", "owner"])
def looked(request, chromium, crewed):
    """A page of somebody of the crew, and one of the owner: what is looked for there has to be found."""
    context = chromium.new_context(viewport={"width": 1440, "height": 900})
    name, _, value = (crewed.crew if request.param == "crew" else crewed.cookie).partition("=")
    context.add_cookies([{"name": name, "value": value, "url": crewed.address}])
    page = context.new_page()
    page.asked, page.role = [], request.param
    page.on("request", lambda asked: page.asked.append(asked.url))
    yield page
    context.close()


def text_of(page):
    page.evaluate(OPEN)
    page.wait_for_timeout(300)
    page.evaluate(OPEN)
    options = page.evaluate("[...document.querySelectorAll('#sort option:checked')].map((one) => one.text)")
    return page.locator("body").inner_text() + "".join(f"\nsort by {each}" for each in options)


def test_no_stage_shows_money_or_an_empty_place_for_it(crewed, looked):
    found = {}
    looked.goto(f"{crewed.address}/jobs/{crewed.demo}#price")
    looked.locator("#strip", has_text="whole").wait_for()
    opened = looked.locator("#rail [aria-current=step]").inner_text()
    assert opened.split("\n")[0] == ("Price" if looked.role == "owner" else "Measure")
    for stage in STAGES:
        looked.evaluate(f"location.hash = '{stage}'")
        looked.wait_for_timeout(500)
        now = looked.locator("#rail [aria-current=step]").inner_text()
        found[stage] = (now.split("\n")[0], sorted({each.lower() for each in MONEY.findall(text_of(looked))}))
    if looked.role == "owner":
        assert found["price"][0] == "Price"
        assert all(found[each][1] for each in ("price", "quantities", "ground", "levels", "papers"))
        return
    assert found["price"][0] == "Measure"
    assert {stage: words for stage, (_, words) in found.items() if words} == {}
    assert [each for each in looked.asked if each.endswith(HIDDEN_ROUTES)] == []


@pytest.mark.parametrize("step", ["price", "papers"])
def test_the_walk_asks_a_crew_for_no_price(crewed, looked, step):
    looked.goto(f"{crewed.address}/jobs/{crewed.demo}/walk#{step}")
    looked.locator("#panel[data-drawn]").wait_for()
    steps = looked.locator("#steps button").all_inner_texts()
    named = {each for each in ("Price", "Quotation") if any(each in words for words in steps)}
    assert named == ({"Price", "Quotation"} if looked.role == "owner" else set())
    assert looked.evaluate("location.hash") == (f"#{step}" if looked.role == "owner" else "#shape")


def test_the_list_of_jobs_is_not_sorted_by_price_for_a_crew(crewed, looked):
    looked.goto(crewed.address)
    looked.evaluate("localStorage.setItem('pavewright.sorted-by', 'price')")
    looked.reload()
    looked.locator(".job-card").first.wait_for()
    looked.wait_for_timeout(500)
    assert bool(MONEY.search(text_of(looked))) == (looked.role == "owner")
