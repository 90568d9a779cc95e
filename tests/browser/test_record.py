"""The record of a job is reached from its papers, on a phone too; a reading stands in it, its hash can be given out."""

from __future__ import annotations

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow]


def test_a_reading_stands_in_the_record_and_the_files_come(chromium, served):
    job = served.demo
    reading = {"x_mm": 1500.0, "y_mm": 2500.0, "level_mm": 9990.0, "area": "Terrace", "label": "L95"}
    operation = {"op": "add", "at": ["as_laid", "readings"], "item": reading}
    asked = {"key": "record-1", "rev": 1, "from": "phone", "note": "levels", "operations": [operation]}
    served.call("POST", f"/api/jobs/{job}/operations", asked)
    page = chromium.new_page(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    page.goto(f"{served.address}/jobs/{job}#papers")
    page.get_by_role("link", name="Record", exact=True).click(timeout=120_000)
    entries = page.locator(".entries li")
    entries.filter(has_text="label L95").filter(has_text="± 1.5 mm").wait_for(timeout=60_000)
    head = page.locator("#head").inner_text().replace(" ", "").replace("\n", "")
    assert head.startswith(entries.first.locator(".begins").inner_text().split()[0])
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    with page.expect_download(timeout=120_000) as coming:
        page.get_by_role("link", name="PDF with its data").click()
    assert coming.value.suggested_filename == "record.pdf"
    page.locator("summary", has_text="Timestamps").click()
    page.locator("#token").set_input_files({"name": "x.tsr", "mimeType": "text/plain", "buffer": b"no token"})
    page.get_by_text("That is no timestamp that can be read").wait_for()
    page.close()
