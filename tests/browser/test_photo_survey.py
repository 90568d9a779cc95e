"""Measuring by a photo and by a level that is turned, with a phone that has no signal, until it all stands in the job."""

from __future__ import annotations

import math

import numpy as np
import pytest
from kept import wait_kept
from PIL import Image, ImageDraw
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

PHONE = {"viewport": {"width": 390, "height": 844}, "is_mobile": True, "has_touch": True}
WIDE, HIGH, FOCAL = 1600, 1200, 1150.0
CORNERS = "ABCD"


class Shot:
    """A made-up photo of the ground of the demo, seen from 4.2 m over it."""

    def __init__(self, places, folder):
        self.stood = np.array([*(np.mean([places[name] for name in CORNERS], axis=0) - (0.0, 9300.0)), 4200.0])
        middle = np.array([self.stood[0], self.stood[1] + 9300.0, 0.0])
        ahead = (middle - self.stood) / np.linalg.norm(middle - self.stood)
        right = np.cross(ahead, (0.0, 0.0, 1.0))
        right /= np.linalg.norm(right)
        self.axes = np.array([right, np.cross(ahead, right), ahead])
        self.thing = middle[:2] + (700.0, 400.0)
        self.path = folder / "ground.jpg"
        picture = Image.new("RGB", (WIDE, HIGH), (120, 140, 110))
        brush = ImageDraw.Draw(picture)
        brush.polygon([self.seen(places[name]) for name in CORNERS], fill=(176, 170, 160))
        for at in (*(places[name] for name in CORNERS), self.thing):
            x, y = self.seen(at)
            brush.ellipse((x - 6, y - 6, x + 6, y + 6), fill=(200, 30, 30))
        picture.save(self.path, quality=90)

    def seen(self, at):
        right, down, ahead = self.axes @ (np.array([*at, 0.0]) - self.stood)
        return float(WIDE / 2 + FOCAL * right / ahead), float(HIGH / 2 + FOCAL * down / ahead)


@pytest.fixture
def phone(chromium):
    faults = []
    opened = chromium.new_context(**PHONE)
    opened.on("weberror", lambda problem: faults.append(str(problem.error)))
    yield opened
    opened.close()
    assert faults == []


def opened(phone, served, job, panel):
    page = phone.new_page()
    page.goto(f"{served.address}/jobs/{job}/site#{panel}")
    page.locator(f"#panel[data-panel='{panel}'] > *").first.wait_for(timeout=90_000)
    return page


def put(page, at):
    """Bring the active mark to a point of the picture: a touch near it, then arrows."""
    page.evaluate(
        """([x, y]) => {
          const shot = document.querySelector(".shot"), frame = shot.getBoundingClientRect();
          const fire = (kind, [right, down]) => shot.dispatchEvent(new PointerEvent(kind, {
            clientX: frame.left + right, clientY: frame.top + down, bubbles: true, pointerId: 1 }));
          const to = [x * frame.width, y * frame.height];
          for (const corner of [[2, 2], [frame.width - 2, frame.height - 2]]) {
            fire("pointerdown", corner); fire("pointermove", to); fire("pointerup", to);
          }
        }""",
        [at[0] / WIDE, at[1] / HIGH],
    )


def marked(page, shot, places):
    page.locator("#measure-photo").set_input_files(shot.path)
    page.locator(".shot").wait_for()
    for name in CORNERS:
        page.get_by_role("button", name="+ Known place").click()
        put(page, shot.seen(places[name]))
        page.get_by_label("Which known place is it").select_option(name)
    page.get_by_role("button", name="+ Wanted").click()
    put(page, shot.seen(shot.thing))


def has_by_photo(document):
    return any(point.get("by_photo") for point in document["measurements"]["points"])


def test_what_was_forgotten_is_measured_without_signal_and_stands_in_the_job_when_there_is_some(
    phone, served, tmp_path
):
    job = served.call("POST", "/api/jobs", {"start_from": "demo"})["id"]
    points = served.call("GET", f"/api/jobs/{job}/site-plan")["view"]["survey"]["points"]
    places = {point["name"]: (point["x_mm"], point["y_mm"]) for point in points}
    shot = Shot(places, tmp_path)
    page = opened(phone, served, job, "picture")
    phone.set_offline(True)
    page.locator("#measure-photo").set_input_files(shot.path)
    expect(page.locator(".photo-answer")).to_contain_text("Mark four known places")
    page.get_by_role("button", name="Discard").click()
    page.get_by_role("dialog").get_by_role("button", name="Discard").click()
    marked(page, shot, places)
    answer = page.locator(".photo-answer")
    expect(answer).to_contain_text("mark a fifth known place")
    expect(answer).to_contain_text(f"x {shot.thing[0] / 1000:.2f}, y {shot.thing[1] / 1000:.2f}")
    for button in page.locator("#panel button").all():
        assert button.bounding_box()["height"] >= 48
    page.get_by_role("button", name="Mark to the right").click()
    page.get_by_role("button", name="Mark to the left").click()
    page.get_by_role("button", name="Save in the job").click()
    expect(page.locator("#unsent")).to_contain_text("2 unsent")
    page.get_by_role("button", name="Take Thing 1 over as a point").click()
    expect(page.locator("#panel")).to_contain_text("✓ Thing 1 stands in the job.")
    expect(page.locator("#unsent")).to_contain_text("3 unsent")
    assert "photo_planes" not in served.call("GET", f"/api/jobs/{job}")["document"]
    assert served.call("GET", f"/api/jobs/{job}/photos")["photos"] == []
    phone.set_offline(False)
    expect(page.locator("#unsent")).to_have_text("✓ all sent", timeout=40_000)
    document = wait_kept(page, served, job, lambda document: has_by_photo(document) and document["photo_planes"])
    (plane,) = document["photo_planes"]
    (photo,) = served.call("GET", f"/api/jobs/{job}/photos")["photos"]
    assert plane["photo"] == photo["id"]
    assert [mark["point"] for mark in plane["marks"]] == list(CORNERS)
    (point,) = [each for each in document["measurements"]["points"] if each.get("by_photo")]
    assert math.dist((point["x_mm"], point["y_mm"]), shot.thing) < 3.0 * point["place_sd_mm"]
    assert point["by_photo"] == plane["name"]
    page.get_by_role("button", name="Take back").click()
    expect(page.get_by_role("button", name="Take Thing 1 over as a point")).to_be_visible()
    expect(page.locator("#unsent")).to_have_text("✓ all sent", timeout=40_000)
    wait_kept(page, served, job, lambda document: not has_by_photo(document))


def test_a_photo_that_is_being_marked_is_there_after_a_reload_and_swapped_marks_give_no_place(phone, served, tmp_path):
    job = served.call("POST", "/api/jobs", {"start_from": "demo"})["id"]
    points = served.call("GET", f"/api/jobs/{job}/site-plan")["view"]["survey"]["points"]
    places = {point["name"]: (point["x_mm"], point["y_mm"]) for point in points}
    shot = Shot(places, tmp_path)
    page = opened(phone, served, job, "picture")
    marked(page, shot, places | {"A": places["B"], "B": places["A"]})
    expect(page.locator(".photo-answer")).to_contain_text("Thing 1: no place")
    page.get_by_role("button", name="⊞ Thing 1").click()
    page.reload()
    page.locator(".shot").wait_for(timeout=30_000)
    expect(page.locator(".photo-answer")).to_contain_text("Thing 1: no place")


def test_a_phone_is_turned_end_for_end_and_refuses_a_question_of_a_millimetre(phone, served):
    job = served.call("POST", "/api/jobs", {"start_from": "demo"})["id"]
    page = opened(phone, served, job, "slope")

    def lies(degrees):
        page.evaluate(
            """degrees => { clearInterval(window.lies); window.lies = setInterval(() => window.dispatchEvent(
              new DeviceOrientationEvent("deviceorientation", { alpha: 0, beta: degrees, gamma: 0 })), 40); }""",
            degrees,
        )

    for first, turned in ((1.3, -1.1), (1.31, -1.1), (1.29, -1.1)):
        lies(first)
        page.get_by_role("button", name="Read", exact=True).click()
        page.get_by_role("button", name="Read turned round").wait_for()
        lies(turned)
        page.get_by_role("button", name="Read turned round").click()
        page.get_by_role("button", name="Read", exact=True).wait_for()
    expect(page.locator(".peg")).to_contain_text("+20.9 mm in 1 m")
    expect(page.locator(".peg")).to_contain_text("off by +0.10°")
    expect(page.locator(".peg")).to_contain_text("3 pairs")
    page.get_by_role("button", name="1 mm", exact=True).click()
    expect(page.locator(".verdict")).to_contain_text("too coarse to judge this")
    page.get_by_role("button", name="5 mm", exact=True).click()
    expect(page.locator(".verdict")).to_contain_text("not within it")
    page.get_by_role("button", name="Keep in the job").click()
    expect(page.locator("#unsent")).to_have_text("✓ all sent", timeout=40_000)
    (slope,) = wait_kept(page, served, job, lambda document: document["phone_slopes"])["phone_slopes"]
    assert slope["tool"] == "phone"
    assert slope["pairs"][0] == {"first_deg": 1.3, "turned_deg": -1.1}


def test_a_phone_without_a_sensor_says_so_and_takes_what_a_level_shows(phone, served):
    job = served.call("POST", "/api/jobs", {"start_from": "demo"})["id"]
    page = opened(phone, served, job, "slope")
    page.get_by_role("button", name="Read", exact=True).click()
    expect(page.locator(".toast")).to_contain_text("gives no slope here")
    page.get_by_role("button", name="Digital level").click()
    for text in ("2", "-2"):
        page.locator(".pad-shown").fill(text)
        page.locator(".pad-keep").first.click()
    expect(page.locator(".peg")).to_contain_text("+20.0 mm in 1 m")
    expect(page.locator(".peg")).to_contain_text("One pair: nothing shows its scatter")


def test_the_height_of_an_air_brick_comes_from_a_photo_of_its_wall(phone, served, tmp_path):
    job = served.call("POST", "/api/jobs", {"start_from": "demo"})["id"]
    askew = np.array([[340.0, -20.0, 250.0], [18.0, -250.0, 1100.0], [0.04, 0.012, 1.0]])

    def on_wall(along, up):
        x, y, under = askew @ (along, up, 1.0)
        return float(x / under), float(y / under)

    path = tmp_path / "wall.jpg"
    Image.new("RGB", (WIDE, HIGH), (150, 90, 70)).save(path)
    page = opened(phone, served, job, "picture")
    page.locator("#measure-photo").set_input_files(path)
    page.get_by_role("button", name="A wall").click()
    for along, up in ((0.2, 0.0), (3.0, 0.0), (3.0, 2.4), (0.2, 2.4), (1.5, 1.2)):
        page.get_by_role("button", name="+ Known place").click()
        put(page, on_wall(along, up))
        page.get_by_label("Heights count from").select_option("BM")
        for metres in (along, up):
            page.locator(".pad-shown").fill(f"{1000 * metres:.0f} mm")
            page.locator(".pad-keep").first.click()
    page.get_by_role("button", name="+ Wanted").click()
    put(page, on_wall(2.0, 0.6))
    page.get_by_label("What it is", exact=True).fill("Air brick")
    page.get_by_label("What it is", exact=True).press("Tab")
    expect(page.locator(".photo-answer")).to_contain_text("above BM")
    page.get_by_role("button", name="Save in the job").click()
    page.get_by_role("button", name="Take the height of Air brick over").click()
    expect(page.locator("#unsent")).to_have_text("✓ all sent", timeout=40_000)
    document = wait_kept(page, served, job, lambda document: document["measurements"]["heights_over"])
    (height,) = document["measurements"]["heights_over"]
    assert height["higher_mm"] == pytest.approx(600.0, abs=1.0)
    assert (height["point"], height["over"], height["by"]) == ("Air brick", "BM", "photo")
    assert 1.0 < height["sd_mm"] < 30.0
