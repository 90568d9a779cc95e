"""Drawings as a browser shows them: nothing clipped, labels apart, ink on the page, on a laptop and on a phone."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image

from pavewright.drawing import (
    as_laid_plan,
    dig_plan,
    laying_plan,
    levels_plan,
    section_at_wall,
    setting_out_plan,
    site_plan,
    to_svg,
    water_plan,
)

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
BUILDERS = (site_plan, levels_plan, section_at_wall, laying_plan, dig_plan, water_plan, setting_out_plan, as_laid_plan)
LABELLED = (levels_plan, water_plan, setting_out_plan, as_laid_plan, section_at_wall)


@pytest.fixture(scope="module")
def browser(chromium):
    return chromium


@pytest.fixture(scope="module", params=["l_terrace", "curved_path", "front_drive"])
def plan(made_plan, request):
    return made_plan(request.param)


def shown(browser, svg, wide=1366, high=900):
    page = browser.new_page(viewport={"width": wide, "height": high})
    faults = []
    page.on("console", lambda message: faults.append(message.text))
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.set_content(
        f'<!doctype html><meta name="viewport" content="width=device-width"><body style="margin:0">{svg}</body>'
    )
    assert faults == []
    return page


BOXES = """() => [...document.querySelectorAll('svg text')].map(t => {
  const b = t.getBoundingClientRect(), s = t.ownerSVGElement.getBoundingClientRect();
  return {words: t.textContent, x1: b.left - s.left, y1: b.top - s.top, x2: b.right - s.left, y2: b.bottom - s.top,
          wide: s.width, high: s.height, turned: t.hasAttribute('transform')};
})"""


@pytest.mark.parametrize("builder", BUILDERS)
def test_no_word_is_clipped(browser, plan, builder):
    scene = builder(plan)
    if scene is None:
        pytest.skip("this job has no such drawing")
    page = shown(browser, to_svg(scene))
    for box in page.evaluate(BOXES):
        assert box["x1"] >= -2 and box["y1"] >= -2, box
        assert box["x2"] <= box["wide"] + 2 and box["y2"] <= box["high"] + 2, box
    page.close()


@pytest.mark.parametrize("builder", LABELLED)
def test_labels_do_not_lie_on_each_other(browser, plan, builder):
    scene = builder(plan)
    if scene is None:
        pytest.skip("this job has no such drawing")
    page = shown(browser, to_svg(scene))
    boxes = [box for box in page.evaluate(BOXES) if not box["turned"]]
    clashes = []
    for k, one in enumerate(boxes):
        for other in boxes[k + 1 :]:
            across = min(one["x2"], other["x2"]) - max(one["x1"], other["x1"])
            down = min(one["y2"], other["y2"]) - max(one["y1"], other["y1"])
            height = min(one["y2"] - one["y1"], other["y2"] - other["y1"])
            if across > 2.0 and down > 0.45 * height:
                clashes.append((one["words"], other["words"]))
    page.close()
    assert clashes == []


@pytest.mark.parametrize(("wide", "high"), [(390, 844), (1366, 768)], ids=["phone", "laptop"])
def test_a_plan_shows_ink_on_phone_and_laptop(browser, plan, wide, high):
    svg = to_svg(laying_plan(plan)).replace("<svg ", '<svg style="width:100%;height:auto" ', 1)
    page = shown(browser, svg, wide, high)
    picture = Image.open(io.BytesIO(page.screenshot())).convert("L")
    assert page.evaluate("document.documentElement.scrollWidth") <= wide
    page.close()
    # thin lines that run at an angle are smoothed to grey
    dark = sum(picture.histogram()[:208]) / (picture.width * picture.height)
    assert 0.005 < dark < 0.6
