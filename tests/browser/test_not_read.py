"""What nobody read stays empty on the screens, and is marked."""

from __future__ import annotations

import pytest
from kept import wait_kept

pytestmark = pytest.mark.browser


def settled(page):
    page.wait_for_timeout(400)
    page.locator("#saved", has_text="kept").wait_for()
    page.wait_for_timeout(900)


def test_new_walls_covers_and_rows_hold_no_level_that_nobody_read(page, served):
    job = served.patio("Not read")
    page.goto(f"{served.address}/jobs/{job}#measure")
    page.locator("#strip", has_text="whole").wait_for(timeout=120_000)
    assert page.locator("#panel", has_text="The damp-proof course of wall House wall was not read").count()
    page.locator("summary", has_text="Walls, doors, air bricks").click()
    page.get_by_role("button", name="+ wall", exact=True).click()
    settled(page)
    page.locator("summary", has_text="Covers, posts, trees").click()
    page.get_by_role("button", name="+ cover", exact=True).click()
    settled(page)
    document = wait_kept(page, served, job, lambda kept: len(kept["site"]["walls"]) == 2 and kept["site"]["covers"])
    assert [wall.get("dpc_level_mm") for wall in document["site"]["walls"]] == [None, None]
    cover = document["site"]["covers"][0]
    assert [cover.get(name) for name in ("level_mm", "length_mm", "width_mm")] == [None, None, None]
    # the lengths of the cover have to be there: they are asked for by name
    page.locator(".fault:visible", has_text="Length").first.wait_for()
    # a level may be written, or be the name of a point that was read
    page.locator("summary", has_text="House wall").click()
    field = page.locator("[data-path='site.walls.0.dpc_level_mm'] input")
    assert field.get_attribute("placeholder") == "not read"
    field.fill("10.150 m")
    field.press("Tab")
    wait_kept(page, served, job, lambda kept: kept["site"]["walls"][0]["dpc_level_mm"] == 10150)
    settled(page)
    field.fill("A")
    field.press("Tab")
    wait_kept(page, served, job, lambda kept: kept["site"]["walls"][0]["dpc_level_mm"] == "A")
