"""Laying slab by slab with a phone: corners by big keys, where to tap, aloud, without signal, and on the site sheet."""

from __future__ import annotations

import re
import urllib.request

import pytest
from kept import wait_kept
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

PHONE = {"viewport": {"width": 390, "height": 844}, "is_mobile": True, "has_touch": True}
HEARD = """
window.heard = [];
Object.defineProperty(window, 'speechSynthesis', { value: { speak: (one) => window.heard.push(one.text), cancel() {} } });
"""


@pytest.fixture
def phone(chromium):
    faults = []
    opened = chromium.new_context(**PHONE, accept_downloads=True)
    opened.on("weberror", lambda problem: faults.append(str(problem.error)))
    yield opened
    opened.close()
    assert faults == []


@pytest.fixture
def job(served):
    return served.call("POST", "/api/jobs", {"start_from": "demo"})["id"]


def laying(phone, served, job, before=""):
    page = phone.new_page()
    if before:
        page.add_init_script(before)
    page.goto(f"{served.address}/jobs/{job}/site#lay")
    page.locator(".lay-picture").wait_for(timeout=90_000)
    return page


def corner(page, figure, way):
    """Type a figure and save it by one of the buttons: so many touches."""
    for key in figure:
        page.locator(".lay-keys").get_by_text(key, exact=True).click()
    page.locator(".lay-way", has_text=way).click()
    return len(figure) + 1


def read(page, corners):
    return sum(corner(page, figure, way) for figure, way in corners)


RIGHT = ("", "right")


def test_a_slab_is_read_tapped_read_again_and_laid_in_few_touches(phone, served, job):
    page = laying(phone, served, job)
    advice = page.locator(".finding.verdict .big").first
    touches = read(page, [RIGHT, ("3", "high"), ("6", "high"), ("3", "high")])
    expect(advice).to_contain_text("Tap halfway to C: 3 mm down at C")
    expect(page.locator(".lay-held")).to_have_count(1)
    page.get_by_role("button", name="Tapped: read again").click()
    touches += 1 + read(page, [RIGHT] * 4)
    expect(advice).to_have_text("Lies well")
    page.get_by_role("button", name="✓ Laid").click()
    touches += 1
    expect(page.locator(".glance")).to_contain_text("1 of 134 laid")
    assert touches <= 14
    # the next one is told its step to the one that lies
    read(page, [("2", "high"), RIGHT, RIGHT, ("2", "high")])
    expect(page.locator(".lay-lips")).to_contain_text("over piece 1")
    page.get_by_role("button", name="✕ To bed again").click()
    expect(page.locator(".glance")).to_contain_text("1 of 134 laid")
    page.get_by_role("button", name="↶ Take back").click()
    expect(page.locator(".lay-step")).to_have_text(re.compile("Piece 2Flag"))
    told = wait_kept(page, served, job, lambda document: len(document["units_read"]) == 1)["units_read"]
    assert [(each["piece"], each["state"], len(each["corners"])) for each in told] == [(1, "laid", 4)]


def test_without_signal_slabs_and_bags_are_kept_and_go_when_there_is_some(phone, served, job):
    page = laying(phone, served, job)
    phone.set_offline(True)
    read(page, [RIGHT] * 4)
    page.get_by_role("button", name="✓ Laid").click()
    page.get_by_role("button", name="✓ Laid").click()  # a slab that nobody read lies too
    expect(page.locator(".glance")).to_contain_text("2 of 134 laid")
    page.get_by_role("button", name="+ 1 bag").click()
    expect(page.locator(".lay-bags").first).to_contain_text("1 bag for")
    expect(page.locator(".lay-bags").first).not_to_contain_text("runs thick")
    phone.set_offline(False)
    expect(page.locator("#unsent")).to_contain_text("all sent", timeout=30_000)
    document = wait_kept(page, served, job, lambda document: document["bags_used"])
    assert [each["piece"] for each in document["units_read"]] == [1, 2]
    assert document["units_read"][1]["corners"] == []
    assert document["bags_used"][0]["opened"] == 1
    assert "left_part" not in document["bags_used"][0]  # nobody looked


def test_answers_are_read_aloud_where_the_switch_is_on(phone, served, job):
    page = laying(phone, served, job, HEARD)
    page.get_by_role("button", name="Reading aloud: off").click()
    read(page, [RIGHT, ("3", "high"), ("6", "high"), ("3", "high")])
    heard = page.evaluate("window.heard")
    assert "B 3 millimetres high" in heard
    assert any("Tap halfway to C, 3 millimetres down at C" in each and "Hold A" in each for each in heard)
    page.get_by_role("button", name="Reading aloud: on").click()
    before = len(page.evaluate("window.heard"))
    page.get_by_role("button", name="Tapped: read again").click()
    assert len(page.evaluate("window.heard")) == before


def test_a_browser_without_a_voice_says_so(phone, served, job):
    page = laying(phone, served, job, "delete window.SpeechSynthesisUtterance;")
    expect(page.locator("#panel")).to_contain_text("This browser cannot read aloud.")


def test_a_digital_level_needs_two_lines_and_one_height(phone, served, job):
    page = laying(phone, served, job)
    page.locator(".row-tabs").get_by_text("Level %").click()
    expect(page.locator(".lay-line")).to_contain_text("A by the string")
    corner(page, "4", "high")
    for line in ("A to B", "A to D"):
        wanted = page.locator(".lay-line .ask").inner_text()
        assert wanted.startswith(line)
        corner(page, wanted.split(", ")[1].split(" ")[0], "falls")
    expect(page.locator(".finding.verdict .big").first).to_contain_text("Tap the middle")


def test_keys_are_large_enough_for_gloves_and_nothing_is_wider_than_the_phone(phone, served, job):
    page = laying(phone, served, job)
    for one in page.locator("#panel button").all():
        box = one.bounding_box()
        assert box is None or not box["width"] or min(box["width"], box["height"]) >= 48.0
    assert all(
        box["height"] >= 64.0 for one in page.locator(".lay-keys button, .lay-way").all() if (box := one.bounding_box())
    )
    assert page.evaluate("document.querySelector('#panel').scrollWidth <= document.querySelector('#panel').clientWidth")


def test_the_site_sheet_lays_slabs_from_a_file(phone, served, job, tmp_path):
    with urllib.request.urlopen(f"{served.address}/jobs/{job}/site-sheet.html") as answer:
        (tmp_path / "sheet.html").write_bytes(answer.read())
    sheet = phone.new_page()
    sheet.goto((tmp_path / "sheet.html").as_uri() + "#lay")
    sheet.locator(".lay-picture").wait_for()
    read(sheet, [RIGHT] * 4)
    sheet.get_by_role("button", name="✓ Laid").click()
    expect(sheet.locator("#unsent")).to_have_text("1 kept on this sheet")
    expect(sheet.locator(".glance")).to_contain_text("1 of 134 laid")
