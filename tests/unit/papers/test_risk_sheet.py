"""The sheet of the risk of the price."""

from __future__ import annotations

import io
from dataclasses import replace

import pypdf
import pytest

from pavewright import rulebook
from pavewright.desk import demo_document, make_plan
from pavewright.papers._figures import paper_figures
from pavewright.papers._sheets_risk import risk_sheets
from pavewright.papers._compile import to_pdf
from pavewright.papers._document import page_data
from pavewright.papers.look import Document
from pavewright.pipeline import losing_text, risk
from pavewright.units import minor_to_text


@pytest.fixture(scope="module")
def text():
    made = make_plan(demo_document())
    rules = rulebook.load(made.edition)
    sheets = risk_sheets(made, rules, paper_figures(rules), lambda _: None)
    document = {"cost-sheet.pdf": page_data(made, Document("Cost sheet", tuple(sheets)))}
    content = dict(to_pdf(document))["cost-sheet.pdf"]
    pages = pypdf.PdfReader(io.BytesIO(content)).pages
    return made, " ".join(" ".join(page.extract_text() for page in pages).split())


def test_it_says_what_the_screen_says_and_that_it_stays_inside(text):
    made, said = text
    found = risk(made, rulebook.load(made.edition), facts=False)
    assert "not for the customer" in said
    for each in (*(one.minor for one in found.quantiles), found.break_even[89], found.likely_minor):
        assert " ".join(minor_to_text(each, "GBP").split()) in said
    assert found.drivers[0].words in said
    assert "it is no guarantee" in said
    # what has no price is named, and the chance says that it leaves it out
    assert "what has no price left out" in said
    assert "at least" in said
    assert "and what has no price on top" in said
    assert found.gaps[0].words.split(",")[0] in said
    assert said.count("common practice") >= len(found.figures)


def test_an_order_that_may_run_short_is_listed_with_the_cheapest(text):
    made, said = text
    found = risk(made, rulebook.load(made.edition), facts=False)
    moving = [each for each in found.orders if any(step.short > 0.0 for step in each.steps)]
    assert moving
    for each in moving:
        assert f"{each.description}, {each.order_units} {each.planned}" in said


def test_what_was_not_drawn_is_not_called_enough(text):
    made, said = text
    found = risk(made, rulebook.load(made.edition), facts=False)
    drawn = {each.key for each in found.orders}
    others = [each for each in made.quantities.items if each.key.bought and each.key not in drawn]
    assert others
    after = said.split("Not drawn, as it has no price or comes in no packs: ")[1]
    for each in others:
        assert each.description in after.split("What this rests on")[0]


def test_a_chance_that_no_draw_showed_is_not_said_as_certain(text):
    made, _ = text
    found = replace(risk(made, rulebook.load(made.edition), facts=False), losing=0.0, losing_error=0.0)
    assert found.gaps
    assert losing_text(found) == "under 0.1 %, and more with what has no price"
    assert losing_text(replace(found, gaps=())) == "under 0.1 %"
    assert losing_text(replace(found, losing=1.0)) == "over 99.9 %"
    assert losing_text(replace(found, losing=0.052, losing_error=0.0021)) == "at least 5.2 % ± 0.2 %"
    assert losing_text(replace(found, losing=None)).startswith("not known")
