"""The first visit typed in on a laptop: from an empty job to a price for a patio on a wall.

An action is a click of the mouse, or a key that types no value: Enter, an arrow, W. Not counted: the letters and figures of
a value, whether in a box or in a list of choices, and Tab to the next box of what is being filled in: the sides of one
shape, one tape, one reading, one slab, the ground, the rates.
"""

from __future__ import annotations

import math
import sys

import pytest
from kept import wait_kept
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

ACTIONS_MAX = 45
TAPES = (("A", "C"), ("B", "D"), ("A", "G"), ("B", "G"), ("C", "G"), ("A", "M"), ("B", "M"), ("C", "M"))
PLACES = {"A": (0, 0), "B": (6000, 0), "C": (6000, 4000), "D": (0, 4000), "G": (4000, 3700), "M": (3000, 2000)}
READINGS = (
    ("A", 1500), ("B", 1505), ("C", 1610), ("D", 1600), ("G", 1590), ("M", 1550), ("Sill", 1340), ("Brick", 1425),
    ("Cover", 1640), ("Path", 1700), ("Lawn", 1660), ("Gate", 1720), ("Drain", 1690), ("Step", 1480), ("A", 1501),
)  # fmt: skip
"""Read from one set-up: back on A, and A again at the end."""


class Laptop:
    """Hands on a keyboard and a mouse, and a count of what they do."""

    def __init__(self, page):
        self.page = page
        self.actions = []

    def click(self, locator, what):
        self.actions.append(what)
        locator.click()

    def press(self, chord):
        self.actions.append(chord)
        self.page.keyboard.press(chord)

    def row(self, *values):
        """Type values into the boxes of one row, with Tab between them."""
        for number, value in enumerate(values):
            if number:
                self.page.keyboard.press("Tab")
            if value:
                self.page.keyboard.type(str(value))

    def on_to(self, path, value):
        """Tab to a box further on in the same form, and type."""
        for _ in range(12):
            self.page.keyboard.press("Tab")
            if self.page.evaluate("document.activeElement.closest('[data-path]')?.dataset.path") == path:
                self.page.keyboard.type(value)
                return
        raise AssertionError(path)

    def reported(self):
        return f"{len(self.actions)} actions: {', '.join(self.actions)}"


@pytest.fixture
def hands(page):
    return Laptop(page)


def length(one, other):
    return round(math.dist(PLACES[one], PLACES[other]))


def group(page, name):
    return page.locator("#panel summary", has_text=name).first


def open_group(hands, name):
    """Open a part of the form; where it was drawn anew under the hand, touch it once more, as anybody would."""
    for _ in range(2):
        hands.click(group(hands.page, name), name)
        try:
            expect(hands.page.locator("#panel details[open] > summary", has_text=name).first).to_be_visible(
                timeout=15_000
            )
        except AssertionError:
            continue
        return
    raise AssertionError(name)


def shape(hands):
    """Four sides in a row, the first along the wall, with its damp-proof course."""
    page = hands.page
    hands.click(page.get_by_role("button", name="Type the lengths"), "type the lengths")
    page.keyboard.type("6.0 m")
    hands.press("w")
    page.keyboard.press("Tab")
    hands.row("10150", "4000", "6000", "4000")
    hands.press("Enter")


def tapes(hands):
    """Eight more tapes, a row each."""
    page = hands.page
    open_group(hands, "Tapes")
    hands.click(page.get_by_role("button", name="+ tape", exact=True), "+ tape")
    for number, (start, end) in enumerate(TAPES):
        hands.row(start, end, length(start, end))
        if number + 1 < len(TAPES):
            hands.press("Enter")
    page.keyboard.press("Tab")


def staff(hands):
    """A known level and one set-up of the instrument."""
    page = hands.page
    open_group(hands, "Levels")
    hands.click(page.get_by_role("button", name="+ known level"), "+ known level")
    hands.row("A", "10000")
    hands.click(page.get_by_role("button", name="+ level book"), "+ level book")
    for number, (point, reading) in enumerate(READINGS):
        last = number + 1 == len(READINGS)
        page.keyboard.press("Control+A")
        hands.row(point, *(["", "", reading] if last else [reading, "", ""] if not number else ["", reading, ""]))
        if not last:
            hands.press("Enter")
    page.keyboard.press("Tab")
    hands.click(page.get_by_label("Ground points"), "ground points")
    page.keyboard.type("A, B, C, D, G, M")
    page.keyboard.press("Tab")


_CORNERS = """() => {
  const found = ["A", "C"].map((name) => document.querySelector(`[data-corner=${name}] circle`));
  if (!found.every((one) => one && one.getBoundingClientRect().width)) return null;
  return found.flatMap((one) => {
    const box = one.getBoundingClientRect();
    return [box.x + box.width / 2, box.y + box.height / 2];
  });
}"""


def on_plan(page, name):
    """Where a point stands on the screen, by two corners that are seen at one moment: the plan may be drawn anew."""
    x1, y1, x2, y2 = page.wait_for_function(_CORNERS, timeout=90_000).json_value()
    east, north = PLACES[name]
    return x1 + (x2 - x1) * east / 6000, y1 + (y2 - y1) * north / 4000


def drain(hands):
    """Where the water goes, and a gully at the point that was taped."""
    page = hands.page
    hands.click(page.get_by_role("button", name="Water", exact=False).first, "Water")
    hands.click(page.get_by_role("button", name="+ outfall"), "+ outfall")
    page.keyboard.press("Tab")
    page.keyboard.press("Control+A")
    page.keyboard.type("Drain")
    page.keyboard.press("Tab")
    page.keyboard.type("Surface")
    hands.click(page.get_by_role("button", name="Leave it as it is"), "leave the outfall")
    place = on_plan(page, "G")
    hands.click(page.get_by_role("button", name="+ Gully", exact=True), "+ Gully")
    hands.actions.append("on the plan")
    page.mouse.click(*place)
    asked = page.get_by_role("dialog", name="What drains to Gully 1?")
    asked.wait_for()
    hands.click(asked.get_by_role("button", name="Fold the area to Gully 1, by valleys"), "fold to it")


def slabs(hands):
    """One slab, and the patio laid with it."""
    page = hands.page
    hands.click(page.get_by_role("button", name="Paving", exact=False).first, "Paving")
    hands.click(page.get_by_role("button", name="+ unit", exact=True), "+ unit")
    page.keyboard.press("Tab")
    page.keyboard.type("Grey slab")
    for value in (
        "",
        "",
        "600",
        "600",
        "40",
        "33",
        "20",
        "476",
    ):  # kind and material stay; size, weight, pack, its price
        page.keyboard.press("Tab")
        if value:
            page.keyboard.type(value)
    page.keyboard.press("Tab")
    unit = page.locator("[data-path='areas.0.laying.unit'] select")
    hands.click(unit, "the unit of the patio")
    page.keyboard.type("Grey")
    page.keyboard.press("Tab")


def ground(hands):
    """What a hole showed."""
    page = hands.page
    hands.click(page.get_by_role("button", name="Ground", exact=False).first, "Ground")
    hands.click(page.locator("[data-path='site.ground.soil'] select"), "the soil")
    page.keyboard.type("Sandy clay")
    hands.on_to("site.ground.topsoil_mm", "150")
    page.keyboard.press("Tab")


def price(hands):
    """What an hour costs, overhead, margin and tax."""
    page = hands.page
    hands.click(page.get_by_role("button", name="Price", exact=False).first, "Price")
    hands.click(page.locator("[data-path='rates.labour_minor_per_hour'] input"), "an hour")
    page.keyboard.type("28.50")
    for field, value in (("overhead", "10"), ("margin", "20"), ("tax", "20")):
        hands.on_to(f"rates.{field}_percent", value)
    page.keyboard.press("Tab")


def test_a_first_visit_is_typed_in_on_a_laptop(hands, page, served):
    """6.0 by 4.0 m on a wall with its DPC, 12 tapes, 15 staff readings, a gully, slabs, a price."""
    page.goto(served.address)
    hands.click(page.locator(".begin .main").or_(page.locator("#new")).first, "New job")
    page.get_by_label("What is the job called?").fill("Patio on a wall")
    hands.press("Enter")
    page.wait_for_url("**/jobs/*")
    job = page.url.split("/jobs/")[1].split("#")[0]
    page.locator("#panel details").first.wait_for()
    for part in (shape, tapes, staff, drain, slabs, ground, price):
        part(hands)
    sys.stdout.write(f"\n{hands.reported()}\n")
    expect(page.locator("#strip")).to_contain_text("£", timeout=120_000)
    typed_last = {"overhead_percent": 10, "margin_percent": 20, "tax_percent": 20}
    document = wait_kept(page, served, job, lambda kept: typed_last.items() <= kept["rates"].items())
    assert len(document["measurements"]["tape_plan"]["tapes"]) == 4 + len(TAPES) == 12
    assert [len(book["rows"]) for book in document["measurements"]["level_books"]] == [15]
    assert document["measurements"].get("points", []) == []  # nothing has an invented place
    assert document["site"]["walls"][0]["dpc_level_mm"] == 10150
    plan = served.call("POST", "/api/plan", document)["plan"]
    assert plan["cost"]["total_minor"] > 0
    (share,) = [each for each in plan["water"]["shares"] if each["kind"] == "gully"]
    assert share["reaches_m2"] > 0.9 * share["whole_m2"]
    assert len(hands.actions) <= ACTIONS_MAX
