"""Random touches and keys on every screen: nothing breaks, nothing goes blank, nothing that was kept is lost.

The seed makes the same walk again. PAVEWRIGHT_TOUCHES sets how many there are on a screen (2000 for a whole run),
PAVEWRIGHT_SEED another walk.
"""

from __future__ import annotations

import os
import random

import pytest
from playwright.sync_api import Error

pytestmark = pytest.mark.browser

TOUCHES = int(os.environ.get("PAVEWRIGHT_TOUCHES", "300"))
SEED = int(os.environ.get("PAVEWRIGHT_SEED", "20270412"))
KEYS = ["Tab", "Tab", "Tab", "Shift+Tab", "Enter", "Space", "Escape", "ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight",
        "Home", "End", "Delete", "Backspace", "Control+z", "Control+y", "1", "2", "6", "0", ".", "a", "x", "-", "+", "?",
        "Shift+ArrowUp", "Shift+ArrowLeft"]  # fmt: skip
SCREENS = {
    "job": ("/jobs/{job}#measure", "#strip", "#panel > *", (390, 844)),
    "job, wide": ("/jobs/{job}#paving", "#strip", "#panel > *", (1280, 800)),
    "site": ("/jobs/{job}/site", "#panel", "#panel > *", (390, 844)),
    "site, on its side": ("/jobs/{job}/site", "#panel", "#panel > *", (844, 390)),
    "walk": ("/jobs/{job}/walk", "#panel", "#panel > *", (390, 844)),
    "jobs": ("/", "main", "main > *", (390, 844)),
    "sums": ("/sums", "main", "main > *", (390, 844)),
}
"""Address, what must always be there, what it must never be empty of, size."""
FINGER = """
([x, y]) => {
  const one = document.elementFromPoint(x, y);
  if (!one) return null;
  const link = one.closest('a[href]'), file = one.closest('input[type=file], [download]');
  // away from the page and out of the browser leads no walk
  if (file || (link && (link.target || !link.getAttribute('href').startsWith('#')))) return 'away';
  if (/^(Print|Archive|Delete for good|Restore|Download|Open the camera)/.test((one.closest('button')?.textContent ?? '').trim()))
    return 'away';
  return one.tagName;
}
"""
STATE = """
([must, empty]) => ({
  at: document.readyState === 'loading' ? '' : location.origin + location.pathname,
  blank: !document.querySelector(empty) || document.body.innerText.trim().length < 10,
  gone: !document.querySelector(must),
  wide: document.documentElement.scrollWidth - innerWidth,
  dialogs: document.querySelectorAll('dialog[open]').length,
})
"""


def readings(document):
    """Everything that was measured, as a set: a reading may be added, none may go by itself."""
    measured = document.get("measurements", {})
    tapes = [tuple(sorted((t["start"], t["end"]))) for t in (measured.get("tape_plan") or {}).get("tapes", [])]
    rows = [(book["name"], row.get("point")) for book in measured.get("level_books", []) for row in book["rows"]]
    return len(tapes), len(rows)


class Monkey:
    """Touches and keys, by a seed."""

    def __init__(self, page, chance, must, empty):
        self.page, self.chance, self.must, self.empty = page, chance, must, empty
        self.done = []

    def ask(self, script, given=None):
        """Ask the page; a touch may have led to another one, which is still on its way."""
        for _ in range(5):
            try:
                self.page.wait_for_load_state("domcontentloaded")
                return self.page.evaluate(script, given)
            except Error:
                self.page.wait_for_timeout(200)
        return self.page.evaluate(script, given)

    def back(self, address):
        """Go back to the screen; a touch may still be leading elsewhere, which ends this way there: then once more."""
        for _ in range(5):
            try:
                self.page.wait_for_load_state()
                self.page.goto(address)
            except Error as error:
                if not any(words in str(error) for words in ("interrupted by another navigation", "net::ERR_ABORTED")):
                    raise
                self.page.wait_for_timeout(200)
            else:
                return
        raise AssertionError(("the screen is always left again", self.done[-12:]))

    def step(self):
        size = self.page.viewport_size
        if self.chance.random() < 0.7:
            at = self.chance.uniform(1, size["width"] - 1), self.chance.uniform(1, size["height"] - 1)
            under = self.ask(FINGER, list(at))
            self.done.append(f"touch {at[0]:.0f} {at[1]:.0f} {under}")
            if under in {None, "away"}:
                return
            if under == "svg" and self.chance.random() < 0.4:
                self.page.mouse.move(*at)
                self.page.mouse.down()
                self.page.mouse.move(
                    at[0] + self.chance.uniform(-90, 90), at[1] + self.chance.uniform(-90, 90), steps=3
                )
                self.page.mouse.up()
            else:
                self.page.mouse.click(*at)
        else:
            key = self.chance.choice(KEYS)
            self.done.append(key)
            if key in {"Enter", "Space"} and self.ask(
                "(() => { const one = document.activeElement; return one.matches('a, [download], input[type=file]')"
                " || /^(Print|Archive|Restore|Download|Delete for good)/.test(one.textContent.trim()); })()"
            ):
                return
            self.page.keyboard.press(key)

    def look(self, here):
        """What is always so, and whether it was looked at: a page that was left is not.

        Where the page stands is asked with all the rest: a touch may have led to another one that opens only now.
        """
        told = self.ask(STATE, [self.must, self.empty])
        trail = self.done[-12:]
        if told["at"] != here:
            return False
        assert not told["blank"], trail
        assert not told["gone"], trail
        assert told["wide"] <= 0, trail
        if told["dialogs"]:
            self.leave(trail)
        return True

    def look_at_last(self, here, address):
        """Look once the last touch has led where it leads; where that is another page, after the way back."""
        for _ in range(5):
            self.page.wait_for_timeout(800)
            if self.look(here):
                return
            self.back(address)
            self.page.locator(self.empty).first.wait_for(state="attached")
        raise AssertionError(("the screen is always left again", self.done[-12:]))

    def leave(self, trail):
        """A dialog is left by Escape, or by one of its buttons."""
        for _ in range(4):
            self.page.keyboard.press("Escape")
            self.page.wait_for_timeout(60)
            if not self.ask("document.querySelectorAll('dialog[open]').length"):
                return
        raise AssertionError(("a dialog that cannot be left", trail))


@pytest.mark.parametrize("name", SCREENS)
def test_random_touches_and_keys(chromium, served, name):
    path, must, empty, (width, height) = SCREENS[name]
    chance = random.Random(f"{SEED} {name}")  # noqa: S311 - the same walk again, not a secret
    job = served.call("POST", "/api/jobs", {"copy_of": served.demo})["id"]
    before = readings(served.call("GET", f"/api/jobs/{job}")["document"])
    context = chromium.new_context(viewport={"width": width, "height": height}, has_touch=width < 900)
    context.set_default_timeout(60_000)
    page = context.new_page()
    faults = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("console", lambda said: said.type == "error" and not _expected(said.text) and faults.append(said.text))
    page.on("dialog", lambda asked: asked.accept())
    page.on("filechooser", lambda _: None)
    page.goto(served.address + path.format(job=job))
    page.locator(empty).first.wait_for(state="attached", timeout=120_000)
    page.wait_for_timeout(1000)
    monkey = Monkey(page, chance, must, empty)
    here = page.url.split("#")[0].split("?")[0]
    try:
        for number in range(TOUCHES):
            monkey.step()
            if page.url.split("#")[0].split("?")[0] != here:
                monkey.back(served.address + path.format(job=job))
                page.locator(empty).first.wait_for(state="attached")
            if number % 25 == 24:
                page.wait_for_timeout(50)
                monkey.look(here)
            assert faults == [], monkey.done[-12:]
        monkey.look_at_last(here, served.address + path.format(job=job))
        assert faults == [], monkey.done[-12:]
        if "job" not in name:  # on the working screen a reading may be deleted by hand, with undo
            after = readings(served.call("GET", f"/api/jobs/{job}")["document"])
            assert after[0] >= before[0]
            assert after[1] >= before[1]
    finally:
        context.close()
        served.call("POST", f"/api/jobs/{job}/archived", {"archived": True})


def _expected(words):
    """Refusals that a page shows in words are noted by the browser as well."""
    return "the server responded with a status of 4" in words
