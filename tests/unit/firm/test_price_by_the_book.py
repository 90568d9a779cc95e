"""Own outputs, hours by skill and the age of prices, in the price of a whole job."""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest

from pavewright import rulebook
from pavewright.cost import TaskKind, hour_price
from pavewright.cost._figures import cost_figures
from pavewright.cost._hour_price import unpriced_skills
from pavewright.cost._own_outputs import OWN_BOOK, own_figure, with_own
from pavewright.desk import demo_document, make_plan
from pavewright.findings import Severity
from pavewright.job import OutputKind, OwnOutput, Pattern, Skill, parse


@pytest.fixture(scope="module")
def demo() -> dict[str, Any]:
    return json.loads(demo_document())


@pytest.fixture(scope="module")
def plain():
    return make_plan(demo_document())


def planned(document: dict[str, Any], **book: Any):
    firm = json.dumps({"format": "pavewright.firm", "version": 1, **book})
    return make_plan(json.dumps(document), None, firm)


def codes(plan) -> set[str]:
    return {finding.code for finding in plan.findings}


def test_every_kind_of_output_is_a_figure_of_the_rulebook():
    figures = cost_figures(rulebook.load("england"))
    assert all(getattr(figures, kind.value).key == f"cost.{kind.value}" for kind in OutputKind)


def test_an_own_output_replaces_the_rulebooks_at_the_own_pace_and_names_the_book(demo, plain):
    slow = copy.deepcopy(demo)
    slow["crew"]["pace"] = 0.5
    own = planned(slow, outputs=[{"kind": "lay_flags_h_per_m2", "hours_each": 0.7, "sd_hours": 0.1, "jobs": 6}])
    laid = next(task for task in own.cost.labour if task.key.kind is TaskKind.LAY)
    area = sum(task.working.result / 0.7 for task in [laid])
    assert laid.person_hours == pytest.approx(0.7 * area)
    before = next(task for task in plain.cost.labour if task.key == laid.key)
    assert area == pytest.approx(before.person_hours / before.working.figures[0].value)
    figure = laid.working.figures[0]
    assert (figure.source, figure.place) == (OWN_BOOK, "6 jobs")
    assert (figure.low, figure.high) == (pytest.approx(0.7 - 0.12816), pytest.approx(0.7 + 0.12816))
    cut = next(task for task in own.cost.labour if task.key.kind is TaskKind.CUT)
    assert cut.person_hours == pytest.approx(2.0 * next(t for t in plain.cost.labour if t.key == cut.key).person_hours)


def test_an_output_whose_scatter_nobody_knows_keeps_the_ends_of_the_rulebook_as_parts_of_it():
    figure = cost_figures(rulebook.load("england")).dig_by_hand_h_per_m3
    found = own_figure(figure, OwnOutput(kind=OutputKind.DIG_BY_HAND, hours_each=figure.value / 2.0))
    assert (found.low, found.high) == (figure.low / 2.0, figure.high / 2.0)
    wild = own_figure(figure, OwnOutput(kind=OutputKind.DIG_BY_HAND, hours_each=1.0, sd_hours=5.0))
    assert 0.0 < wild.low < wild.value < wild.high


def test_an_output_of_one_pattern_leaves_the_others_alone():
    figures = cost_figures(rulebook.load("england"))
    own = OwnOutput(kind=OutputKind.LAY_BLOCKS, pattern=Pattern.HERRINGBONE, hours_each=0.9)
    found = with_own(figures, (own,))
    assert found.lay_own[Pattern.HERRINGBONE].value == 0.9
    assert found.lay_blocks_h_per_m2 == figures.lay_blocks_h_per_m2


def test_an_hour_of_a_task_is_the_mean_of_the_skills_that_share_it(demo):
    bare = copy.deepcopy(demo)
    del bare["rates"]["labour_minor_per_hour"]
    rates = [{"skill": "layer", "minor_per_hour": 3001}, {"skill": "labourer", "minor_per_hour": 2000}]
    made = planned(bare, rates={"labour": rates})
    line = next(line for line in made.cost.lines if line.key.kind is TaskKind.LAY)
    assert line.rate_minor == 2501
    assert line.amount_minor == int(line.quantity * 2501 + 0.5)
    assert "layer 3001 and labourer 2000, in equal parts" in line.working.note
    assert hour_price(made.job, TaskKind.DIG) is None
    assert not any(line.key.kind is TaskKind.DIG for line in made.cost.lines)
    free = [task for task in made.cost.labour if hour_price(made.job, task.key.kind) is None]
    by_skill = {}
    for task in free:
        skills = unpriced_skills(made.job, task.key.kind)
        by_skill[skills] = by_skill.get(skills, 0.0) + task.person_hours
    assert {(Skill.DRIVER, Skill.GROUNDWORKER), (Skill.GROUNDWORKER,)} <= set(by_skill)
    said = [gap.words for gap in made.cost.gaps if gap.words.startswith("Labour")]
    assert len(said) == len(by_skill)
    hours = by_skill[(Skill.GROUNDWORKER,)]
    assert f"Labour: {hours:.0f} hours, an hour of a groundworker has no price" in said
    assert any(each.code == "cost.labour_unpriced" and each.severity is Severity.STOP for each in made.cost.findings)


def test_a_skill_at_nothing_an_hour_does_not_make_the_others_cheap(demo):
    bare = copy.deepcopy(demo)
    del bare["rates"]["labour_minor_per_hour"]
    bare["rates"]["labour"] = [{"skill": "layer", "minor_per_hour": 3000}, {"skill": "labourer", "minor_per_hour": 0}]
    job = parse(bare)
    assert hour_price(job, TaskKind.LAY) is None
    assert hour_price(job, TaskKind.CUT).minor == 3000
    assert unpriced_skills(job, TaskKind.LAY) == (Skill.LABOURER,)


def test_one_price_for_all_hours_stands_for_skills_without_one(demo):
    job = parse({**demo, "rates": {**demo["rates"], "labour": [{"skill": "driver", "minor_per_hour": 4000}]}})
    assert hour_price(job, TaskKind.LAY).minor == 2850
    assert hour_price(job, TaskKind.DIG).minor == (4000 + 2850) // 2


def test_old_prices_are_marked_on_their_lines_and_counted(demo, plain):
    assert all(line.stale is None for line in plain.cost.lines)
    dated = copy.deepcopy(demo)
    day = dated["identity"]["date"]
    year = int(day[:4])
    for each in dated["rates"]["materials"]:
        each["priced_on"] = day
    dated["rates"]["materials"][0]["priced_on"] = f"{year - 1}{day[4:]}"
    made = make_plan(json.dumps(dated))
    old = [line for line in made.cost.lines if line.stale is not None]
    assert [line.description for line in old] == [
        line.description for line in made.cost.lines if getattr(line.key, "material", None) == "cement"
    ]
    assert old
    assert old[0].stale.age_days >= 365
    assert old[0].stale.limit_days == 90
    finding = next(each for each in made.findings if each.code == "cost.stale_prices")
    assert finding.message.startswith("1 line of this price hangs on")
    assert made.cost.total_minor == plain.cost.total_minor


def test_a_price_without_a_date_is_marked_where_the_book_says_how_old_it_may_be(demo):
    undated = copy.deepcopy(demo)
    rates = undated["rates"]
    for each in (*rates["materials"], *rates["catalogue"], *rates["plant"], rates["disposal"], *undated["units"]):
        del each["priced_on"]
    made = planned(undated, rates={"price_age_days": 30})
    bought = [line for line in made.cost.lines if not isinstance(line.key.kind, TaskKind)]
    assert bought
    assert all(line.stale is not None and line.stale.age_days is None for line in bought)
    assert "cost.undated_prices" in codes(made)
    assert "cost.stale_prices" not in codes(made)
