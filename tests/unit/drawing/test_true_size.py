"""Templates at true size: sheets stuck together at their crosses give back the outline of the piece."""

from __future__ import annotations

import io
import json
from pathlib import Path as File

import pypdf
import pytest
import shapely

from pavewright.desk import make_pack, make_plan
from pavewright.drawing import to_svg, true_size_sheets
from pavewright.drawing._scene import DASHED, MEDIUM, Path, Words
from pavewright.laying import is_skew, wants_template
from pavewright.papers._sheets_true_size import true_size_document

EXAMPLES = File(__file__).parents[3] / "examples"


@pytest.fixture(scope="module", params=["l_terrace", "circle_court"])
def made(request):
    return make_plan((EXAMPLES / f"{request.param}.json").read_bytes())


def odd(made):
    wanted = [(laid, piece) for laid in made.laying.areas for piece in laid.pieces]
    return [each for each in wanted if wants_template(each[1]) or is_skew(each[1])]


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


def test_sheets_together_hold_the_whole_outline_at_true_size(made):
    pieces = odd(made)
    by_piece = {}
    for sheet in true_size_sheets(pieces, 200):
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
        whole = piece.shape.polygon
        assert lines.length == pytest.approx(whole.boundary.length, rel=2e-3)
        lines = shapely.set_precision(lines, 1e-6)
        area = shapely.area(shapely.build_area(lines))
        assert area == pytest.approx(whole.area, rel=2e-3)
        checked += 1
    assert checked


def test_every_sheet_says_with_which_it_is_stuck_together(made):
    for sheet in true_size_sheets(odd(made), 200):
        if "sheet 1 of" in sheet.title:
            assert any(isinstance(e, Words) and e.text.startswith("to sheet") for e in sheet.scene.elements)
            assert 'width="180mm"' in to_svg(sheet.scene)


def test_no_more_sheets_than_allowed_and_the_rest_is_told(made, monkeypatch):
    pieces = odd(made)
    every = true_size_sheets(pieces, 500)
    assert {each for sheet in every for each in sheet.pieces} == {(laid.area, p.number) for laid, p in pieces}
    few = true_size_sheets(pieces, len(every) - 1)
    assert len(few) < len(every)
    monkeypatch.setattr("pavewright.papers._sheets_true_size.MOST_SHEETS", len(every) - 1)
    said = [block.get("text", "") for block in true_size_document(made)[0].blocks]
    assert any("not drawn" in words for words in said)


def test_the_file_is_there_only_where_a_piece_wants_it():
    document = json.loads((EXAMPLES / "l_terrace.json").read_text("utf-8"))
    papers = {p.name: p for p in make_pack(make_plan(json.dumps(document).encode()))}
    pages = pypdf.PdfReader(io.BytesIO(papers["templates.pdf"].content)).pages
    sheets = true_size_document(make_plan(json.dumps(document).encode()))
    assert len(pages) == len(sheets)
    box = pages[1].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((595.28, 841.89), abs=0.5)
