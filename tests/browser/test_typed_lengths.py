"""Lengths typed into the boxes of a job: shown back, asked where unclear, kept over a reload until they are taken."""

from __future__ import annotations

import pytest
from kept import document_of, wait_kept
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

SAVED = "#saved"


@pytest.fixture
def job(served):
    return served.call("POST", "/api/jobs", {"copy_of": served.demo})["id"]


def opened(page, served, job, stage="measure"):
    page.goto(f"{served.address}/jobs/{job}#{stage}")
    page.locator("#panel details").first.wait_for()


def tape_box(page, number=0):
    """The box of a tape, with its part of the panel open."""
    path = f"measurements.tape_plan.tapes.{number}.length_mm"
    page.evaluate("for (const one of document.querySelectorAll('#panel details.group')) one.open = true")
    return page.locator(f"[data-path='{path}'] input")


def length(served, job, number=0):
    return document_of(served, job)["measurements"]["tape_plan"]["tapes"][number]["length_mm"]


def test_a_length_in_metres_or_feet_is_shown_back_and_then_taken(page, served, job):
    opened(page, served, job)
    box = tape_box(page)
    for text, shown, value in (("6.0 m", "= 6000 mm", 6000.0), ("600cm", "= 6000 mm", 6000.0), ("19' 8 1/2\"", "= 6007.1 mm", 6007.1),
                               ("19ft 8in", "= 5994.4 mm", 5994.4), ("4800", "", 4800.0)):  # fmt: skip
        box.fill(text)
        told = page.locator("[data-path='measurements.tape_plan.tapes.0.length_mm'] .typed-as")
        if shown:
            expect(told).to_have_text(shown)
        assert length(served, job) != value or text == "600cm"  # nothing is taken while it is typed
        page.keyboard.press("Enter")
        wait_kept(page, served, job, lambda kept: kept["measurements"]["tape_plan"]["tapes"][0]["length_mm"] == value)
        assert box.input_value() == f"{value:g}"


def test_a_length_that_may_be_another_unit_is_asked_and_not_taken(page, served, job):
    opened(page, served, job)
    before = length(served, job)
    box = tape_box(page)
    box.fill("6.0")
    page.keyboard.press("Tab")
    page.wait_for_timeout(600)
    assert length(served, job) == before
    expect(page.locator(SAVED)).not_to_contain_text("kept")
    expect(page.locator("button:focus")).to_have_text("6.0 mm")  # the keyboard is at the first answer
    page.keyboard.press("Tab")
    expect(page.locator("button:focus")).to_have_text("6.0 m = 6000 mm")
    page.keyboard.press("Enter")
    wait_kept(page, served, job, lambda kept: kept["measurements"]["tape_plan"]["tapes"][0]["length_mm"] == 6000.0)
    assert box.input_value() == "6000"


def test_escape_gives_the_old_length_back(page, served, job):
    opened(page, served, job)
    box = tape_box(page)
    before = box.input_value()
    box.fill("12.5 m")
    page.keyboard.press("Escape")
    assert box.input_value() == before
    page.keyboard.press("Tab")
    page.wait_for_timeout(500)
    assert f"{length(served, job):g}" == before
    expect(page.locator(SAVED)).to_contain_text("kept")


def test_a_level_in_metres_among_millimetres_is_asked(page, served, job):
    opened(page, served, job)
    page.evaluate("for (const one of document.querySelectorAll('#panel details.group')) one.open = true")
    box = page.locator("[data-path='measurements.benchmarks.0.level_mm'] input")
    before = document_of(served, job)["measurements"]["benchmarks"][0]["level_mm"]
    box.fill("10.150")
    page.keyboard.press("Enter")
    page.wait_for_timeout(500)
    assert document_of(served, job)["measurements"]["benchmarks"][0]["level_mm"] == before
    page.get_by_role("button", name="10.150 m = 10150 mm").click()
    wait_kept(page, served, job, lambda kept: kept["measurements"]["benchmarks"][0]["level_mm"] == 10150.0)


def test_what_is_typed_and_not_taken_outlives_a_reload_and_is_not_called_kept(page, served, job):
    opened(page, served, job)
    expect(page.locator(SAVED)).to_contain_text("kept")
    tape_box(page, 1).fill("5.4 m")
    expect(page.locator(SAVED)).to_contain_text("not taken")
    page.reload()
    page.locator("#panel details").first.wait_for()
    expect(page.locator(SAVED)).to_contain_text("not taken")
    box = tape_box(page, 1)
    assert box.input_value() == "5.4 m"
    box.focus()
    page.keyboard.press("Enter")
    wait_kept(page, served, job, lambda kept: kept["measurements"]["tape_plan"]["tapes"][1]["length_mm"] == 5400.0)


def test_words_typed_and_not_left_outlive_a_reload(page, served, job):
    opened(page, served, job)
    page.evaluate("for (const one of document.querySelectorAll('#panel details.group')) one.open = true")
    box = page.locator("[data-path='identity.client'] textarea")
    box.fill("The Hollies")
    page.reload()
    page.locator("#panel details").first.wait_for()
    page.evaluate("for (const one of document.querySelectorAll('#panel details.group')) one.open = true")
    assert box.input_value() == "The Hollies"
    box.focus()
    page.keyboard.press("Tab")
    wait_kept(page, served, job, lambda kept: kept["identity"]["client"] == "The Hollies")


def parts_open(page):
    page.evaluate("for (const one of document.querySelectorAll('#panel details.group')) one.open = true")


def test_a_tape_and_a_reading_can_be_added_at_once(page, served):
    """What hangs on another field is there as soon as that field is, not after the stage was left."""
    job = served.call("POST", "/api/jobs", {"title": "Tapes at once"})["id"]
    page.goto(f"{served.address}/jobs/{job}#measure")
    page.locator("#panel details").first.wait_for()
    parts_open(page)
    page.get_by_role("button", name="+ tape", exact=True).click()
    row = page.locator("[data-path='measurements.tape_plan.tapes.0.end'] input")
    row.fill("New peg")
    page.keyboard.press("Tab")
    page.keyboard.type("4.2 m")
    page.keyboard.press("Enter")
    page.get_by_role("button", name="+ level book").click()
    parts_open(page)
    page.get_by_role("button", name="+ reading", exact=True).click()
    measured = wait_kept(page, served, job, lambda kept: len(kept["measurements"]["level_books"][0]["rows"]) == 2)[
        "measurements"
    ]
    assert measured["tape_plan"]["tapes"][0]["end"] == "New peg"
    assert measured["tape_plan"]["tapes"][0]["length_mm"] == 4200.0


def test_a_new_point_is_on_offer_in_every_open_list_at_once(page, served):
    job = served.call("POST", "/api/jobs", {"title": "Names at once"})["id"]
    page.goto(f"{served.address}/jobs/{job}#measure")
    page.locator("#panel details").first.wait_for()
    parts_open(page)
    page.get_by_role("button", name="+ wall", exact=True).click()
    page.get_by_role("button", name="+ point", exact=True).click()
    page.locator("[data-path^='measurements.points.'][data-path$='.name'] input").last.fill("Gate post")
    page.keyboard.press("Enter")
    offered = page.locator("[data-path^='site.walls.'][data-path$='.start'] option", has_text="Gate post")
    offered.first.wait_for(state="attached")
