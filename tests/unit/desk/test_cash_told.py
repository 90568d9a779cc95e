"""What the screens are answered of the cash of a job: a curve where it is known, and what to say first where not."""

from __future__ import annotations

import json

import pytest

from pavewright.desk import make_plan_so_far
from pavewright.desk._cash import cash_told

STAGES = [{"event": "deposit", "percent": 25}, {"event": "laid", "percent": 50}, {"event": "complete"}]


@pytest.fixture
def job(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"] |= {"overhead_percent": 10.0, "margin_percent": 20.0, "tax_percent": 20.0}
    small.document["crew"] = {"people": 2}
    small.document["calendar"] = {"start": "2027-05-10"}
    small.document["terms"] = {"stages": STAGES}
    return small.document


def told(document):
    made = make_plan_so_far(json.dumps(document))
    return made, cash_told(made)


def test_the_payments_add_up_to_the_price_and_the_lowest_point_has_its_day(job):
    made, found = told(job)
    cash = found["cash"]
    assert found["first"] == []
    assert sum(each["due_minor"] for each in cash["payments"]) == made.cost.total_minor
    assert min(0, *(day["balance_minor"] for day in cash["days"])) == cash["lowest_minor"]
    json.dumps(found, allow_nan=False)


def test_what_nobody_said_is_named_as_counted_so(job):
    assert len(told(job)[1]["counted"]) == 4
    job["terms"] |= {"days_to_pay": 0, "supplier_days": 30, "retention_percent": 0, "reclaims_tax": True}
    assert told(job)[1]["counted"] == []


def test_without_terms_there_is_no_curve_but_what_to_say_first(job):
    del job["terms"]
    found = told(job)[1]
    assert found["cash"] is None
    assert "stage payments" in found["first"][0]


@pytest.mark.parametrize("field", ["overhead_percent", "margin_percent", "labour_minor_per_hour"])
def test_a_price_that_is_not_whole_makes_no_curve(job, field):
    job["rates"][field] = None
    found = told(job)[1]
    assert found["cash"] is None
    assert found["first"]


def test_what_has_no_price_is_counted_as_left_out(job):
    job["units"][0]["pack_price_minor"] = None
    made, found = told(job)
    assert found["gaps"] == len(made.cost.gaps) > 0
