"""The manual is built without a warning, is searched from a folder, and loads nothing from elsewhere."""

from __future__ import annotations

import importlib.util
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
LOADED = re.compile(
    r"""<(?:script|img|iframe|source|object|embed)\b[^>]*?\b(?:src|data)=["']([^"']+)|<link\b[^>]*?\bhref=["']([^"']+)"""
)
IN_STYLES = re.compile(r"""url\(\s*["']?([^"')]+)|@import\s+["']([^"']+)""")


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    if importlib.util.find_spec("sphinx") is None:
        words = "no sphinx: install the locked packages anew to test the manual"
        if os.environ.get("CI"):
            pytest.fail(words)
        pytest.skip(words)
    place = tmp_path_factory.mktemp("manual") / "site"
    done = subprocess.run(
        [sys.executable, "tools/make_site.py", str(place)],
        cwd=ROOT,
        env=os.environ | {"PYTHONPATH": str(ROOT / "src")},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-3000:]
    return place


def test_no_page_loads_anything_from_elsewhere(site):
    pages = list(site.rglob("*.html"))
    assert len(pages) > 60
    for path in pages:
        for found in LOADED.finditer(path.read_text("utf-8")):
            assert not re.match(r"(https?:)?//", found[1] or found[2]), f"{path.name}: {found[0]}"
    for path in site.rglob("*.css"):
        for found in IN_STYLES.finditer(path.read_text("utf-8")):
            assert not re.match(r"(https?:)?//", found[1] or found[2]), f"{path.name}: {found[0]}"


def test_the_reference_has_what_the_front_doors_hand_out(site):
    page = (site / "reference" / "pipeline.html").read_text("utf-8")
    assert 'id="pavewright.pipeline.plan"' in page
    assert 'id="pavewright.levels.finished_levels"' in (site / "reference" / "levels.html").read_text("utf-8")
    assert 'id="pavewright.survey.Survey"' in (site / "reference" / "survey.html").read_text("utf-8")


def test_it_is_searched_from_a_folder_without_a_network(site, chromium):
    asked = []
    page = chromium.new_page()
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{(site / 'index.html').as_uri()}")
    page.locator("input[name=q]").first.fill("backsight")
    page.locator("input[name=q]").first.press("Enter")
    page.locator("#search-results li a", has_text="Glossary").first.wait_for(timeout=30_000)
    page.close()
    assert asked
    assert [each for each in asked if not each.startswith(("file:", "data:", "blob:"))] == []
