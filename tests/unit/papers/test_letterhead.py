"""The firm on the customer's papers."""

from __future__ import annotations

import base64
import io
import re

import pypdf
import pytest
from PIL import Image

from pavewright import firm, rulebook
from pavewright.papers._compile import to_pdf
from pavewright.papers._document import page_data
from pavewright.papers._input import PaperInput
from pavewright.papers.quotation import document as quotation
from pavewright.papers.look import contrast_with_white, printed_accent
from pavewright.papers.look._accent import CONTRAST


def _logo() -> dict[str, str]:
    out = io.BytesIO()
    Image.new("RGB", (60, 20), "navy").save(out, "PNG")
    return {"kind": "png", "base64": base64.b64encode(out.getvalue()).decode()}


_FIRM = {
    "name": "Stone and Daughter #let x",
    "lines": ["12 Invented Lane", '#read("/etc/passwd") $'],
    "tax_number": "GB 000",
}
_TEXTS = [
    {"key": "care", "words": "No salt in winter.\n\nSweep the joints."},
    {"key": "validity", "words": "This price holds for thirty days."},
]


@pytest.fixture(scope="module")
def paper(made_plan):
    plan = made_plan("demo")
    rules = rulebook.load(plan.edition)

    def made(book) -> pypdf.PdfReader:
        quoted = quotation(PaperInput(plan, rules, book))
        assert quoted is not None
        document = page_data(plan, quoted, book)
        return pypdf.PdfReader(io.BytesIO(to_pdf({"customer": document})["customer"]))

    return made


def test_letterhead_logo_and_own_words_stand_on_what_the_customer_gets(paper):
    book = firm.read({"format": "pavewright.firm", "version": 1, "firm": _FIRM | {"logo": _logo()}, "texts": _TEXTS})
    found = paper(book)
    first, *others = (" ".join(page.extract_text().split()) for page in found.pages)
    text = " ".join(others)
    for words in ("Stone and Daughter #let x", "12 Invented Lane", '#read("/etc/passwd") $', "Tax number GB 000"):
        assert words in first
    assert len(found.pages[0].images) == 1
    # each of them stands where it belongs, among what the program says of the same
    assert text.index("How it is paid") < text.index("This price holds for thirty days.") < text.index("Time and terms")
    assert text.index(" Care ") < text.index("No salt in winter.") < text.index("If something changes")


def test_a_firm_of_which_nothing_is_known_changes_nothing(paper):
    empty = firm.read({"format": "pavewright.firm", "version": 1})
    assert [page.extract_text() for page in paper(empty).pages] == [page.extract_text() for page in paper(None).pages]


def test_the_accent_of_a_firm_is_printed_dark_enough_and_black_without_one(paper):
    from_book = firm.read({"format": "pavewright.firm", "version": 1, "firm": _FIRM | {"accent": "#ffee00"}})
    printed = printed_accent("#ffee00")
    assert contrast_with_white("#ffee00") < CONTRAST <= contrast_with_white(printed)
    assert printed_accent("#1f4e5f") == "#1f4e5f"
    colours = [
        [int(round(255 * float(each))) for each in found]
        for found in re.findall(_COLOUR, _drawn(paper(from_book).pages[0]))
    ]
    assert [int(printed[place : place + 2], 16) for place in (1, 3, 5)] in colours
    assert all(red == green == blue for red, green, blue in re.findall(_COLOUR, _drawn(paper(None).pages[-1])))


_COLOUR = r"([\d.]+) ([\d.]+) ([\d.]+) (?:scn|SCN|rg|RG)"


def _drawn(page):
    return page.get_contents().get_data().decode("latin-1")
