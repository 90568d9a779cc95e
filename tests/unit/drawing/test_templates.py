"""Sheets of templates: they fit their paper, hold every piece once, and report those left out."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pypdf
import pytest

from pavewright import rulebook
from pavewright import units
from pavewright.desk import make_pack, make_plan
from pavewright.drawing import saw_drawings, template_scenes, to_svg
from pavewright.drawing._faults import sheet_faults
from pavewright.drawing._scene import Words
from pavewright.drawing._type import corners_of
from pavewright.job import parse
from pavewright.laying import is_skew, wants_template
from pavewright.papers.look import as_data
from pavewright.papers._sheets_dry_lay import template_sheets
from pavewright.pipeline import plan

ROOT = Path(__file__).parents[3]


def example(name, **unit):
    document = json.loads((ROOT / "examples" / f"{name}.json").read_text("utf-8"))
    document["units"][0].update(unit)
    return make_plan(json.dumps(document).encode("utf-8"))


def odd(made):
    return [(laid, piece) for laid in made.laying.areas for piece in laid.pieces if wants_template(piece)]


def disc(reach_mm):
    """A round patio of slabs: curved pieces all round."""
    document = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
    rules = rulebook.load("england")
    document["measurements"] = {
        "points": [
            {"name": "W", "x_mm": -reach_mm, "y_mm": 0.0},
            {"name": "E", "x_mm": reach_mm, "y_mm": 0.0},
        ]
    }
    document["site"] = {"walls": [], "ground": {"soil": "sandy_clay"}}
    document["areas"] = [
        {
            "name": "Ring",
            "outline": [{"point": "W", "rise_mm": reach_mm}, {"point": "E", "rise_mm": reach_mm}],
            "fall": {"bearing_deg": 0.0, "level_at": "W", "level_mm": 1000.0},
            "laying": {"unit": document["units"][0]["name"]},
        }
    ]
    document.pop("as_laid", None)
    document.pop("steps", None)
    document.pop("handed_over", None)
    job = parse(document)
    return plan(job, rules)


@pytest.fixture(scope="module", params=["l_terrace", "gully_yard", "disc"])
def drawn(made_plan, request):
    made = disc(2000.0) if request.param == "disc" else made_plan(request.param)
    return made, template_scenes(odd(made))


def test_every_odd_piece_is_drawn_once_at_one_scale(drawn):
    made, scenes = drawn
    titles = [
        each.text for scene in scenes for each in scene.elements if isinstance(each, Words) and "piece" in each.text
    ]
    assert titles == [f"{laid.area}, piece {piece.number}" for laid, piece in odd(made)]
    assert titles
    assert len({scene.scale for scene in scenes}) == 1
    assert len({scene.name for scene in scenes}) == len(scenes)


def test_sheets_fit_a4_and_no_word_runs_off_them(drawn):
    _, scenes = drawn
    for scene in scenes:
        wide, high = scene.paper_mm
        assert wide <= 178.0
        assert high <= 226.0
        x1, y1, x2, y2 = scene.bounds_mm
        for words in scene.elements:
            if isinstance(words, Words):
                for x, y in corners_of(words, scene.scale):
                    assert x1 <= x <= x2, words.text
                    assert y1 <= y <= y2, words.text
        assert to_svg(scene).startswith("<svg")


def test_nothing_is_drawn_where_nothing_is_odd():
    assert template_scenes([]) == ()


def test_no_list_ends_early():
    """Every notched and curved piece has its drawing and every skew one its corners, however many there are."""
    made = disc(5000.0)
    count = len(odd(made))
    assert count > 40
    sheets = template_sheets(made)
    drawn = " ".join(
        block["svg"] for sheet in sheets for block in map(as_data, sheet.blocks) if block["kind"] == "drawing"
    )
    assert all(f"piece {piece.number}<" in drawn for _, piece in odd(made))
    rows = [
        row
        for sheet in sheets
        for block in map(as_data, sheet.blocks)
        if block["kind"] == "table"
        for row in block["rows"]
    ]
    skew = [piece for laid in made.laying.areas for piece in laid.pieces if is_skew(piece)]
    assert sorted(int(row[1]) for row in rows) == sorted(piece.number for piece in skew)


def test_the_pack_carries_the_sheets_of_the_dry_lay():
    made = example("l_terrace", measured_lengths_mm=[601.0, 602.0] * 5, size_class="flag_p", breakage_percent=2.0)
    papers = {paper.name: paper.content for paper in make_pack(made)}
    text = "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(papers["job-pack.pdf"])).pages)
    for words in (
        "First course and dry lay",
        "Templates, sheet 1",
        "Measured sizes",
        "from memory, not verified",
        "packs in turn",
        "batch numbers of",
    ):
        assert words in text
    marks = made.laying.areas[0].gauge
    assert units.grouped(marks[-1].end_mm, 1) in text
    assert f"{made.laying.areas[0].growth[0].absorbing_joint_mm:.1f}" in text
    for laid in made.laying.areas:
        for piece in laid.pieces:
            assert not (is_skew(piece) and wants_template(piece))


@pytest.mark.parametrize("name", ["circle_court", "front_drive"])
def test_letters_and_numbers_of_templates_and_saw_plans_stand_clear_of_each_other(made_plan, name):
    made = made_plan(name)
    scenes = [*template_scenes(odd(made)), *(each for laid in made.laying.areas for each in saw_drawings(laid))]
    assert len(scenes) > 5
    assert [(scene.name, fault) for scene in scenes for fault in sheet_faults(scene)] == []
