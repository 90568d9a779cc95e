"""The walk: the way back, what is answered and left, slips, units, curves and a moved instrument."""

from __future__ import annotations

import math
import re

import pytest
from kept import TOUCHED
from hand import PHONE, Hand
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

L_SHAPE = ((0.15, 0.35), (0.85, 0.36), (0.84, 0.7), (0.5, 0.71), (0.49, 0.53), (0.16, 0.52))


@pytest.fixture
def hand(chromium, served):
    """A hand on a phone at a new job, which fails the test when the page does."""
    context = chromium.new_context(**PHONE)
    page = context.new_page()
    page.set_default_timeout(60_000)
    faults = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    job = served.call("POST", "/api/jobs", {"title": "Walked"})["id"]
    page.goto(f"{served.address}/jobs/{job}/walk")
    page.locator("#panel .question").wait_for(timeout=60_000)
    made = Hand(page)
    made.job = job
    yield made
    context.close()
    assert faults == []


def sent(hand, served):
    """The document on the server, once everything is there."""
    expect(hand.page.locator("#unsent")).to_have_text("✓ sent", timeout=60_000)
    return served.call("GET", f"/api/jobs/{hand.job}")["document"]


def rectangle(hand):
    hand.sketch(0.2, 0.3)
    hand.sketch(0.8, 0.7)


def step(hand, name):
    hand.at(hand.page.locator("#steps").get_by_role("button", name=name), name)
    hand.page.wait_for_timeout(150)


def states(hand):
    """What the row of steps says: the sign and the name."""
    return {
        one.get_attribute("aria-label").split(": ")[0]: one.get_attribute("aria-label").split(": ")[1]
        for one in hand.page.locator("#steps button").all()
    }


def tape(hand, length_mm):
    hand.number(length_mm, reading=True)


def test_the_way_back_and_what_is_answered_or_left(hand, served):
    page = hand.page
    rectangle(hand)
    hand.touch("Done")
    hand.touch("House wall")
    hand.touch("Later")
    assert hand.step == "Tapes"
    page.go_back()
    page.wait_for_function("document.querySelector('#steps [aria-current]').textContent.includes('Sides')")
    page.go_back()
    page.wait_for_function("document.querySelector('#steps [aria-current]').textContent.includes('Shape')")
    page.go_forward()
    page.wait_for_function("document.querySelector('#steps [aria-current]').textContent.includes('Sides')")
    assert states(hand)["Sides"] == "later"
    step(hand, "Trees")
    hand.touch("None here")
    step(hand, "Services")
    hand.touch("Could not see")
    found = states(hand)
    assert (found["Trees"], found["Services"], found["Curves"]) == ("none here", "could not see", "none here")
    page.reload()
    page.locator("#panel .question").wait_for()
    assert states(hand) == found
    document = sent(hand, served)
    said = {one["topic"]: one["answer"] for one in document["site"]["walk_round"]}
    assert said == {"trees": "none", "services": "could_not_see"}
    sizes = page.locator("#foot button, #steps button, .bar > button").evaluate_all(
        "keys => keys.filter(key => key.checkVisibility()).map(key => key.getBoundingClientRect())"
        ".map(box => [box.height, box.width])"
    )
    assert len(sizes) > 10
    assert min(min(size) for size in sizes) >= 48


def test_an_outline_is_drawn_corner_by_corner_changed_and_undone(hand, served):
    page = hand.page
    hand.touch("Corners")
    for across, down in L_SHAPE:
        hand.sketch(across, down)
    hand.touch("Close the shape")
    document = sent(hand, served)
    sketch = {one["name"]: (one["x_mm"], one["y_mm"]) for one in document["measurements"]["sketch"]}
    assert [one["point"] for one in document["areas"][0]["outline"]] == list("ABCDEF")
    assert sketch["A"][1] == sketch["B"][1]
    assert sketch["B"][0] == sketch["C"][0]
    assert sketch["E"][1] == sketch["F"][1]
    # from the touch on it is not said that all is sent: the phone may be slow to write
    assert page.locator("#undo").evaluate(TOUCHED) == "… saving"
    expect(page.locator("#panel .question")).to_have_text("What shape is it?")
    assert sent(hand, served)["areas"] == []


def test_a_slip_is_named_before_he_leaves_the_corner_and_read_again(hand, served):
    page = hand.page
    rectangle(hand)
    step(hand, "Tapes")
    true = {"A": (0, 0), "B": (6000, 0), "C": (6000, -4000), "D": (0, -4000)}
    slipped = ()
    for number in range(6):
        start, end = hand.taped
        tape(hand, round(math.dist(true[start], true[end])) + (1000 if number == 4 else 0))
        if number == 4:
            slipped = (start, end)
        if page.locator(".finding").count():
            break
    assert slipped, "a good tape was doubted"
    hand.at(
        page.get_by_role("button", name=re.compile(f"^Read (it|{slipped[0]} to {slipped[1]}) again$")).first,
        "read again",
    )
    assert hand.taped == slipped
    while hand.taped:
        start, end = hand.taped
        tape(hand, round(math.dist(true[start], true[end])))
    expect(page.locator("#panel .question")).to_have_text("The shape is fixed and checked.")
    tapes = sent(hand, served)["measurements"]["tape_plan"]["tapes"]
    assert sorted(one["length_mm"] for one in tapes) == [4000, 4000, 6000, 6000, 7211, 7211]


def test_a_figure_that_looks_like_another_unit_is_asked_about(hand, served):
    page = hand.page
    rectangle(hand)
    step(hand, "Tapes")
    tape(hand, 6000)
    tape(hand, 4000)
    hand.number(721, reading=True)
    expect(page.locator("#panel .ask")).to_contain_text("which is it?")
    hand.touch("721 cm = 7")
    assert sent(hand, served)["measurements"]["tape_plan"]["tapes"][-1]["length_mm"] == 7210


def test_a_curve_is_measured_by_offsets_from_its_chord(hand, served):
    rectangle(hand)
    hand.sketch(0.5, 0.7)
    hand.touch("Bulges out")
    step(hand, "Tapes")
    true = {"A": (0, 0), "B": (6000, 0), "C": (6000, -4000), "D": (0, -4000)}
    for _ in range(6):
        start, end = hand.taped
        tape(hand, round(math.dist(true[start], true[end])))
    hand.touch("Done")
    assert hand.step == "Curves"
    # an arc over 6.000 m that rises 500 mm: at a quarter it stands 373 mm off
    radius = (3000**2 + 500**2) / 1000
    quarter = round(math.sqrt(radius**2 - 1500**2) - radius + 500)
    for offset in (500, quarter, quarter):
        hand.number(offset)
    document = sent(hand, served)
    curved = [one for one in document["areas"][0]["outline"] if one.get("through")]
    assert [one["point"] for one in curved] == ["C"]
    planned = served.call("POST", "/api/plan", document)["plan"]
    area = planned["survey"]["site"]["areas"][0]["shape"]["outer"]
    doubled = sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(area, [*area[1:], area[0]], strict=True))
    segment = radius**2 * math.asin(3000 / radius) - 3000 * (radius - 500)
    assert abs(doubled) / 2 == pytest.approx(24e6 + segment, rel=0.01)


def test_the_instrument_is_moved_and_the_readings_close(hand, served):
    page = hand.page
    rectangle(hand)
    step(hand, "Datum")
    hand.touch("Other point that stays")
    hand.number(1500, reading=True)
    hand.number(1600, reading=True)
    hand.touch("I moved the instrument")
    expect(page.locator("#panel .question")).to_contain_text("moved: staff on A again")
    hand.number(1400, reading=True)
    hand.number(1410, reading=True)
    hand.touch("Read the datum again now")
    hand.number(1303, reading=True)
    expect(page.locator(".finding")).to_contain_text("Closes within 3 mm")
    document = sent(hand, served)
    assert document["measurements"]["benchmarks"] == [{"point": "Datum", "level_mm": 10000, "assumed": True}]
    (book,) = document["measurements"]["level_books"]
    assert [
        {
            name: value
            for name, value in row.items()
            if name in {"point", "backsight_mm", "intermediate_mm", "foresight_mm", "on"}
        }
        for row in book["rows"]
    ] == [
        {"point": "Datum", "backsight_mm": 1500},
        {"point": "A", "foresight_mm": 1600, "backsight_mm": 1400, "on": "ground"},
        {"point": "A–B", "intermediate_mm": 1410, "on": "ground"},
        {"point": "Datum", "foresight_mm": 1303, "on": "mark"},
    ]


def test_what_was_touched_outlives_a_closed_page_without_signal_and_arrives_once(hand, served):
    page = hand.page
    page.locator("#panel[data-kept]").wait_for()
    page.context.set_offline(True)
    rectangle(hand)
    step(hand, "Tapes")
    tape(hand, 6000)
    hand.number(4000, reading=True)
    page.close()
    again = page.context.new_page()
    again.context.set_offline(True)  # a new page is begun with signal
    again.goto(f"{served.address}/jobs/{hand.job}/walk")
    hand.page = again
    again.locator("#panel .question").wait_for()
    expect(again.locator("#unsent")).to_have_text("⚠ 3 kept")
    expect(again.locator("#sketch")).to_contain_text("6\u202f000 mm")
    hand.at(again.locator("#undo"), "undo")
    expect(again.locator("#unsent")).to_have_text("⚠ 2 kept")
    # what left the phone as its signal went may have come to the server without an answer: it is sent again, and counts once
    again.context.set_offline(False)
    again.evaluate("window.dispatchEvent(new Event('online'))")
    document = sent(hand, served)
    assert [one["length_mm"] for one in document["measurements"]["tape_plan"]["tapes"]] == [6000]
    assert [len(area["outline"]) for area in document["areas"]] == [4]
