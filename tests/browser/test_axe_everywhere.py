"""Every page and every stage against the rules of axe-core: three sizes, twice the size, light, dark and sunlight.

One page is opened once; its size and its look are changed under it.
"""

from __future__ import annotations

from importlib.resources import files

import pytest
from tests.browser.panels_on_site import PANELS, every_part, panel_of, site_of

from pavewright.desk import STAGES

pytestmark = pytest.mark.browser

AXE = (files("axe_playwright_python") / "axe.min.js").read_text("utf-8")
SIZES = {"phone": (390, 844), "tablet": (1024, 768), "laptop": (1440, 900), "twice the size": (720, 450)}
LOOKS = ("light", "dark", "sun")
RUN = """
(wishes) => axe.run(document, {...wishes, resultTypes: ['violations']}).then((told) => told.violations.map((one) =>
  [one.id, one.help, one.nodes.slice(0, 3).map((node) => node.html.slice(0, 160))]))
"""
ALL = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"],
    "rules": {"color-contrast": {"enabled": False}},
}
CONTRAST = {"runOnly": {"type": "rule", "values": ["color-contrast"]}}
PAGES = {
    "jobs": ("/", ".job-card"),
    "sums": ("/sums?sum=fall&run_mm=4200", "#answers"),
    "plan again": ("/replan", "#of"),
    "programs": ("/programs", "main h2"),
    "firm": ("/firm", "#part h2"),
    "calendar": ("/calendar", "#below h2"),
    "prices of the firm": ("/firm#prices", "#part .search-row"),
    "customer": ("/jobs/{job}/customer", "h2"),
    "record": ("/jobs/{job}/record", ".entries"),
    "site": ("/jobs/{job}/site#start", ".start"),
    "walk": ("/jobs/{job}/walk", "#panel > *"),
    "nowhere": ("/nowhere", "h1"),
}
"""Pages beside the working screen, each with what stands on it once it is there."""


@pytest.fixture(scope="module")
def screen(chromium, served):
    context = chromium.new_context(viewport={"width": 1440, "height": 900})
    context.set_default_timeout(120_000)
    opened = context.new_page()
    yield opened
    context.close()


def look(page, theme):
    page.evaluate(
        "(to) => { document.documentElement.dataset.theme = to;"
        " document.documentElement.dataset.contrast = to === 'sun' ? 'more' : 'usual'; }",
        theme,
    )


def faults(page, where):
    """All rules at each size but that of contrast, which is slow and is held in each look at the narrowest."""
    page.evaluate(AXE)
    found = []
    for size, (width, height) in reversed(SIZES.items()):
        page.set_viewport_size({"width": width, "height": height})
        page.wait_for_timeout(60)
        found += [(where, size, *one) for one in page.evaluate(RUN, ALL)]
    for theme in LOOKS:
        look(page, theme)
        found += [(where, theme, *one) for one in page.evaluate(RUN, CONTRAST)]
    look(page, "light")
    return found


def told(found):
    """Each rule once, with where it is broken and by what."""
    rules = {}
    for where, when, rule, words, nodes in found:
        rules.setdefault((rule, words), []).append((where, when, nodes[:1]))
    return [(rule, len(places), places[:2]) for rule, places in rules.items()]


def test_every_stage_of_a_job(screen, served):
    screen.goto(f"{served.address}/jobs/{served.demo}")
    screen.locator("#strip", has_text="whole").wait_for()
    found = []
    for stage in STAGES:
        screen.evaluate(f"location.hash = '{stage.key}'")
        screen.locator(f"[data-stage={stage.key}]").wait_for(state="attached")
        screen.evaluate("document.querySelectorAll('#panel details').forEach((one) => { one.open = true; })")
        screen.wait_for_timeout(80)
        found += faults(screen, stage.key)
    assert told(found) == []


WALKED = ("dpc", "gullies", "ground", "questions", "paving", "price", "papers")
"""Steps of the walk that are put together differently; the others are made of the same pieces."""


def test_every_later_step_of_the_walk(screen, served):
    """Each step as it stands, and with its first thing asked again."""
    screen.goto(f"{served.address}/jobs/{served.demo}/walk#dpc")
    screen.locator("#panel[data-kept]").wait_for()
    found = []
    for step in WALKED:
        screen.set_viewport_size({"width": 390, "height": 844})
        screen.evaluate(f"location.hash = '{step}'")
        screen.wait_for_timeout(300)
        found += faults(screen, step)
        key = screen.locator("#panel button.tall").last
        if step in {"dpc", "gullies"}:
            key.click()
            screen.wait_for_timeout(100)
            found += faults(screen, f"{step}, asked")
    assert told(found) == []


def test_what_opens_over_a_job(screen, served):
    """Menus, layers, the box of a side, the dialog of printing."""
    screen.goto(f"{served.address}/jobs/{served.demo}")
    screen.locator("#strip", has_text="whole").wait_for()
    screen.set_viewport_size({"width": 390, "height": 844})
    screen.locator(".tool-menu > summary").click()
    found = faults(screen, "tools")
    screen.keyboard.press("Escape")
    screen.locator("#layers > summary").click()
    found += faults(screen, "layers")
    screen.keyboard.press("Escape")
    screen.set_viewport_size({"width": 1440, "height": 900})
    screen.locator("[data-handle='s0.-1.0']").focus()
    screen.keyboard.press("Enter")
    found += faults(screen, "side")
    screen.locator(".side-box").get_by_role("button", name="Close").click()
    screen.set_viewport_size({"width": 1440, "height": 900})
    screen.locator("#print").click()
    found += faults(screen, "print")
    screen.get_by_role("button", name="Leave it").click()
    assert told(found) == []


@pytest.mark.parametrize("name", PAGES)
def test_every_other_page(screen, served, name):
    path, sign = PAGES[name]
    screen.goto(served.address + path.format(job=served.demo))
    screen.locator(sign).first.wait_for(state="attached")
    screen.wait_for_timeout(400)
    assert faults(screen, name) == []
    assert screen.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0


@pytest.mark.parametrize("key", PANELS)
def test_every_part_of_every_panel_on_site(screen, served, key):
    site_of(screen, served, served.demo)
    panel_of(screen, key)
    found = []
    for part in every_part(screen):
        found += faults(screen, f"{key}: {part}")
        assert screen.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, part
    assert told(found) == []
