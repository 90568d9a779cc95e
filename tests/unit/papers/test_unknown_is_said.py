"""What is not known is said as not known on every paper: prices, digging, damp-proof courses, soil."""

from __future__ import annotations

from datetime import timedelta

import pytest

from pavewright.cli._told import plan_lines
from pavewright.cost import TaskKey, TaskKind
from pavewright.papers import customer_words, price_text
from pavewright.papers._figures import paper_figures
from pavewright.papers._sheets_front import _headlines
from pavewright.papers._sheets_survey import levels_sheets
from pavewright.papers._sheets_work import programme_sheet
from pavewright.pipeline import MissingCode, Room, plan, plan_as_far
from pavewright.programme import stretches


def lines_of(made, rules):
    """What the command line shows of the job of a plan: it shows a plan as far as it goes."""
    return "\n".join(plan_lines(plan_as_far(made.job, rules)))


def said(sheets):
    return " ".join(str(block) for sheet in sheets for block in sheet.blocks)


@pytest.fixture
def bare(small):
    """An outline and a unit: no ground, no soil, no price of anything in it: only of a unit that is not laid."""
    small.rectangle(4100.0, 3000.0)
    small.site["ground"] = {}
    small.unit["pack_price_minor"] = 0
    small.document["rates"] = {"labour_minor_per_hour": 0}
    small.document["units"].append(small.unit | {"name": "Another slab", "pack_price_minor": 30000})
    return plan(small.job(), small.rules)


def test_a_price_of_nothing_is_not_a_price(bare, small):
    words = customer_words(bare, small.rules)
    assert any(each.startswith("Labour: ") for each in words.not_included)
    assert any(each.startswith("Slab, 600 × 600") for each in words.not_included)
    assert price_text(bare) == "not known: nothing in it has a price"
    assert dict(_headlines(bare))["Price"] == price_text(bare)
    assert f"Price       {price_text(bare)}" in lines_of(bare, small.rules)


def test_no_price_of_anything_is_missing_and_no_price_is_shown(small):
    small.rectangle(4100.0, 3000.0)
    small.unit["pack_price_minor"] = 0
    small.document["rates"] = {"labour_minor_per_hour": 0}
    made = plan_as_far(small.job(), small.rules)
    lines = list(plan_lines(made))
    assert [each.rooms for each in made.missing if each.code is MissingCode.PRICES] == [(Room.COST,)]
    assert made.cost is None
    assert not any(line.startswith("Price") for line in lines)
    assert "prices" in " ".join(lines)


def test_a_price_that_is_there_is_said_with_its_tax(small):
    small.rectangle(4100.0, 3000.0)
    made = plan(small.job(), small.rules)
    assert price_text(made).endswith("with VAT")
    assert not any(gap.words.startswith("Labour") for gap in made.cost.gaps)


def test_dates_without_the_digging_say_so(bare, small):
    assert any("Digging is not in these dates" in each for each in customer_words(bare, small.rules).when)
    assert dict(_headlines(bare))["Dig"].startswith("not known")
    assert "digging left out" in dict(_headlines(bare))["On site"]
    assert "digging left out" in said([programme_sheet(bare, paper_figures(small.rules))])
    assert "digging left out" in lines_of(bare, small.rules)


def test_dates_with_the_digging_do_not(small):
    small.rectangle(4100.0, 3000.0)
    small.flat_ground(1000.0)
    made = plan(small.job(), small.rules)
    assert "digging left out" not in lines_of(made, small.rules)
    assert not any("Digging" in each for each in customer_words(made, small.rules).when)


def test_soil_that_nobody_saw_is_assumed_as_it_is_calculated(bare):
    # the build-up takes it as soft: the customer must not read that it is firm
    reported = next(each for each in bare.survey.assumptions if "the ground" in each)
    assert "soft" in reported
    assert "firm" not in reported


@pytest.fixture
def two_walls(small):
    """A patio on two house walls of which one has no damp-proof course read."""
    entered = small.area([(0, 0), (3000, 0), (6000, 0), (6000, 3000), (0, 3000)])
    entered["fall"] = {"away_from": "Left"}
    small.site["walls"] = [
        {"name": "Left", "start": "P0", "end": "P1", "dpc_level_mm": 1200.0},
        {"name": "Right", "start": "P1", "end": "P2", "kind": "house"},
    ]
    small.flat_ground(1000.0)
    entered["edges"] = [{"corner": "P0", "restraint": "wall"}, {"corner": "P1", "restraint": "wall"}]
    return plan(small.job(), small.rules)


def test_a_damp_proof_course_that_nobody_read_is_said_wherever_the_others_are(two_walls, small):
    promised = customer_words(two_walls, small.rules).promised
    assert any("Right" in each and "not read" in each for each in promised)
    assert not any("Left" in each and "not read" in each for each in promised)
    assert "Wall Right: its damp-proof course was not read" in said(
        levels_sheets(two_walls, paper_figures(small.rules))
    )
    assert "Wall Right: damp-proof course not read" in lines_of(two_walls, small.rules)


def test_nobody_is_asked_for_the_ground_inside_a_house(two_walls):
    asked = [each for each in two_walls.findings if each.code == "buildup.ground_beyond_unknown"]
    assert not any("P1–P2" in each.message for each in asked)
    assert not any(each.code == "buildup.edge_stands_high" and "P1–P2" in each.place for each in two_walls.findings)


def test_what_has_no_price_is_counted_as_one_would_say_it(small):
    small.rectangle(6000.0, 4000.0)
    small.document["rates"]["materials"] = []
    words = [gap.words for gap in plan(small.job(), small.rules).cost.gaps]
    assert not any(": 0.0 " in each or ".0 each" in each for each in words)
    assert any(each.startswith("All-in ballast: ") and each.endswith(" t") for each in words)


def test_falls_of_the_scope_are_those_of_the_levels(small):
    entered = small.rectangle(4000.0, 3000.0)
    entered["fall"] |= {"one_in": 60.0, "cross_one_in": 80.0}
    made = plan(small.job(), small.rules)
    assert made.levels.areas[0].falls_text == "1 in 60 and 1 in 80 across"
    assert any("falls 1 in 60 and 1 in 80 across." in each for each in customer_words(made, small.rules).scope)


def test_work_shorter_than_a_minute_is_in_the_calendar_as_a_moment(small):
    small.rectangle(4000.0, 3000.0)
    small.flat_ground(1000.0)
    made = plan(small.job(), small.rules)
    task = next(each for each in made.programme.tasks if each.key == TaskKey(TaskKind.LAY, 0))
    moment = type(task)(**{name: getattr(task, name) for name in task.__slots__} | {"finish": task.start})
    assert [each.finish - each.start for each in stretches(made.job, moment)] == [timedelta(0)]
