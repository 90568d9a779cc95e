"""A phone in the network: kept out, paired by the code of the office, taken along, withdrawn."""

from __future__ import annotations

import pytest
from served import Served

from pavewright.web._addresses import own_addresses


@pytest.fixture(scope="module")
def on_network(tmp_path_factory):
    if not own_addresses():
        pytest.skip("this machine is in no network")
    server = Served(tmp_path_factory.mktemp("network") / "jobs.sqlite", "--on-network")
    yield server
    server.stop()


def test_a_phone_is_paired_by_the_code_and_withdrawn(chromium, on_network, page):
    page.goto(f"{on_network.address}/devices")
    page.get_by_role("button", name="Pair a phone").click()
    address = page.locator(".pair-address").inner_text()
    home = address.partition("/pair/")[0]
    phone = chromium.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True).new_page()
    phone.goto(home)
    assert phone.get_by_role("heading", name="This device is not paired").is_visible()
    assert phone.request.get(f"{home}/api/jobs").status == 401
    phone.goto(address)
    box = phone.get_by_role("button", name="Pair").bounding_box()
    assert box["height"] >= 48
    phone.get_by_label("Name of this device").fill("Crew phone")
    phone.get_by_role("button", name="Pair").tap()
    phone.get_by_role("link", name="Terrace behind the house", exact=True).wait_for()
    page.get_by_role("button", name="Done").click()
    page.get_by_text("Crew phone").wait_for()
    phone.goto(f"{home}/jobs/{on_network.demo}/site")
    phone.get_by_text("No secure connection.").wait_for()
    page.get_by_role("button", name="Withdraw").click()
    page.get_by_role("dialog").get_by_role("button", name="Withdraw").click()
    page.get_by_text("No device is paired.").wait_for()
    phone.goto(home)
    assert phone.get_by_role("heading", name="This device is not paired").is_visible()
    phone.context.close()
