"""Outputs learnt from past jobs."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from typing import Any

import pytest

from pavewright import firm, rulebook
from pavewright.desk import demo_document
from pavewright.firm import learnt_outputs, with_learnt
from pavewright.job import OutputKind, Pattern, parse

RULES = rulebook.load("england")


def book_of(*past: dict[str, Any], **parts: Any) -> firm.FirmBook:
    return firm.read({"format": "pavewright.firm", "version": 1, "past": list(past), **parts})


def job(hours: float, kind: str = "lay_flags_h_per_m2", amount: float = 10.0, **more: Any) -> dict[str, Any]:
    return {"job": "one", "kind": kind, "amount": amount, "person_hours": hours, **more}


def test_the_printed_example_comes_out_through_the_book():
    # prior 10 ± 2, four jobs of mean 8 that scatter by 3: weight 0.64, 8.72, ± 1.20
    figure = RULES.figure("cost.kerb_h_per_m")
    ends = replace(figure, value=10.0, low=10.0 - 2.0 * 1.2816, high=10.0 + 2.0 * 1.2816)
    rules = replace(RULES, figures={**RULES.figures, "cost.kerb_h_per_m": ends})
    off = 3.0 * math.sqrt(3.0) / 2.0
    jobs = [job(10.0 * (8.0 + way * off), "kerb_h_per_m") for way in (1, 1, -1, -1)]
    (found,) = learnt_outputs(book_of(*jobs).past, rules)
    assert (round(found.weight, 2), round(found.hours_each, 2), round(found.error_hours, 2)) == (0.64, 8.72, 1.2)
    assert found.sd_hours == pytest.approx(math.hypot(3.0, 1.2))
    assert found.own.jobs == 4


def test_more_jobs_weigh_more_and_are_less_in_doubt():
    figure = RULES.figure("cost.lay_flags_h_per_m2")
    one, many = (learnt_outputs(book_of(*[job(4.0)] * count).past, RULES)[0] for count in (1, 8))
    assert one.book_hours == figure.value
    assert one.own_hours == 0.4
    assert abs(many.hours_each - 0.4) < abs(one.hours_each - 0.4) < abs(figure.value - 0.4)
    assert many.weight > one.weight
    assert many.error_hours < one.error_hours


def test_the_rulebook_is_taken_at_the_pace_of_the_crew():
    slow = learnt_outputs(book_of(job(4.0)).past, RULES, 0.5)[0]
    assert slow.book_hours == RULES.value("cost.lay_flags_h_per_m2") / 0.5


def test_blocks_are_learnt_by_pattern_and_other_work_without():
    past = [
        job(5.0, "lay_blocks_h_per_m2", pattern="herringbone"),
        job(6.0, "lay_blocks_h_per_m2"),
        job(6.0, "cut_h_each", pattern="herringbone"),
    ]
    found = learnt_outputs(book_of(*past).past, RULES)
    assert [(each.kind, each.pattern) for each in found] == [
        (OutputKind.LAY_BLOCKS, None),
        (OutputKind.LAY_BLOCKS, Pattern.HERRINGBONE),
        (OutputKind.CUT, None),
    ]


def test_what_the_job_or_the_book_says_itself_is_not_learnt_over():
    document = json.loads(demo_document())
    mine = {"kind": "lay_flags_h_per_m2", "hours_each": 1.5}
    document["crew"]["outputs"] = [mine]
    taken = with_learnt(parse(document), book_of(job(4.0), job(2.0, "point_h_per_m2")), RULES)
    by = {each.kind: each for each in taken.crew.outputs}
    assert by[OutputKind.LAY_FLAGS].hours_each == 1.5
    assert by[OutputKind.POINT].jobs == 1


def test_a_book_without_past_jobs_changes_nothing():
    made = parse(json.loads(demo_document()))
    assert with_learnt(made, None, RULES) is made
    assert with_learnt(made, book_of(), RULES) is made
