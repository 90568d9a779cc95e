"""The DXF read back: true areas, arcs as arcs, sizes as geometry, harmless words."""

from __future__ import annotations

import dataclasses
import io
import json
import math
import os
import re
import subprocess
import sys
from pathlib import Path

import ezdxf
import pytest
from ezdxf.tools.text import plain_text
from shapely.geometry import Polygon

from pavewright import rulebook
from pavewright.drawing import to_dxf
from pavewright.drawing._grid import grid_of
from pavewright.drawing._dxf_layers import LAYERS, plain
from pavewright.job import parse
from pavewright.laying import PieceKind
from pavewright.pipeline import plan

ROOT = Path(__file__).parents[3]
NAMES = ("l_terrace", "curved_path", "front_drive")


def read(made):
    return ezdxf.read(io.StringIO(to_dxf(made).decode("utf-8")))


def on(document, layer, kind="LWPOLYLINE"):
    return [each for each in document.modelspace().query(kind) if each.dxf.layer == layer]


def area_of(line):
    """Area of a closed line with bulges by hand: the chords' polygon and a segment of a circle for each bulge."""
    points = [(x, y, bulge) for x, y, _, _, bulge in line.get_points()]
    found = Polygon([(x, y) for x, y, _ in points]).area
    for (x1, y1, bulge), (x2, y2, _) in zip(points, [*points[1:], points[0]], strict=True):
        if bulge:
            chord = math.dist((x1, y1), (x2, y2))
            angle = 4.0 * math.atan(abs(bulge))
            radius = chord / (2.0 * math.sin(angle / 2.0))
            # the outline runs anticlockwise, so a positive bulge adds
            found += math.copysign(radius * radius * (angle - math.sin(angle)) / 2.0, bulge)
    return found


@pytest.fixture(scope="module", params=NAMES)
def made(made_plan, request):
    return made_plan(request.param)


@pytest.fixture(scope="module")
def document(made):
    return read(made)


def test_it_is_r2018_in_millimetres_without_faults(document):
    assert document.dxfversion == "AC1032"
    assert document.header["$INSUNITS"] == 4 and document.header["$MEASUREMENT"] == 1
    auditor = document.audit()
    assert auditor.errors == [] and auditor.fixes == []
    assert set(LAYERS) <= {layer.dxf.name for layer in document.layers}
    assert {each.dxf.layer for each in document.modelspace()} <= set(LAYERS)


def test_colours_go_by_layer(document):
    assert len({layer.dxf.color for layer in document.layers if layer.dxf.name in LAYERS}) > 6
    assert {each.dxf.color for each in document.modelspace()} == {256}


def test_paper_layouts_show_the_model_to_the_scale_of_their_title_block(document, made):
    names = [name for name in document.layouts.names_in_taborder() if name != "Model"]
    assert names == ["Setting out", "Laying", "Dig and levels", "Drains", "Water and as laid"]
    for name in names:
        paper = document.layouts.get(name)
        assert (paper.dxf.paper_width, paper.dxf.paper_height) == (420.0, 297.0)
        view = next(each for each in paper.query("VIEWPORT") if each.dxf.id != 1)
        words = [each.dxf.text for each in paper.query("TEXT")]
        scale = view.dxf.view_height / view.dxf.height
        assert any(f"Scale 1:{scale:.0f} on A3" in text for text in words)
        assert any(made.job.identity.title in text for text in words)
        assert any("Buried services" in text for text in words)
        assert "SITE_SERVICES" not in view.frozen_layers
        x, y = view.dxf.view_center_point.x, view.dxf.view_center_point.y
        half = view.dxf.width * scale / 2.0, view.dxf.view_height / 2.0
        for peg in made.setting_out.pegs:
            assert abs(peg.at[0] - x) < half[0] and abs(peg.at[1] - y) < half[1]
    assert (
        "PIECES_WHOLE"
        in next(v for v in document.layouts.get("Setting out").query("VIEWPORT") if v.dxf.id != 1).frozen_layers
    )


def test_outlines_have_true_areas_and_arcs_as_arcs(document, made):
    outlines = on(document, "PAVING_OUTLINE")
    assert len(outlines) == len(made.survey.site.areas)
    for outline, area in zip(outlines, made.survey.site.areas, strict=True):
        assert outline.closed
        assert bool(outline.has_arc) == any(side.start.rise_mm for side in area.sides)
        assert [(x, y) for x, y, *_ in outline.get_points()] == [pytest.approx(c.xy) for c in area.ring.corners]
        # the plan flattens arcs to a quarter of a millimetre
        assert area_of(outline) == pytest.approx(Polygon(area.ring.points()).area, rel=2e-4)


def test_pieces_have_the_area_of_the_plan(document, made):
    layers = {"PIECES_WHOLE": 0.0, "PIECES_CUT": 0.0, "PIECES_SLIVER": 0.0}
    for layer in layers:
        for line in on(document, layer):
            ring = Polygon([(x, y) for x, y, *_ in line.get_points()])
            layers[layer] += ring.area / 1e6 * (1.0 if ring.exterior.is_ccw else -1.0)
    pieces = [piece for laid in made.laying.areas for piece in laid.pieces]
    whole = sum(piece.area_m2 for piece in pieces if piece.kind is PieceKind.WHOLE)
    assert layers["PIECES_WHOLE"] == pytest.approx(whole)
    assert sum(layers.values()) == pytest.approx(sum(laid.paved_m2 for laid in made.laying.areas))
    numbers = [each.dxf.text for each in on(document, "PIECES_NUMBERS", "TEXT")]
    assert sorted(numbers) == sorted(str(piece.number) for piece in pieces)


def test_sizes_are_geometry_and_measure_the_straight_sides(document, made):
    straight = [side for area in made.survey.site.areas for side in area.sides if side.start.rise_mm == 0.0]
    sizes = on(document, "SIZES", "DIMENSION")
    assert [size.get_measurement() for size in sizes] == [pytest.approx(side.chord_mm) for side in straight]
    for size in sizes:
        block = document.blocks[size.dxf.geometry]
        assert block.query("LINE") and block.query("MTEXT TEXT")


def test_levels_stand_in_space(document, made):
    found = sorted(each.dxf.location.z for each in on(document, "LEVELS_FINISHED", "POINT"))
    want = sorted(spot.level_mm for area in made.levels.areas for spot in (*area.corners, *area.spots))
    assert found == pytest.approx(want)


def test_pegs_and_strings_are_all_there(document, made):
    assert len(on(document, "PEGS", "CIRCLE")) == len(made.setting_out.pegs)
    lengths = [math.dist(*[(x, y) for x, y, *_ in line.get_points()]) for line in on(document, "STRINGS")]
    assert lengths == pytest.approx([string.length_mm for string in made.setting_out.strings])


def test_words_are_shown_as_they_are():
    for text in ("50%%d", "a ^J b", "%%%", "%%%%u", "²³ é – 日本", r"x \U+0041 \M+1A3 y"):
        shown = plain_text(plain(text))
        assert "\n" not in shown
        if "\\" not in text:
            assert shown == text
    assert plain("one\r\ntwo\x85\u2028three") == "one two three"


def test_a_hostile_name_stays_a_name():
    document = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
    document.pop("handed_over", None)
    name = "Lid %%u ^J \\U+0041 {\\H9x;} \x85 0 EOF"
    for cover in document["site"]["covers"]:
        cover["name"] = name
    made = plan(parse(document), rulebook.load("england"))
    found = read(made)
    assert found.audit().errors == []
    shown = [plain_text(each.dxf.text) for each in on(found, "SITE_COVERS", "TEXT")]
    assert any(words.startswith("Lid %%u ^J \\ U+0041 {\\H9x;}") for words in shown)


def test_the_bytes_do_not_hang_on_the_order_of_sets():
    program = (
        "import hashlib, sys; from pavewright.desk import demo_document, make_plan; from pavewright.drawing import to_dxf; "
        "sys.stdout.write(hashlib.sha256(to_dxf(make_plan(demo_document()))).hexdigest())"
    )
    reported = {
        subprocess.run(
            [sys.executable, "-c", program], env=os.environ | {"PYTHONHASHSEED": str(seed)}, capture_output=True, text=True,
            check=True,
        ).stdout
        for seed in range(5)
    }  # fmt: skip
    assert len(reported) == 1


def test_every_sheet_has_a_scale_bar_and_north_or_says_that_nobody_took_it(document, made):
    for name in (each for each in document.layouts.names_in_taborder() if each != "Model"):
        paper = document.layouts.get(name)
        words = [each.dxf.text for each in paper.query("TEXT")]
        assert "N" in words
        view = next(each for each in paper.query("VIEWPORT") if each.dxf.id != 1)
        scale = view.dxf.view_height / view.dxf.height
        metres = next(float(text.split()[0]) for text in words if re.fullmatch(r"[0-9.]+ m", text))
        bars = [each for each in paper.query("LWPOLYLINE") if each.closed and each.dxf.layer == "SHEET"]
        widths = [max(x for x, *_ in bar.get_points()) - min(x for x, *_ in bar.get_points()) for bar in bars]
        assert sum(abs(wide - metres * 1000.0 / scale / 2.0) < 1e-6 for wide in widths) == 2
    site = dataclasses.replace(made.survey.site, north_bearing_deg=None)
    bare = dataclasses.replace(made, survey=dataclasses.replace(made.survey, site=site))
    again = read(bare)
    words = [each.dxf.text for each in again.layouts.get("Drains").query("TEXT")]
    assert "north not taken" in words and "N" not in words


def test_the_grid_is_that_of_the_drawings(document, made):
    grid = grid_of(made)
    assert len(on(document, "GRID")) == grid.columns + grid.rows + 2
    assert {each.dxf.text for each in on(document, "GRID", "TEXT")} >= {"A", "1"}


def test_drains_have_their_levels_or_say_that_nobody_took_them(made_plan):
    made = made_plan("terrace_over_lawn")
    document = read(made)
    assert document.audit().errors == []
    (line,) = on(document, "DRAIN_RUNS")
    (run,) = made.water.runs
    assert [(x, y) for x, y, *_ in line.get_points()] == [pytest.approx(run.start.at), pytest.approx(run.end.at)]
    text = " ".join(each.dxf.text for each in on(document, "DRAIN_RUNS", "TEXT"))
    assert "invert ? not taken to ? not taken" in text
    assert len(on(document, "SOAKAWAYS")) == 1
    # a run whose line nobody knows is no line
    document = read(made_plan("front_drive"))
    assert on(document, "DRAIN_RUNS") == []
    text = " ".join(each.dxf.text for each in on(document, "DRAIN_RUNS", "TEXT"))
    assert "invert 19.800 to 19.200" in text and "its line is not known" in text
