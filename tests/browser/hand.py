"""A gloved hand on a phone, and a count of what it does."""

from __future__ import annotations

import re

_AT_REST = 4
PHONE = {"viewport": {"width": 390, "height": 844}, "is_mobile": True, "has_touch": True}


class Hand:
    """Touches of one page. Digits, and the key that takes a number, are counted as numbers and not as touches."""

    def __init__(self, page):
        self.page = page
        self.actions = 0
        self.numbers = 0
        self.readings = 0
        self.steps = {}

    def _count(self, what):
        self.actions += 1
        step = self.step
        self.steps.setdefault(step, []).append(what)

    def _drawn(self):
        return self.page.evaluate("document.querySelector('#panel')?.dataset.drawn ?? ''")

    def _settled(self, before):
        """Wait until the page has answered a touch, and is at rest."""
        last, still = before, 0
        for _ in range(200):
            self.page.wait_for_timeout(25)
            now = self._drawn()
            still = still + 1 if now == last and now != before else 0
            last = now
            if still >= _AT_REST:
                return

    @property
    def step(self):
        """The step of the walk that is open, or the page."""
        found = self.page.locator("#steps [aria-current]")
        return found.inner_text().split("\n")[-1].strip() if found.count() else "list of jobs"

    def touch(self, name, *, exact=False, within="#panel, #foot"):
        """Touch a key by what it says."""
        key = self.page.locator(within).get_by_role("button", name=name, exact=exact).first
        key.wait_for()
        self._count(name)
        before = self._drawn()
        key.tap()
        self._settled(before)

    def at(self, locator, what):
        """Touch anything else."""
        locator.wait_for()
        self._count(what)
        locator.tap()
        self.page.wait_for_timeout(40)

    def sketch(self, across, down):
        """Touch the sketch, at shares of its width and height."""
        box = self.page.locator("#sketch").bounding_box()
        self._count(f"sketch {across:g} {down:g}")
        before = self._drawn()
        self.page.touchscreen.tap(box["x"] + box["width"] * across, box["y"] + box["height"] * down)
        self._settled(before)

    def spot(self, east_mm, north_mm, frame):
        """Touch a place of the sketch by its millimetres, as somebody who sees where a thing stands.

        The frame names three corners with their true places; their signs on the screen give the rest.
        """
        (one, (x1, y1)), (two, (x2, y2)), (three, (x3, y3)) = frame.items()
        at = {name: self._sign(name) for name in (one, two, three)}
        size = (x2 - x1) * (y3 - y1) - (x3 - x1) * (y2 - y1)
        u = ((east_mm - x1) * (y3 - y1) - (x3 - x1) * (north_mm - y1)) / size
        v = ((x2 - x1) * (north_mm - y1) - (east_mm - x1) * (y2 - y1)) / size
        left, top = (
            at[one][axis] + u * (at[two][axis] - at[one][axis]) + v * (at[three][axis] - at[one][axis])
            for axis in (0, 1)
        )
        self._count(f"sketch {east_mm} {north_mm}")
        before = self._drawn()
        self.page.touchscreen.tap(left, top)
        self._settled(before)

    def _sign(self, name):
        """Where a corner stands on the screen."""
        return self.page.evaluate(
            "(name) => { const text = [...document.querySelectorAll('#sketch [data-point]')].find((one) => "
            "one.dataset.point === name); const sign = text.closest('[data-x]'); const box = "
            "sign.ownerSVGElement.getBoundingClientRect(); const at = sign.transform.baseVal[0].matrix; "
            "return [box.left + at.e, box.top + at.f]; }",
            name,
        )

    def number(self, value, *, reading=False):
        """Type a number with the keys of the pad and take it."""
        before = self._drawn()
        for key in f"{value}":
            self.page.locator(".pad-keys").get_by_text(key, exact=True).tap()
        self.page.locator(".pad-keep").tap()
        if reading:
            self.readings += 1
        else:
            self.numbers += 1
        self._settled(before)

    @property
    def question(self):
        """What is asked now."""
        found = self.page.locator("#panel .question")
        return found.first.inner_text() if found.count() else ""

    @property
    def taped(self):
        """Between which points a tape is asked; none where another thing is."""
        found = re.search(r"(?:[Tt]ape:?) (.+?) to (.+?)(?:, again)?$", self.question)
        return (found[1], found[2]) if found else None

    def told(self):
        """What was counted, step by step."""
        lines = [f"{len(all_)} {step}: {', '.join(all_)}" for step, all_ in self.steps.items()]
        head = f"{self.actions} actions, {self.numbers} numbers and {self.readings} readings of tape and staff"
        return "\n".join([head, *lines])
