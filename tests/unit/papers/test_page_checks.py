"""Every page of every paper checked by program, and the checks held to pages that are spoilt on purpose."""

from __future__ import annotations

import io
import sys
from pathlib import Path

import pypdf
import pytest

from pavewright import rulebook
from pavewright.papers import PaperKey, pack, written_where
from pavewright.papers._compile import to_pdf, to_pdf_and_pages
from pavewright.papers._document import page_data
from pavewright.papers.look._blocks import Figure
from pavewright.papers.look import Document, SheetOfPaper, paragraph, picture, points

sys.path.insert(0, str(Path(__file__).parents[3] / "tools"))
from check_pages import archival_faults, faults_of
from PIL import Image

SPOILT = """<svg xmlns="http://www.w3.org/2000/svg" width="180mm" height="60mm" viewBox="0 0 180 60">
<g font-family="Inter" font-size="5"><text x="20" y="20">first words</text><text x="22" y="21">other words</text>
<text x="20" y="40" fill="#cccccc">pale words</text><text x="20" y="50" font-size="2">tiny words</text>
<text x="60" y="40">clear of all</text><text x="-14" y="30">cut at the edge</text>
<text x="100" y="40" transform="rotate(30 100 40)">slanting words</text></g></svg>"""


@pytest.mark.parametrize("name", ["l_terrace", "mixed_patio"])
def test_no_page_of_any_paper_has_a_fault(made_pack, name):
    _, papers = made_pack(name)
    documents = {
        each: pypdf.PdfReader(io.BytesIO(content)) for each, content in papers.items() if each.endswith(".pdf")
    }
    assert len(documents) > 4
    found = [f"{each} page {fault.page}: {fault.what}" for each, made in documents.items() for fault in faults_of(made)]
    assert found == []


def test_no_page_of_what_comes_after_a_quotation_has_a_fault(made_plan):
    plan = made_plan("gone_through")
    after = frozenset({PaperKey.VARIATIONS, PaperKey.BILLS, PaperKey.ACCOUNT, PaperKey.HANDOVER})
    papers = [each for each in pack(plan, rulebook.load(plan.edition), only=after) if each.name.endswith(".pdf")]
    assert len(papers) == len(after)
    found = {each.name: list(faults_of(pypdf.PdfReader(io.BytesIO(each.content)))) for each in papers}
    assert {name: faults for name, faults in found.items() if faults} == {}


@pytest.fixture(scope="module")
def made(made_plan):
    plan = made_plan("demo")

    def pages(*sheets):
        with written_where(plan):
            return page_data(plan, Document("Spoilt", sheets))

    return pages


def test_what_is_spoilt_is_found_and_nothing_else(made):
    filled = SheetOfPaper("Filled").add(points([f"Line {number}" for number in range(30)]))
    sheet = SheetOfPaper("Spoilt").add(picture(SPOILT, "Words that lie badly"), points("abcdefghijklmnop"))
    empty = SheetOfPaper("All but empty").add(paragraph("One line."))
    document = pypdf.PdfReader(io.BytesIO(to_pdf({"x": made(filled, sheet, empty)})["x"]))
    found = [(fault.page, fault.what) for fault in faults_of(document)]
    spoilt, last = len(document.pages) - 1, len(document.pages)
    said = " ".join(what for page, what in found if page == spoilt)
    assert "lies on" in said
    assert "too pale in black and white" in said
    assert "is set in 5.7 pt" in said
    assert "reaches the edge of the page" in said
    assert "clear" not in said
    assert "slanting" not in said
    assert [what for page, what in found if page == last] == ["only 5 % of the page is used"]
    assert {page for page, _ in found} == {spoilt, last}


def test_what_an_archival_document_lacks_is_found(made):
    content = to_pdf({"x": made(SheetOfPaper("Filled").add(paragraph("Words.")))})["x"]
    assert list(archival_faults(pypdf.PdfReader(io.BytesIO(content)))) == []
    for key, words in {
        "/Lang": "its language is not said",
        "/MarkInfo": "it is not marked as tagged",
        "/StructTreeRoot": "it has no tree of structure",
        "/OutputIntents": "it names no colour space of output",
        "/Metadata": "it does not say that it is PDF/A-3",
    }.items():
        document = pypdf.PdfReader(io.BytesIO(content))
        del document.trailer["/Root"][key]
        assert words in list(archival_faults(document))


def test_the_mark_of_a_tagged_document_says_no_more_than_that(made):
    content = to_pdf({"x": made(SheetOfPaper("Filled").add(paragraph("Words.")))})["x"]
    document = pypdf.PdfReader(io.BytesIO(content), strict=True)
    assert document.trailer["/Root"]["/MarkInfo"] == {"/Marked": True}
    assert len(document.pages) == 1


@pytest.mark.parametrize(("lines", "drawn"), [(20, True), (34, False)])
def test_a_picture_that_may_be_left_out_never_begins_a_page(made, lines, drawn):
    shape = SPOILT.replace("60mm", "120mm").replace("0 0 180 60", "0 0 180 120")
    figure = Figure(shape, "Words", "Where it is", otherwise="It stands elsewhere.")
    sheet = SheetOfPaper("Filled").add(points([f"Line {number}" for number in range(lines)]), figure)
    document = pypdf.PdfReader(io.BytesIO(to_pdf({"x": made(sheet)})["x"]))
    text = document.pages[0].extract_text()
    assert len(document.pages) == 1
    assert ("clear of all" in text, "It stands elsewhere." in text) == (drawn, not drawn)


def test_a_page_printed_in_grey_keeps_its_words(made):
    _, pages = to_pdf_and_pages({"x": made(SheetOfPaper("Filled").add(points(["Words to read"] * 20)))}, 60.0)
    grey = Image.open(io.BytesIO(pages["x"][0])).convert("L")
    shades = grey.histogram()
    assert sum(shades[:60]) > 0
    assert sum(shades[:128]) > 1_000
