"""People in a browser: the first owner by a link and a passkey, an invitation, and a crew that sees no money."""

from __future__ import annotations

import re

import pytest
from served import Served
from tests.browser.test_access import SMALL
from tests.browser.test_axe_everywhere import ALL, AXE, RUN

pytestmark = pytest.mark.browser

PASSWORD = "wet gloves twice a day"


def with_authenticator(context):
    """A page whose browser holds a passkey as a phone does, unlocked by who holds it."""
    page = context.new_page()
    devtools = context.new_cdp_session(page)
    devtools.send("WebAuthn.enable")
    wishes = {"protocol": "ctap2", "transport": "internal", "hasResidentKey": True, "hasUserVerification": True,
              "isUserVerified": True, "automaticPresenceSimulation": True}  # fmt: skip
    devtools.send("WebAuthn.addVirtualAuthenticator", {"options": wishes})
    return page


def sound(page, *, small=True):
    """Look that a page has nothing against the rules of axe-core, is large enough and within its width."""
    page.evaluate(AXE)
    assert page.evaluate(RUN, ALL) == []
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    if small:
        assert page.evaluate(SMALL) == []


def seldom_stands_under_more(page, name):
    """Look that what cannot be undone is not beside what is done often, and not on paper."""
    card = page.get_by_role("listitem").filter(has_text=name)
    erase = card.get_by_role("button", name="Erase")
    assert not erase.is_visible()
    card.locator("summary").click()
    erase.wait_for()
    sound(page)
    page.emulate_media(media="print")
    assert page.locator("main :is(button, .button, summary):visible").count() == 0
    assert card.get_by_role("heading", name=name).is_visible()
    page.emulate_media(media="screen")


def test_the_first_owner_and_a_crew_come_in_and_the_crew_sees_no_money(chromium, tmp_path):
    server = Served(tmp_path / "jobs.sqlite")
    address = server.address.replace("127.0.0.1", "localhost")
    office = chromium.new_context(viewport={"width": 1280, "height": 800})
    phone = chromium.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    try:
        owner = with_authenticator(office)
        owner.goto(f"{address}/people")
        owner.get_by_label("Name of the first owner").fill("Ada Flagg")
        sound(owner)
        owner.get_by_role("button", name="Enter").click()
        owner.wait_for_url("**/join/*")
        owner.get_by_label("Short name to sign in by").fill("ada")
        sound(owner)
        owner.get_by_role("button", name="Set up a passkey").click()
        owner.wait_for_url("**/you")
        owner.get_by_text("Owner · signs in as ada").wait_for()
        sound(owner)

        owner.get_by_role("button", name="Sign out", exact=True).click()
        owner.wait_for_url("**/sign-in")
        sound(owner)
        owner.get_by_role("button", name="Sign in with a passkey").click()
        owner.wait_for_url(f"{address}/")
        owner.locator(".job-card .price", has_text=re.compile(r"£\s?\d")).wait_for(timeout=120_000)

        owner.goto(f"{address}/people")
        owner.get_by_role("button", name="Invite somebody").click()
        owner.get_by_label("Name", exact=True).fill("Bo Kerb")
        owner.get_by_role("button", name="Make the link").click()
        link = owner.get_by_label("Link", exact=True).input_value()
        owner.get_by_role("button", name="Done").click()
        owner.get_by_role("heading", name="Bo Kerb").wait_for()
        sound(owner)
        seldom_stands_under_more(owner, "Ada Flagg")

        crew = phone.new_page()
        crew.goto(link)
        sound(crew)
        crew.get_by_label("Short name to sign in by").fill("bo")
        crew.get_by_label("Choose a password").fill(PASSWORD)
        crew.get_by_role("button", name="Join").click()
        crew.wait_for_url("**/you")
        crew.get_by_text("Crew · signs in as bo").wait_for()
        sound(crew)
        crew.get_by_role("link", name="Jobs", exact=True).click()
        crew.locator(".job-card h2, .job-card h3").first.wait_for()
        assert "£" not in crew.locator("main").inner_text()
        crew.goto(f"{address}/jobs/{server.demo}")
        crew.locator("#strip", has_text="whole").wait_for(timeout=120_000)
        assert not re.search(r"£\s?\d", crew.locator("body").inner_text())

        owner.goto(f"{address}/audit")
        owner.get_by_text("Joined the firm (Crew)").wait_for()
        sound(owner)
    finally:
        office.close()
        phone.close()
        server.stop()
