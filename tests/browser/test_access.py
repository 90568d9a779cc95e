"""What is pressed is large enough, keys reach everything in order; the rules of axe-core are in test_axe_everywhere."""

from __future__ import annotations

import pytest
from tests.browser.panels_on_site import PANELS, every_part, panel_of, site_of, under_way

pytestmark = pytest.mark.browser

STAGES = ["measure", "levels", "paving", "ground", "water", "quantities", "price", "programme", "set-out", "check",
          "papers"]  # fmt: skip


SMALL = """
[...document.querySelectorAll("button, select, summary, input:not([type=hidden]):not([type=file]), [role=button]")]
  .filter((one) => !(one instanceof SVGElement) && one.checkVisibility() && one.getClientRects().length)
  .map((one) => {
    const own = one.getBoundingClientRect(), label = (one.closest("label") ?? one.labels?.[0])?.getBoundingClientRect();
    return [one.outerHTML.slice(0, 120), Math.max(own.height, label?.height ?? 0)];
  })
  .filter(([, high]) => high < 47.5)
"""


@pytest.mark.parametrize(
    "path",
    [
        "/",
        "/sums",
        "/replan",
        "/calendar",
        "/programs",
        "/firm",
        "/jobs/{job}/customer",
        "/jobs/{job}/record",
        "/jobs/{job}/site",
        "/jobs/{job}/walk",
        *(f"/jobs/{{job}}#{s}" for s in STAGES),
    ],
)
def test_on_a_phone_everything_to_press_is_48_px_high(chromium, served, path):
    page = chromium.new_page(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    page.goto(served.address + path.format(job=served.demo))
    page.locator("h1").first.wait_for(timeout=120_000)
    if "#" in path:
        page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
        page.evaluate("document.querySelectorAll('#panel details').forEach((one) => { one.open = true; })")
    page.wait_for_timeout(800)
    assert page.evaluate(SMALL) == []
    page.close()


@pytest.fixture(scope="module")
def working(served):
    return under_way(served)


@pytest.mark.parametrize("key", PANELS)
def test_on_a_phone_every_part_of_a_panel_on_site_is_large_enough_and_within_the_page(chromium, served, working, key):
    context = chromium.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    page = context.new_page()
    site_of(page, served, working)
    panel_of(page, key)
    for part in every_part(page):
        assert page.evaluate(SMALL) == [], part
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, part
    context.close()


def test_at_twice_the_size_nothing_runs_off_the_page(chromium, served):
    page = chromium.new_page(viewport={"width": 720, "height": 450}, device_scale_factor=2)
    page.goto(f"{served.address}/jobs/{served.demo}#levels")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    page.close()


NOW = "document.activeElement.dataset.tool || document.activeElement.dataset.handle || document.activeElement.id"


def test_keys_reach_every_tool_and_corner_in_order(page, served):
    page.goto(f"{served.address}/jobs/{served.demo}#paving")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    seen = []
    for _ in range(40):
        page.keyboard.press("Tab")
        seen.append(page.evaluate(NOW))
    stop = next(index for index, one in enumerate(seen) if one in {"undo", "move"})
    assert seen.index("c0.-1.0") > stop
    assert len([one for one in seen if one.startswith(("c0", "s0"))]) == 12
    # the tools are one stop; arrow keys reach each of them
    page.locator("#tools button:not(:disabled)").first.focus()
    reached = set()
    for _ in range(20):
        reached.add(page.evaluate(NOW))
        page.keyboard.press("ArrowRight")
    assert {"move", "area", "hole", "wall", "door", "gully", "cover", "tree"} <= reached
