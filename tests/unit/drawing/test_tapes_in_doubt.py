"""The survey plan, its sheet and the page of measuring tell which tape is in doubt and which helps most."""

from __future__ import annotations

import json
from pathlib import Path as File

import pytest

from pavewright.desk import make_plan
from pavewright.drawing import site_plan
from pavewright.drawing._scene import CHAIN, THICK, Path, Sign, Symbol, Words
from pavewright.papers.look import as_data
from pavewright.papers._sheets_survey import survey_sheets

EXAMPLE = File(__file__).parents[3] / "examples" / "l_terrace.json"


@pytest.fixture(scope="module")
def made():
    document = json.loads(EXAMPLE.read_text("utf-8"))
    for tape in document["measurements"]["tape_plan"]["tapes"]:
        if {tape["start"], tape["end"]} == {"B", "D"}:
            tape["length_mm"] += 80.0
    return make_plan(json.dumps(document))


def test_the_tape_in_doubt_stands_out_on_the_plan(made):
    (suspect,) = made.survey.tapes.suspects
    assert {suspect.start, suspect.end} == {"B", "D"}
    scene = site_plan(made)
    ends = {made.survey.point("B").xy, made.survey.point("D").xy}
    assert any(isinstance(e, Path) and e.stroke == THICK and set(e.points) == ends for e in scene.elements)
    said = [e.text for e in scene.elements if isinstance(e, Words)]
    assert f"{suspect.slip_mm:.0f} too long?" in said
    assert "tape in doubt: measure it again" in said


def test_the_next_tape_is_drawn_and_named(made):
    more = made.survey.tapes.next_tape
    scene = site_plan(made)
    ends = {made.survey.point(more.start).xy, made.survey.point(more.end).xy}
    assert any(isinstance(e, Path) and e.stroke == CHAIN and set(e.points) == ends for e in scene.elements)
    assert "tape next" in [e.text for e in scene.elements if isinstance(e, Words)]


def test_the_sheet_says_both_in_words(made):
    said = [
        item
        for block in map(as_data, survey_sheets(made)[1].blocks)
        if block["kind"] == "list"
        for item in block["items"]
    ]
    assert any("Tape B–D looks" in words and "too long: measure it again" in words for words in said)
    assert any("helps most" in words for words in said)


def test_a_point_that_is_only_sketched_is_no_measured_point_on_paper(made):
    document = json.loads(EXAMPLE.read_text("utf-8"))
    measured = document["measurements"]
    corners = [corner["point"] for area in document["areas"] for corner in area["outline"]]
    last = corners[-1]
    places = {name: made.survey.point(name).xy for name in dict.fromkeys(corners)}
    measured["sketch"] = [{"name": name, "x_mm": x / 10.0, "y_mm": y / 10.0} for name, (x, y) in places.items()]
    plan = measured["tape_plan"]
    plan["tapes"] = [tape for tape in plan["tapes"] if last not in {tape["start"], tape["end"]}]
    plan["sides"] = [side for side in plan.get("sides", []) if last not in side.values()]
    plan["square_corners"] = [each for each in plan.get("square_corners", []) if last not in each.values()]
    plan["points_on_lines"] = [each for each in plan.get("points_on_lines", []) if last not in each.values()]
    sketched = make_plan(json.dumps(document))
    scene = site_plan(sketched)
    signs = {e.at: e.kind for e in scene.elements if isinstance(e, Symbol)}
    assert signs[sketched.survey.point(last).xy] is Sign.SQUARE
    assert signs[sketched.survey.point(corners[0]).xy] is Sign.RING
    assert "point placed by eye, not measured" in [e.text for e in scene.elements if isinstance(e, Words)]
    assert "point placed by eye, not measured" not in [e.text for e in site_plan(made).elements if isinstance(e, Words)]
