"""The survey plan, its sheet and the page of measuring tell which tape is in doubt and which helps most."""

from __future__ import annotations

import json
from pathlib import Path as File

import pytest

from pavewright.desk import make_plan
from pavewright.drawing import site_plan
from pavewright.drawing._scene import CHAIN, THICK, Path, Words
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
    said = [item for block in survey_sheets(made)[1].blocks if block["kind"] == "list" for item in block["items"]]
    assert any("Tape B–D looks" in words and "too long: measure it again" in words for words in said)
    assert any("helps most" in words for words in said)
