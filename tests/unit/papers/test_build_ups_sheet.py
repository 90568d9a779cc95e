"""The sheet of build-ups in the cost sheet: what is planned, what is compared, what is not known, what is refused."""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader

from pavewright import rulebook
from pavewright.papers._figures import paper_figures
from pavewright.papers._sheets_build_ups import build_up_sheets
from pavewright.papers.look import as_data
from pavewright.pipeline import build_up_choice


@pytest.fixture(scope="module")
def drive(made_plan):
    return made_plan("front_drive")


@pytest.fixture(scope="module")
def blocks(drive):
    rules = rulebook.load("england")
    (sheet,) = build_up_sheets(drive, rules, paper_figures(rules), lambda _: None)
    return as_data(sheet.blocks)


def _rows(blocks):
    (table,) = [each for each in blocks if each["kind"] == "table"]
    return table["rows"]


def _points(blocks):
    return [words for each in blocks if each["kind"] == "list" for words in each["items"]]


def test_every_build_up_is_a_row_and_the_planned_one_is_marked_in_words(drive, blocks):
    found = build_up_choice(drive, rulebook.load("england"))
    rows = _rows(blocks)
    assert len(rows) == len(found.alternatives)
    assert [row[1].startswith("✓ planned: ") for row in rows] == [each.chosen for each in found.alternatives]
    assert [row[6] for row in rows] == [
        "not known" if each.figures.days is None else str(each.figures.days) for each in found.alternatives
    ]
    # permeable paving is not planned here: no figure stands for it
    assert set(rows[-1][2:]) == {"not known"}


def test_a_price_that_leaves_something_out_says_at_least_and_is_not_compared(drive, blocks):
    found = build_up_choice(drive, rulebook.load("england"))
    for row, each in zip(_rows(blocks), found.alternatives, strict=True):
        assert row[5].startswith("at least ") is bool(each.gaps)
        assert row[5].endswith(" *") is bool(each.in_one_price_only)
    assert any(row[5].endswith(" *") for row in _rows(blocks))


def test_what_is_not_known_stands_once_with_the_numbers_and_what_is_refused_says_why(blocks):
    said = _points(blocks)
    assert [words.partition(": ")[0] for words in said if "bearing ratio goes by the soil" in words] == ["all"]
    assert any(words.startswith("mortar bed on a sub-base: ") and "come loose" in words for words in said)
    assert any("Leicestershire" in words for words in said)


def test_it_stays_inside(made_pack):
    _, papers = made_pack("front_drive")
    inside = "".join(page.extract_text() for page in PdfReader(io.BytesIO(papers["cost-sheet.pdf"])).pages)
    outside = "".join(page.extract_text() for page in PdfReader(io.BytesIO(papers["quotation.pdf"])).pages)
    assert "Build-ups compared" in inside
    assert "Build-ups compared" not in outside
