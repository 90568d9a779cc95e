"""Every screen against the rules of axe-core, in light and dark, and read with larger type."""

from __future__ import annotations

from importlib.resources import files

import pytest

pytestmark = pytest.mark.browser

AXE = (files("axe_playwright_python") / "axe.min.js").read_text("utf-8")
STAGES = ["measure", "levels", "paving", "ground", "water", "quantities", "price", "programme", "set-out", "check",
          "papers"]  # fmt: skip


def faults_of(page):
    page.evaluate(AXE)
    told = page.evaluate("axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'best-practice']})")
    return [(one["id"], one["help"], [node["html"][:160] for node in one["nodes"][:3]]) for one in told["violations"]]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_working_screen_has_no_fault(chromium, served, scheme):
    page = chromium.new_page(viewport={"width": 1440, "height": 900}, color_scheme=scheme)
    page.goto(f"{served.address}/jobs/{served.demo}#measure")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    for stage in STAGES:
        page.locator("#rail button").nth(STAGES.index(stage)).click()
        page.wait_for_timeout(300)
        for _ in range(2):
            page.evaluate("document.querySelectorAll('#panel details').forEach((one) => { one.open = true; })")
            page.wait_for_timeout(200)
        assert faults_of(page) == [], stage
    page.close()


def test_at_twice_the_size_nothing_runs_off_the_page(chromium, served):
    page = chromium.new_page(viewport={"width": 720, "height": 450}, device_scale_factor=2)
    page.goto(f"{served.address}/jobs/{served.demo}#levels")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    page.close()


def test_keys_reach_every_tool_and_corner_in_order(page, served):
    page.goto(f"{served.address}/jobs/{served.demo}#paving")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    seen = []
    for _ in range(70):
        page.keyboard.press("Tab")
        seen.append(
            page.evaluate(
                "document.activeElement.id || document.activeElement.dataset.handle || document.activeElement.textContent.slice(0, 20)"
            )
        )
    assert "c0.-1.0" in seen
    assert seen.index("c0.-1.0") > seen.index("+ Area")
    assert len(set(seen)) > 40
