"""Pages as they come out of the printer: type that can be read, one size of paper, no page all but empty."""

from __future__ import annotations

import io
import math
import re
from pathlib import Path

import pypdf
import pytest


ROOT = Path(__file__).parents[3]
SMALLEST_PT = 8.0
MM = 72.0 / 25.4
FOOT_MM, HEAD_MM = 20.0, 21.0


@pytest.fixture(scope="module", params=["l_terrace", "circle_court"])
def documents(made_pack, request):
    papers = made_pack(request.param)[1].items()
    return {name: pypdf.PdfReader(io.BytesIO(content)).pages for name, content in papers if name.endswith(".pdf")}


def words_on(page):
    """Each piece of text on a page with its size as printed and its height over the foot of the page."""
    found = []

    def visit(text, matrix, own, _font, size):
        if text.strip():
            a, b, c, d, _, f = matrix
            tall = math.hypot(own[2] * a + own[3] * c, own[2] * b + own[3] * d)
            found.append((text.strip(), size * tall, own[4] * b + own[5] * d + f))

    page.extract_text(visitor_text=visit)
    return found


def test_no_type_is_smaller_than_eight_points(documents):
    for name, sheets in documents.items():
        for number, page in enumerate(sheets, start=1):
            small = [(text, size) for text, size, _ in words_on(page) if size < SMALLEST_PT - 0.05]
            assert small == [], f"{name} page {number}"


def test_a_document_has_one_size_of_paper(documents):
    for name, sheets in documents.items():
        sizes = {tuple(sorted((round(float(p.mediabox.width)), round(float(p.mediabox.height))))) for p in sheets}
        assert len(sizes) == 1, name


def test_no_page_but_the_last_of_a_sheet_is_all_but_empty(documents):
    """A page that is followed by more of the same sheet is filled to a fifth at least."""
    for name, sheets in documents.items():
        titled = [_begins(page) for page in sheets]
        for number, page in enumerate(sheets[:-1]):
            if titled[number + 1]:
                continue
            high = float(page.mediabox.height)
            body = [y for _, _, y in words_on(page) if FOOT_MM * MM < y < high - HEAD_MM * MM]
            assert body, f"{name} page {number + 1}"
            used = (high - HEAD_MM * MM) - min(body)
            assert used > 0.2 * (high - (HEAD_MM + FOOT_MM) * MM), f"{name} page {number + 1}"


def _begins(page):
    """Whether a sheet begins at the top of a page: its title stands there in large type."""
    high = float(page.mediabox.height)
    return any(size > 15.0 and y > high - 40.0 * MM for _, size, y in words_on(page))


def test_the_contents_name_the_page_of_every_sheet(documents):
    sheets = documents["job-pack.pdf"]
    listed = re.findall(r"([A-Z][^\n.]*?)[ .]*\n?[ .]*?(\d+)\n", sheets[0].extract_text() + "\n")
    pages_of = {title.strip(): int(page) for title, page in reversed(listed)}
    titles = {
        text: number
        for number, page in reversed(list(enumerate(sheets, start=1)))
        for text, size, _ in words_on(page)
        if size > 15.0
    }
    for title in ("Findings", "Laying plan", "Cut list", "Programme", "Setting out", "Price"):
        assert pages_of[title] == titles[title]
