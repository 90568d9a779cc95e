"""Every drawing that leads a pin or a spade shows the buried services, the band beside them and where no pin goes."""

from __future__ import annotations

import io
import re
from pathlib import Path

import ezdxf
import pytest

from pavewright import rulebook
from pavewright.drawing import dig_plan, laying_plan, levels_plan, setting_out_plan, to_dxf, to_svg, water_plan
from pavewright.drawing._scene import Arrow, Region, Symbol, Words
from pavewright.job import load_document, parse
from pavewright.pipeline import plan

ROOT = Path(__file__).parents[3]
EIGHT_POINTS_MM = 8.0 * 25.4 / 72.0


def example(name):
    return plan(parse(load_document((ROOT / "examples" / f"{name}.json").read_bytes())), rulebook.load("england"))


@pytest.fixture(scope="module")
def path():
    return example("curved_path")


@pytest.fixture(scope="module")
def court():
    return example("circle_court")


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
    told = [each.dxf.text for each in space.query('TEXT[layer=="NO_PIN"]')]
    assert len([text for text in told if "NO PIN" in text]) == len(stopped)
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
