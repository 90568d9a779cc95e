#!/usr/bin/env python3
"""Draw the pictures of docs/tour.md: the screens as chromium shows them, on a laptop, a tablet and a phone.

    .venv/bin/python tools/make_tour.py

Pictures differ by a few pixels from one chromium to the next, so no test holds them against the program: make them anew
when a screen changes.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import sync_playwright

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests" / "browser"))
from served import FLAGS, Served  # noqa: E402

if TYPE_CHECKING:
    from playwright.sync_api import Browser

PICTURES = (
    ("jobs", "/", (1440, 900), ""),
    ("paving", "/jobs/{job}#paving", (1440, 900), "whole"),
    ("levels", "/jobs/{job}#levels", (1440, 900), "whole"),
    ("water", "/jobs/{job}#water", (1024, 768), "whole"),
    ("price", "/jobs/{job}#price", (1440, 900), "whole"),
    ("sum", "/sums#fall?run_mm=3000&one_in=60", (1024, 768), ""),
    ("phone-levels", "/jobs/{job}#levels", (390, 844), "whole"),
    ("on-site", "/jobs/{job}/site#measure", (390, 844), ""),
)
"""Name, address, size of the screen, and what the strip says when all has come."""
SETTLE_MS = 2500


def shown(browser: Browser, served: Served, name: str, address: str, size: tuple[int, int], strip: str) -> None:
    """Draw one picture."""
    wide, high = size
    page = browser.new_page(viewport={"width": wide, "height": high}, color_scheme="light", locale="en-GB")
    page.goto(served.address + address.replace("{job}", served.demo))
    if strip:
        page.locator("#strip", has_text=strip).wait_for(timeout=120_000)
    page.wait_for_timeout(SETTLE_MS)
    page.screenshot(path=str(ROOT / "docs" / "pictures" / "screens" / f"{name}.png"))
    page.close()


def main() -> None:
    """Draw every picture from the demo."""
    (ROOT / "docs" / "pictures" / "screens").mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as driver:
        served = Served(Path(folder) / "jobs.sqlite")
        served.call("POST", "/api/plan", served.call("GET", f"/api/jobs/{served.demo}")["document"])
        browser = driver.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
        for name, address, size, strip in PICTURES:
            shown(browser, served, name, address, size, strip)
        browser.close()
        served.stop()


if __name__ == "__main__":
    main()
