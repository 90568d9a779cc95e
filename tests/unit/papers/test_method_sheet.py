"""The method sheet: the figures of this job, their sources and status; what nobody knows is asked, nothing is called safe."""

from __future__ import annotations

import json
import re
from dataclasses import replace

import pytest

from pavewright import rulebook
from pavewright.desk import demo_document, make_plan
from pavewright.job import WalkRoundAnswer
from pavewright.papers import method as family
from pavewright.papers import written_where
from pavewright.papers._input import PaperInput
from pavewright.papers._text import to_text
from pavewright.papers.method._document import _SECTIONS
from pavewright.pipeline import method_of

EXAMPLES = ("l_terrace", "front_drive", "curved_path", "gully_yard", "mixed_patio", "circle_court")


def text_of(made):
    with written_where(made):
        return to_text(made, family.document(PaperInput(made, rulebook.load(made.edition)))).replace("\u202f", "")


@pytest.fixture(scope="module")
def terrace(made_plan):
    return made_plan("l_terrace")


@pytest.fixture(scope="module")
def shaken():
    """The demo: a saw that shakes hard and is loud, a service that lies shallow, a tree of which nobody knows the law."""
    document = json.loads(demo_document())
    saw = next(each for each in document["rates"]["plant"] if each["key"] == "saw")
    saw |= {"vibration_m_per_s2": 20.0, "noise_db": 104.0}
    document["site"]["services"][0]["depth_mm"] = 300.0
    document["arrangements"] = {**document.get("arrangements", {}), "clear_height_mm": 3000.0, "water_on_site": True}
    return make_plan(json.dumps(document))


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_example_has_one_and_nothing_on_it_is_called_safe(made_plan, name):
    made = made_plan(name)
    text = text_of(made)
    assert not re.search(r"\bsafe(ly)?\b", text.replace("no depth is safe by itself", ""))
    assert "local codes and licensed practice decide" in text.lower()
    assert "from memory, not verified" in text
    for section in _SECTIONS:
        found = section(
            made, method_of(made, rulebook.load(made.edition)), PaperInput(made, rulebook.load(made.edition)).figures
        )
        assert found.title in text
        assert all(ask in text for ask in found.asks)


def test_figures_of_the_sheet_are_those_of_the_method(terrace):
    found, text = method_of(terrace, rulebook.load("england")), text_of(terrace)
    assert (
        f"{found.dust.minutes.low:.0f} to {found.dust.minutes.high:.0f} min, likely {found.dust.minutes.likely:.0f}"
        in text
    )
    assert f"{found.dust.saw_m:.1f} m, {found.dust.cuts} pieces to cut" in text
    assert found.dust.working.expression in text
    assert found.rate.per_person_h.expression in text
    near = terrace.earthworks.services_near[0]
    assert f"{near.dig_mm:.0f}" in text
    deepest = max(each.volumes.deepest_mm for each in terrace.earthworks.areas)
    assert f"deepest {deepest:.0f} mm" in text


def test_what_is_not_known_is_asked_and_never_zero(terrace):
    text = text_of(terrace)
    assert "How much it shakes as it is used, measured or from a report: Saw" in text
    assert "How loud it is at the ear: Saw" in text
    saw = next(line for line in text.splitlines() if "Saw with water feed" in line and "not known: ask" in line)
    assert not re.search(r"\b0 points|\b0 m/s", saw)


def test_what_is_known_is_judged_and_asked_no_more(shaken):
    text = text_of(shaken)
    assert "How much it shakes" not in text
    assert "How loud it is" not in text
    assert "over an action value" in text or "OVER THE LIMIT" in text
    assert "STOP: the dig meets it" in text
    assert "Whether a line or an arch hangs over" not in text
    assert "Whether water for the saw" not in text


def test_without_a_service_the_sheet_says_that_there_may_be_one(made_plan):
    document = json.loads(demo_document())
    document["site"]["services"] = []
    text = text_of(make_plan(json.dumps(document)))
    assert "None is entered. That does not mean that there is none." in text
    assert "Records of every service" in text


TREES = "Which trees are there, how thick are their stems, and is one protected?"


@pytest.mark.parametrize(
    ("answers", "asked"),
    [
        ([], True),
        ([{"topic": "trees", "question": TREES, "answer": "could_not_see"}], True),
        ([{"topic": "trees", "question": TREES, "answer": "value", "value": "an oak next door"}], True),
        ([{"topic": "covers", "question": "Which covers?", "answer": "none"}], True),
        (
            [
                {"topic": "trees", "question": TREES, "answer": "none"},
                {"topic": "trees", "question": "And behind the fence?", "answer": "could_not_see"},
            ],
            True,
        ),
        ([{"topic": "trees", "question": TREES, "answer": "none"}], False),
    ],
)
def test_trees_are_asked_about_until_the_walk_round_found_none(made_plan, answers, asked):
    made = made_plan("front_drive")
    assert not made.survey.site.trees
    answers = tuple(WalkRoundAnswer.model_validate_json(json.dumps(each)) for each in answers)
    site = made.job.site.model_copy(update={"walk_round": answers})
    made = replace(made, job=made.job.model_copy(update={"site": site}))
    given = PaperInput(made, rulebook.load(made.edition))
    section = next(each for each in _SECTIONS if each.__name__ == "trees")
    found = section(made, method_of(made, given.rules), given.figures)
    assert bool(found.asks) is asked
    assert ("not known" in found.here) is asked
