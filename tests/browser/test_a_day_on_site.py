"""A whole day on site with a phone and no signal: set out, hold, lay, check, log; then online, merged with another."""

from __future__ import annotations

import datetime as dt
import os
from pathlib import Path

import pytest
from kept import wait_kept
from playwright.sync_api import expect
from served import Served
from tests.browser.test_on_site import PHONE, Jobs, phone, press, server  # noqa: F401 - fixtures

pytestmark = pytest.mark.browser

LOOK = os.environ.get("PAVEWRIGHT_LOOK")
MOST = {"log of a day": 15, "a day": 44}
"""Most touches that a day may take: so many are counted below, and none may be added."""


def look(page, name):
    if LOOK:
        page.screenshot(path=str(Path(LOOK) / f"day-{name}.png"))


class Hand:
    """A thumb that counts what it touches."""

    def __init__(self, page):
        self.page = page
        self.touches = 0

    def touch(self, name, within="#panel"):
        self.page.locator(within).get_by_role("button", name=name, exact=True).first.click()
        self.touches += 1

    def open(self, name):
        """Open a panel: by its tab where it has one, else by the start."""
        tab = self.page.locator("#tabs").get_by_text(name, exact=True)
        if not tab.count():
            self.page.locator("#tabs").get_by_text("Start", exact=True).click()
            self.touches += 1
            tab = self.page.locator(".start").get_by_text(name, exact=True)
        tab.click()
        self.touches += 1

    def keys(self, text):
        press(self.page, text)
        self.touches += len(text)

    def save(self):
        self.page.locator(".pad-keep").click()
        self.touches += 1


@pytest.fixture(scope="module")
def with_book(tmp_path_factory):
    """A server of its own: what its book learns changes the plan of every job."""
    own = Served(tmp_path_factory.mktemp("learnt") / "jobs.sqlite")
    yield Jobs(own)
    own.stop()


def begun(context, server, job):  # noqa: F811
    """A page on site that needs no signal any more, with somebody known to the phone."""
    page = context.new_page()
    page.goto(f"{server.base}/jobs/{job}/site")
    page.locator("#panel .start").wait_for(timeout=90_000)
    page.locator("#panel[data-kept]").wait_for()
    return page


def named(hand, name):
    hand.touch("+ Name")
    hand.page.get_by_label("Name", exact=True).fill(name)
    hand.page.get_by_role("dialog").get_by_role("button", name="Save").click()
    hand.touches += 1
    expect(hand.page.locator("#panel")).to_contain_text(f"{name}, ")


def today():
    return dt.date.today().isoformat()  # noqa: DTZ011 - the day of the phone


@pytest.fixture
def job(server):  # noqa: F811
    return server.new_before_the_check()


def test_a_day_without_signal_is_merged_with_the_day_of_another_phone(phone, chromium, server, job):  # noqa: F811
    page = begun(phone, server, job)
    hand = Hand(page)
    phone.set_offline(True)
    # set out: the first two steps of the order of work
    hand.open("Set out")
    look(page, "set-out")
    hand.touch("Done")
    expect(page.locator(".glance")).to_contain_text("1 of")
    # hold point: one place of the formation, down from the string as planned
    hand.open("Dig and layers")
    down = page.locator("#panel .ask b").first.inner_text().split()[0].replace(",", "")
    hand.keys(down)
    hand.touch("Save reading")
    expect(page.locator("#panel")).to_contain_text("places read")
    look(page, "holds")
    # lay: one slab that lies right at its four corners
    hand.open("Lay")
    for _ in range(4):
        page.locator(".lay-way", has_text="right").click()
        hand.touches += 1
    hand.touch("✓ Laid")
    expect(page.locator(".glance")).to_contain_text("1 of 134 laid")
    look(page, "lay")
    # check: one level as laid, by staff
    hand.open("Check")
    hand.touch("As laid")
    hand.keys("1500")
    hand.save()
    wanted = page.get_by_text("the staff should read").inner_text().split("read")[1]
    hand.keys("".join(letter for letter in wanted if letter.isdigit())[:4])
    hand.save()
    expect(page.locator(".verdict")).to_contain_text("Pass")
    look(page, "check")
    # log: two people, hours and how far they came, a bay on the plan, the weather, what came
    before = hand.touches
    hand.open("Today")
    named(hand, "Ann")
    named(hand, "Ben")
    hand.touch("+ 4 h")
    expect(page.locator(".glance")).to_contain_text("2 people, 8 h booked")
    hand.touch("50 %")
    hand.touch("Plan")
    hand.touch("Base in")
    page.locator(".map .plan:not(.back)").tap(position={"x": 120, "y": 150})
    hand.touches += 1
    expect(page.locator("#panel")).to_contain_text("Terrace: Base in")
    look(page, "log")
    hand.touch("Weather")
    hand.touch("☀ Dry")
    hand.touch("Loads")
    hand.page.locator(".day-came").first.click()
    hand.touches += 1
    expect(page.locator(".last")).to_contain_text("Came:")
    assert hand.touches - before <= MOST["log of a day"], hand.touches - before
    assert hand.touches <= MOST["a day"], hand.touches
    expect(page.locator("#unsent")).to_contain_text("unsent, kept here")
    assert "site_days" not in server.document(job)
    # the phone is put away and taken out again: all of it is there, without the server
    page.reload()
    page.locator("#panel[data-panel=day]").wait_for()
    expect(page.locator(".glance")).to_contain_text("2 people, 8 h booked")
    # meanwhile another phone, with signal, logs the same day
    other = chromium.new_context(**PHONE)
    second = Hand(begun(other, server, job))
    second.open("Today")
    named(second, "Cem")
    second.touch("+ 2 h")
    expect(second.page.locator("#unsent")).to_have_text("✓ all sent", timeout=60_000)
    # the first one comes back to where there is signal
    phone.set_offline(False)
    page.evaluate("dispatchEvent(new Event('online'))")
    expect(page.locator("#unsent")).to_have_text("✓ all sent", timeout=60_000)
    expect(page.locator(".glance")).to_contain_text("3 people, 10 h booked, 2 logs", timeout=90_000)
    document = wait_kept(page, server.served, job, lambda kept: len(kept["site_days"]) == 2)
    assert server.get(f"/api/jobs/{job}")["clashes"] == []
    mine, *others = sorted(document["site_days"], key=lambda each: -len(each["present"]))
    assert ([each["name"] for each in mine["present"]], len(others)) == (["Ann", "Ben"], 1)
    assert {each["date"] for each in document["site_days"]} == {today()}
    assert mine["worked"] == [{"task": "set_out.area1", "person_h": 8, "done_percent": 50}]
    assert [each["stage"] for each in mine["bays"]] == ["base"]
    assert mine["weather"] == {"sky": "dry"}
    assert mine["delivered"]
    assert document["done"] == [{"task": "set_out.area1", "on": today(), "since": today(), "done_percent": 50}]
    assert len(document["hold_checks"]) == 1
    assert [each["state"] for each in document["units_read"]] == ["laid"]
    assert document["as_laid"]["readings"][-1]["label"]
    other.close()


def test_what_was_touched_by_mistake_is_taken_back_offline_and_after_it_was_sent(phone, server, job):  # noqa: F811
    page = begun(phone, server, job)
    hand = Hand(page)
    hand.open("Today")
    named(hand, "Ann")
    hand.touch("+ 8 h")
    expect(page.locator(".glance")).to_contain_text("8 h booked", timeout=30_000)
    expect(page.locator(".last")).to_contain_text("✓ sent", timeout=30_000)
    expect(page.locator("#unsent")).to_have_text("✓ all sent", timeout=30_000)
    wait_kept(page, server.served, job, lambda kept: kept["site_days"][0]["worked"][0]["person_h"] == 8)
    phone.set_offline(True)
    hand.touch("↶ Take back")
    expect(page.locator(".glance")).to_contain_text("0 h booked")
    hand.touch("+ 1 h")
    expect(page.locator(".glance")).to_contain_text("1 h booked")
    phone.set_offline(False)
    page.evaluate("dispatchEvent(new Event('online'))")
    expect(page.locator("#unsent")).to_have_text("✓ all sent", timeout=60_000)
    wait_kept(page, server.served, job, lambda kept: [one["person_h"] for one in kept["site_days"][0]["worked"]] == [1])


def test_a_touch_counts_though_the_page_is_drawn_anew_under_the_finger(phone, server, job):  # noqa: F811
    page = begun(phone, server, job)
    phone.set_offline(True)
    hand = Hand(page)
    hand.open("Today")
    named(hand, "Ann")
    box = page.get_by_role("button", name="+ 8 h", exact=True).bounding_box()
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.mouse.down()
    page.evaluate("location.hash = 'day'; new Promise((done) => setTimeout(done, 50))")
    page.mouse.up()
    expect(page.locator(".glance")).to_contain_text("8 h booked", timeout=30_000)


def test_the_log_of_a_sheet_comes_in_by_file_once(phone, server, job, tmp_path):  # noqa: F811
    content = server.served.call("GET", f"/jobs/{job}/site-sheet.html")
    (tmp_path / "sheet.html").write_bytes(content)
    sheet = phone.new_page()
    sheet.goto(f"{(tmp_path / 'sheet.html').as_uri()}#day")
    hand = Hand(sheet)
    named(hand, "Ann")
    hand.touch("+ 4 h")
    hand.touch("75 %")
    expect(sheet.locator(".glance")).to_contain_text("1 person, 4 h booked")
    sheet.locator("#tabs").get_by_text("Save").click()
    with sheet.expect_download() as waiting:
        sheet.get_by_role("button", name="Save the readings as a file").click()
    waiting.value.save_as(tmp_path / "readings.json")
    page = begun(phone, server, job)
    page.locator("#tabs button").last.click()
    for told in ("3 brought in.", "0 brought in, 3 were there already"):
        page.locator("#bring-in-file").set_input_files(tmp_path / "readings.json")
        expect(page.locator(".bring-in")).to_contain_text(told)
    (day,) = wait_kept(page, server.served, job, lambda kept: kept["site_days"])["site_days"]
    assert day["worked"] == [{"task": "set_out.area1", "person_h": 4, "done_percent": 75}]


def test_at_the_desk_the_log_says_how_tasks_go_and_the_book_learns_by_a_touch(page, phone, with_book):  # noqa: F811
    server, job = with_book, with_book.new()  # noqa: F811 - instead of the server of all tests
    site = begun(phone, server, job)
    hand = Hand(site)
    hand.open("Today")
    named(hand, "Ann")
    hand.touch("+ 4 h")
    hand.touch("All")
    expect(site.locator(".glance")).to_contain_text("4 h booked", timeout=30_000)
    expect(site.locator("#unsent")).to_have_text("✓ all sent", timeout=60_000)
    past = server.get("/api/firm")["document"].get("past", [])
    page.set_viewport_size({"width": 1366, "height": 768})
    page.goto(f"{server.base}/jobs/{job}#programme")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    page.get_by_text("Log of the days", exact=True).click()
    box = page.locator("details", has=page.get_by_text("Log of the days", exact=True)).last
    expect(box).to_contain_text("1 person, 4.0 h booked", timeout=60_000)
    look(page, "desk")
    expect(box).to_contain_text("The programme goes by the log.")
    box.get_by_role("button", name="Take into the book").first.click()
    expect(box).to_contain_text("✓ the book holds it", timeout=60_000)
    look(page, "desk-taken")
    now = server.get("/api/firm")["document"]["past"]
    assert len(now) == len(past) + 1
    assert (now[-1]["kind"], now[-1]["person_hours"]) == ("set_out_h", 4.0)
