"""Hose tests, marks at drains and snags: what they name is there, and each says enough."""

from __future__ import annotations

import pytest

from pavewright.job import JobInvalid, parse


def with_parts(small, **parts):
    if not small.document["areas"]:
        small.rectangle(6000.0, 4000.0)
    small.document |= {"hose_tests": [], "drain_marks": [], "snags": []} | parts
    return parse(small.document)


def faults(small, **parts):
    with pytest.raises(JobInvalid) as caught:
        with_parts(small, **parts)
    return {fault.path: fault.message for fault in caught.value.faults}


SNAG = {"name": "S1", "kind": "lip", "area": "Patio", "x_mm": 100.0, "y_mm": 200.0, "found_on": "2027-07-01"}
HOSE = {"name": "H", "area": "Patio", "date": "2027-07-01", "after_min": 30.0}
MARK = {"name": "D1", "drain": "Lawn", "date": "2027-07-01", "above_mm": 4.0}


def test_they_are_kept_as_given(small):
    job = with_parts(small, hose_tests=[HOSE], snags=[SNAG])
    assert job.hose_tests[0].after_min == 30.0
    assert not job.hose_tests[0].all_seen
    assert job.snags[0].state == "open"


@pytest.mark.parametrize(
    ("parts", "path"),
    [
        ({"hose_tests": [HOSE | {"area": "Garden"}]}, "hose_tests.0.area"),
        ({"drain_marks": [MARK]}, "drain_marks.0.drain"),
        ({"snags": [SNAG | {"area": "Garden"}]}, "snags.0.area"),
        ({"snags": [{key: value for key, value in SNAG.items() if key != "y_mm"}]}, "snags.0.x_mm"),
        ({"snags": [SNAG | {"state": "done"}]}, "snags.0.closed_on"),
        ({"snags": [SNAG | {"state": "done", "closed_on": "2027-06-01"}]}, "snags.0.closed_on"),
    ],
)
def test_what_cannot_be_is_told_with_its_place(small, parts, path):
    assert path in faults(small, **parts)


def test_two_of_one_name_are_told(small):
    assert any("snag" in words.lower() for words in faults(small, snags=[SNAG, SNAG]).values())
