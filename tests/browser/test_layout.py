"""Where things stand on the screens, by their boxes: nothing out of sight, nothing over another, nothing to scroll for."""

from __future__ import annotations

import io
import json
import urllib.error
import urllib.request

import pypdf
import pytest

pytestmark = pytest.mark.browser

SIZES = {
    "phone": (390, 844),
    "on its side": (844, 390),
    "tablet": (1024, 768),
    "laptop": (1440, 900),
    "twice the size": (720, 450),
}
STAGES = ["measure", "levels", "paving", "ground", "water", "quantities", "price", "programme", "set-out", "check",
          "papers"]  # fmt: skip
BOXES = """
() => {
  const boxes = (selector) => [...document.querySelectorAll(selector)]
    .filter((one) => one.checkVisibility() && one.getClientRects().length)
    .map((one) => {
      const box = one.getBoundingClientRect();
      return { name: (one.getAttribute('aria-label') || one.textContent).trim().slice(0, 30),
               left: box.left, top: box.top, right: box.right, bottom: box.bottom };
    });
  return {
    wide: document.documentElement.scrollWidth - innerWidth, high: document.documentElement.scrollHeight - innerHeight,
    body: document.body.scrollHeight - innerHeight,
    tools: boxes('#tools button, #tools summary'), keys: boxes('.plan-keys > button, .layers > summary'),
    plan: boxes('#plan')[0], panel: boxes('.panel')[0], corners: boxes('.corner circle:last-of-type'),
    words: boxes('#plan svg [data-x] text').filter((one) => one.right > one.left),
  };
}
"""


@pytest.fixture(scope="module")
def screen(chromium, served):
    """One page with the demo, opened once; its size is changed."""
    context = chromium.new_context(viewport={"width": 1440, "height": 900})
    opened = context.new_page()
    opened.goto(f"{served.address}/jobs/{served.demo}#measure")
    opened.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    yield opened
    context.close()


def put(page, size, stage="paving", view="both"):
    page.set_viewport_size({"width": SIZES[size][0], "height": SIZES[size][1]})
    page.evaluate(f"location.hash = '{stage}'")
    page.locator(f"[data-stage={stage}]").wait_for(state="attached")
    page.evaluate(f"document.body.dataset.view = '{view}'")
    page.wait_for_timeout(150)
    page.locator("#zoom-all").evaluate("(one) => one.click()")
    page.wait_for_timeout(200)
    return page.evaluate(BOXES)


def within(box, other, slack=1.0):
    return (
        box["left"] >= other["left"] - slack
        and box["top"] >= other["top"] - slack
        and box["right"] <= other["right"] + slack
        and box["bottom"] <= other["bottom"] + slack
    )


def meet(one, other):
    return (
        min(one["right"], other["right"]) - max(one["left"], other["left"]) > 0.5
        and min(one["bottom"], other["bottom"]) - max(one["top"], other["top"]) > 0.5
    )


@pytest.mark.parametrize("size", SIZES)
def test_the_page_of_a_job_does_not_scroll_and_the_plan_has_room(screen, size):
    for stage in STAGES:
        seen = put(screen, size, stage)
        assert seen["wide"] <= 0, stage
        assert seen["high"] <= 0, stage
        assert seen["body"] <= 0, stage
    plan, panel = seen["plan"], seen["panel"]
    assert plan["right"] - plan["left"] >= 200
    assert plan["bottom"] - plan["top"] >= 180
    assert panel["right"] - panel["left"] >= 200
    assert panel["bottom"] - panel["top"] >= 180


@pytest.mark.parametrize("size", SIZES)
def test_every_tool_can_be_reached_and_none_is_cut_off(screen, size):
    seen = put(screen, size)
    screen_box = {"left": 0, "top": 0, "right": SIZES[size][0], "bottom": SIZES[size][1]}
    room = screen.locator(".plan-room").bounding_box()
    room = {
        "left": room["x"],
        "top": room["y"],
        "right": room["x"] + room["width"],
        "bottom": room["y"] + room["height"],
    }
    assert [one for one in seen["tools"] if not within(one, room)] == []
    assert [one for one in seen["keys"] if not within(one, room)] == []
    shown = {one["name"] for one in seen["tools"]}
    if any(name.endswith("▾") for name in shown):
        screen.locator(".tool-menu > summary").click()
        menu = screen.evaluate(BOXES)["tools"]
        assert [one for one in menu if not within(one, screen_box)] == []
        shown |= {one["name"] for one in menu}
        screen.keyboard.press("Escape")
        assert screen.locator(".tool-menu[open]").count() == 0
    assert {"↶ Undo", "Move", "+ Area", "+ Hole", "+ Wall", "+ Door", "+ Gully", "+ Tree", "+ Service"} <= shown


@pytest.mark.parametrize("size", SIZES)
def test_nothing_lies_over_the_plan(screen, size):
    seen = put(screen, size)
    assert len(seen["corners"]) == 6
    assert [one for one in seen["corners"] if not within(one, seen["plan"])] == []
    assert [(one, other) for one in seen["keys"] for other in seen["corners"] if meet(one, other)] == []
    assert [one for one in seen["keys"] if meet(one, seen["plan"])] == []


@pytest.mark.parametrize("size", SIZES)
def test_the_box_of_a_side_leaves_the_side_in_sight(screen, size):
    put(screen, size)
    side = screen.locator("[data-handle='s0.-1.0']")
    side.focus()
    screen.keyboard.press("Enter")
    box = screen.locator(".side-box")
    box.wait_for()
    screen.wait_for_timeout(150)
    own, shown = box.bounding_box(), side.locator("text").bounding_box()
    plan = screen.evaluate(BOXES)["plan"]
    try:
        assert own["x"] + own["width"] <= SIZES[size][0] + 1
        middle = (shown["x"] + shown["width"] / 2, shown["y"] + shown["height"] / 2)
        assert plan["left"] <= middle[0] <= plan["right"]
        assert plan["top"] <= middle[1] <= plan["bottom"]
        assert not (own["x"] < middle[0] < own["x"] + own["width"] and own["y"] < middle[1] < own["y"] + own["height"])
        assert screen.get_by_label("Length", exact=True).evaluate("(one) => document.activeElement === one")
    finally:
        box.get_by_role("button", name="Close").click()


COLUMNS = """
async () => {
  const frame = () => new Promise(requestAnimationFrame);
  await frame();  // a table that came this moment is fitted to its place when the page is drawn
  await frame();
  return [...document.querySelectorAll('.panel td, .panel th[scope=col], .panel .items button, .panel tr button')]
  .filter((one) => one.checkVisibility() && one.getClientRects().length && !one.closest('[hidden]'))
  .map((one) => [one.closest('.panel').getBoundingClientRect(), one.getBoundingClientRect(), one])
  .filter(([panel, box, one]) => !one.closest('thead') || box.width > 1)
  .filter(([panel, box]) => box.width > 0 && (box.right > panel.right + 1 || box.left < panel.left - 1))
  .map(([panel, box, one]) => `${one.textContent.slice(0, 20)} ${Math.round(box.right - panel.right)}`);
}
"""


@pytest.mark.parametrize("size", SIZES)
def test_no_column_of_a_table_is_out_of_sight(screen, size):
    for stage in STAGES:
        put(screen, size, stage)
        screen.evaluate("document.querySelectorAll('#panel details').forEach((one) => { one.open = true; })")
        for _ in range(20):
            screen.wait_for_timeout(120)
            out_of_sight = screen.evaluate(COLUMNS)
            if not out_of_sight:
                break
        assert out_of_sight == [], stage


def test_both_panes_resize_by_pointer_and_by_keys_and_keep_their_size(page, served):
    page.goto(f"{served.address}/jobs/{served.demo}#paving")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    wide = lambda: page.locator(".plan-room").bounding_box()["width"]  # noqa: E731
    first = wide()
    grip = page.locator("#split").bounding_box()
    page.mouse.move(grip["x"] + 7, grip["y"] + 300)
    page.mouse.down()
    page.mouse.move(grip["x"] - 193, grip["y"] + 300, steps=4)
    page.mouse.up()
    assert abs(first - wide() - 200) < 15
    page.locator("#split").focus()
    page.keyboard.press("ArrowRight")
    dragged = wide()
    assert page.locator("#split").get_attribute("aria-valuenow") != "55"
    page.reload()
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    assert abs(wide() - dragged) < 2
    page.set_viewport_size({"width": 390, "height": 844})
    for name, plan, stage in (("Plan", True, False), ("Stage", False, True), ("Both", True, True)):
        page.locator("#views").get_by_role("button", name=name).click()
        assert page.locator("#plan").is_visible() is plan
        assert page.locator("#panel").is_visible() is stage
    high = lambda: page.locator(".plan-room").bounding_box()["height"]  # noqa: E731
    before = high()
    page.locator("#split").focus()
    page.keyboard.press("ArrowDown")
    assert high() > before


def test_one_skip_link_leads_into_the_plan_and_tools_are_one_stop(page, served):
    page.goto(f"{served.address}/jobs/{served.demo}#paving")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.matches('svg.plan')")
    assert page.evaluate("location.hash") == "#paving"
    page.evaluate("document.activeElement.blur()")
    page.locator("#to-plan").focus()
    stops = 0
    while not page.evaluate("document.activeElement.matches('svg.plan')"):
        page.keyboard.press("Tab")
        stops += 1
        assert stops < 12
    page.locator("#tools button[data-tool=move]").focus()
    page.keyboard.press("ArrowRight")
    assert page.evaluate("document.activeElement.dataset.tool") == "area"
    page.keyboard.press("End")
    assert page.evaluate("document.activeElement.closest('#tools') !== null")


def test_stages_are_steps_of_the_history(page, served):
    page.goto(f"{served.address}/")
    page.goto(f"{served.address}/jobs/{served.demo}")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    head = page.locator("#panel h2").first
    page.locator("#rail button", has_text="Water").click()
    page.locator("#rail button", has_text="Price").click()
    page.go_back()
    page.wait_for_function("() => document.querySelector('#panel h2').textContent === 'Water'")
    page.go_forward()
    page.wait_for_function("() => document.querySelector('#panel h2').textContent === 'Price'")
    page.evaluate("location.hash = 'levels'")
    page.wait_for_function("() => document.querySelector('#panel h2').textContent === 'Levels'")
    for _ in range(3):
        page.go_back()
    page.wait_for_function("() => document.querySelector('#panel h2').textContent === 'Measure'")
    assert "/jobs/" in page.url
    assert head.inner_text() == "Measure"
    page.go_back()
    assert "/jobs/" not in page.url


def test_the_plan_is_printed_whole_on_one_sheet(page, served):
    page.goto(f"{served.address}/jobs/{served.demo}#paving")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    for _ in range(4):
        page.locator("#zoom-in").click()  # what is printed does not hang on what is shown
    printed = pypdf.PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))
    assert len(printed.pages) == 1
    text = printed.pages[0].extract_text()
    assert "Terrace behind the house" in text
    assert "8.414" in text  # the longest side
    assert "Undo" not in text
    assert "On site" not in text
    page.emulate_media(media="print")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    seen = page.evaluate(BOXES)
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    assert seen["plan"]["right"] - seen["plan"]["left"] > 1000
    assert [one for one in seen["words"] if one["right"] > seen["plan"]["right"] + 8] == []


LONG = "Patio, steps and a very long name of a job that somebody pasted " * 4


def test_a_very_long_title_breaks_neither_list_nor_header(page, served):
    job = served.call("POST", "/api/jobs", {"copy_of": served.demo})
    document = served.call("GET", f"/api/jobs/{job['id']}")["document"]
    document["identity"]["title"] = (LONG[:100] + "Unbroken" * 20)[:200]
    saved = served.call("GET", f"/api/jobs/{job['id']}")
    served.call("PUT", f"/api/jobs/{job['id']}", {"rev": saved["rev"], "document": document})
    try:
        for size in ("phone", "laptop", "on its side"):
            page.set_viewport_size({"width": SIZES[size][0], "height": SIZES[size][1]})
            for path in (f"/jobs/{job['id']}", "/", f"/jobs/{job['id']}/site", f"/jobs/{job['id']}/customer"):
                page.goto(served.address + path, wait_until="networkidle")
                page.locator("header").first.wait_for()
                page.wait_for_timeout(300)
                assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, (size, path)
                header = page.locator("header").first.bounding_box()
                # on a phone the bar of pages stands as a second row of its own
                rows = 2 if size == "phone" and page.locator("header .pages").count() else 1
                assert header["height"] < (125 if rows == 2 else 75), (size, path)
    finally:
        served.call("POST", f"/api/jobs/{job['id']}/archived", {"archived": True})


@pytest.mark.parametrize("size", ["phone", "on its side", "twice the size"])
def test_the_keypad_is_in_sight_on_site(page, served, size):
    page.set_viewport_size({"width": SIZES[size][0], "height": SIZES[size][1]})
    page.goto(f"{served.address}/jobs/{served.demo}/site#measure")
    page.locator(".pad-keys").wait_for(timeout=120_000)
    screen_box = {"left": 0, "top": 0, "right": SIZES[size][0], "bottom": SIZES[size][1]}
    # all at once: the page may draw anew between two questions
    boxes = page.evaluate(
        """() => [...document.querySelectorAll('.pad-keys button, .pad-keep, .pad-shown, .tabs button')]
          .map((one) => one.getBoundingClientRect())
          .map(({ left, top, right, bottom, height }) => ({ left, top, right, bottom, height }))"""
    )
    out = [box for box in boxes if not within(box, screen_box)]
    assert out == []
    assert min(box["height"] for box in boxes) >= 44


def test_words_of_the_plan_do_not_run_into_each_other(screen):
    for size in SIZES:
        seen = put(screen, size, "measure")
        words = screen.evaluate(
            """() => [...document.querySelectorAll('#plan svg [data-x] text')]
              .filter((one) => one.getAttribute('visibility') !== 'hidden' && !one.closest('[display=none]')
                && one.textContent !== '!')
              .map((one) => { const box = one.getBoundingClientRect();
                // a halo of half a line is let lie over another; the letters are not
                return { name: one.textContent, left: box.left + 2, right: box.right - 2,
                         top: box.top + box.height * 0.2, bottom: box.bottom - box.height * 0.2 }; })"""
        )
        assert len(words) > 8, size
        plain = [one for one in words if one["name"]]
        over = [
            (one["name"], other["name"])
            for index, one in enumerate(plain)
            for other in plain[index + 1 :]
            if meet(one, other)
        ]
        assert over == [], size
        assert seen


def test_an_address_that_leads_nowhere_is_a_page_for_people_and_json_for_programs(page, served):
    page.goto(f"{served.address}/nowhere")
    page.faults.clear()  # the browser notes the status
    assert page.locator("h1").inner_text() == "Nothing is here"
    assert page.get_by_role("link", name="All jobs", exact=True).last.is_visible()
    for accept in ("application/json", "*/*"):
        asked = urllib.request.Request(f"{served.address}/nowhere", headers={"Accept": accept})
        with pytest.raises(urllib.error.HTTPError) as caught:
            urllib.request.urlopen(asked, timeout=20)
        assert json.loads(caught.value.read()) == {"message": "There is no such page."}


def test_money_is_written_one_way_and_places_have_names(page, served):
    page.goto(f"{served.address}/jobs/{served.demo}#price")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    strip = page.locator("#strip").inner_text()
    assert "GBP" not in strip
    price = next(word for word in strip.split() if word.startswith("£"))
    assert price in page.locator("#panel").inner_text()
    page.evaluate("location.hash = 'measure'")
    page.locator("[data-stage=measure]").wait_for(state="attached")
    page.evaluate("document.querySelectorAll('#panel details').forEach((one) => { one.open = true; })")
    assert page.locator("#panel option, #panel .choices span", has_text="United States").count() > 0
    assert page.locator("#panel option", has_text="Usa").count() == 0


def test_the_look_is_picked_and_kept(page, served):
    page.goto(f"{served.address}/sums")
    root = page.locator("html")
    page.get_by_label("How the screen looks").first.click()
    page.get_by_role("button", name="Sunlight").click()
    assert root.get_attribute("data-theme") == "sun"
    page.goto(f"{served.address}/jobs/{served.demo}/site")
    assert root.get_attribute("data-theme") == "sun"
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    page.get_by_label("How the screen looks").first.click()
    page.get_by_role("button", name="As the device").click()
    page.emulate_media(color_scheme="dark")
    page.wait_for_function("() => document.documentElement.dataset.theme === 'dark'")
    page.emulate_media(color_scheme="light", contrast="more")
    page.wait_for_function("() => document.documentElement.dataset.theme === 'sun'")
