"""The survey form: blank without a job, filled in where a job knows, and it asks what the walk asks."""

from __future__ import annotations

import functools
import io
from dataclasses import replace

import pypdf
import pytest

from pavewright import rulebook
from pavewright.desk import make_pack_so_far, make_plan_so_far, starter_document
from pavewright.drawing import sketch_grid
from pavewright.papers import PaperInput, PaperKey
from pavewright.papers.survey_form._adjusted import _doubts
from pavewright.papers.survey_form._form import _open
from pavewright.papers.survey_form._known import answer_to
from pavewright.papers.survey_form._words import WORDS
from pavewright.papers.survey_form import document
from pavewright.papers.look import as_data
from pavewright.survey import WALK_QUESTIONS

RULES = rulebook.load("england")


@functools.cache
def blank():
    return make_plan_so_far(starter_document("From nothing"))


def words_of(data):
    if isinstance(data, str):
        return data + "\n"
    if isinstance(data, dict):
        return "".join(words_of(each) for each in data.values())
    return "".join(words_of(each) for each in data) if isinstance(data, list | tuple) else ""


def said(given):
    return words_of([[as_data(block) for block in sheet.blocks] for sheet in document(given).sheets])


@pytest.fixture(scope="module")
def terrace(made_plan):
    return PaperInput(made_plan("l_terrace"), RULES)


def test_a_job_from_nothing_gives_the_whole_blank_form():
    papers, left_out = make_pack_so_far(blank(), None, None, frozenset({PaperKey.SURVEY_FORM}))
    assert [paper.name for paper in papers] == ["survey-form.pdf"]
    assert left_out == ()
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(papers[0].content)).pages]
    text = " ".join(" ".join(pages).split())
    for title in (WORDS.title, WORDS.walk, WORDS.sketch, WORDS.tapes, WORDS.levels):
        assert title in text
    assert WORDS.adjusted not in text  # nothing is measured: there is nothing to adjust
    for question in WALK_QUESTIONS:
        assert question.words in text
    assert blank().missing[0].words in text


def test_what_the_job_knows_is_printed_and_what_it_does_not_know_is_no_zero(terrace):
    text = said(terrace)
    assert "Known: House rear 10.150, Extension 10.150" in text
    assert "Known: Foul drain, depth 850 mm" in text
    assert "Known: " not in said(PaperInput(blank().with_rooms(()), RULES, so_far=blank(), missing=blank().missing))
    assert WORDS.adjusted in [sheet.title for sheet in document(terrace).sheets]


def test_an_answer_of_the_walk_takes_the_place_of_its_question(terrace):
    job = terrace.plan.job
    answered = [each for each in WALK_QUESTIONS if answer_to(job, each) is not None]
    assert [each.key for each in answered] == ["drain_run"]
    assert answer_to(job, answered[0]).value in said(terrace)


def test_the_sketch_states_the_scale_at_which_it_is_drawn(made_plan):
    for plan in (blank().with_rooms(()), made_plan("l_terrace"), made_plan("front_drive")):
        scene = sketch_grid(plan)
        assert f"Scale 1:{scene.scale}: one small square is {5.0 * scene.scale / 1000.0:g} m" in scene.about
        squares = [each for each in scene.elements if each.layer == "grid"]
        ends = [x for each in squares for x, _ in each.points]
        assert (max(ends) - min(ends)) / scene.scale == pytest.approx(150.0)
        assert scene.paper_mm[0] <= 186.0
        assert scene.paper_mm[1] <= 237.0


def test_nothing_is_called_free_of_doubt_that_nothing_checks(made_plan, small):
    checked = words_of([as_data(each) for each in _doubts(made_plan("l_terrace").survey)])
    assert "contradicts" in checked
    small.rectangle(4000, 3000)
    _, survey = small.surveyed()
    assert WORDS.unchecked in words_of([as_data(each) for each in _doubts(survey)])


def test_a_whole_job_still_asks_what_it_takes_as_given_and_never_says_done_unlooked(terrace):
    assumed = terrace.plan.survey.assumptions
    assert assumed
    assert all(words in said(terrace) for words in assumed)
    unlooked = words_of([as_data(block) for block in _open(PaperInput(without_assumptions(terrace.plan), RULES))])
    looked = words_of(
        [as_data(block) for block in _open(PaperInput(without_assumptions(terrace.plan), RULES, missing=()))]
    )
    assert WORDS.not_looked in unlooked
    assert WORDS.none_open in looked


def without_assumptions(plan):
    return replace(plan, survey=replace(plan.survey, assumptions=()))
