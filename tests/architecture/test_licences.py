"""What is locked and shipped may be shipped: the gate of licences, switched on."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def notices():
    found = importlib.util.spec_from_file_location("make_notices", ROOT / "tools" / "make_notices.py")
    module = importlib.util.module_from_spec(found)
    sys.modules["make_notices"] = module
    found.loader.exec_module(module)
    return module


def test_every_licence_is_known_and_may_be_shipped(notices):
    found = notices.packages()
    assert notices.faults(found) == []
    assert {each.name for each in found if each.runs} >= {"numpy", "pydantic", "trimesh", "typst"}
    assert "pytest" not in {each.name for each in found if each.runs}


def test_a_package_of_development_that_is_not_installed_has_the_licence_that_was_read_before(
    notices, tmp_path, monkeypatch
):
    page = tmp_path / "page.md"
    page.write_text(
        "## Needed to run\n\n| alone | MIT |\n\n## For development only, not shipped\n\n| absent | ISC |\n", "utf-8"
    )
    monkeypatch.setattr(notices, "PAGE", page)
    assert notices.licence_of("absent", runs=False) == "ISC"
    for name, runs in (("absent", True), ("alone", False), ("nobody-knows", False)):
        with pytest.raises(notices.NoticesError, match="not installed here"):
            notices.licence_of(name, runs=runs)


@pytest.mark.parametrize("licence", ["GPL-3.0-or-later", "MIT AND LGPL-3.0-only", "AGPL-3.0-only", "MPL-2.0"])
def test_a_copyleft_package_that_is_needed_to_run_is_a_fault(notices, licence):
    reported = notices.faults([notices.Locked("clouds", licence, runs=True)])
    assert reported == [f"clouds is under {licence} and the program needs it to run: replace it by a permissive one."]


def test_tools_of_development_may_be_copyleft_by_file_only(notices):
    assert notices.faults([notices.Locked("tests", "MPL-2.0", runs=False)]) == []
    assert notices.faults([notices.Locked("tests", "GPL-2.0-only", runs=False)])
    assert notices.faults([notices.Locked("either", "GPL-2.0-only OR MIT", runs=True)]) == []


def test_an_extra_may_ask_for_a_library_under_the_lgpl_and_for_no_program_under_the_gpl(notices):
    assert notices.faults([notices.Locked("beside", "LGPL-3.0-only", runs=False, asked=True)]) == []
    assert notices.faults([notices.Locked("beside", "LGPL-3.0-only", runs=False)])
    assert notices.faults([notices.Locked("beside", "GPL-3.0-only", runs=False, asked=True)]) == [
        "beside is under GPL-3.0-only and an extra asks for it: replace it by a permissive one."
    ]
    found = {each.name for each in notices.packages() if each.asked}
    assert found >= {"psycopg", "distributed", "ifcopenshell", "obstore", "pandas"}
    assert not found & {each.name for each in notices.packages() if each.runs}


def test_a_font_without_a_licence_is_a_fault(notices, tmp_path, monkeypatch):
    for path in notices.FONTS.iterdir():
        (tmp_path / path.name).write_bytes(path.read_bytes())
    (tmp_path / "Other.ttf").write_bytes(b"")
    monkeypatch.setattr(notices, "FONTS", tmp_path)
    assert notices.faults([]) == ["Other.ttf is shipped without a licence in fonts/README.md and its text beside it."]


def test_the_page_of_notices_is_not_stale(notices):
    assert (ROOT / "THIRD_PARTY_NOTICES.md").read_text("utf-8") == notices.page(notices.packages())
