"""Templates at true size: sheets stuck together at their crosses give back the outline of the piece."""

from __future__ import annotations

import io
import json
from pathlib import Path as File

import pypdf
import pytest
import shapely

from pavewright.desk import make_pack, make_plan
from pavewright.papers.look import as_data
from pavewright.drawing import to_svg, true_size_sheets
from pavewright.drawing._scene import DASHED, MEDIUM, Path, Words
from pavewright.laying import curve_in_its_box, has_curve, is_skew, template_of
from pavewright.papers._sheets_true_size import true_size_document

EXAMPLES = File(__file__).parents[3] / "examples"


@pytest.fixture(scope="module")
def made(made_plan):
    return made_plan("circle_court")


def odd(made):
    return [(laid, piece) for laid in made.laying.areas for piece in laid.pieces if has_curve(piece)]


def near_the_curve(laid, piece):
    """The rim of a piece within 25 mm of its curve, whichever way it lies."""
    template = template_of(laid, piece, 100.0)
    rim = shapely.Polygon(template.rings_mm[0], template.rings_mm[1:]).boundary
    return shapely.intersection(rim, shapely.buffer(shapely.MultiLineString(curve_in_its_box(laid, piece)), 25.0))


def thick(scene):
    """The outline on a sheet: its thick lines above the measure at the foot."""
    low = scene.bounds_mm[1] + 14.0
    lines = [e.points for e in scene.elements if isinstance(e, Path) and e.stroke == MEDIUM]
    return [points for points in lines if min(y for _, y in points) >= low - 1e-9]


def cell(scene):
    """What a sheet adds: as far as its dashed seams, or its rim where there is none."""
    x1, y1, x2, y2 = scene.bounds_mm
    y1 += 14.0
    for seam in (e.points for e in scene.elements if isinstance(e, Path) and e.stroke == DASHED):
        (ax, ay), (bx, by) = seam
        if ax == bx:
            x1, x2 = (ax, x2) if ax < (x1 + x2) / 2.0 else (x1, ax)
        else:
            y1, y2 = (ay, y2) if by < (y1 + y2) / 2.0 else (y1, ay)
    return shapely.box(x1, y1, x2, y2)


def test_sheets_together_hold_the_whole_curve_at_true_size(made):
    pieces = odd(made)
    by_piece = {}
    for sheet in true_size_sheets(pieces):
        assert sheet.scene.scale == 1
        wide, high = sheet.scene.paper_mm
        assert wide <= 186.0
        assert high <= 226.0
        if len(sheet.pieces) == 1:
            by_piece.setdefault(sheet.pieces[0], []).append(sheet)
    checked = 0
    for laid, piece in pieces:
        sheets = by_piece.get((laid.area, piece.number), [])
        if not sheets:
            continue
        lines = shapely.unary_union(
            [shapely.intersection(shapely.MultiLineString(thick(each.scene)), cell(each.scene)) for each in sheets]
        )
        wanted = near_the_curve(laid, piece)
        assert lines.length == pytest.approx(wanted.length, rel=2e-3)
        x1, y1, x2, y2 = lines.bounds
        a1, b1, a2, b2 = wanted.bounds
        assert sorted((x2 - x1, y2 - y1)) == pytest.approx(sorted((a2 - a1, b2 - b1)), abs=0.1)
        # no more sheets than the curve crosses: a sheet without any of it is not printed
        assert all(thick(each.scene) for each in sheets)
        checked += 1
    assert checked > 10


def test_every_sheet_says_with_which_it_is_stuck_together(made):
    for sheet in true_size_sheets(odd(made)):
        if "sheet 1 of" in sheet.title:
            assert any(isinstance(e, Words) and e.text.startswith("to sheet") for e in sheet.scene.elements)
            assert 'width="180mm"' in to_svg(sheet.scene)


def test_every_curved_piece_is_drawn_and_no_other(made):
    pieces = odd(made)
    drawn = {each for sheet in true_size_sheets(pieces) for each in sheet.pieces}
    assert drawn == {(laid.area, piece.number) for laid, piece in pieces}
    listed = json.dumps(
        [block for block in map(as_data, true_size_document(made)[0].blocks) if block["kind"] == "table"]
    )
    assert all(str(number) in listed for _, number in drawn)


def test_a_notched_or_skew_flag_takes_no_sheet_at_true_size(made_plan):
    terrace = made_plan("l_terrace")
    pieces = [piece for laid in terrace.laying.areas for piece in laid.pieces]
    assert any(piece.notched for piece in pieces)
    assert any(is_skew(piece) for piece in pieces)
    assert true_size_document(terrace) == []


def test_the_file_is_there_only_where_a_piece_wants_it():
    document = json.loads((EXAMPLES / "circle_court.json").read_text("utf-8"))
    papers = {p.name: p for p in make_pack(make_plan(json.dumps(document).encode()))}
    pages = pypdf.PdfReader(io.BytesIO(papers["templates.pdf"].content)).pages
    sheets = true_size_document(make_plan(json.dumps(document).encode()))
    assert len(pages) == len(sheets)
    box = pages[1].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((595.28, 841.89), abs=0.5)
