"""The record of a handover is typed in at the check, and the paper says it."""

from __future__ import annotations

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow]


def test_the_record_of_a_handover_is_written_at_the_check(page, served):
    job = served.patio("Handover")
    page.goto(f"{served.address}/jobs/{job}#check")
    part = page.locator("details.group", has=page.locator("summary", has_text="Handing over")).first
    part.locator("summary").first.click()
    part.get_by_role("button", name="Begin the record of the handover").click()
    part.get_by_label("Completed on").fill("2027-06-03")
    part.get_by_label("Completed on").press("Tab")
    page.wait_for_function(
        """async (address) => {
            const job = await (await fetch(address)).json();
            return (job.document.handed_over ?? {}).completed_on === "2027-06-03";
        }""",
        arg=f"/api/jobs/{job}",
        timeout=30_000,
    )
