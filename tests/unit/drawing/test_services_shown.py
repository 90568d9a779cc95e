"""Every drawing that leads a pin or a spade shows buried services, the band beside them and where no pin goes.

And every drawing can be read: type of eight points, words apart, nothing that common programs draw wrong.
"""

from __future__ import annotations

import io
import json
import re
from pathlib import Path

import ezdxf
import pytest
import shapely

from pavewright import rulebook
from pavewright.drawing import (
    dig_plan,
    laying_plan,
    levels_plan,
    saw_drawings,
    setting_out_plan,
    to_dxf,
    to_svg,
    water_plan,
)
from pavewright.drawing._hatches import HATCHES, hatch_lines
from pavewright.drawing._scene import Arrow, Region, Symbol, Words
from pavewright.drawing._type import corners_of
from pavewright.job import parse
from pavewright.pipeline import plan

ROOT = Path(__file__).parents[3]
EIGHT_POINTS_MM = 8.0 * 25.4 / 72.0


@pytest.fixture(scope="module")
def path(made_plan):
    return made_plan("curved_path")


@pytest.fixture(scope="module")
def court(made_plan):
    return made_plan("circle_court")


def words_of(scene):
    return [each.text for each in scene.elements if isinstance(each, Words)]


@pytest.mark.parametrize("builder", [setting_out_plan, dig_plan])
def test_services_with_kind_depth_and_band_are_on_the_sheet(path, builder):
    scene = builder(path)
    words = words_of(scene)
    assert "Lamp cable" in words
    assert "electricity, said to be 600 deep" in words
    assert any(each.startswith("500 mm beside it: no pin, dig by hand") for each in words)
    assert any(
        isinstance(each, Region) and each.hatch == "band" and each.layer == "services" for each in scene.elements
    )
    assert "Trace and mark them first" in scene.about


@pytest.mark.parametrize("builder", [setting_out_plan, dig_plan])
def test_no_service_entered_is_said_not_to_mean_none(court, builder):
    assert "none entered; that does not mean none" in builder(court).about


def test_each_peg_in_a_band_has_the_sign_and_an_arrow_to_another_place(path):
    scene = setting_out_plan(path)
    stopped = [peg for peg in path.setting_out.pegs if peg.no_pin is not None]
    assert stopped
    signs = {
        each.at for each in scene.elements if isinstance(each, Symbol) and each.kind == "stop" and each.layer == "pegs"
    }
    assert signs == {peg.at for peg in stopped}
    arrows = {(each.start, each.end) for each in scene.elements if isinstance(each, Arrow)}
    assert {(peg.at, peg.no_pin.elsewhere) for peg in stopped} <= arrows
    assert {f"{peg.name.removeprefix('Peg ')} NO PIN" for peg in stopped} <= set(words_of(scene))


def test_the_drawing_file_has_bands_marks_and_words_of_services(path):
    space = ezdxf.read(io.StringIO(to_dxf(path).decode("utf-8"))).modelspace()
    bands = space.query('LWPOLYLINE[layer=="SERVICE_BANDS"]')
    assert len(bands) == len(path.setting_out.services)
    stopped = [peg for peg in path.setting_out.pegs if peg.no_pin is not None]
    reported = [each.dxf.text for each in space.query('TEXT[layer=="NO_PIN"]')]
    assert len([text for text in reported if "NO PIN" in text]) == len(stopped)
    assert any(
        "depth" in each.dxf.text or "deep" in each.dxf.text for each in space.query('TEXT[layer=="SITE_SERVICES"]')
    )


@pytest.mark.parametrize("builder", [setting_out_plan, dig_plan, levels_plan, laying_plan, water_plan])
def test_nothing_that_other_programs_draw_wrong(path, builder):
    svg = to_svg(builder(path))
    assert "paint-order" not in svg
    assert "<pattern" not in svg and "url(#" not in svg
    sizes = [float(size) for size in re.findall(r'font-size="([\d.]+)"', svg)]
    assert min(sizes) >= EIGHT_POINTS_MM
    # every text once, with no rim of its own: a rim may be drawn over its letters, and two texts are read twice
    assert not re.search(r"<text[^>]*stroke", svg)
    written = [each.text for each in builder(path).elements if isinstance(each, Words)]
    assert len(re.findall("<text", svg)) == len(written) + 1


@pytest.fixture(scope="module")
def yard(made_plan):
    return made_plan("gully_yard")


def test_no_number_of_a_piece_stands_on_a_fold(yard):
    scene = laying_plan(yard)
    folds = [shapely.LineString((fold.start, fold.end)) for area in yard.levels.areas for fold in area.surface.folds]
    numbers = [each for each in scene.elements if isinstance(each, Words) and each.layer == "numbers"]
    assert len(numbers) >= len(yard.laying.areas[0].pieces)
    for words in numbers:
        box = shapely.Polygon(corners_of(words, scene.scale))
        assert not any(box.intersects(fold) for fold in folds), words.text


@pytest.mark.parametrize("builder", [dig_plan, levels_plan])
def test_levels_written_on_their_lines_touch_no_other_words(yard, builder):
    scene = builder(yard)
    words = [each for each in scene.elements if isinstance(each, Words) and each.layer != "sheet"]
    boxes = [shapely.Polygon(corners_of(each, scene.scale)) for each in words]
    on_lines = [number for number, each in enumerate(words) if each.layer in {"ground", "contours"}]
    assert on_lines
    for number in on_lines:
        near = [words[k].text for k, box in enumerate(boxes) if k != number and box.intersects(boxes[number])]
        assert near == [], words[number].text


def test_the_lines_of_a_hatch_end_where_the_shape_ends():
    ring = [(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (0.0, 10.0)]
    hole = [(5.0, 2.0), (15.0, 2.0), (15.0, 8.0), (5.0, 8.0)]
    shape = shapely.Polygon(ring, [hole])
    for name in HATCHES:
        for _, lines in hatch_lines([ring, hole], name):
            assert lines
            assert all(shape.buffer(1e-6).contains(shapely.LineString(line)) for line in lines)


def test_a_swatch_of_the_key_shows_two_lines_of_its_hatch_at_least():
    # a swatch is 9 mm wide and 4.2 high, wherever it stands on the lines of the sheet
    for name in HATCHES:
        for off in (0.0, 0.3, 0.7, 1.1):
            ring = [(off, off), (off + 9.0, off), (off + 9.0, off + 4.2), (off, off + 4.2)]
            assert len(hatch_lines([ring], name)[0][1]) >= 2, name


def test_sawn_slabs_are_written_in_type_that_can_be_read(yard):
    for scene in saw_drawings(yard.laying.areas[0]):
        sizes = [float(size) for size in re.findall(r'font-size="([\d.]+)"', to_svg(scene))]
        assert min(sizes) >= EIGHT_POINTS_MM


def test_the_thickness_of_a_wall_is_drawn_away_from_the_paving_beside_it(made_plan):
    terrace = made_plan("l_terrace")
    document = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
    # a short wall along the inner side of the L: the middle of all paving lies on the house side of it
    document["site"]["walls"].append({"name": "Store", "start": "D", "end": "E", "dpc_level_mm": 10150.0})
    made = plan(parse(document), rulebook.load("england"))
    paved = terrace.survey.site.areas[0].gross.polygon
    strips = [each for each in levels_plan(made).elements if isinstance(each, Region) and each.hatch == "wall"]
    bodies = [shapely.Polygon(each.rings[0]) for each in strips if each.layer == "site"]
    assert len(bodies) > 3
    for body in bodies:
        assert body.intersection(paved).area < 0.1 * body.area or body.area < 20_000.0
