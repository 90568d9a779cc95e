"""The demo edited end to end in a browser: by hand, by typing, by keys, on a laptop and on a phone."""

from __future__ import annotations

import json
import sqlite3
import zipfile
from contextlib import closing

import pytest
from kept import wait_kept
from playwright.sync_api import expect

from pavewright.desk import make_pack_so_far, make_plan_so_far

pytestmark = pytest.mark.browser

STAGES = ["Measure", "Levels", "Paving", "Ground", "Water", "Quantities", "Price", "Programme", "Set out", "Check",
          "Papers"]  # fmt: skip


def opened(page, served, job=None, stage="paving"):
    job = job or served.demo
    page.goto(f"{served.address}/jobs/{job}#{stage}")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    return job


def new_job(served):
    return served.patio("Test")


def corner(document, index, area=0):
    name = document["areas"][area]["outline"][index]["point"]
    return next(point for point in document["measurements"]["points"] if point["name"] == name)


def settled(page):
    """Wait until the plan of the last change is on the screen."""
    page.wait_for_timeout(400)
    page.locator("#saved", has_text="kept").wait_for()
    page.wait_for_timeout(900)
    expect(page.locator("#strip")).not_to_contain_text("about", timeout=60_000)  # a quick answer stands until the plan


def test_a_corner_is_dragged_the_counts_follow_and_undo_brings_it_back(page, served):
    job = new_job(served)
    opened(page, served, job)
    before = page.locator("#strip").inner_text()
    box = page.locator("[data-corner=C]").bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    for step in range(12):
        page.mouse.move(x - 8 * step, y - 3 * step)
        page.wait_for_timeout(30)
    page.locator("#strip", has_text="about").wait_for()
    page.mouse.up()
    settled(page)
    after = page.locator("#strip").inner_text()
    assert after != before
    wait_kept(page, served, job, lambda kept: corner(kept, 2)["x_mm"] < 4800)
    page.get_by_role("button", name="Undo").click()
    settled(page)
    # the whole plan comes after the quick counts, on a slow machine long after
    page.wait_for_function("words => document.querySelector('#strip').innerText === words", arg=before, timeout=60_000)
    assert page.locator("#strip").inner_text() == before
    wait_kept(page, served, job, lambda kept: corner(kept, 2)["x_mm"] == 4870.0)


def test_a_measured_corner_keeps_its_tapes_when_the_outline_leaves_it(page, served):
    job = served.call("POST", "/api/jobs", {"copy_of": served.demo})["id"]
    opened(page, served, job)
    page.locator("[data-corner=C]").focus()
    page.keyboard.press("ArrowRight")
    document = wait_kept(page, served, job, lambda kept: kept["areas"][0]["outline"][2]["point"] != "C")
    name = document["areas"][0]["outline"][2]["point"]
    assert "stays as measured" in corner(document, 2)["note"]
    assert any("C" in (tape["start"], tape["end"]) for tape in document["measurements"]["tape_plan"]["tapes"])
    assert any(edge["corner"] == name for edge in document["areas"][0]["edges"])


def test_a_length_is_typed_and_a_corner_nudged_and_added_by_keys(page, served):
    job = new_job(served)
    opened(page, served, job)
    page.locator("[data-handle='s0.-1.1']").focus()
    page.keyboard.press("Enter")
    page.get_by_label("Length").fill("4.250 m")
    page.keyboard.press("Enter")
    settled(page)
    wait_kept(page, served, job, lambda kept: corner(kept, 2)["y_mm"] == 4250.0)
    page.get_by_role("button", name="Close").click()
    page.locator("[data-corner=D]").focus()
    for _ in range(3):
        page.keyboard.press("ArrowUp")
    settled(page)
    wait_kept(page, served, job, lambda kept: corner(kept, 3)["y_mm"] == 3680.0)
    page.locator("[data-corner=D]").focus()
    page.keyboard.press("Enter")
    page.get_by_role("button", name="+ corner in this side").click()
    settled(page)
    wait_kept(page, served, job, lambda kept: len(kept["areas"][0]["outline"]) == 5)
    assert page.evaluate("document.activeElement.tagName") != "IFRAME"


def test_things_are_put_on_the_plan(page, served):
    job = new_job(served)
    opened(page, served, job, "measure")
    sheet = page.locator("#plan svg").last
    for tool, places in (
        ("+ Gully", [(0.5, 0.5)]),
        ("+ Boundary", [(0.2, 0.15), (0.8, 0.15)]),
        ("+ Cover", [(0.4, 0.4)]),
    ):
        page.get_by_role("button", name=tool, exact=True).click()
        box = sheet.bounding_box()
        for x, y in places:
            page.mouse.click(box["x"] + x * box["width"], box["y"] + y * box["height"])
        settled(page)
    document = wait_kept(page, served, job, lambda kept: kept["site"]["covers"])
    assert [len(document["site"][name]) for name in ("gullies", "boundaries", "covers")] == [1, 1, 1]
    assert document["site"]["gullies"][0]["outfall"] == "Border"


def test_a_field_is_changed_and_a_wrong_one_is_told_and_nothing_is_lost(page, served):
    job = new_job(served)
    opened(page, served, job)
    page.get_by_label("Joint", exact=True).fill("8")
    page.keyboard.press("Tab")
    settled(page)
    wait_kept(page, served, job, lambda kept: kept["areas"][0]["laying"]["joint_mm"] == 8)
    page.get_by_label("Joint", exact=True).fill("80 mm")
    page.keyboard.press("Tab")
    page.get_by_role("alert").wait_for()
    assert page.get_by_label("Joint", exact=True).get_attribute("aria-invalid") == "true"
    wait_kept(page, served, job, lambda kept: kept["areas"][0]["laying"]["joint_mm"] == 80)
    page.get_by_label("Joint", exact=True).fill("10")
    page.keyboard.press("Tab")
    settled(page)
    assert page.get_by_role("alert").count() == 0


def test_a_reading_of_the_phone_and_a_name_typed_at_the_office_are_both_there_and_nobody_is_asked(page, served):
    job = new_job(served)
    opened(page, served, job, "measure")
    page.get_by_text("Who and where").click()
    tape = {"start": "A", "end": "C", "length_mm": 4999.0}
    plan = {"base_from": "A", "base_to": "C", "tapes": [tape]}
    read = [{"op": "set", "at": ["measurements", "tape_plan"], "to": plan}]
    sent = {"id": "phone-1", "kind": "operations", "entries": read, "rev": 1, "from": "phone", "note": "taped"}
    assert served.call("POST", f"/api/jobs/{job}/deliveries", sent)["state"] == "kept"
    page.get_by_label("Client", exact=True).first.fill("A. Sample")
    page.keyboard.press("Tab")
    settled(page)
    document = wait_kept(page, served, job, lambda kept: kept["identity"]["client"] == "A. Sample")
    assert document["measurements"]["tape_plan"]["tapes"] == [tape]
    assert page.get_by_role("dialog").count() == 0
    assert page.locator("#clashes").is_hidden()
    notes = [one["note"] for one in served.call("GET", f"/api/jobs/{job}/revisions")["revisions"]]
    assert "taped" in notes


def test_what_others_do_comes_to_an_open_page_by_itself(page, served):
    job = new_job(served)
    opened(page, served, job, "measure")
    page.get_by_text("Who and where").click()
    change = [{"op": "set", "at": ["identity", "client"], "was": "", "to": "B. Sample"}]
    served.call("POST", f"/api/jobs/{job}/operations", {"key": "o1", "rev": 1, "operations": change, "note": "named"})
    expect(page.get_by_label("Client", exact=True).first).to_have_value("B. Sample")


def test_two_values_of_one_field_stand_side_by_side_until_a_person_picks(page, served):
    job = new_job(served)
    opened(page, served, job)
    joint = served.call("GET", f"/api/jobs/{job}")["document"]["areas"][0]
    place = ["areas", {"name": joint["name"]}, "laying", "joint_mm"]
    change = [{"op": "set", "at": place, "was": joint["laying"]["joint_mm"], "to": 6.0}]
    page.get_by_label("Joint", exact=True).fill("9")
    served.call("POST", f"/api/jobs/{job}/operations", {"key": "o1", "rev": 1, "operations": change, "note": "joint"})
    page.keyboard.press("Tab")
    box = page.locator("#clashes")
    box.wait_for()
    expect(box).to_contain_text("6 mm")
    expect(box).to_contain_text("9 mm")
    wait_kept(page, served, job, lambda kept: kept["areas"][0]["laying"]["joint_mm"] == 6)
    expect(page.get_by_label("Joint", exact=True)).to_have_value("6")
    box.get_by_role("button", name="Take this").click()
    expect(box).to_be_hidden()
    expect(page.get_by_label("Joint", exact=True)).to_have_value("9")
    wait_kept(page, served, job, lambda kept: kept["areas"][0]["laying"]["joint_mm"] == 9)


def test_undo_is_there_after_the_page_was_opened_anew(page, served):
    job = new_job(served)
    opened(page, served, job)
    before = served.call("GET", f"/api/jobs/{job}")["document"]["areas"][0]["laying"]["joint_mm"]
    page.get_by_label("Joint", exact=True).fill("7")
    page.keyboard.press("Tab")
    settled(page)
    page.reload()
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    page.keyboard.press("Control+z")
    settled(page)
    wait_kept(page, served, job, lambda kept: kept["areas"][0]["laying"]["joint_mm"] == before)


def test_what_was_typed_while_the_server_was_away_arrives_when_it_is_back(chromium, served):
    job = new_job(served)
    context = chromium.new_context(viewport={"width": 1440, "height": 900})
    page = context.new_page()
    opened(page, served, job)
    served.kill()
    page.get_by_label("Joint", exact=True).fill("7")
    page.keyboard.press("Tab")
    page.locator("#saved", has_text="not saved").wait_for()
    page.close(run_before_unload=False)
    served.start()
    again = context.new_page()
    opened(again, served, job)
    wait_kept(again, served, job, lambda kept: kept["areas"][0]["laying"]["joint_mm"] == 7)
    context.close()


def test_a_page_that_cannot_keep_a_change_says_so_tries_again_and_gives_it_as_a_file(chromium, served, tmp_path):
    job = new_job(served)
    context = chromium.new_context(viewport={"width": 1440, "height": 900}, accept_downloads=True)
    context.add_init_script(
        "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }"
    )
    page = context.new_page()
    opened(page, served, job)
    away = {"yes": True}

    def full(route):
        if route.request.url.endswith("/operations") and away["yes"]:
            route.fulfill(
                status=507, content_type="application/json", body='{"message": "There is no room left on the disk."}'
            )
        else:
            route.continue_()

    page.route(f"**/api/jobs/{job}/operations", full)
    page.get_by_label("Joint", exact=True).fill("7")
    page.keyboard.press("Tab")
    page.locator("#saved", has_text="not saved").wait_for()
    trouble = page.locator("#trouble")
    expect(trouble).to_contain_text("There is no room left on the disk.")
    expect(trouble).to_contain_text("save it as a file before you close the page")
    with page.expect_download() as given:
        trouble.get_by_role("button", name="Save the job as a file").click()
    given.value.save_as(tmp_path / "job.json")
    assert json.loads((tmp_path / "job.json").read_text("utf-8"))["areas"][0]["laying"]["joint_mm"] == 7
    assert served.call("GET", f"/api/jobs/{job}")["rev"] == 1
    away["yes"] = False
    wait_kept(page, served, job, lambda kept: kept["areas"][0]["laying"]["joint_mm"] == 7)
    trouble.wait_for(state="hidden")
    context.close()


def test_a_job_that_cannot_be_read_shows_its_fault_and_is_brought_back_from_a_revision(chromium, served):
    job = new_job(served)
    good = served.call("GET", f"/api/jobs/{job}")["document"]
    served.call("PUT", f"/api/jobs/{job}", {"rev": 1, "document": json.dumps(good)})
    with closing(sqlite3.connect(served.data)) as raw:
        raw.execute("UPDATE job SET document = '{\"identity\": ' WHERE id = ?", (job,))
        raw.commit()
    context = chromium.new_context(viewport={"width": 1440, "height": 900})
    page = context.new_page()
    page.goto(f"{served.address}/jobs/{job}/site")
    page.get_by_role("alert").filter(has_text="cannot be read").wait_for()
    page.goto(f"{served.address}/jobs/{job}")
    page.get_by_role("alert").filter(has_text="cannot be read as a job document").wait_for()
    page.get_by_role("button", name="Compare revision 1 with now").click()
    page.get_by_role("button", name="Bring back revision 1").click()
    page.locator("#rail button").first.wait_for(timeout=120_000)  # kept, and opened anew as a job like any other
    wait_kept(page, served, job, lambda kept: kept == good)
    context.close()


@pytest.mark.parametrize("size", [(1440, 900), (1024, 768), (390, 844)], ids=lambda size: str(size[0]))
def test_every_stage_stands_on_the_screen(chromium, served, size):
    context = chromium.new_context(viewport={"width": size[0], "height": size[1]}, has_touch=size[0] < 800)
    page = context.new_page()
    faults = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("console", lambda message: message.type == "error" and faults.append(message.text))
    opened(page, served)
    for stage in STAGES:
        page.locator("#rail").get_by_role("button", name=stage).click()
        page.wait_for_timeout(250)
        assert page.locator("#panel h2").first.inner_text() == stage
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, stage
        small = page.evaluate("""[...document.querySelectorAll('button, summary, select, input:not([type=checkbox]):not([type=radio]), a.button')]
            .filter((one) => one.offsetParent && one.getBoundingClientRect().height < 47.5).map((one) => one.outerHTML.slice(0, 90))""")
        assert small == [], stage
    context.close()
    assert faults == []


def test_the_same_job_gives_the_same_papers_here_and_on_the_command_line(page, served, tmp_path):
    job = new_job(served)
    opened(page, served, job, "papers")
    page.get_by_role("button", name="Make the papers").click()
    with page.expect_download(timeout=120_000) as reported:
        page.get_by_role("link", name="All papers in one file").click(timeout=120_000)
    document = served.call("GET", f"/api/jobs/{job}/document.json")
    text = document if isinstance(document, bytes) else json.dumps(document)
    with zipfile.ZipFile(reported.value.path()) as archive:
        found = {name: archive.read(name) for name in archive.namelist()}
    papers, left_out = make_pack_so_far(make_plan_so_far(text))
    missing = found.pop("not-made-yet.txt").decode()
    assert found == {paper.name: paper.content for paper in papers}
    assert "cancellation.pdf" in missing and "cancellation.pdf" in {each.name for each in left_out}
    inside = page.get_by_role("region", name="Stays inside: shows cost")
    assert inside.locator("a[href$='cost.xlsx']").count() == 1
    assert page.get_by_role("region", name="For the crew").locator("a[href*='cost']").count() == 0


def test_a_round_part_laid_otherwise_is_added_where_there_is_room(page, served):
    job = new_job(served)
    opened(page, served, job)
    page.locator("summary", has_text="parts laid otherwise").first.click()
    page.get_by_role("button", name="+ part").first.click()
    document = wait_kept(page, served, job, lambda kept: kept["areas"][0]["zones"])
    (zone,) = document["areas"][0]["zones"]
    assert zone["radius_mm"] >= 100
    reported = served.call("POST", "/api/plan", document)
    laid = reported["plan"]["laying"]["areas"][0]
    assert [each["name"] for each in laid["zones"]] == [zone["name"]]


def test_a_side_pointed_at_is_typed(page, served):
    job = new_job(served)
    opened(page, served, job)
    page.locator(".side").first.click()
    page.get_by_label("Length").fill("5.4 m")
    page.keyboard.press("Enter")
    settled(page)
    wait_kept(
        page, served, job, lambda kept: abs(corner(kept, 1)["x_mm"] - corner(kept, 0)["x_mm"]) == pytest.approx(5400.0)
    )


def test_a_sum_opens_under_its_row_and_what_is_not_known_is_not_shown_as_zero(page, served):
    job = new_job(served)
    opened(page, served, job, "ground")
    page.locator("#panel", has_text="The dig is not known").wait_for()
    page.locator("#rail button", has_text="Price").click()
    page.locator("#panel summary", has_text="Why it is a range").click()
    page.locator("#panel li", has_text="up to £").first.wait_for()
    page.locator("#panel summary", has_text="Labour").click()
    page.get_by_role("button", name="How Set out, Patio is worked out").click()
    page.locator(".under:not([hidden]) .sum-line", has_text="× 2 h = 2 h").wait_for()


def test_a_side_is_curved_through_a_point(page, served):
    job = new_job(served)
    document = served.call("GET", f"/api/jobs/{job}")["document"]
    document["measurements"]["points"].append({"name": "T", "x_mm": 5400.0, "y_mm": 1800.0})
    job = served.call("POST", "/api/jobs", {"document": document})["id"]
    opened(page, served, job)
    before = page.locator("#strip").inner_text()
    page.locator(".side").nth(1).click()
    page.get_by_label("Arc through a point").select_option("T")
    settled(page)
    wait_kept(page, served, job, lambda kept: kept["areas"][0]["outline"][1] == {"point": "B", "through": "T"})
    assert page.locator("#strip").inner_text() != before
    page.get_by_label("Curve: rise at the middle").fill("200")
    page.keyboard.press("Enter")
    settled(page)
    wait_kept(page, served, job, lambda kept: kept["areas"][0]["outline"][1] == {"point": "B", "rise_mm": 200})


def test_an_edge_of_many_points_runs_in_few_arcs(page, served):
    job = new_job(served)
    document = served.call("GET", f"/api/jobs/{job}")["document"]
    # from B to C nine points of an arc that bulges 300 mm out over a chord of 3650
    radius = (1825.0**2 + 300.0**2) / 600.0
    names = []
    for step in range(1, 10):
        y = 365.0 * step
        x = 4870.0 + (radius**2 - (y - 1825.0) ** 2) ** 0.5 - (radius - 300.0)
        names.append(f"E{step}")
        document["measurements"]["points"].append({"name": names[-1], "x_mm": round(x, 1), "y_mm": y})
    outline = document["areas"][0]["outline"]
    outline[2:2] = [{"point": name} for name in names]
    job = served.call("POST", "/api/jobs", {"document": document})["id"]
    opened(page, served, job)
    page.locator("[data-corner=B]").focus()
    page.keyboard.press("Enter")
    page.locator("summary", has_text="As arcs").click()
    page.get_by_label("Up to corner").select_option(label="C")
    page.get_by_label("Accuracy, mm").fill("5")
    page.get_by_role("button", name="Fit arcs").click()
    page.get_by_text("1 arc; the farthest point stands").wait_for()
    settled(page)
    corners = wait_kept(page, served, job, lambda kept: len(kept["areas"][0]["outline"]) == 4)["areas"][0]["outline"]
    assert [each["point"] for each in corners] == ["A", "B", "C", "D"]
    assert corners[1]["rise_mm"] == pytest.approx(300.0, abs=0.5)
