"""A job in feet: the same fact is the same on every sheet, drawing, workbook and file of it, and none stands bare."""

from __future__ import annotations

import copy
import io
import json
import math
import re
from pathlib import Path

import ezdxf
import openpyxl
import pytest

from pavewright import drawing, job, rulebook
from pavewright.papers import written_where
from pavewright.papers._calendar import programme_calendar
from pavewright.papers._document import page_data
from pavewright.papers import PaperInput
from pavewright.papers._pack import job_sheets
from pavewright.papers._workbook import quantities_workbook
from pavewright.papers.look import Document
from pavewright.pipeline import plan

ROOT = Path(__file__).parents[3]
TERRACE = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
FOOT_MM, INCH_MM = 304.8, 25.4
FEET = re.compile(r"−?(?:(\d+) ft)?(?: ?(?:(\d+)(?: (\d+)/(\d+))?|(\d+)/(\d+)) in)?")


@pytest.fixture(scope="module")
def made():
    changed = copy.deepcopy(TERRACE)
    changed["identity"] |= {"locality": "usa", "currency": "USD"}
    changed["identity"].pop("edition", None)
    return plan(job.parse(changed), rulebook.load("usa"))


@pytest.fixture(scope="module")
def sheets(made):
    """Return the sheets of the job pack as data, by title, the first of a title without a drawing."""
    rules = rulebook.load("usa")
    with written_where(made):
        every = job_sheets(PaperInput(made, rules), [])
        text = page_data(made, Document("Job pack", tuple(every)))
    return [sheet for group in json.loads(text)["groups"] for sheet in group["sheets"]]


@pytest.fixture(scope="module")
def svg(made):
    """Return the words of each drawing."""
    found = {}
    with written_where(made):
        for each in drawing.DRAWINGS:
            scene = each.draw(made)
            if scene is not None:
                found[each.key] = re.findall(r"<text[^>]*>([^<]*)</text>", drawing.to_svg(scene))
    return found


@pytest.fixture(scope="module")
def dxf(made):
    with written_where(made):
        content = drawing.to_dxf(made)
    return ezdxf.read(io.StringIO(content.decode("utf-8")))


@pytest.fixture(scope="module")
def book(made):
    with written_where(made):
        return openpyxl.load_workbook(io.BytesIO(quantities_workbook(made)), data_only=True)


def rows(sheets, title, head):
    """Return the rows of the table with a head on the sheet with a title."""
    for sheet in sheets:
        for block in sheet["blocks"]:
            if sheet["title"] == title and block["kind"] == "table":
                heads = [column["head"] for column in block["columns"]]
                if head in heads:
                    return heads, block["rows"]
    raise AssertionError((title, head))


def feet_of(level_mm):
    return f"{round(level_mm) / FOOT_MM:.2f} ft"


def mm_of(text):
    """Return the millimetres of feet and inches, read by themselves."""
    found = FEET.fullmatch(text.strip())
    assert found, text
    feet, whole, top, bottom, only_top, only_bottom = found.groups()
    inches = int(whole or 0) + (int(top) / int(bottom) if top else 0.0)
    inches += int(only_top) / int(only_bottom) if only_top else 0.0
    return int(feet or 0) * FOOT_MM + inches * INCH_MM


def words_of(dxf):
    return [each.dxf.text for each in dxf.modelspace().query("TEXT")]


def test_a_finished_level_is_the_same_on_plan_list_and_drawing_file(made, sheets, svg, dxf):
    heads, table = rows(sheets, "Finished levels", "finished level")
    listed = {row[0]: row[heads.index("finished level")] for row in table}
    texts = words_of(dxf)
    for spot in made.levels.areas[0].corners:
        written = feet_of(spot.level_mm)
        assert listed[spot.label] == f"{spot.level_mm / 1000.0:.3f}\n{written}"
        assert written in svg["levels"], spot.label
        assert written in texts


def test_the_base_line_is_the_same_on_plan_list_and_drawing_file(made, sheets, svg, dxf):
    (line,) = made.setting_out.base_lines
    (written,) = {each.removeprefix("base line ") for each in words_of(dxf) if each.startswith("base line ")}
    assert mm_of(written) == pytest.approx(line.length_mm, abs=INCH_MM / 8.0)
    assert written in svg["setting-out"]
    said = json.dumps(sheets, ensure_ascii=False)
    assert f"{line.length_mm / 1000.0:.3f} m ({written})" in said


def test_pegs_stand_on_the_list_as_deep_as_on_the_plan_of_the_dig(made, sheets, svg):
    heads, table = rows(sheets, "Setting out", "string")
    formation = {row[0]: row[heads.index("subgrade")] for row in table}
    for peg in made.setting_out.pegs:
        if peg.role == "base":
            continue
        level = feet_of(peg.heights[-1].level_mm)
        assert formation[str(peg.number)].endswith(f"\n{level}")
    on_plan = " ".join(svg["dig"])
    assert re.search(r"\d+\.\d\d ft to \d+\.\d\d ft", on_plan)


def test_no_drawing_shows_a_level_or_a_size_without_its_unit(svg):
    """Numbers of pegs and pieces are counts; a level has three decimals, a size of a layer a name behind it."""
    for key, texts in svg.items():
        for text in texts:
            assert not re.search(r"(?<![\d:])\d+\.\d{3}(?!\d)(?! m)", text), (key, text)
            for found in re.finditer(r"\d (mm|m|m²|m³|l/s)(?![\w²³/])(?! \()", text):
                raise AssertionError((key, text[found.start() - 10 :]))
            assert not re.match(r"\d+ (?:deep|too)|DPC \d+$|step \d+$", text), (key, text)


def test_the_drawing_file_says_its_unit_and_keeps_to_it(made, dxf):
    assert dxf.header["$INSUNITS"] == 4
    assert dxf.header["$MEASUREMENT"] == 1
    sizes = dxf.modelspace().query("DIMENSION")
    assert len(sizes) >= 4
    for size in sizes:
        text = size.dxf.text
        inside = re.fullmatch(r"<> mm \((.*)\)", text)
        assert inside, text
        assert mm_of(inside[1]) == pytest.approx(size.get_measurement(), abs=INCH_MM / 8.0)
    side = made.survey.site.areas[0].sides[0]
    length = math.dist(side.start.xy, side.end.xy)
    assert any(size.get_measurement() == pytest.approx(length) for size in sizes)
    said = [each.dxf.text for layout in dxf.layouts if layout.name != "Model" for each in layout.query("TEXT")]
    assert any("drawn in millimetres; feet and inches stand beside, levels in feet" in each.replace("meter", "metre")
               for each in said)  # fmt: skip


def test_the_workbook_holds_what_the_order_list_says(made, sheets, book):
    sheet = book["Quantities"]
    heads = [cell.value for cell in sheet[4]]
    net, imperial, ordered = (heads.index(each) for each in ("Net", "Net, imperial", "Ordered, imperial"))
    per = {"m²": 10.7639104, "m³": 1.3079506, "kg": 2.2046226, "m": 3.2808399}
    seen = set()
    for row, item in zip(sheet.iter_rows(min_row=5), made.quantities.items, strict=False):
        assert row[net].value == pytest.approx(item.net)
        if item.unit in per:
            seen.add(item.unit)
            assert row[imperial].value == pytest.approx(item.net * per[item.unit], rel=1e-6)
            assert row[ordered].value == pytest.approx(item.ordered_amount * per[item.unit], rel=1e-6)
    assert {"m²", "m³", "kg", "m"} <= seen
    said = json.dumps(sheets, ensure_ascii=False)
    dig = made.earthworks.areas[0]
    cubic = dig.volumes.cut_m3 * per["m³"]
    assert f"{dig.volumes.cut_m3:.2f}\\n{cubic:.1f} cu yd" in said


def test_the_dimension_book_is_the_same_in_the_workbook_and_on_paper(sheets, book):
    sheet = book["Dimension book"]
    heads = [cell.value for cell in sheet[4]]
    at = heads.index("Length, ft in")
    written = {cell[at].value for cell in sheet.iter_rows(min_row=5) if cell[at].value}
    printed = set()
    for page in sheets:
        if page["title"] != "Dimension book":
            continue
        for block in page["blocks"]:
            if block["kind"] == "table":
                column = [each["head"] for each in block["columns"]].index("length m")
                printed |= {row[column].split("\n")[1] for row in block["rows"] if "\n" in row[column]}
    assert written
    assert written == printed


def test_cuts_have_their_feet_and_inches(made, book):
    sheet = book["Cuts"]
    heads = [cell.value for cell in sheet[4]]
    for row in sheet.iter_rows(min_row=5):
        if row[heads.index("Along, ft in")].value:
            along = row[heads.index("Along, mm")].value
            assert mm_of(row[heads.index("Along, ft in")].value) == pytest.approx(along, abs=INCH_MM / 8.0)


def test_the_calendar_has_its_words_dates_and_measures(made):
    with written_where(made):
        text = programme_calendar(made).decode().replace("\r\n ", "")
    assert "aggregate base" in text or "Dig" in text
    assert re.search(r"[A-Z][a-z]{2}\\, [A-Z][a-z]{2} \d+\\, \d+:\d\d", text)
    for found in re.finditer(r"DESCRIPTION:.*", text):
        bare = re.sub(r": [^:]*?(?=\\n|$)", ": ", found[0])
        assert not re.search(r"\d (mm|m²|m³|kg)(?![\w²³/])(?! ?\()", bare), found[0]
