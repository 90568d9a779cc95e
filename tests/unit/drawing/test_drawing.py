"""Drawings that can be measured, read in black and white, and do no harm."""

from __future__ import annotations

import io
import re
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree as ET

import ezdxf
import pytest

from pavewright import rulebook
from pavewright.drawing import (
    as_laid_plan,
    choose_scale,
    dig_plan,
    laying_plan,
    levels_plan,
    section_at_wall,
    setting_out_plan,
    site_plan,
    to_dxf,
    to_svg,
    water_plan,
)
from pavewright.drawing._scene import Path as Line
from pavewright.drawing._scene import Scene, Stroke, Words
from pavewright.drawing._sheet import Sheet
from pavewright.job import load_document, parse
from pavewright.pipeline import plan

ROOT = Path(__file__).parents[3]
BUILDERS = (site_plan, levels_plan, section_at_wall, laying_plan, dig_plan, water_plan, setting_out_plan)
NAMES = ("l_terrace", "curved_path", "front_drive")


@pytest.fixture(scope="module", params=NAMES)
def made(request):
    job = parse(load_document((ROOT / "examples" / f"{request.param}.json").read_bytes()))
    return plan(job, rulebook.load("england"))


@pytest.fixture(scope="module")
def terrace():
    job = parse(load_document((ROOT / "examples" / "l_terrace.json").read_bytes()))
    return plan(job, rulebook.load("england"))


def test_a_line_of_three_metres_is_sixty_millimetres_at_1_to_50():
    scene = Scene("s", "S", (Line(((0.0, 0.0), (3000.0, 0.0)), Stroke(0.2)),), (-500.0, -500.0, 3500.0, 500.0), 50, "")
    svg = to_svg(scene)
    assert 'width="80mm" height="20mm"' in svg
    assert "M10 10L70 10" in svg


def test_the_scale_is_the_largest_that_fits():
    assert choose_scale(10000.0, 5000.0, (250.0, 200.0)) == 50
    assert choose_scale(10000.0, 5000.0, (199.0, 200.0)) == 75


def test_user_text_cannot_break_the_drawing():
    scene = Scene("s", "<b>&", (Words((0.0, 0.0), '<script>"&', 2.0),), (0.0, 0.0, 1.0, 1.0), 1, "</desc>")
    tree = ET.fromstring(to_svg(scene))
    assert [each.text for each in tree.iter("{http://www.w3.org/2000/svg}text")] == ['<script>"&']


@pytest.mark.parametrize("builder", BUILDERS)
def test_every_drawing_is_sound_has_a_title_and_fits_a_sheet(made, builder):
    scene = builder(made)
    svg = to_svg(scene)
    tree = ET.fromstring(svg)
    assert tree.find("{http://www.w3.org/2000/svg}title").text.endswith(f"1:{scene.scale}")
    wide, high = scene.paper_mm
    assert (wide <= 396.5 and high <= 244.5) or (wide <= 272.5 and high <= 356.5)
    assert "NaN" not in svg and "inf" not in svg
    # black and white only
    assert set(re.findall(r'(?:fill|stroke)="(#[0-9a-f]+)"', svg)) <= {"#000", "#fff", "#d9d9d9"}
    for words in (each for each in scene.elements if isinstance(each, Words)):
        assert words.height_mm >= 1.4


def test_labels_that_have_room_do_not_touch():
    sheet = Sheet([(0.0, 0.0), (8000.0, 6000.0)])
    for number in range(12):
        sheet.label((4000.0 + number, 3000.0), f"label {number}")
    boxes = sheet.boxes()
    for k, (x1, y1, x2, y2) in enumerate(boxes):
        for a1, b1, a2, b2 in boxes[k + 1 :]:
            assert not (x1 < a2 and a1 < x2 and y1 < b2 and b1 < y2)


def test_every_piece_is_drawn_and_every_large_one_numbered(terrace):
    svg = to_svg(laying_plan(terrace))
    numbers = set(re.findall(r">(\d+)</text>", svg))
    assert {str(piece.number) for piece in terrace.laying.areas[0].pieces if piece.area_m2 > 0.1} <= numbers
    assert "laying-plan-cut" in svg and "laying-plan-sliver" in svg


def test_levels_and_clearance_stand_on_the_levels_plan(terrace):
    svg = to_svg(levels_plan(terrace))
    for spot in terrace.levels.areas[0].corners:
        assert f"{spot.level_mm / 1000:.3f}" in svg
    assert "below DPC" in svg and "1 in 60" in svg and "1 in 80" in svg


def test_the_section_shows_every_thickness_and_the_chain(terrace):
    svg = to_svg(section_at_wall(terrace))
    for words in (
        "40  Flag 600",
        "35  mortar bed",
        "75  concrete base",
        "damp-proof course 10.150",
        "threshold 10.160",
    ):
        assert words in svg
    assert ">150</text>" in svg


def test_the_plan_as_laid_marks_failures_by_word_and_sign(terrace):
    svg = to_svg(as_laid_plan(terrace))
    assert "FAIL" in svg


def test_the_dxf_reads_back_with_true_areas_and_no_faults(made):
    document = ezdxf.read(io.StringIO(to_dxf(made).decode("utf-8")))
    assert document.dxfversion == "AC1032"
    assert document.audit().errors == []
    outlines = [each for each in document.modelspace() if each.dxf.layer == "PAVING_OUTLINE"]
    assert len(outlines) == len(made.survey.site.areas)
    for outline, area in zip(outlines, made.survey.site.areas, strict=True):
        assert bool(outline.has_arc) == any(side.start.rise_mm for side in area.sides)
        points = [(x, y) for x, y, *_ in outline.get_points()]
        assert points == [pytest.approx(corner.xy) for corner in area.ring.corners]
    pieces = [each for each in document.modelspace() if each.dxf.layer in {"PIECES_WHOLE", "PIECES_CUT"}]
    assert len(pieces) >= sum(len(laid.pieces) for laid in made.laying.areas)


def test_the_same_job_gives_the_same_bytes_whatever_the_hash_seed():
    code = (
        "import hashlib,sys\n"
        "from pavewright import drawing, rulebook\n"
        "from pavewright.job import load_document, parse\n"
        "from pavewright.pipeline import plan\n"
        f"p = plan(parse(load_document(open({str(ROOT / 'examples' / 'l_terrace.json')!r}, 'rb').read())), rulebook.load('england'))\n"
        "h = hashlib.sha256(drawing.to_dxf(p))\n"
        "for b in (drawing.site_plan, drawing.levels_plan, drawing.laying_plan, drawing.water_plan, drawing.dig_plan): h.update(drawing.to_svg(b(p)).encode())\n"
        "print(h.hexdigest())"
    )
    found = {
        subprocess.run(
            [sys.executable, "-c", code], env={"PYTHONHASHSEED": seed, "PATH": ""}, capture_output=True, check=True
        ).stdout
        for seed in ("1", "77")
    }
    assert len(found) == 1
