"""A customer sees the price and the work, never what stands behind the price."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from pavewright.desk import SCREEN_VERBS, ScreenRefusalError, demo_document, make_plan_so_far
from pavewright.desk._customer import customer
from pavewright.papers._words import money

INSIDE = re.compile(r"margin|overhead|prime|labour|rate_minor|rates|person_hours|unpriced|findings|wage|mark.?up")


def _names(value):
    if isinstance(value, dict):
        for key, each in value.items():
            yield key
            yield from _names(each)
    elif isinstance(value, list):
        for each in value:
            yield from _names(each)


PATIO = (Path(__file__).parents[2] / "patio.json").read_bytes()


@pytest.mark.parametrize("document", [demo_document(), PATIO], ids=["demo", "patio"])
def test_nothing_of_the_cost_reaches_the_customer(document):
    plan = make_plan_so_far(document)
    reported = customer(plan)
    text = json.dumps(reported, ensure_ascii=False)
    assert [name for name in _names(reported) if INSIDE.search(name) or name.startswith("cost")] == []
    inside = {line.amount_minor for line in plan.cost.lines} | {plan.cost.prime_minor, plan.cost.margin_minor}
    inside |= {plan.cost.overhead_minor, plan.cost.low_minor, plan.cost.high_minor}
    inside -= {plan.cost.net_minor, plan.cost.tax_minor, plan.cost.total_minor}
    numbers = {value for name, value in reported.items() if name.endswith("_minor")}
    assert numbers == {plan.cost.net_minor, plan.cost.tax_minor, plan.cost.total_minor}
    written = [money(amount, reported["currency"]) for amount in inside if amount >= 1_000]
    assert len(written) > 5
    assert [words for words in written if words in text] == []
    assert [finding.message for finding in plan.findings if finding.message in text] == []
    assert not re.search(r"\b(margin|overhead|labour|per hour)\b", text, re.IGNORECASE)


def test_the_customer_sees_what_is_done_and_for_how_much(made_plan):
    plan = made_plan("demo")
    reported = json.loads(SCREEN_VERBS["customer"](demo_document(), lambda _: None))
    assert reported["to_pay_minor"] == plan.cost.total_minor
    assert any("Terrace" in words for words in reported["scope"])
    (door,) = plan.levels.areas[0].doors
    assert (round(door.left_mm), round(door.middle_mm), round(door.right_mm)) == (188, 178, 169)
    assert reported["areas"][0]["doors"] == [f"Kitchen door: step down to the paving {door.text}."]
    assert reported["assumed"] == list(plan.survey.assumptions)
    assert reported["pictures"]["laying"].startswith("<")


def test_a_job_that_makes_no_plan_is_refused_with_its_fault():
    with pytest.raises(ScreenRefusalError):
        SCREEN_VERBS["customer"](b"{}", lambda _: None)
