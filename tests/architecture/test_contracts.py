"""The page of contracts is read from the code: every front door stands on it, with names that something makes."""

from __future__ import annotations

import importlib
import re
import sys
from pathlib import Path

import pytest

import pavewright

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def contracts():
    sys.path.insert(0, str(ROOT / "tools"))
    try:
        yield importlib.import_module("docs_contracts")
    finally:
        sys.path.remove(str(ROOT / "tools"))


def test_every_room_and_module_of_the_top_floor_is_in_the_order_of_layers(contracts):
    home = ROOT / "src" / "pavewright"
    rooms = {path.stem for path in home.iterdir() if path.suffix == ".py" or (path / "__init__.py").is_file()} - {
        "__init__"
    }
    assert rooms == {room.removeprefix("pavewright.") for line in contracts.layers() for room in line}


def test_every_name_on_a_front_door_stands_on_the_page_with_what_it_says_of_itself(contracts):
    page = contracts.contracts_page()
    dumb = []
    for line in contracts.layers():
        for room in line:
            for name in contracts.names_of(room):
                entry = contracts.entry(room, name)
                assert f"`{entry.shown}`" in page
                if entry.kind != "value" and not entry.says:
                    dumb.append(f"{room}.{name}")
    assert dumb == []


def test_a_signature_is_the_one_of_the_code(contracts):
    shown = contracts.entry("pavewright.pipeline", "plan").shown
    assert shown.startswith("plan(job: Job, rules: Rulebook")
    assert shown.endswith("→ Plan")


def test_a_front_door_that_hands_out_what_nothing_makes_is_a_fault(contracts):
    with pytest.raises(LookupError, match="nothing makes it"):
        contracts.entry("pavewright.pipeline", "no_such_verb")


def test_the_picture_of_the_rooms_shows_every_room_once(contracts):
    picture = contracts.rooms_picture()
    for line in contracts.layers():
        for room in line:
            assert picture.count(f">{room.removeprefix('pavewright.')}</text>") == 1


def test_the_newest_version_among_the_changes_is_the_one_of_the_package():
    versions = re.findall(r"^## \[([^\]]+)\]", (ROOT / "CHANGELOG.md").read_text("utf-8"), re.MULTILINE)
    assert next(each for each in versions if each != "Unreleased") == pavewright.__version__


def test_what_the_pages_for_contributors_point_to_is_there():
    for page in (ROOT / "CONTRIBUTING.md", ROOT / "README.md", *(ROOT / "docs").rglob("*.md")):
        for target in re.findall(r"\]\(([^)#]+)", page.read_text("utf-8")):
            if "://" not in target:
                assert (page.parent / target).exists(), f"{page.name}: {target}"
