"""The calendar by hand: a part dragged by mouse, by finger and by keys, with what breaks and costs; Stop keeps the best."""

from __future__ import annotations

import pytest
from firm_at_work import accepted, told_whole, with_a_calendar
from served import Served
from tests.browser.test_access import SMALL

pytestmark = pytest.mark.browser

HELD = ".crew-held"
KNOWN = ".crew-held[data-known=true]"
HOLD_ms = 450
STILL_ms = 100
STANDS = """
async () => {
  const frame = () => new Promise(requestAnimationFrame);
  for (let still = 0, was = scrollY; still < 20; was = scrollY) {
    await frame();
    still = scrollY === was ? still + 1 : 0;
  }
}
"""
"""Waits until the page has stood where it is for twenty frames."""


@pytest.fixture(scope="module")
def firm(tmp_path_factory):
    """A server of its own with two jobs that stand on the calendar."""
    server = Served(tmp_path_factory.mktemp("calendar") / "jobs.sqlite")
    server.jobs = with_a_calendar(server)
    yield server
    server.stop()


@pytest.fixture
def at(chromium, firm):
    """A page of the calendar, two weeks from the first day of work, as wide as asked for; the calendar put back."""
    before = firm.call("GET", "/api/calendar")["document"]
    opened = []

    def made(**wishes):
        context = chromium.new_context(**wishes)
        page = context.new_page()
        page.faults = []
        page.on("pageerror", lambda error: page.faults.append(str(error)))
        opened.append((context, page))
        page.goto(f"{firm.address}/calendar")
        page.get_by_label("How many weeks").select_option("2")
        page.locator(".crew-stretch").first.wait_for()
        return page

    yield made
    for context, page in opened:
        assert page.faults == []
        context.close()
    rev = firm.call("GET", "/api/calendar")["rev"]
    firm.call("PUT", "/api/calendar", {"rev": rev, "document": before, "note": "as it was"})


def begins(firm, job):
    (one,) = [each for each in firm.call("GET", "/api/calendar")["document"]["bookings"] if each["job"] == job]
    return one["days"][0]["on"], one["days"][0]["crew"]


def middle(box):
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def told_before_it_is_kept(page, firm, job, begun):
    """What it does is shown, and nothing is kept until somebody says so."""
    page.locator(KNOWN).wait_for()
    assert begins(firm, job) == begun
    return page.locator(HELD).inner_text()


def dragged(page, chip, cell):
    chip.scroll_into_view_if_needed()
    page.mouse.move(*middle(chip.bounding_box()))
    page.mouse.down()
    x, y = middle(cell.bounding_box())
    page.mouse.move(x - 12, y, steps=4)
    page.mouse.move(x, y)


def test_by_mouse_what_breaks_is_shown_on_the_way_and_it_is_moved_or_put_back(firm, at):
    page, job = at(viewport={"width": 1440, "height": 900}), firm.jobs[0]
    day, crew = begun = begins(firm, job)
    chip = page.locator(f'td[data-day="{day}"][data-person="{crew[0]}"] .crew-stretch')
    cells = page.locator(f'td[data-person="{crew[0]}"]')
    days = [cells.nth(n).get_attribute("data-day") for n in range(cells.count())]
    later = days[days.index(day) + 2]
    dragged(page, chip, page.locator(f'td[data-day="{later}"][data-person="{crew[0]}"]'))
    words = told_before_it_is_kept(page, firm, job, begun)
    assert "later" in words
    assert "Nothing breaks" in words
    assert "idle days of people" in words
    assert not page.locator(HELD).get_by_role("button", name="Move").is_visible()
    page.mouse.up()
    page.locator(HELD).get_by_role("button", name="Put back").click()
    page.locator(HELD).wait_for(state="detached")
    assert begins(firm, job) == begun
    assert page.locator("dialog").count() == 0

    # to somebody who is at the other job on these days: that breaks, and is said before it is dropped
    other = next(one for one in begins(firm, firm.jobs[1])[1])
    dragged(page, chip, page.locator(f'td[data-day="{day}"][data-person="{other}"]'))
    words = told_before_it_is_kept(page, firm, job, begun)
    assert "BREAKS" in words
    assert "instead of" in words
    page.mouse.up()
    page.locator(HELD).get_by_role("button", name="Put back").click()

    dragged(page, chip, page.locator(f'td[data-day="{later}"][data-person="{crew[0]}"]'))
    page.mouse.up()
    page.locator(HELD).get_by_role("button", name="Move", exact=True).click()
    page.get_by_text("Moved.").wait_for()
    assert begins(firm, job) == (later, crew)
    page.locator(".toast").get_by_role("button", name="Undo").click()
    chip.wait_for()
    assert begins(firm, job) == begun


def test_by_finger_a_short_touch_scrolls_and_a_held_one_drags(firm, at):
    page, job = at(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True), firm.jobs[0]
    day, _ = begun = begins(firm, job)
    place = page.locator(f'li[data-day="{day}"]')
    chip = place.locator(f'.crew-stretch[data-job="{job}"]')
    finger = page.context.new_cdp_session(page)

    def touch(kind, *points):
        points = [{"x": x, "y": y} for x, y in points]
        finger.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    chip.evaluate("(one) => one.scrollIntoView({block: 'center'})")
    x, y = middle(chip.bounding_box())
    before = page.evaluate("scrollY")
    touch("touchStart", (x, y))
    for step in range(1, 9):
        touch("touchMove", (x, y - 20 * step))
    touch("touchEnd")
    page.wait_for_function("(was) => scrollY > was", arg=before)
    assert page.locator(HELD).count() == 0

    page.evaluate(STANDS)  # a touch while the page still glides only stops it
    chip.evaluate("(one) => one.scrollIntoView({block: 'center'})")
    page.wait_for_timeout(STILL_ms)
    page.evaluate(STANDS)
    x, y = middle(chip.bounding_box())
    touch("touchStart", (x, y))
    page.wait_for_timeout(HOLD_ms)
    page.locator(HELD).wait_for()
    above = page.locator("li[data-day]").nth(0)
    earlier = page.locator("li[data-day]").evaluate_all(
        "(all, day) => all.map((one) => one.dataset.day).filter((one) => one < day).at(-1) ?? null", day
    )
    below = page.locator("li[data-day]").evaluate_all(
        "(all, day) => all.map((one) => one.dataset.day).find((one) => one > day)", day
    )
    to = earlier or below
    goal = page.locator(f'li[data-day="{to}"]') if to else above
    was = page.evaluate("scrollY")
    for share in (0.3, 0.6, 1.0):
        goes_x, goes_y = middle(goal.bounding_box())
        touch("touchMove", (x + (goes_x - x) * share, y + (goes_y - y) * share))
    told_before_it_is_kept(page, firm, job, begun)
    assert abs(page.evaluate("scrollY") - was) < 844  # the page did not run away under the finger
    touch("touchEnd")
    page.locator(HELD).get_by_role("button", name="Move", exact=True).wait_for()
    assert page.evaluate(SMALL) == []
    page.locator(HELD).get_by_role("button", name="Move", exact=True).tap()
    page.get_by_text("Moved.").wait_for()
    assert begins(firm, job)[0] == to
    assert page.locator("dialog").count() == 0


def test_by_keys_a_day_and_another_person_and_escape_puts_it_back(firm, at):
    page, job = at(viewport={"width": 1440, "height": 900}), firm.jobs[0]
    day, crew = begun = begins(firm, job)
    chip = page.locator(f'td[data-day="{day}"][data-person="{crew[0]}"] .crew-stretch')
    chip.focus()
    page.keyboard.press("ArrowRight")
    assert "later" in told_before_it_is_kept(page, firm, job, begun)
    page.keyboard.press("Escape")
    page.locator(HELD).wait_for(state="detached")

    people = [each["id"] for each in firm.call("GET", "/api/calendar")["people"]]
    down = "ArrowDown" if people.index(crew[0]) < len(people) - 1 else "ArrowUp"
    other = people[people.index(crew[0]) + (1 if down == "ArrowDown" else -1)]
    chip.focus()
    page.keyboard.press(down)
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowLeft")
    assert "instead of" in told_before_it_is_kept(page, firm, job, begun)
    page.keyboard.press("Enter")
    page.get_by_text("Moved.").wait_for()
    now = begins(firm, job)
    assert now[0] > day
    assert other in now[1]
    assert crew[0] not in now[1]
    page.get_by_role("button", name="Undo").first.click()
    chip.wait_for()
    assert begins(firm, job) == begun


def test_a_part_is_opened_and_its_day_chosen(firm, at):
    page, job = at(viewport={"width": 1440, "height": 900}), firm.jobs[0]
    day, crew = begun = begins(firm, job)
    chip = page.locator(f'td[data-day="{day}"][data-person="{crew[0]}"] .crew-stretch')
    chip.click()
    page.get_by_role("button", name="A week later").click()
    page.get_by_role("button", name="Put back").click()
    assert begins(firm, job) == begun
    chip.click()
    page.get_by_role("button", name="A day later").click()
    page.get_by_role("button", name="Move", exact=True).click()
    chip.wait_for(state="detached")
    assert begins(firm, job)[0] > day


def on_paper(page):
    """Look at a page as it is laid out for a sheet of paper, which is narrower than a screen."""
    page.emulate_media(media="print")
    page.set_viewport_size({"width": 690, "height": 980})
    page.wait_for_timeout(STILL_ms)


def on_the_screen(page):
    page.set_viewport_size({"width": 1440, "height": 900})
    page.emulate_media(media="screen")
    page.wait_for_timeout(STILL_ms)


def test_what_stands_on_the_screen_is_what_is_printed(firm, at):
    page = at(viewport={"width": 1440, "height": 900})
    on_paper(page)
    assert page.locator(".crew-grid .crew-stretch").first.is_visible()
    assert page.locator(".crew-days").count() == 0
    on_the_screen(page)
    sheet = page.locator(".crew-day-sheet")
    page.get_by_role("button", name="Sheet of today").first.click()
    sheet.wait_for()
    on_paper(page)
    assert sheet.is_visible()
    assert page.locator("button:visible").count() == 0
    on_the_screen(page)
    assert sheet.is_visible()
    # a tablet that is turned keeps it too
    page.set_viewport_size({"width": 700, "height": 900})
    page.wait_for_timeout(STILL_ms)
    assert sheet.is_visible()
    page.get_by_role("button", name="Back to the calendar").click()
    page.locator(".crew-days .crew-stretch").first.wait_for()


def test_a_search_that_is_stopped_keeps_the_best_so_far_with_its_gap(firm, at):
    more = [accepted(firm, f"Drive {number}") for number in range(8)]
    told_whole(firm)
    page = at(viewport={"width": 1440, "height": 900})
    rev = firm.call("GET", "/api/calendar")["rev"]
    page.get_by_role("button", name="Let it settle").click()
    stop = page.get_by_role("button", name="Stop and keep the best so far")
    stop.wait_for()
    page.get_by_text("job-days, no calendar is below").wait_for()
    page.wait_for_timeout(1_000)
    stop.click()
    page.get_by_text("The best so far: ").wait_for()
    assert "a gap of" in page.locator("#told").inner_text()
    told = firm.call("GET", "/api/calendar")
    assert told["rev"] == rev + 1
    assert {each["job"] for each in told["document"]["bookings"]} >= set(more)
    assert [each for each in told["broken"] if not each["soft"]] == []
