"""Options that are taken together come to what the job costs that is planned with all of them."""

from __future__ import annotations

import copy
import datetime as dt
import json

import pytest

from pavewright import rulebook
from pavewright.desk import demo_document, make_plan
from pavewright.desk._accepting import TOGETHER
from pavewright.desk._link_verbs import accepted_by_link, quoted_for_link
from pavewright.job.operations import apply
from pavewright.pipeline import NotTogether, taken_together

_OPTIONS = [
    {"name": "Three people", "changes": [{"path": "crew.people", "number": 3}]},
    {"name": "More margin", "changes": [{"path": "rates.margin_percent", "number": 31}]},
    {"name": "Four people", "changes": [{"path": "crew.people", "number": 4}]},
    {"name": "No such unit", "changes": [{"path": "areas.0.laying.unit", "text": "Nowhere"}]},
]


@pytest.fixture(scope="module")
def document():
    found = json.loads(demo_document())
    found["terms"]["options"] = _OPTIONS
    return found


@pytest.fixture(scope="module")
def plan(document):
    return make_plan(json.dumps(document))


@pytest.fixture(scope="module")
def found(plan):
    return {each.options: each for each in taken_together(plan, rulebook.load(plan.edition))}


def test_every_set_of_what_is_offered_is_there_and_nothing_else(found):
    assert set(found) == {(), (0,), (1,), (2,), (0, 1), (0, 2), (1, 2), (0, 1, 2)}
    assert found[0, 2].refused is NotTogether.SAME_THING and found[0, 2].total_minor is None
    assert found[0, 1, 2].refused is NotTogether.SAME_THING


def test_several_come_to_the_price_of_the_job_with_all_of_them_and_not_to_their_sum(document, plan, found):
    changed = copy.deepcopy(document)
    changed["crew"]["people"], changed["rates"]["margin_percent"] = 3, 31
    assert found[0, 1].total_minor == make_plan(json.dumps(changed)).cost.total_minor
    single = sum(found[key].total_minor - plan.cost.total_minor for key in ((0,), (1,)))
    assert found[0, 1].total_minor - plan.cost.total_minor != single
    for each in found.values():
        if each.total_minor is not None:
            added = sum(share.net_minor + share.tax_minor for share in each.shares)
            assert added == each.total_minor - plan.cost.total_minor


def test_what_is_accepted_adds_up_to_what_the_customer_read(document, found):
    quoted = json.dumps(quoted_for_link(json.dumps(document).encode(), None, dt.date(2027, 3, 18))).encode()
    head = {
        "by": "Ada Example",
        "at": "2027-03-20T10:00:00.000+00:00",
        "numbers": [0, 1],
        "names": ["Three people", "More margin"],
        "rev": 2,
        "sha256": "a" * 64,
        "total_minor": found[0, 1].total_minor,
    }
    written = accepted_by_link(quoted, None, json.dumps(head).encode())
    after = apply(json.loads(quoted), written["operations"]).document
    accepted = after["accepted"]
    assert [each["name"] for each in accepted["options"]] == ["Three people", "More margin", TOGETHER]
    parts = [*accepted["sums"], *(part for each in accepted["options"] for part in each["sums"])]
    assert sum(part["net_minor"] + part["tax_minor"] for part in parts) == found[0, 1].total_minor
    assert (after["crew"]["people"], accepted["stored_revision"]) == (3, 2)
    wrong = accepted_by_link(quoted, None, json.dumps(head | {"total_minor": 1}).encode())
    assert wrong == {"operations": None, "why": "total"}


def test_a_link_is_a_contract_at_a_distance_unless_the_job_says_where_it_is_agreed(document):
    day = dt.date(2027, 3, 18)
    assert quoted_for_link(json.dumps(document).encode(), None, day)["agreement"]["place"] == "home"
    silent = {name: value for name, value in document.items() if name != "agreement"}
    quoted = quoted_for_link(json.dumps(silent).encode(), None, day)
    assert quoted["agreement"]["place"] == "distance" and quoted["quoted"]["on"] == day.isoformat()
