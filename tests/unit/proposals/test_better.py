"""The search on an engine: the same bytes on one worker and on two, taken up again without planning anything twice."""

from __future__ import annotations

import json

import pytest
from untidy import untidy

from pavewright.desk import AskedNothingError, BetterAsked, Here, better_asked, find_better
from pavewright.engine import LocalCores
from pavewright.job import parse
from pavewright.job.operations import apply
from pavewright.proposals import Aim

PLANS = 8


def test_one_worker_and_two_find_the_same_and_a_second_search_plans_nothing_again():
    document = json.dumps(untidy())
    found = []
    for workers in (1, 2):
        new = {}
        with LocalCores(workers) as engine:
            here = Here(engine, lambda *_: None, lambda: False, {}, new.__setitem__)
            found.append(find_better(document, None, BetterAsked((Aim.PRICE, Aim.CUTS), PLANS), here))
            if workers == 2:
                again = {}
                here = Here(engine, lambda *_: None, lambda: False, new, again.__setitem__)
                assert find_better(document, None, BetterAsked((Aim.PRICE, Aim.CUTS), PLANS), here) == found[-1]
                assert again == {}
    assert json.dumps(found[0]) == json.dumps(found[1])
    assert found[0]["planned"] == PLANS
    for row in found[0]["front"]:
        done = apply(json.loads(document), row["operations"])
        assert not done.clashes
        assert parse(done.document)


def test_what_is_asked_is_read_before_anything_is_planned():
    assert better_asked({"aims": ["cuts", "price"], "plans": 50}) == BetterAsked((Aim.PRICE, Aim.CUTS), 50)
    assert len(better_asked({}).aims) == len(Aim)
    for wrong in ({"aims": ["beauty"]}, {"aims": "price"}, {"plans": 0}, {"plans": True}, {"aims": [["price"]]}):
        with pytest.raises(AskedNothingError):
            better_asked(wrong)
