"""Options for the customer: each is the difference that the job has when it is planned with it, or is not shown."""

from __future__ import annotations

import copy
from dataclasses import replace

import pytest

from pavewright.desk._customer import customer
from pavewright.findings import Finding, Severity
from pavewright.job import JobInvalid, parse
from pavewright.levels._codes import Code as LevelCode
from pavewright.papers.look import as_data
from pavewright.papers import customer_money
from pavewright.papers._sheets_cost import _not_offered
from pavewright.papers._sheets_money import price_blocks
from pavewright.pipeline import NotOffered, plan
from pavewright.pipeline._offered import refused


def option(name, **changes):
    """Return an option: paths with two strokes for a dot."""
    kind = {str: "text", bool: "answer"}
    return {
        "name": name,
        "changes": [
            {"path": path.replace("__", "."), kind.get(type(value), "number"): value} for path, value in changes.items()
        ],
    }


@pytest.fixture
def document(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"] |= {"overhead_percent": 10.0, "margin_percent": 20.0, "tax_percent": 20.0}
    small.document["crew"] = {"people": 1}
    small.document["calendar"] = {"start": "2027-05-10"}
    dear = copy.deepcopy(small.document["units"][0]) | {"name": "Dear", "pack_price_minor": 99_900}
    small.document["units"] += [dear, dear | {"name": "Unpriced", "pack_price_minor": None}]
    return small


def test_an_option_is_what_the_job_with_it_costs_more_or_less_and_takes(document):
    alone = plan(document.job(), document.rules)
    document.document["terms"] = {
        "options": [
            option("Dearer units", areas__0__laying__unit="Dear"),
            option("Two people", crew__people=2),
            option("Units without a price", areas__0__laying__unit="Unpriced"),
            option("No such unit", areas__0__laying__unit="Nowhere"),
            option("No such field", areas__7__made_up__0=3),
        ]
    }
    made = plan(document.job(), document.rules)
    assert made.cost.total_minor == alone.cost.total_minor
    dear, two, *refused = made.offered
    changed = copy.deepcopy(document.document)
    changed["areas"][0]["laying"]["unit"] = "Dear"
    other = plan(parse(changed), document.rules)
    assert dear.extra_minor == other.cost.total_minor - alone.cost.total_minor > 0
    assert (dear.extra_days, dear.refused) == (0, None)
    assert two.extra_days < 0
    assert [each.refused for each in refused] == [NotOffered.NO_PRICE, NotOffered.NO_PLAN, NotOffered.NO_PLAN]
    assert all(each.extra_minor is None for each in refused)
    told = customer_money(made, document.rules)
    assert [row[0] for row in told.options] == ["Dearer units", "Two people"]
    assert told.options[0][1].startswith("+£")
    assert told.options[0][2] == "no more days"
    assert told.options[1][2].endswith("fewer")
    assert [list(row) for row in customer(made)["money"]["options"]] == [list(row) for row in told.options]
    (sheet,) = (
        each
        for each in map(as_data, price_blocks(told))
        if each["kind"] == "table" and each["rows"][0][0] == "Dearer units"
    )
    assert len(sheet["rows"]) == 2
    _, said = map(as_data, _not_offered(made))
    assert len(said["items"]) == 3


def test_without_options_nothing_is_said_of_them(document):
    made = plan(document.job(), document.rules)
    told = customer_money(made, document.rules)
    assert (made.offered, told.options, told.choosing, _not_offered(made)) == ((), (), (), [])


def test_an_option_says_what_it_changes_and_to_what(document):
    for wrong in (
        {"name": "Nothing"},
        {"name": "Two values", "changes": [{"path": "crew.people", "number": 2, "text": "two"}]},
        {"name": "No value", "changes": [{"path": "crew.people"}]},
    ):
        document.document["terms"] = {"options": [wrong]}
        with pytest.raises(JobInvalid) as refused:
            document.job()
        assert refused.value.faults[0].path.startswith("terms.options.0.changes")


def test_an_option_that_brings_a_stop_is_not_shown(document):
    """The same rooms with one stop more: it is no offer; with a stop that stands already it is."""
    made = plan(document.job(), document.rules)
    stop = Finding(LevelCode.TOO_STEEP, Severity.STOP, "Patio", "Too steep.")
    with_stop = replace(made, findings=(*made.findings, stop))
    assert refused(made, with_stop) is NotOffered.STOPS
    assert refused(with_stop, with_stop) is None
    assert refused(made, made) is None
