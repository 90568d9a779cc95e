"""Setting out with a phone: the order of work with its checks, strings as they hang, a set-up level, without signal."""

import os
import re
from pathlib import Path

import pytest
from kept import wait_kept
from playwright.sync_api import expect
from tests.browser.test_on_site import on_site, phone, press, server  # noqa: F401 - fixtures

LOOK = os.environ.get("PAVEWRIGHT_LOOK")


def look(page, name):
    if LOOK:
        page.screenshot(path=str(Path(LOOK) / f"{name}.png"), full_page=False)


@pytest.fixture
def open_panel(phone, server):  # noqa: F811
    job = server.new()
    page = on_site(phone, server, job)
    page.goto(f"{page.url.split('#')[0]}#setout")
    page.reload()
    expect(page.get_by_role("group", name="Part of setting out")).to_be_visible()
    return page, job


def part(page, name):
    page.get_by_role("group", name="Part of setting out").get_by_role("button", name=name, exact=True).click()


def test_the_order_of_work_asks_for_a_check_and_says_what_it_shows(open_panel):
    page, _ = open_panel
    expect(page.locator(".glance")).to_contain_text("steps done")
    look(page, "order-1")
    page.get_by_role("button", name=re.compile("^Done$")).click()
    asked = page.locator(".ask", has_text="Check:")
    if not asked.count():
        page.get_by_role("button", name=re.compile("^Done$")).click()
    expect(asked.first).to_be_visible()
    wanted = round(float(re.search(r"reads (\d+\.\d+) m", asked.first.inner_text()).group(1)) * 1000)
    press(page, str(wanted + 90))
    page.get_by_role("button", name="Check it").click()
    expect(page.get_by_role("alert").filter(has_text="long")).to_contain_text("90 mm long")
    look(page, "order-2")
    before = page.locator(".glance").inner_text()
    asked = page.locator(".ask", has_text="Check:")
    for number in range(asked.count()):
        reads = re.search(r"reads (\d+\.\d+) m", asked.nth(number).inner_text()).group(1)
        press(page, str(round(float(reads) * 1000)))
        page.get_by_role("button", name="Check it").click()
        if number + 1 < asked.count():
            expect(page.get_by_role("alert").filter(has_text="within").nth(number)).to_be_visible()
    expect(page.locator(".glance")).not_to_have_text(before)
    look(page, "order-3")


def test_a_string_typed_back_moves_what_lies_below_it_and_goes_into_the_job(open_panel, server):  # noqa: F811
    page, job = open_panel
    part(page, "Strings")
    look(page, "strings-1")
    picker = page.get_by_label("Peg", exact=True)
    end = next(each for each in picker.locator("option").all_inner_texts() if "string end" in each)
    picker.select_option(label=end)
    down = page.locator("td.key").first
    planned = int(down.inner_text())
    page.context.set_offline(True)
    page.get_by_role("button", name="mm too high").click()
    press(page, "25")
    page.get_by_role("button", name="Keep this height").click()
    expect(down).to_have_text(str(planned + 25))
    look(page, "strings-2")
    page.context.set_offline(False)
    page.reload()
    part(page, "Strings")
    expect(page.locator("#tabs")).to_contain_text("Sent")
    (kept,) = wait_kept(page, server.served, job, lambda document: document["strings_set"])["strings_set"]
    assert kept["peg"] == end.split(" (")[0]
    expect(page.locator("td.key").first).to_have_text(str(planned + 25))


def test_an_instrument_shows_its_staff_readings_on_the_phone(open_panel, server):  # noqa: F811
    page, job = open_panel
    page.context.set_offline(True)
    part(page, "Level")
    look(page, "level-1")
    press(page, "1250")
    page.get_by_role("button", name="Work from this").click()
    expect(page.locator(".reduced")).to_contain_text("Height of sight")
    look(page, "level-2")
    page.context.set_offline(False)
    page.reload()
    expect(page.locator("#tabs")).to_contain_text("Sent")
    wait_kept(page, server.served, job, lambda document: document["set_ups"][0]["backsight_mm"] == 1250)
    part(page, "Lost peg")
    look(page, "lost")
    expect(page.locator(".peg").first).to_contain_text("They cross at")
