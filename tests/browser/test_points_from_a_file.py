"""Points from a file: seen as a sketch before they are taken, the order said by the user."""

from __future__ import annotations

import json
import urllib.error
import urllib.parse
import urllib.request

import numpy as np
import pytest
from kept import document_of, wait_kept

from pavewright.files import ReadLine, ReadPoint, write_dxf_points

pytestmark = pytest.mark.browser


def taken(page, served, job):
    """Take the points, and return what is measured once they are kept: they are taken in one step."""
    before = len(document_of(served, job)["measurements"]["points"])
    page.get_by_role("button", name="Take the points").click()
    return wait_kept(page, served, job, lambda kept: len(kept["measurements"]["points"]) > before)["measurements"]


def test_points_are_seen_before_they_are_taken(page, served, tmp_path):
    file = tmp_path / "points.csv"
    file.write_text("Pt,E,N,Z\nS1,0,0,10.0\nS2,4.5,0.1,9.98\nS3,4.4,6.2,9.91\n")
    job = served.patio("Test")
    page.goto(f"{served.address}/jobs/{job}#measure")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    page.locator("summary", has_text="Points by coordinates").click()
    page.locator("summary", has_text="From a file").click()
    page.locator("#points-file").set_input_files(str(file))
    page.get_by_text("Say how the columns stand").wait_for()
    assert not page.get_by_role("button", name="Take the points").is_visible()
    page.locator("#points-order").select_option("name,east,north,level")
    page.locator("#points-unit").select_option("m")
    page.get_by_text("3 points. Is this the site").wait_for()
    page.screenshot(path=str(tmp_path / "file.png"))
    points = {one["name"]: one for one in taken(page, served, job)["points"]}
    assert (points["S3"]["x_mm"], points["S3"]["y_mm"], points["S3"]["level_mm"]) == (4400.0, 6200.0, 9910.0)


def test_a_broken_file_is_told_with_its_line(served):
    said = urllib.parse.quote(json.dumps({"kind": "csv", "order": "name,east,north,level", "unit": "m"}))
    asked = urllib.request.Request(f"{served.address}/api/files?asked={said}", b"A,1,2,3\nB,x,2,3\n", method="POST")
    with pytest.raises(urllib.error.HTTPError) as refused:
        urllib.request.urlopen(asked)
    assert refused.value.code < 500
    assert "Line 2 is not a point" in refused.value.read().decode()


def opened(page, served, name):
    job = served.patio(name)
    page.goto(f"{served.address}/jobs/{job}#measure")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    page.locator("summary", has_text="Points by coordinates").click()
    page.locator("summary", has_text="From a file").click()
    return job


def test_layers_of_a_drawing_are_chosen_and_its_lines_become_break_lines(page, served, tmp_path):
    points = tuple(ReadPoint(name, x, y, level, "") for name, x, y, level in (
        ("K1", 0.0, 0.0, 9900.0), ("K2", 4000.0, 0.0, 9890.0), ("K3", 4000.0, 3000.0, 9850.0)))  # fmt: skip
    file = tmp_path / "kerb.dxf"
    file.write_bytes(write_dxf_points(points, (ReadLine("KERB", ("K1", "K2"), closed=False),)))
    job = opened(page, served, "Drawing")
    page.locator("#points-file").set_input_files(str(file))
    page.get_by_text("Choose the layers to take").wait_for()
    page.get_by_label("SURVEY_POINTS (3)").check()
    page.get_by_label("KERB (1)").check()
    page.get_by_text("3 points, 1 line. Is this the site").wait_for()
    page.get_by_label("They are spot levels of the ground").check()
    page.get_by_label("The lines are where the ground breaks").check()
    measured = taken(page, served, job)
    assert measured["ground_points"][-3:] == ["K1", "K2", "K3"]
    assert measured["break_lines"] == [{"points": ["K1", "K2"], "note": "KERB"}]


def test_a_cloud_becomes_spot_levels_of_the_ground(page, served, tmp_path, ply):
    dice = np.random.default_rng(5)
    rows = [(x, y, 9.9 - x / 60.0) for x, y in dice.uniform(0.0, 3.0, (4000, 2))]
    file = tmp_path / "garden.ply"
    file.write_bytes(ply(rows))
    job = opened(page, served, "Cloud")
    page.locator("#points-file").set_input_files(str(file))
    page.get_by_text("Say in which unit it is").wait_for()
    page.locator("#points-unit").select_option("m")
    page.get_by_text("points. Is this the site").wait_for(timeout=60_000)
    page.get_by_text("lay it onto three or more levelled points").wait_for()
    measured = taken(page, served, job)
    assert len(measured["ground_points"]) >= 36
    assert all(9.8e3 < point["level_mm"] < 9.95e3 for point in measured["points"] if point["name"].startswith("cloud"))


def test_another_kind_of_file_is_refused_at_once(page, served, tmp_path):
    file = tmp_path / "notes.docx"
    file.write_bytes(b"PK")
    opened(page, served, "Other")
    page.locator("#points-file").set_input_files(str(file))
    page.get_by_text("This kind of file is not read").wait_for()


def test_a_cloud_of_the_finished_paving_is_held_against_the_plan(page, served, tmp_path, ply):
    dice = np.random.default_rng(5)
    # the starter falls 1 in 60 away from the house from 10.000; the cloud lies 2 mm low, and reaches past the paving
    rows = [(x, y, 9.998 - y / 60.0) for x, y in dice.uniform(0.0, 6.0, (8000, 2))]
    file = tmp_path / "laid.ply"
    file.write_bytes(ply(rows))
    job = served.patio("Laid")
    page.goto(f"{served.address}/jobs/{job}#check")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    page.locator("summary", has_text="From a file").click()
    page.locator("#points-file").set_input_files(str(file))
    page.locator("#points-unit").select_option("m")
    page.get_by_role("button", name="Take the readings").click(timeout=60_000)
    page.get_by_text("readings taken").wait_for()
    page.locator("#panel h3", has_text="Patio: levels").wait_for(timeout=60_000)
    document = wait_kept(page, served, job, lambda kept: kept["as_laid"]["readings"])
    readings = document["as_laid"]["readings"]
    assert 40 < len(readings) < 100
    assert all(reading["area"] == "Patio" and reading["x_mm"] < 4870.0 for reading in readings)
    report = served.call("POST", "/api/plan", document)["plan"]["as_laid"]
    off = [reading["deviation_mm"] for area in report["areas"] for reading in area["readings"]]
    assert abs(sum(off) / len(off) + 2.0) < 1.0
