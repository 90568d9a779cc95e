"""Sections along drains and through soakaways, and of movement joints: true where it is known, a question mark elsewhere."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.desk import DRAWINGS as ASKED
from pavewright.drawing import DRAWINGS, drain_sections, levels_plan, movement_details, pit_sections, wall_sections
from pavewright.drawing._faults import sheet_faults
from pavewright.drawing._scene import Region, ScaleWords, Words
from pavewright.drawing._section import section_mark
from pavewright.job import parse
from pavewright.pipeline import plan

ROOT = Path(__file__).parents[3]
JOBS = ("l_terrace", "front_drive", "gully_yard", "mixed_patio", "circle_court", "terrace_over_lawn", "side_path")


def words_of(scene):
    return [each.text for each in scene.elements if isinstance(each, Words)]


@pytest.mark.parametrize("name", JOBS)
def test_no_sheet_of_sections_has_words_or_leaders_on_each_other(made_plan, name):
    made = made_plan(name)
    scenes = [scene for each in DRAWINGS if each.sheets is not None for scene in each.scenes(made)]
    assert {scene.name: faults for scene in scenes if (faults := sheet_faults(scene))} == {}
    for scene in scenes:
        wide, high = scene.paper_mm
        # they fit an A4 sheet that stands, or one that lies
        assert (wide <= 186.0 and high <= 237.0) or (wide <= 273.0 and high <= 153.0), scene.name


def test_levels_that_nobody_took_stay_question_marks(made_plan):
    (scene,) = drain_sections(made_plan("terrace_over_lawn"))
    words = words_of(scene)
    assert words.count("? not taken") == 2
    assert "? inverts not taken" in words
    # no pipe is drawn between inverts that nobody took
    assert not [each for each in scene.elements if isinstance(each, Region) and each.layer == "drains"]
    assert any("crosses Pond cable" in each for each in words)


def test_a_pipe_is_drawn_to_its_two_scales_and_says_how_much_larger_heights_are(made_plan):
    scene = drain_sections(made_plan("front_drive"))[0]
    (said,) = [each for each in scene.elements if isinstance(each, ScaleWords)]
    # 3.5 m at 1:50 are 70 mm; 600 mm at 1:25 are 24 mm
    assert said.text == "across 1:50, up 1:25: heights are drawn 2 times as large as lengths"
    assert said.fitted == "not to scale; heights are drawn 2 times as large as lengths"
    pipe = next(each for each in scene.elements if isinstance(each, Region) and each.layer == "drains")
    (x1, y1), (x2, y2), *_ = pipe.rings[0]
    assert x2 - x1 == pytest.approx(70.0)
    assert y1 - y2 == pytest.approx(24.0)


def test_a_length_that_is_not_known_is_not_to_scale(made_plan):
    scene = drain_sections(made_plan("gully_yard"))[0]
    (said,) = [each for each in scene.elements if isinstance(each, ScaleWords)]
    assert said.text.startswith("across not to scale")
    assert any("find out the length of the pipe" in each for each in words_of(scene))
    assert any("could not be looked for" in each for each in words_of(scene))


def test_every_section_that_leads_a_spade_has_the_caution(made_plan):
    made = made_plan("front_drive")
    for scene in (*drain_sections(made), *pit_sections(made)):
        assert any("Buried services" in each for each in words_of(scene))


def test_a_soakaway_is_drawn_to_scale(made_plan):
    (scene,) = pit_sections(made_plan("front_drive"))
    (size,) = [parts.size for parts in made_plan("front_drive").water.pits]
    stone = next(each for each in scene.elements if isinstance(each, Region) and each.hatch == "stone")
    xs, ys = zip(*stone.rings[0], strict=True)
    assert (max(xs) - min(xs), max(ys) - min(ys)) == (size.width_mm, size.depth_mm)
    assert max(ys) == -size.cover_mm
    assert "inlet 19.200" in words_of(scene) and "foot 18.000" in words_of(scene)
    assert "surface ? not known" in words_of(scene)


def test_a_movement_joint_says_how_much_of_it_there_is_and_not_how_wide(made_plan):
    made = made_plan("l_terrace")
    (scene,) = movement_details(made)
    moved = made.laying.areas[0].movement
    assert f"{moved.edge_m:.1f} m along walls" in scene.about
    assert "that the maker of the sealant says" in scene.about
    assert movement_details(made_plan("front_drive")) == ()


def test_every_door_has_a_section_and_its_letters_on_the_levels_plan(small):
    small.rectangle(6000.0, 3000.0)
    small.point("w1", 0.0, 0.0)
    small.point("w2", 6000.0, 0.0)
    doors = [
        {"name": name, "along_mm": start, "width_mm": 900.0, "threshold_level_mm": 1200.0}
        for name, start in (("Kitchen door", 500.0), ("Garden door", 3500.0))
    ]
    small.site["walls"] = [{"name": "House", "start": "w1", "end": "w2", "dpc_level_mm": 1180.0, "openings": doors}]
    made = plan(parse(small.document), small.rules)
    scenes = wall_sections(made)
    # the higher step first
    assert [scene.title for scene in scenes] == [
        "Section A–A at wall House, Garden door",
        "Section B–B at wall House, Kitchen door",
    ]
    assert {"A–A", "B–B"} <= set(words_of(levels_plan(made)))
    assert sheet_faults(levels_plan(made)) == ()
    assert ASKED["section-2"].draw(made).title == scenes[1].title


def test_marks_run_on_past_z():
    assert [section_mark(number) for number in (0, 25, 26)] == ["A–A", "Z–Z", "AA–AA"]


def test_a_long_name_and_a_pit_without_cover_leave_words_apart():
    document = json.loads((ROOT / "tests" / "pipeline" / "jobs" / "terrace_over_lawn.json").read_text("utf-8"))
    pit = next(each for each in document["site"]["outfalls"] if each.get("soakaway"))
    name = "Soakaway by the apple tree at the far end of the long garden"
    for drain in document["site"]["channels"]:
        drain["outfall"] = name if drain.get("outfall") == pit["name"] else drain.get("outfall")
    pit["name"] = name
    pit["soakaway"] |= {"length_mm": 200.0, "width_mm": 200.0, "depth_mm": 200.0, "cover_mm": 0.0}
    made = plan(parse(document), rulebook.load("england"))
    scenes = (*drain_sections(made), *pit_sections(made))
    assert [sheet_faults(scene) for scene in scenes] == [()] * 2
