"""Editions of the user's own, from a folder that the environment names."""

from __future__ import annotations

import json

import pytest

from pavewright import rulebook
from pavewright.desk import demo_document, job_schema, make_plan
from pavewright.job import JobInvalid
from pavewright.rulebook import _load


@pytest.fixture
def own(tmp_path, monkeypatch):
    """A folder for editions of one's own, read anew in this test and forgotten after it."""
    cached = (_load._folders, _load._head, _load._register, _load.sources, _load.load)
    monkeypatch.setenv(rulebook.OWN_EDITIONS, str(tmp_path))
    for each in cached:
        each.cache_clear()
    yield tmp_path
    monkeypatch.delenv(rulebook.OWN_EDITIONS)
    for each in cached:
        each.cache_clear()


def edition(folder, name, **files):
    (folder / name).mkdir()
    for file, text in files.items():
        (folder / name / f"{file}.toml").write_text(text, "utf-8")


def at(locality):
    document = json.loads(demo_document())
    document["identity"]["locality"] = locality
    return json.dumps(document)


def faults(document):
    with pytest.raises(JobInvalid) as caught:
        make_plan(document)
    return {fault.path: fault.message for fault in caught.value.faults}


def test_an_edition_of_ones_own_is_a_locality_and_says_only_what_differs(own):
    limit = '{ value = 175, unit = "mm", source = "common_practice", status = "C", label = "paving below the DPC" }'
    edition(
        own,
        "north_shore",
        edition='title = "North Shore"\nextends = "common"',
        levels=f"[figures]\nbelow_dpc_mm = {limit}",
    )
    assert "north_shore" in rulebook.localities()
    assert "north_shore" in job_schema()["$defs"]["Identity"]["properties"]["locality"]["enum"]
    assert rulebook.load("north_shore").value("levels.below_dpc_mm") == 175
    assert rulebook.load("england").value("levels.below_dpc_mm") == 150
    assert make_plan(at("north_shore")).edition == "north_shore"


def test_a_place_without_an_edition_is_a_fault_that_names_those_that_there_are(own):
    assert "england, ireland" in faults(at("atlantis"))["identity.locality"]
    assert "common" not in rulebook.localities()
    assert "identity.locality" in faults(at("common"))


@pytest.mark.parametrize(
    "files",
    [
        {"edition": 'extends = "common"'},
        {"edition": 'title = "A"\nextends = "nowhere"'},
        {"edition": "title = "},
        {"edition": 'title = "A"\nextends = "common"\nzone = "Mars/North"'},
        {"edition": 'title = "A"\nextends = "common"', "levels": "[figures]\nbelow_dpc_mm = { value = 1 }"},
    ],
)
def test_an_edition_that_is_not_sound_is_a_fault_of_the_input(own, files):
    edition(own, "broken", **files)
    assert "broken" in str(faults(at("broken"))) or "below_dpc_mm" in str(faults(at("broken")))


def test_two_editions_of_one_name_are_refused(own):
    edition(own, "england", edition='title = "Mine"\nextends = "common"')
    assert "two editions england" in faults(at("england"))["identity.locality"]
