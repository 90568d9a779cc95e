"""The plan printed to scale: a millimetre of the site is the right part of a millimetre on paper."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

MM_PER_PX = 25.4 / 96.0


def opened(page, served):
    page.goto(f"{served.address}/jobs/{served.demo}#paving")
    expect(page.locator("#strip")).to_contain_text("whole", timeout=90_000)


def box_mm(page, selector):
    """The size on paper of a shape, without the width of its line."""
    page.wait_for_timeout(300)
    reported = """(one) => {
      const box = one.getBBox(), at = one.getScreenCTM();
      return [box.width * at.a, box.height * Math.abs(at.d)];
    }"""
    wide, high = page.locator(selector).first.evaluate(reported)
    return wide * MM_PER_PX, high * MM_PER_PX


@pytest.mark.parametrize(("paper", "scale"), [("A4 landscape", 100), ("A4 landscape", 200), ("A3 landscape", 50)])
def test_the_outline_and_the_bar_measure_on_paper_what_they_say(page, served, paper, scale):
    opened(page, served)
    page.evaluate("() => { window.print = () => { window.printed = true; }; }")
    page.get_by_role("button", name="Print to scale").click()
    dialog = page.get_by_role("dialog")
    dialog.get_by_label("Paper").select_option(label=paper)
    dialog.get_by_label("Scale").select_option(label=f"1:{scale}")
    dialog.get_by_role("button", name="Print").click()
    page.wait_for_function("() => window.printed")
    page.emulate_media(media="print")
    wide, high = box_mm(page, ".printed-outline")
    corners = served.call("POST", "/api/plan", served.call("GET", f"/api/jobs/{served.demo}")["document"])
    (shape,) = [area["shape"] for area in corners["plan"]["survey"]["site"]["areas"]]
    xs, ys = zip(*shape["outer"], strict=True)
    assert wide == pytest.approx((max(xs) - min(xs)) / scale, abs=0.05)
    assert high == pytest.approx((max(ys) - min(ys)) / scale, abs=0.05)
    bar = page.locator(".to-scale .scale-bar")
    long, _ = box_mm(page, ".to-scale .scale-bar rect")
    assert long == pytest.approx(float(bar.get_attribute("data-mm")) / scale, abs=0.05)
    expect(page.locator(".to-scale header")).to_contain_text(f"1:{scale} on {paper}")
    expect(page.locator("#panel")).to_be_hidden()
    sheet = page.pdf(prefer_css_page_size=True)
    assert sheet.count(b"/Type /Page\n") + sheet.count(b"/Type /Page ") <= 1
    page.emulate_media(media="screen")
    page.evaluate("() => window.dispatchEvent(new Event('afterprint'))")
    expect(page.locator(".to-scale")).to_have_count(0)
    expect(page.locator("#panel")).to_be_visible()


def test_north_and_a_bar_stand_on_the_plan_and_follow_the_zoom(page, served):
    opened(page, served)
    bar = page.locator(".marks .scale-bar")
    first = float(bar.get_attribute("data-mm"))
    expect(page.locator(".marks .north")).to_have_attribute(
        "aria-label", "North is 24 degrees clockwise from up the sheet"
    )
    for _ in range(8):
        page.get_by_role("button", name="Nearer").click()
    assert float(bar.get_attribute("data-mm")) < first
