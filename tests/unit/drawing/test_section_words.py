"""Words of a section with imperial measures beside: never broken inside a measure, and clear of the lines at a door."""

from __future__ import annotations

import json
from pathlib import Path as File

import pytest

from pavewright import job, rulebook
from pavewright.drawing import section_at_wall, wall_sections
from pavewright.drawing._faults import sheet_faults
from pavewright.drawing._scene import Words
from pavewright.drawing._type import corners_of
from pavewright.papers import written_where
from pavewright.pipeline import plan
from pavewright.writing import worded

ROOT = File(__file__).parents[3]


@pytest.fixture(scope="module")
def section():
    """Return the section of the terrace with the words as they are printed."""
    document = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
    document["identity"] |= {"locality": "usa", "currency": "USD"}
    made = plan(job.parse(document), rulebook.load("usa"))
    with written_where(made):
        scene = section_at_wall(made)
        printed = [each for each in scene.elements if isinstance(each, Words)]
        return made, scene, [(each, worded(each.text)) for each in printed]


def test_no_measure_is_written_twice(section):
    _, _, printed = section
    texts = [text for _, text in printed]
    assert any("at the left jamb" in text for text in texts)
    assert all(text.count("(") == text.count(")") for text in texts), texts
    # a line that is given measures only when it is printed is longer than the room it was laid out for
    assert all(each.text.count("(") == text.count("(") for each, text in printed)


def test_the_note_of_the_door_stands_over_threshold_and_damp_proof_course(section):
    made, scene, printed = section
    wall = next(each for each in made.survey.site.walls if each.openings)
    line = max(wall.openings[0].threshold_level_mm, wall.dpc_level_mm)
    note = [each for each, _ in printed if each.layer == "wall" and each.white]
    assert len(note) >= 3
    assert min(y for each in note for _, y in corners_of(each, scene.scale)) > line


def test_all_words_stand_on_the_sheet(section):
    _, scene, printed = section
    assert max(x for each, _ in printed for x, _ in corners_of(each, scene.scale)) <= scene.bounds_mm[2]


@pytest.mark.parametrize("name", ["mixed_patio", "l_terrace"])
def test_sizes_in_feet_and_inches_stand_clear_of_levels_and_chains_and_fit_the_sheet(name):
    document = json.loads((ROOT / "examples" / f"{name}.json").read_text("utf-8"))
    document["identity"] |= {"locality": "usa", "currency": "USD", "region": "US"}
    made = plan(job.parse(document), rulebook.load("usa"))
    with written_where(made):
        scenes = wall_sections(made)
        assert any(" in" in each.text for scene in scenes for each in scene.elements if isinstance(each, Words))
        assert [fault for scene in scenes for fault in sheet_faults(scene)] == []
        assert all(scene.paper_mm[0] <= 273.0 for scene in scenes)


def test_a_section_whose_sizes_are_too_wide_is_drawn_smaller(monkeypatch):
    document = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
    made = plan(job.parse(document), rulebook.load("england"))
    plain = section_at_wall(made)
    monkeypatch.setattr("pavewright.drawing._section_parts.size_mark", lambda size_mm: f"{size_mm:.0f} and 15 15/16 in")
    scene = section_at_wall(made)
    assert scene.scale > plain.scale
    assert scene.paper_mm[0] <= 273.0
    assert sheet_faults(scene) == ()
