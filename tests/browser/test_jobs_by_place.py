"""The page of jobs on a phone, from an empty store: the first job, its state, a view that is kept, jobs by place."""

import pytest
from served import Served
from tests.browser.test_access import SMALL

pytestmark = pytest.mark.browser


def test_a_first_job_is_begun_stated_kept_in_a_view_and_found_by_its_place(chromium, tmp_path):
    server = Served(tmp_path / "jobs.sqlite")
    context = chromium.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    try:
        server.call("POST", f"/api/jobs/{server.demo}/deleted", {"deleted": True})
        page = context.new_page()
        page.goto(f"{server.address}/")
        begin = page.get_by_role("button", name="Begin a job of your own")
        begin.wait_for()
        # what to do first stands on the first screen, and nothing to filter
        box = begin.bounding_box()
        assert box["y"] + box["height"] < 844
        assert not page.locator("#only").is_visible()
        begin.tap()
        page.wait_for_url("**/walk")
        job = page.url.split("/")[-2]

        kept = server.call("GET", f"/api/jobs/{job}")
        kept["document"]["identity"]["address"] = "12 Mill Lane, Ashford Green"
        server.call("PUT", f"/api/jobs/{job}", {"rev": kept["rev"], "document": kept["document"], "note": "address"})
        page.goto(f"{server.address}/")
        page.get_by_role("button", name="Promise a visit").tap()
        page.get_by_label("Day").fill("2020-05-10")
        page.get_by_label("Time, where one was agreed").fill("14:30")
        page.get_by_role("button", name="Keep", exact=True).tap()
        page.get_by_role("button", name="State: Visit").wait_for()
        (visit,) = server.call("GET", f"/api/jobs/{job}")["document"]["standing"]["visits"]
        assert (visit["on"], visit["at_min"]) == ("2020-05-10", 870)

        page.get_by_role("button", name="Keep this view").tap()
        page.get_by_label("Its name").fill("Mine")
        page.get_by_role("button", name="Keep", exact=True).tap()
        page.locator("#view option", has_text="Mine").wait_for(state="attached")

        page.get_by_label("Show").select_option("places")
        place = page.locator("details.place")
        place.get_by_text("Ashford Green").tap()
        place.locator(f'a[data-key="{job}"]').wait_for()
        assert "1 job" in place.locator("summary").inner_text()
        assert "1 due" in place.locator("summary").inner_text()
        assert page.evaluate(SMALL) == []
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    finally:
        context.close()
        server.stop()
