"""The register of papers: each is made by one row, asked for by its key, and read out by its text twin."""

from __future__ import annotations

import dataclasses
import json

import pytest

from pavewright import rulebook
from pavewright.desk import demo_document, make_pack_so_far, make_plan_so_far
from pavewright.papers import PAPERS, LeftOutReason, PaperInput, PaperKey, pack, to_text, written_where
from pavewright.drawing import levels_plan, water_plan
from pavewright.drawing import Drawing
from pavewright.papers import _pack
from pavewright.papers._pack import job_pack, plans_a3
from pavewright.papers._register import MAKERS
from pavewright.papers.look import (
    Block,
    CheckRow,
    Document,
    FormLine,
    SheetOfPaper,
    _form_blocks,  # noqa: F401 - its blocks are looked for below
    checklist,
    choice,
    form,
    signatures,
    table,
    tick,
)
from pavewright.papers.look._make import pencil
from pavewright.papers.look._text import _LINES
from pavewright.papers.quotation import document as quotation


@pytest.fixture(scope="module")
def given(made_plan):
    plan = made_plan("demo")
    return PaperInput(plan, rulebook.load(plan.edition))


def test_every_paper_of_the_list_has_one_maker_and_every_maker_is_listed():
    rows = sorted((each.key, each.name) for each in MAKERS)
    assert rows == sorted((kind.key, kind.name) for kind in PAPERS)
    assert len({name for _, name in rows}) == len(rows)
    for each in MAKERS:
        assert sum(way is not None for way in (each.document, each.file, each.gather)) == 1
        assert set(each.of) <= {other.name for other in MAKERS if other.document is not None}


def test_plans_on_a3_hold_every_sheet_of_a_drawing(given, monkeypatch):
    two = Drawing("two", "Two sheets", levels_plan, sheets=lambda plan: (levels_plan(plan), water_plan(plan)))
    monkeypatch.setattr(_pack, "DRAWINGS", (two,))
    with written_where(given.plan):
        assert len(plans_a3(given).sheets) == 2


def test_only_what_is_asked_for_is_made(given):
    only = frozenset({PaperKey.POINTS, PaperKey.PIECE_NUMBERS})
    made = pack(given.plan, given.rules, only=only, twins=True)
    assert [each.name for each in made] == [
        *("piece-numbers.pdf", "set-out-points.csv", "points-pnezd.csv", "points-penzd.csv", "piece-numbers.txt")
    ]
    assert "Laying plan" in made[-1].content.decode()


def test_a_paper_that_cannot_be_made_says_what_is_missing_and_one_that_is_not_needed_says_so():
    document = json.loads(demo_document())
    document["calendar"].pop("start")
    so_far = make_plan_so_far(json.dumps(document))
    only = frozenset({PaperKey.PROGRAMME, PaperKey.QUANTITIES, PaperKey.COST_SHEET})
    papers, left_out = make_pack_so_far(so_far, only=only)
    assert [each.name for each in papers] == ["quantities.xlsx"]
    assert {each.key for each in left_out} == {PaperKey.PROGRAMME, PaperKey.COST_SHEET}
    for each in left_out:
        assert each.reason is LeftOutReason.NOT_KNOWN
        assert each.missing
        assert each.why == tuple(one.words for one in each.missing)


def test_a_paper_for_which_a_job_has_nothing_says_so(made_plan):
    so_far = make_plan_so_far(demo_document())
    papers, left_out = make_pack_so_far(so_far, only=frozenset({PaperKey.TEMPLATES}))
    assert papers == ()
    (each,) = left_out
    assert (each.key, each.reason, each.missing) == (PaperKey.TEMPLATES, LeftOutReason.NOTHING_FOR_IT, ())


def kinds(base=Block):
    for each in base.__subclasses__():
        yield each
        yield from kinds(each)


def test_every_kind_of_block_is_read_out():
    assert {each.__name__ for each in kinds()} == {each.__name__ for each in _LINES}


def strings(value):
    if dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            if field.name not in {"svg", "align", "width"}:
                yield from strings(getattr(value, field.name))
    elif isinstance(value, tuple):
        for each in value:
            yield from strings(each)
    elif isinstance(value, str) and value:
        yield " ".join(value.split())


@pytest.mark.parametrize("make", [job_pack, quotation])
def test_the_text_twin_says_every_word_of_the_pages(given, make):
    with written_where(given.plan):
        document = make(given)
        text = " ".join(to_text(given.plan, document).split())
    every = [words for sheet in document.sheets for words in (sheet.title, sheet.mark, *strings(tuple(sheet.blocks)))]
    assert len(every) > 50
    said = [words for words in every if words not in text]
    # the words of the job's country take the place of some; here it is the country of the words
    assert said == []


def test_what_is_to_be_filled_in_is_read_out_as_empty(given):
    sheet = SheetOfPaper("Form").add(
        form((FormLine("Width", unit="mm"), FormLine("Client", value="A. Example"))),
        tick("Begin early"),
        choice("Soft ground?", ("yes", "no"), (1,)),
        checklist((CheckRow("Peg 1", "9.712 m", "± 10 mm"),)),
        table(("peg", pencil("found")), (("P1", ""),)),
        signatures("Customer", names=("A. Example",)),
    )
    text = to_text(given.plan, Document("Forms", (sheet,)))
    for line in (
        "Width: ____ mm",
        "Client: A. Example",
        "[ ] Begin early",
        "  [x] no",
        "[ ] Peg 1; planned: 9.712 m; within: ± 10 mm; found: ____",
        "- P1; found: ____",
        "Customer: name A. Example, signature ____, date ____",
    ):
        assert line in text.split("\n")
