"""Where lorries set down, and what may get there, stands in the job; old jobs know nothing of it."""

from __future__ import annotations

import json

import pytest

from pavewright.desk import demo_document
from pavewright.job import JobInvalid, parse
from pavewright.job.operations._items import REFERENCES


def test_an_old_job_knows_nothing_of_it():
    arranged = parse(json.loads(demo_document()) | {"arrangements": {}}).arrangements
    assert (arranged.drop_point, arranged.clear_height_mm, arranged.lorry_limit_tonnes) == (None, None, None)
    assert (arranged.crane_reach_mm, arranged.order_prices) == (None, False)


def test_the_place_is_a_measured_point():
    document = json.loads(demo_document())
    document["arrangements"] = {"drop_point": "nowhere"}
    with pytest.raises(JobInvalid) as refused:
        parse(document)
    assert [each.path for each in refused.value.faults] == ["arrangements.drop_point"]


def test_the_place_follows_a_point_that_is_renamed():
    assert REFERENCES["drop_point"] == "point"
