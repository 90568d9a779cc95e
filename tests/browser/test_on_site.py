"""On site with a phone: a reading, no signal and a killed server, photos, and the site sheet, each counted once."""

from __future__ import annotations

import io
import urllib.request
from dataclasses import replace

import pytest
from kept import wait_kept
from PIL import Image
from playwright.sync_api import expect

from pavewright import rulebook
from pavewright.as_laid import WallPromise

RULES = rulebook.load("elsewhere")

pytestmark = pytest.mark.browser

PHONE = {"viewport": {"width": 390, "height": 844}, "is_mobile": True, "has_touch": True}


class Jobs:
    """A server of its own, and short ways to its jobs."""

    def __init__(self, served):
        self.served = served
        self.base = served.address

    def get(self, path):
        return self.served.call("GET", path)

    def post(self, path, value):
        return self.served.call("POST", path, value)

    def new(self):
        return self.post("/api/jobs", {"start_from": "demo"})["id"]

    def new_before_the_check(self):
        """A job of which nothing that was laid is read yet."""
        document = self.document(self.new())
        document["as_laid"]["readings"] = []
        return self.post("/api/jobs", {"document": document})["id"]

    def document(self, job):
        return self.get(f"/api/jobs/{job}")["document"]


@pytest.fixture(scope="module")
def server(served):
    made = Jobs(served)
    made.get(f"/api/jobs/{made.new()}/site-plan")  # its workers have loaded everything now
    return made


@pytest.fixture
def phone(chromium):
    faults = []
    opened = chromium.new_context(**PHONE, accept_downloads=True)
    opened.on("weberror", lambda problem: faults.append(str(problem.error)))
    yield opened
    opened.close()
    assert faults == []


def on_site(phone, server, job):
    page = phone.new_page()
    page.goto(f"{server.base}/jobs/{job}/site")
    page.locator("#panel .start, #panel .row-tabs").first.wait_for(timeout=90_000)  # a new server loads first
    page.locator("#tabs").get_by_text("Measure").click()
    page.locator("#panel .row-tabs").first.wait_for()
    return page


def press(page, keys):
    for key in keys:
        page.locator(".pad-keys").get_by_text(key, exact=True).click()


def laid(server, job):
    return server.document(job)["as_laid"]["readings"]


def tapes(server, job):
    return server.document(job)["measurements"]["tape_plan"]["tapes"]


def choose(page, start, end):
    page.get_by_label("From", exact=True).select_option(start)
    page.get_by_label("To", exact=True).select_option(end)


def keep_tape(page, start, end, keys):
    choose(page, start, end)
    press(page, keys)
    page.locator(".pad-keep").click()
    expect(page.locator(".last")).to_contain_text(f"{start} to {end}")


def test_a_level_book_is_read_with_one_hand_and_its_misclosure_told_at_once(phone, server):
    job = server.new()
    page = on_site(phone, server, job)
    page.get_by_role("button", name="Staff", exact=True).click()
    press(page, "1509")
    expect(page.locator(".pad-told")).to_have_text("mm")
    page.locator(".pad-keep").click()
    expect(page.locator(".glance")).to_contain_text("0 of 46 readings; next: Kitchen gully (Gully)")
    # a backsight from which nothing was read yet is kept here, and told
    expect(page.locator("#unsent")).to_contain_text("1 unsent")
    press(page, "1.")
    expect(page.locator(".pad-keep")).to_be_disabled()
    press(page, "659")
    expect(page.locator(".pad-told")).to_have_text("= 1 659 mm")
    page.reload()
    expect(page.get_by_label("Staff reading on Gully")).to_have_value("1.659")
    page.locator(".pad-keep").click()
    # 10.000 + 1.509 − 1.659
    expect(page.locator(".reduced")).to_contain_text("Gully: 9.850 falls 150 mm")
    expect(page.locator(".glance")).to_contain_text("1 of 46 readings; next: IC1")
    page.get_by_role("button", name="Close on BM").click()
    press(page, "1523")
    page.locator(".pad-keep").click()
    expect(page.get_by_role("alert")).to_contain_text("Closes 14 mm low on BM; 5.0 mm is allowed")
    page.get_by_role("button", name="Take back").click()
    expect(page.get_by_role("alert")).to_have_count(0)
    page.get_by_role("button", name="Close on BM").click()
    press(page, "1511")
    page.locator(".pad-keep").click()
    expect(page.get_by_role("alert")).to_contain_text("Closes within 2 mm")
    expect(page.locator("#unsent")).to_have_text("✓ all sent")
    book = server.document(job)["measurements"]["level_books"][-1]
    assert book["rows"] == [
        {"point": "BM", "backsight_mm": 1509.0},
        {"point": "Gully", "intermediate_mm": 1659.0},
        {"point": "BM", "foresight_mm": 1511.0},
    ]


def test_feet_and_inches_and_big_keys(phone, server):
    job = server.new()
    page = on_site(phone, server, job)
    page.get_by_role("button", name="Datum", exact=True).click()
    page.get_by_role("button", name="Lower than BM by").click()
    press(page, ["4", "ft", "1", "½ ¼", "in"])
    expect(page.locator(".pad-told")).to_have_text("= 1 257.3 mm")
    expect(page.locator(".reduced")).to_have_text("Gully lies at 8.743")
    for key in page.locator(".pad-keys button").all():
        assert key.bounding_box()["height"] >= 56
        assert key.bounding_box()["width"] >= 56
    page.locator(".pad-keep").click()
    expect(page.locator(".last")).to_contain_text("Gully: 1 257 mm lower than BM ✓ sent")
    assert server.document(job)["measurements"]["level_books"][-1]["rows"][-1] == {
        "point": "Gully",
        "foresight_mm": 1257.0,
    }


def test_a_reading_whose_answer_was_lost_is_sent_again_and_counts_once(phone, server):
    job = server.new()
    before = len(tapes(server, job))
    page = on_site(phone, server, job)
    lost = []

    def lose(route):
        if lost:
            route.continue_()
        else:
            lost.append(route.fetch().status)  # the server has it, the phone never hears so
            route.abort()

    # a worker of the pages would answer before the route does
    page.route("**/deliveries", lose)
    keep_tape(page, "A", "C", "9574")
    expect(page.locator("#unsent")).to_contain_text("1 unsent")
    assert lost == [200]
    page.locator("#unsent").click()
    page.get_by_role("button", name="Send now").click()
    expect(page.locator("#unsent")).to_have_text("✓ all sent")
    assert len(tapes(server, job)) == before + 1


def test_a_reading_taken_back_after_its_answer_was_lost_is_gone_from_the_job_too(phone, server):
    job = server.new()
    before = tapes(server, job)
    page = on_site(phone, server, job)
    first = []
    page.route(
        "**/deliveries", lambda route: (first.append(route.fetch()), route.abort()) if not first else route.continue_()
    )
    keep_tape(page, "A", "C", "9574")
    expect(page.locator("#unsent")).to_contain_text("1 unsent")
    assert len(tapes(server, job)) == len(before) + 1
    page.get_by_role("button", name="Take back").click()
    expect(page.locator("#unsent")).to_have_text("✓ all sent")
    assert tapes(server, job) == before


def test_a_refused_reading_stays_with_its_reason_and_is_mended(phone, server):
    job = server.new()
    before = len(tapes(server, job))
    page = on_site(phone, server, job)
    choose(page, "A", "C")
    page.locator(".pad-shown").fill("0")
    page.locator(".pad-keep").click()
    expect(page.locator("#unsent")).to_contain_text("1 refused")
    page.locator("#unsent").click()
    expect(page.locator(".finding.stop")).to_contain_text("a tape reads more than zero")
    page.get_by_role("button", name="Change the reading").click()
    page.get_by_label("The reading, in mm").fill("9.574")
    page.get_by_role("button", name="Save and send").click()
    expect(page.locator("#unsent")).to_have_text("✓ all sent")
    assert tapes(server, job)[before:] == [{"start": "A", "end": "C", "length_mm": 9574.0}]


def test_the_finished_paving_is_held_against_the_plan_as_it_is_read(phone, server):
    job = server.new_before_the_check()
    pegs = server.post("/api/plan", server.document(job))["plan"]["setting_out"]["pegs"]
    page = on_site(phone, server, job)
    page.locator("#tabs").get_by_text("Check").click()
    expect(page.locator(".peg")).to_contain_text("it carries no string")
    page.get_by_role("button", name="Peg 1 is set").click()
    expect(page.locator(".glance")).to_contain_text(f"1 of {len(pegs)} pegs set")
    page.get_by_role("button", name="Next ▸").click()
    expect(page.locator(".peg")).to_contain_text(f"String at {pegs[2]['string_level_mm'] / 1000:.3f}")
    page.get_by_role("button", name="As laid", exact=True).click()
    before = len(laid(server, job))
    press(page, "1500")
    page.locator(".pad-keep").click()
    words = page.get_by_text("the staff should read").inner_text()
    wanted = int("".join(letter for letter in words.split("read")[1] if letter.isdigit()))
    for off, verdict in ((0, "Pass"), (-30, "Fail"), (7, "Inconclusive")):
        words = page.get_by_text("the staff should read").inner_text()
        wanted = int("".join(letter for letter in words.split("read")[1] if letter.isdigit()))
        page.locator(".pad-shown").fill(str(wanted + off))
        page.locator(".pad-keep").click()
        expect(page.locator(".verdict")).to_contain_text(verdict)
    expect(page.locator("#unsent")).to_have_text("✓ all sent")
    assert len(laid(server, job)) == before + 3
    report = server.post("/api/plan", server.document(job))["plan"]["as_laid"]["areas"][0]["readings"][-3:]
    assert [one["verdict"] for one in report] == ["pass", "fail", "unsure"]


def test_a_photo_is_pinned_made_small_and_seen_on_the_working_screen(phone, server, tmp_path):
    job = server.new()
    exif = Image.Exif()
    exif.get_ifd(0x8825)[2] = (51.0, 30.0, 0.0)
    Image.new("RGB", (2400, 1800), "green").save(tmp_path / "photo.jpg", exif=exif)
    page = on_site(phone, server, job)
    page.locator("#tabs").get_by_text("Photos").click()
    page.locator("#take-photo").set_input_files(tmp_path / "photo.jpg")
    page.get_by_label("What it shows").fill("Trial hole")
    page.locator(".photo-draft .plan:not(.back)").tap()
    expect(page.locator(".photo-draft")).to_contain_text("Pinned")
    page.get_by_role("button", name="Save photo").click()
    expect(page.locator(".gallery li")).to_contain_text("pinned")
    expect(page.locator("#unsent")).to_have_text("✓ all sent")
    (photo,) = server.get(f"/api/jobs/{job}/photos")["photos"]
    assert (photo["note"], len(photo["place"])) == ("Trial hole", 2)
    with urllib.request.urlopen(f"{server.base}/api/jobs/{job}/photos/{photo['id']}") as answer:
        kept = Image.open(io.BytesIO(answer.read()))
    assert kept.size == (1600, 1200)
    assert dict(kept.getexif()) == {}
    page.goto(f"{server.base}/jobs/{job}")
    expect(page.get_by_text("From site: 1 photo")).to_be_visible(timeout=90_000)
    assert page.locator(".plan title", has_text="Trial hole").count() == 1


def test_the_site_sheet_works_from_a_file_and_brought_in_twice_gives_one_set(phone, server, tmp_path):
    job = server.new()
    before = len(tapes(server, job))
    with urllib.request.urlopen(f"{server.base}/jobs/{job}/site-sheet.html") as answer:
        (tmp_path / "sheet.html").write_bytes(answer.read())
    sheet = phone.new_page()
    reported = []
    sheet.on("console", lambda message: reported.append(message.text))
    sheet.goto((tmp_path / "sheet.html").as_uri())
    sheet.locator("#tabs").get_by_text("Measure").click()
    keep_tape(sheet, "A", "C", "9574")
    keep_tape(sheet, "A", "D", "5169")
    sheet.wait_for_timeout(1500)  # the browser hands the storage of a file from process to process in its own time
    sheet.reload()
    expect(sheet.locator("#unsent")).to_have_text("2 kept on this sheet")
    sheet.locator("#tabs").get_by_text("Plan").click()
    assert sheet.locator("figure svg").count() == 2
    sheet.locator("#tabs").get_by_text("Save").click()
    with sheet.expect_download() as waiting:
        sheet.get_by_role("button", name="Save the readings as a file").click()
    waiting.value.save_as(tmp_path / "readings.json")
    assert reported == []
    page = on_site(phone, server, job)
    page.locator("#tabs button").last.click()
    page.locator("#bring-in-file").set_input_files(tmp_path / "readings.json")
    expect(page.locator(".bring-in")).to_contain_text("2 brought in.")
    page.goto(f"{server.base}/jobs/{job}")
    page.get_by_text("From site", exact=True).click(timeout=90_000)
    page.locator("#bring-in-file").set_input_files(tmp_path / "readings.json")
    expect(page.locator(".bring-in")).to_contain_text("0 brought in, 2 were there already")
    assert len(tapes(server, job)) == before + 2


def test_readings_without_signal_survive_a_closed_page_and_a_killed_server_and_arrive_once(phone, server):
    job = server.new()
    before = len(tapes(server, job))
    page = on_site(phone, server, job)
    page.locator("#panel[data-kept]").wait_for()
    server.served.kill()
    try:
        page.reload()  # nothing answers: the page comes from the phone
        page.locator("#panel .row-tabs").first.wait_for()
        expect(page.locator("#banner")).to_contain_text("No answer from the server")
        for end, keys in (("C", "9574"), ("D", "5169"), ("E", "8731")):
            keep_tape(page, "A", end, keys)
        expect(page.locator("#unsent")).to_contain_text("3 unsent, kept here")
        page.close()
    finally:
        server.served.start()
    assert len(tapes(server, job)) == before
    page = on_site(phone, server, job)
    expect(page.locator("#unsent")).to_have_text("✓ all sent", timeout=90_000)
    page.reload()
    page.locator("#panel .row-tabs").first.wait_for()
    assert [(tape["end"], tape["length_mm"]) for tape in tapes(server, job)[before:]] == [
        ("C", 9574.0),
        ("D", 5169.0),
        ("E", 8731.0),
    ]


def test_a_phone_holds_a_wall_to_the_very_promise_of_the_plan(server, phone):
    """High by nothing, by the tolerance, by a little more and by much: phone and report say the same."""
    job = server.new()
    view = server.get(f"/api/jobs/{job}/site-plan")["view"]
    wall = next(one for one in view["walls"] if one["area"] == "Terrace")
    figure = replace(RULES.figure("levels.below_dpc_mm"), value=wall["promised_mm"])
    promise = WallPromise(wall["wall"], 0.0, figure, wall["tolerance_mm"], RULES.figure("as_laid.level_flags_mm"))
    clear = wall["clear_at_start_mm"]
    highs = [clear - promise.promised_mm + more for more in (-1.0, 0.0, 1.0, promise.tolerance_mm, 7.0, 8.0, 9.5, 30.0)]
    page = phone.new_page()
    page.goto(f"{server.base}/jobs/{job}/site")
    found = page.evaluate(
        "async ([view, one, highs]) => { const { atWall } = await import('/static/site/laid.js');"
        " return highs.map((high) => atWall({ ...view, walls: [one] }, one.area, one.start, high)); }",
        [view, wall, highs],
    )
    for high, reported in zip(highs, found, strict=True):
        assert reported["found_mm"] == pytest.approx(clear - high)
        assert reported["verdict"] == promise.verdict_on(clear - high, view["reading_sd_mm"])
        assert reported["byTolerance"] == (reported["verdict"] == "pass" and clear - high < promise.promised_mm - 1e-6)
    assert {reported["verdict"] for reported in found} == {"pass", "unsure", "fail"}


def test_a_tape_on_the_phone_and_a_name_typed_at_the_office_meet_and_nobody_is_asked(phone, page, server):
    job = server.new()
    before = len(tapes(server, job))
    page.set_viewport_size({"width": 1440, "height": 900})
    page.goto(f"{server.base}/jobs/{job}#measure")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    page.get_by_text("Who and where").click()
    taped = on_site(phone, server, job)
    keep_tape(taped, "A", "C", "9574")
    expect(taped.locator("#unsent")).to_have_text("✓ all sent")
    # the office has not heard of it yet, or just has: either way its change is one field
    page.get_by_label("Client", exact=True).first.fill("A. Sample")
    page.keyboard.press("Tab")
    wait_kept(page, server.served, job, lambda document: document["identity"]["client"] == "A. Sample")
    assert [each["length_mm"] for each in tapes(server, job)[before:]] == [9574.0]
    assert page.get_by_role("dialog").count() == 0
    assert page.locator("#clashes").is_hidden()
    assert taped.locator("#unsent").inner_text() == "✓ all sent"
