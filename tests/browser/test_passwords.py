"""A password in a browser: it is shown by a touch, and beside a new one stands how strong it is."""

from __future__ import annotations

import pytest
from served import Served
from tests.browser.test_people import sound

pytestmark = pytest.mark.browser


def test_a_password_is_shown_and_how_strong_it_is_stands_beside_it(chromium, tmp_path):
    server = Served(tmp_path / "jobs.sqlite")
    phone = chromium.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    try:
        page = phone.new_page()
        page.goto(f"{server.address}/people")
        page.get_by_label("Name of the first owner").fill("Ada Flagg")
        page.get_by_role("button", name="Enter").click()
        page.wait_for_url("**/join/*")
        field, show = page.get_by_label("Choose a password"), page.get_by_role("button", name="Show")
        field.fill("password1234")
        page.get_by_text("○○○ This password is one of those that are tried first").wait_for()
        sound(page)
        field.fill("wet gloves twice a day")
        page.get_by_text("●●● Strong.").wait_for()
        assert field.get_attribute("type") == "password"
        show.click()
        assert field.get_attribute("type") == "text"
        assert show.get_attribute("aria-pressed") == "true"
        sound(page)
        show.press("Enter")
        assert field.get_attribute("type") == "password"
        page.screenshot(path=tmp_path / "join.png")
    finally:
        phone.close()
        server.stop()
