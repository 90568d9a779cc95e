"""A range over what has no price is no range of the job: wherever one is shown it says so, or is not shown."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from pavewright.cli._told import plan_lines
from pavewright.cost import AssumedShare, RangeKind
from pavewright.desk import demo_document, make_plan_so_far
from pavewright.desk._outcome import outcome
from pavewright.desk._summary import summary
from pavewright.papers import range_text
from pavewright.papers._customer_words import customer_words
from pavewright.papers._sheets_cost import cost_sheets
from pavewright.papers._figures import paper_figures
from pavewright.papers.look import as_data
from pavewright.survey import AssumedFact, AssumedWhat
from pavewright import rulebook


def planned(change):
    document = json.loads(demo_document())
    change(document)
    return make_plan_so_far(json.dumps(document).encode())


@pytest.fixture(scope="module")
def whole(made_plan):
    return made_plan("circle_court")


@pytest.fixture(scope="module")
def without_sand():
    """The demo with one material that nobody has priced."""

    def change(document):
        document["rates"]["materials"][0]["pack_price_minor"] = None

    return planned(change)


@pytest.fixture(scope="module")
def without_labour():
    def change(document):
        document["rates"]["labour_minor_per_hour"] = None

    return planned(change)


def shown(made):
    """Everything that says a range of this price, in words."""
    rules = rulebook.load("england")
    figures, said = paper_figures(rules), customer_words(made.whole, rules)
    sheet = " ".join(
        json.dumps(as_data(block), ensure_ascii=False)
        for each in cost_sheets(made.whole, figures, said.money, None)
        for block in each.blocks
    )
    line = next(line for line in plan_lines(made) if line.startswith("Price"))
    return {"sheet": sheet, "command line": line, "list of jobs": summary(made)["range_words"]}


def test_a_range_with_everything_in_it_shows_both_its_ends(whole):
    assert not whole.cost.gaps
    assert whole.cost.range_kind is RangeKind.WHOLE
    assert range_text(whole).count("£") == 2
    assert "at least" not in range_text(whole)


def test_a_range_over_a_thing_without_price_is_said_to_be_a_lower_end_everywhere(without_sand):
    gaps = len(without_sand.cost.gaps)
    assert gaps
    assert without_sand.cost.range_kind is RangeKind.LOWER
    said = range_text(without_sand.whole)
    assert said.startswith("at least £")
    assert f"{gaps} thing" in said
    assert {place: said in words for place, words in shown(without_sand).items()} == dict.fromkeys(
        shown(without_sand), True
    )
    assert outcome(without_sand)["gaps"] == gaps


def test_without_what_labour_costs_no_range_is_shown_and_the_job_is_stopped(without_labour):
    cost = without_labour.cost
    assert cost.range_kind is RangeKind.NOT_KNOWN
    assert any(each.code == "cost.labour_unpriced" for each in without_labour.findings)
    said = range_text(without_labour.whole)
    assert said.startswith("not known")
    assert {place: said in words for place, words in shown(without_labour).items()} == dict.fromkeys(
        shown(without_labour), True
    )
    assert (outcome(without_labour)["low_minor"], outcome(without_labour)["high_minor"]) == (None, None)


def test_a_fact_whose_ends_were_not_found_is_said_not_to_be_in_the_range(whole):
    share = AssumedShare(AssumedFact(AssumedWhat.SOIL, "", "clay", "", "", "", "site.ground.soil"), None, None)
    assert range_text(replace(whole, cost=replace(whole.cost, assumed=(share,)))).endswith(
        "1 assumed fact is not in the range"
    )
