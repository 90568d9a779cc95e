"""Points from a file: seen as a sketch before they are taken, the order said by the user."""

from __future__ import annotations

import urllib.error

import pytest

pytestmark = pytest.mark.browser


def test_points_are_seen_before_they_are_taken(page, served, tmp_path):
    file = tmp_path / "points.csv"
    file.write_text("Pt,E,N,Z\nS1,0,0,10.0\nS2,4.5,0.1,9.98\nS3,4.4,6.2,9.91\n")
    job = served.call("POST", "/api/jobs", {"title": "Test"})["id"]
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
    page.get_by_role("button", name="Take the points").click()
    page.wait_for_timeout(600)
    page.locator("#saved", has_text="kept").wait_for()
    points = {one["name"]: one for one in served.call("GET", f"/api/jobs/{job}")["document"]["measurements"]["points"]}
    assert (points["S3"]["x_mm"], points["S3"]["y_mm"], points["S3"]["level_mm"]) == (4400.0, 6200.0, 9910.0)


def test_a_broken_file_is_told_with_its_line(served):
    sent = {"order": "name,east,north,level", "unit": "m", "text": "A,1,2,3\nB,x,2,3\n"}
    with pytest.raises(urllib.error.HTTPError) as refused:
        served.call("POST", "/api/points", sent)
    assert refused.value.code < 500
    assert "Line 2 is no point" in refused.value.read().decode()
