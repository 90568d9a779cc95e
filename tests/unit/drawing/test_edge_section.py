"""Sections at the edges: drawn from the sizes by which their concrete is bought."""

from __future__ import annotations

import pytest
import shapely

from pavewright.desk import DRAWINGS as ASKED
from pavewright.drawing import DRAWINGS, edge_details, section_at_wall
from pavewright.drawing._scene import Hatch, Region, Words
from pavewright.job import parse
from pavewright.pipeline import plan
from pavewright.quantities import ItemKey, ItemKind


@pytest.mark.parametrize("name", ["front_drive", "curved_path", "gully_yard"])
def test_the_concrete_that_is_drawn_is_the_concrete_that_is_bought(made_plan, name):
    made = made_plan(name)
    (scene,) = edge_details(made)
    drawn_m2 = sum(
        shapely.Polygon(element.rings[0]).area / 1e6
        for element in scene.elements
        if isinstance(element, Region) and element.hatch is Hatch.CONCRETE and element.layer == "concrete"
    )
    lines = made.quantities.item(ItemKey(ItemKind.EDGE_CONCRETE)).dimensions
    sections = {line.words.partition(": ")[2]: line.width_m * line.depth_m for line in lines if line.width_m}
    assert drawn_m2 == pytest.approx(sum(sections.values()))


def test_what_is_alike_in_two_areas_is_drawn_once_and_names_both(made_plan):
    (scene,) = edge_details(made_plan("curved_path"))
    words = [element.text for element in scene.elements if isinstance(element, Words)]
    assert "Edging: Upper path, Lower path" in words
    assert "joints 3 mm, filled with dry sand" in words
    assert "trench 60 below formation" in words


def test_a_job_whose_edges_nothing_is_built_for_has_none_of_it(made_plan, small):
    (register,) = [each for each in DRAWINGS if each.key == "edges"]
    assert register.draw(made_plan("l_terrace")).name == "edges-1"
    small.rectangle(2000.0, 2000.0)
    assert register.draw(plan(parse(small.document), small.rules)) is None


def test_the_section_at_the_wall_names_joints_and_the_movement_joint(made_plan):
    words = [each.text for each in section_at_wall(made_plan("l_terrace")).elements if isinstance(each, Words)]
    assert "joints 10 mm, pointed with mortar" in words
    assert "movement joint" in words
    words = [each.text for each in section_at_wall(made_plan("front_drive")).elements if isinstance(each, Words)]
    assert "movement joint" not in words


def test_more_kinds_of_edge_than_fit_a_sheet_are_on_further_sheets_that_a_screen_can_ask_for(small):
    for number, bedding in enumerate(("sand_on_sub_base", "mortar_on_sub_base")):
        far = number * 5000.0
        corners = [(far, 0.0), (far + 3000.0, 0.0), (far + 3000.0, 3000.0), (far, 3000.0)]
        area = small.area(corners, name="AB"[number])
        area["laying"]["bedding"] = bedding
        kinds = ("kerb", "edging", "haunch")
        area["edges"] = [{"corner": f"{'AB'[number]}{place}", "restraint": kind} for place, kind in enumerate(kinds)]
    made = plan(parse(small.document), small.rules)
    assert [scene.name for scene in edge_details(made)] == ["edges-1", "edges-2"]
    assert ASKED["edges-2"].draw(made).name == "edges-2"
    assert ASKED["edges-3"].draw(made) is None
