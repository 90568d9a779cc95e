"""The order of work, strings as they hang and lost pegs on paper: the figures of the plan, rounded to the safe side."""

from __future__ import annotations

import copy
import json
import math

import pytest

from pavewright import rulebook
from pavewright.desk import demo_document, make_plan
from pavewright.papers import PaperInput, written_where
from pavewright.papers._words import whole
from pavewright.papers.look import as_data
from pavewright.papers.site_papers._hung import hung_sheets
from pavewright.papers.site_papers._order import order_sheets

RULES = rulebook.load("england")
DEMO = json.loads(demo_document())


def planned(**changes):
    return make_plan(json.dumps({**copy.deepcopy(DEMO), **changes}).encode())


def blocks_of(plan):
    with written_where(plan):
        given = PaperInput(plan, RULES)
        sheets = [*order_sheets(given), *hung_sheets(given)]
        return [as_data(block) for sheet in sheets for block in sheet.blocks]


def words_of(blocks):
    return json.dumps(blocks, ensure_ascii=False)


@pytest.fixture(scope="module")
def demo():
    plan = planned()
    return plan, blocks_of(plan)


def test_every_step_stands_with_its_error_and_its_checks_rounded_up(demo):
    plan, blocks = demo
    rows = next(block for block in blocks if block["kind"] == "table")["rows"]
    steps = plan.setting_out.work.steps
    assert len(rows) == sum(max(1, len(step.checks)) for step in steps)
    heads = [row for row in rows if row[0]]
    for row, step in zip(heads, steps, strict=True):
        assert row[:2] == [str(step.number), step.place]
        assert int(row[3]) == math.ceil(step.error.within_mm)
        if step.checks:
            assert float(row[5]) * 1000 == pytest.approx(step.checks[0].expected_mm, abs=0.51)
            assert int(row[6]) >= step.checks[0].limit_mm


def test_tools_that_nobody_entered_are_said_to_be_assumed(demo):
    assert "class of the tape" in words_of(demo[1])
    tools = {
        "tape": "class_ii",
        "tape_length_mm": 30000.0,
        "tape_read_sd_mm": 2.0,
        "square": "laser_square",
        "level_sd_mm": 1.5,
        "string_kg_per_km": 1.0,
        "string_pull_kg": 3.0,
    }
    assert "Not entered" not in words_of(blocks_of(planned(tools=tools)))


def test_a_string_typed_back_prints_as_read_with_what_lies_below_it():
    plan = planned()
    string = plan.setting_out.work.hung[0]
    pegs = {peg.name: peg for peg in plan.setting_out.pegs}
    read = [
        {"peg": name, "x_mm": pegs[name].at[0], "y_mm": pegs[name].at[1], "level_mm": pegs[name].string_level_mm + 8.0}
        for name in (string.start, string.end)
    ]
    rows = [
        row
        for block in blocks_of(planned(strings_set=read))
        if block["kind"] == "table"
        for row in block["rows"]
        if len(row) > 2 and row[0] == str(pegs[string.start].number) and row[1] == string.name
    ]
    assert [(row[2], row[5]) for row in rows] == [("read", "158")]


def test_without_a_set_up_the_sheet_says_what_to_add_and_with_one_what_the_staff_shows(demo):
    plan, blocks = demo
    assert "No instrument is set up yet" in words_of(blocks)
    known = next(point for point in plan.survey.points if point.level_mm is not None and point.levelled_by)
    told = planned(set_ups=[{"name": "Morning", "point": known.name, "backsight_mm": 1250.0}])
    after = blocks_of(told)
    assert f"Morning: height of sight {(known.level_mm + 1250) / 1000:.3f}" in words_of(after)
    peg = next(each for each in told.setting_out.pegs if each.role != "base")
    row = [str(peg.number), whole(known.level_mm + 1250 - peg.string_level_mm)]
    assert any(found[:2] == row for block in after if block["kind"] == "table" for found in block["rows"])
    assert "unknown" not in words_of(after)
    lost = planned(set_ups=[{"name": "Noon", "point": "nowhere", "backsight_mm": 1250.0}])
    assert "the level of nowhere is not known" in words_of(blocks_of(lost))


def test_every_pin_comes_back_or_is_named_as_one_that_does_not(demo):
    plan, blocks = demo
    words = words_of(blocks)
    assert all(each.peg in words for each in plan.setting_out.work.lost)
    assert all(name in words for name in plan.setting_out.work.not_back)
