"""Drawings that can be measured, read in black and white, and do no harm."""

from __future__ import annotations

import re
import os
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
import shapely

from pavewright.drawing import (
    as_laid_plan,
    choose_scale,
    dig_plan,
    laying_plan,
    levels_plan,
    section_at_wall,
    setting_out_plan,
    site_plan,
    to_svg,
    water_plan,
)
from pavewright.drawing._scene import Arrow, Circle, Dimension, Region, Scene, ScaleWords, Stroke, Words
from pavewright.drawing._scene import Path as Line
from pavewright.drawing._type import corners_of
from pavewright.laying import PieceKind

ROOT = Path(__file__).parents[3]
BUILDERS = (site_plan, levels_plan, section_at_wall, laying_plan, dig_plan, water_plan, setting_out_plan)
NAMES = ("l_terrace", "curved_path", "front_drive")
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module", params=NAMES)
def made(made_plan, request):
    return made_plan(request.param)


@pytest.fixture(scope="module")
def terrace(made_plan):
    return made_plan("l_terrace")


def scene_of(*elements, bounds=(-500.0, -500.0, 3500.0, 500.0), scale=50):
    return Scene("s", "S", elements, bounds, scale, "")


def words_of(scene):
    return [element.text for element in scene.elements if isinstance(element, Words)]


def test_a_line_of_three_metres_is_sixty_millimetres_at_1_to_50():
    svg = to_svg(scene_of(Line(((0.0, 0.0), (3000.0, 0.0)), Stroke(0.2))))
    assert 'width="80mm" height="20mm"' in svg
    assert "M10 10L70 10" in svg


def test_another_scale_moves_lines_and_keeps_type():
    scene = scene_of(Line(((0.0, 0.0), (3000.0, 0.0)), Stroke(0.2)), Words((0.0, 0.0), "x", 3.5))
    svg = to_svg(scene, scale=25)
    assert 'width="160mm"' in svg and "M20 20L140 20" in svg and 'font-size="3.5"' in svg


def test_a_picture_fitted_to_a_screen_says_that_it_is_not_to_scale():
    scene = scene_of(ScaleWords((0.0, 0.0), 2.4))
    assert ">1:50</text>" in to_svg(scene)
    fitted = to_svg(scene, width_mm=60.0)
    assert 'width="60mm" height="15mm" viewBox="0 0 80 20"' in fitted
    assert ">not to scale</text>" in fitted and "1:50" not in fitted


def test_arcs_are_arcs_with_the_radius_of_chord_and_rise():
    # chord 2000, rise 500: radius (1000² + 500²) / (2 × 500) = 1250, on paper at 1:50 25
    arc = Line(((0.0, 0.0), (2000.0, 0.0)), Stroke(0.2), rises_mm=(500.0, 0.0))
    svg = to_svg(scene_of(arc))
    # rises to the right of the way, below the chord on paper: anticlockwise as seen
    assert "M10 10A25 25 0 0 0 50 10" in svg
    assert min(y for _, y in arc.flat()) == pytest.approx(-500.0, abs=0.5)


def test_a_circle_and_a_dimension_are_true_to_scale():
    svg = to_svg(scene_of(Circle((0.0, 0.0), 500.0, Stroke(0.2)), Dimension((0.0, 0.0), (1000.0, 0.0), 4.0, "1000")))
    assert '<circle cx="10" cy="10" r="5"' in svg
    assert "M10 6L30 6" in svg and ">1000</text>" in svg


def test_the_scale_is_the_largest_standard_one_that_fits():
    assert choose_scale((10000.0, 5000.0), (250.0, 200.0)) == 50
    assert choose_scale((10000.0, 5000.0), (199.0, 200.0)) == 100
    assert choose_scale((900.0, 900.0), (200.0, 200.0)) == 5
    assert choose_scale((300000.0, 10.0), (300.0, 200.0)) == 1000


def test_user_text_cannot_break_the_drawing():
    scene = Scene(
        "s", "<b>&\x00\ud800", (Words((0.0, 0.0), '<script>"&\x07', 2.0),), (0.0, 0.0, 1.0, 1.0), 1, "</desc><g>"
    )
    svg = to_svg(scene)
    svg.encode("utf-8")
    tree = ET.fromstring(svg)
    assert [each.text for each in tree.iter(f"{SVG}text")] == ['<script>"&\N{REPLACEMENT CHARACTER}']
    assert tree.find(f"{SVG}desc").text == "</desc><g>"
    assert {each.tag.removeprefix(SVG) for each in tree.iter()} == {"svg", "title", "desc", "rect", "g", "text"}


@pytest.mark.parametrize("builder", BUILDERS)
def test_every_drawing_is_sound_has_a_title_and_fits_a_sheet(made, builder):
    scene = builder(made)
    svg = to_svg(scene)
    tree = ET.fromstring(svg)
    assert tree.find(f"{SVG}title").text.endswith(f"1:{scene.scale}")
    assert tree.find(f"{SVG}desc").text
    wide, high = scene.paper_mm
    assert (wide <= 396.5 and high <= 244.5) or (wide <= 272.5 and high <= 356.5)
    assert "NaN" not in svg and "inf" not in svg
    # black and white only
    assert set(re.findall(r'(?:fill|stroke)="(#[0-9a-f]+)"', svg)) <= {"#000", "#fff", "#d9d9d9"}
    assert min(float(size) for size in re.findall(r'font-size="([0-9.]+)"', svg)) >= 1.8
    assert all(element.layer for element in scene.elements)
    assert any(isinstance(element, ScaleWords) for element in scene.elements)
    if scene.name != "section":
        assert "N" in words_of(scene)


@pytest.mark.parametrize("builder", (*BUILDERS, as_laid_plan))
def test_no_words_lie_on_words_and_none_leave_the_sheet(made, builder):
    scene = builder(made)
    if scene is None:
        return
    words = [element for element in scene.elements if isinstance(element, Words)]
    boxes = [shapely.Polygon(corners_of(each, scene.scale)).buffer(-0.15 * scene.scale) for each in words]
    sheet = shapely.box(*scene.bounds_mm)
    assert [each.text for each, box in zip(words, boxes, strict=True) if not sheet.contains(box)] == []
    tree = shapely.STRtree(boxes)
    clashes = [(words[k].text, words[j].text) for k, j in tree.query(boxes, predicate="intersects").T if k < j]
    assert clashes == []


@pytest.mark.parametrize("builder", (site_plan, levels_plan, laying_plan, water_plan, setting_out_plan))
def test_a_side_on_paper_measures_the_side_over_the_scale(made, builder):
    scene = builder(made)
    area = made.survey.site.areas[0]
    corners = [corner.xy for corner in area.ring.corners]
    x1, _, _, y2 = scene.bounds_mm
    want = [((x - x1) / scene.scale, (y2 - y) / scene.scale) for x, y in corners]
    found = []
    for path in ET.fromstring(to_svg(scene)).iter(f"{SVG}path"):
        ends = re.findall(r"(?:[ML]|A[0-9.]+ [0-9.]+ 0 [01] [01] )(-?[0-9.]+) (-?[0-9.]+)", path.get("d"))
        found.append([(float(x), float(y)) for x, y in ends])
    # a hundredth of a millimetre of paper is the finest that is written
    assert any(
        len(path) >= len(want)
        and all(abs(a - c) <= 0.006 and abs(b - d) <= 0.006 for (a, b), (c, d) in zip(path, want, strict=False))
        for path in found
    )


def test_every_piece_is_drawn_and_numbered_or_counted(made):
    scene = laying_plan(made)
    pieces = [piece for laid in made.laying.areas for piece in laid.pieces]
    drawn = [element for element in scene.elements if isinstance(element, Region) and element.layer == "pieces"]
    assert len(drawn) == len(pieces)
    assert sum(element.hatch == "sliver" for element in drawn) == sum(piece.sliver for piece in pieces)
    assert sum(element.hatch == "cut" for element in drawn) == sum(
        piece.kind is PieceKind.CUT and not piece.sliver for piece in pieces
    )
    numbers = [
        element
        for element in scene.elements
        if isinstance(element, Words) and element.text.isdigit() and element.layer == "numbers"
    ]
    reported = re.search(r"(\d+) small pieces", scene.about)
    assert len(numbers) + (int(reported.group(1)) if reported else 0) == len(pieces)


def test_a_number_lies_within_its_piece(made):
    scene = laying_plan(made)
    numbers = [each for each in scene.elements if isinstance(each, Words) and each.layer == "numbers"]
    shapes = [piece.shape.polygon for laid in made.laying.areas for piece in laid.pieces]
    tree = shapely.STRtree(shapes)
    outside = [
        each.text
        for each in numbers
        if tree.query(shapely.Polygon(corners_of(each, scene.scale)), predicate="within").size == 0
    ]
    # the few small pieces whose number stands beside them have a leader
    leaders = [each for each in scene.elements if isinstance(each, Line) and each.layer == "numbers"]
    assert len(outside) == len(leaders)


def test_levels_and_clearance_stand_on_the_levels_plan(terrace):
    words = words_of(levels_plan(terrace))
    for spot in terrace.levels.areas[0].corners:
        assert f"{spot.level_mm / 1000:.3f}" in words
    for each in ("150 to 255 below DPC", "150 to 282 below DPC", "1 in 60", "1 in 80", "A", "IC1", "Kitchen gully"):
        assert each in words


def test_a_level_line_lies_on_its_level(terrace):
    plane = terrace.levels.areas[0].plane
    lines = [each for each in levels_plan(terrace).elements if isinstance(each, Line) and each.layer == "contours"]
    assert len(lines) >= 5
    for line in lines:
        levels = [plane.level_at(point) for point in line.points]
        assert levels[0] == pytest.approx(levels[-1], abs=1e-6)
        assert levels[0] % 20.0 == pytest.approx(0.0, abs=1e-6) or levels[0] % 20.0 == pytest.approx(20.0, abs=1e-6)


def test_the_section_shows_every_thickness_and_the_chain(terrace):
    scene = section_at_wall(terrace)
    words = words_of(scene)
    for each in (
        "40  Flag 600, pressed concrete",
        "35  mortar bed, 6 sharp sand to 1 cement",
        "75  concrete base, 6 ballast to 1 cement, damp",
        "damp-proof course 10.150",
        "threshold 10.160",
        "finished 9.982",
        "formation 9.832",
        "150",
        "168",
        "318",
        "falls 1 in 60",
    ):
        assert each in words or each in " ".join(words)  # long notes run over two lines
    # true to scale upwards: layer regions are as thick as they say
    up = terrace.build_ups.areas[0]
    hatched = [each for each in scene.elements if isinstance(each, Region) and each.layer == "layers"]
    tops = [region.rings[0][0][1] - region.rings[0][3][1] for region in hatched]
    assert tops == pytest.approx([layer.thickness_mm for layer in up.layers if layer.thickness_mm > 0.0])


def test_the_section_at_a_door_leaves_the_wall_open_over_the_threshold(terrace):
    scene = section_at_wall(terrace)
    wall = next(each for each in scene.elements if isinstance(each, Region) and each.hatch == "wall")
    assert max(y for _, y in wall.rings[0]) == pytest.approx(10160.0)
    assert scene.title == "Section A–A at wall House rear, Kitchen door"


def test_the_section_at_a_door_says_the_step_at_both_jambs_and_where_it_is_cut(terrace):
    scene = section_at_wall(terrace)
    (door,) = [each for area in terrace.levels.areas for each in area.doors if each.opening == "Kitchen door"]
    assert door.varies
    said = " ".join(each.text for each in scene.elements if isinstance(each, Words) and each.layer == "wall")
    assert f"Step down {door.text}; cut here in the middle." in said
    assert f"{door.middle_mm:.0f}" in words_of(scene)
    # words keep clear of the fall and of the dashed line of the damp-proof course
    boxes = [shapely.Polygon(corners_of(each, scene.scale)) for each in scene.elements if isinstance(each, Words)]
    assert not any(a.intersects(b) for n, a in enumerate(boxes) for b in boxes[n + 1 :])


def test_the_dig_plan_tells_depth_as_ground_less_formation(terrace):
    words = words_of(dig_plan(terrace))
    peg = next(each for each in terrace.setting_out.pegs if each.role == "corner")
    formation = peg.heights[-1].level_mm
    ground = terrace.survey.ground.level_beyond(peg.at)
    assert f"{ground - formation:.0f} deep" in words
    assert f"{ground / 1000:.3f} to {formation / 1000:.3f}" in words


def test_an_arrow_of_the_water_runs_down_and_ends_at_what_takes_it(made):
    arrows = [each for each in water_plan(made).elements if isinstance(each, Arrow) and each.layer == "flow"]
    shapes = [(caught, shape) for caught in made.water.catchments for shape in caught.shapes]
    assert len(arrows) >= len({id(caught) for caught, _ in shapes})
    for arrow in arrows:
        caught, shape = next(each for each in shapes if each[1].centre_mm == arrow.start)
        plane = made.levels.area(caught.area).plane
        assert plane.level_at(arrow.end) < plane.level_at(arrow.start)
        assert shape.polygon.exterior.distance(shapely.Point(arrow.end)) < 0.01


def test_setting_out_writes_every_peg_and_every_diagonal(made):
    words = words_of(setting_out_plan(made))
    for peg in made.setting_out.pegs:
        number = peg.name.removeprefix("Peg ")
        assert (f"{number} NO PIN" if peg.no_pin is not None else number) in words
    for check in made.setting_out.checks:
        if check.kind in {"base", "side", "diagonal"}:
            assert f"{check.expected_mm / 1000:.3f}" in words


def test_the_plan_as_laid_marks_failures_by_word_and_sign(terrace):
    scene = as_laid_plan(terrace)
    readings = [reading for area in terrace.as_laid.areas for reading in area.readings]
    fails = [reading.label for reading in readings if reading.verdict == "fail"]
    assert fails
    assert sorted(words.split()[0] for words in words_of(scene) if words.endswith(" FAIL")) == sorted(fails)


def _seeded(seed: str) -> dict[str, str]:
    """Return the environment of a child with a hash seed, which runs the program that this test runs."""
    return {"PYTHONHASHSEED": seed, "PATH": "", "PYTHONPATH": os.pathsep.join(sys.path)}


def test_the_same_job_gives_the_same_bytes_whatever_the_hash_seed():
    code = (
        "import hashlib\n"
        "from pavewright import drawing, rulebook\n"
        "from pavewright.job import load_document, parse\n"
        "from pavewright.pipeline import plan\n"
        "h = hashlib.sha256()\n"
        f"for name in {NAMES!r}:\n"
        f"    p = plan(parse(load_document(open({str(ROOT / 'examples')!r} + '/' + name + '.json', 'rb').read())), rulebook.load('england'))\n"
        "    h.update(drawing.to_dxf(p))\n"
        "    for b in (drawing.site_plan, drawing.levels_plan, drawing.section_at_wall, drawing.laying_plan, drawing.water_plan,\n"
        "              drawing.dig_plan, drawing.setting_out_plan, drawing.as_laid_plan):\n"
        "        s = b(p)\n"
        "        h.update(drawing.to_svg(s).encode() if s else b'none')\n"
        "print(h.hexdigest())"
    )
    started = [
        subprocess.Popen([sys.executable, "-c", code], env=_seeded(seed), stdout=subprocess.PIPE)
        for seed in ("1", "77")
    ]
    found = {process.communicate()[0] for process in started}
    assert all(process.returncode == 0 for process in started)
    assert len(found) == 1


def test_numbers_are_held_against_their_pieces_together_not_one_by_one(terrace, monkeypatch):
    asked = []
    known = shapely.contains

    def contains(rooms, boxes, **more):
        asked.append(len(boxes))
        return known(rooms, boxes, **more)

    monkeypatch.setattr(shapely, "contains", contains)
    scene = laying_plan(terrace)
    numbers = {str(piece.number) for laid in terrace.laying.areas for piece in laid.pieces}
    assert len([each for each in scene.elements if isinstance(each, Words) and each.text in numbers]) > 100
    # two heights, two turns and three places for each area, and once for the longest number
    assert 1 <= len(asked) <= 24 * len(terrace.laying.areas)
