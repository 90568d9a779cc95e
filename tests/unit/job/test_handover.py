"""The record of a handover: what it refuses, and that a job without one reads as before."""

from __future__ import annotations

import copy
import datetime as dt
import json

import pytest

from pavewright.desk import demo_document
from pavewright.job import JobInvalid, parse

DEMO = json.loads(demo_document())
UNIT, AREA, COVER = DEMO["units"][0]["name"], DEMO["areas"][0]["name"], DEMO["site"]["covers"][0]["name"]


def with_record(**told):
    document = copy.deepcopy(DEMO)
    document["handed_over"] = told
    return parse(document).handed_over


def test_a_job_without_a_record_reads_and_one_with_all_of_it_too():
    document = copy.deepcopy(DEMO)
    document.pop("handed_over", None)
    assert parse(document).handed_over is None
    told = with_record(
        completed_on="2027-06-03",
        handed_on="2027-06-03",
        warranty_until="2032-06-03",
        batches=[
            {"unit": UNIT, "batch": "B 12", "area": AREA, "delivered_on": "2027-05-20"},
            {"product": "Joint sand"},
        ],
        buried=[{"name": "Pipe at the gully", "kind": "drain", "depth_mm": 480.0}],
        cover_keys=[{"cover": COVER, "count": 2, "kept_at": "Garage"}],
        spares=[{"unit": UNIT, "count": 4}],
    )
    assert told.completed_on == dt.date(2027, 6, 3)
    assert told.batches[1].batch == ""
    assert told.cover_keys[0].count == 2


@pytest.mark.parametrize(
    ("told", "path"),
    [
        ({"batches": [{"batch": "B 12"}]}, "handed_over.batches.0"),
        ({"batches": [{"unit": "Nothing"}]}, "handed_over.batches.0.unit"),
        ({"batches": [{"unit": UNIT, "area": "Nowhere"}]}, "handed_over.batches.0.area"),
        ({"cover_keys": [{"cover": "Nowhere"}]}, "handed_over.cover_keys.0.cover"),
        ({"cover_keys": [{"cover": COVER}, {"cover": COVER}]}, "handed_over.cover_keys.1"),
        ({"spares": [{"unit": "Nothing", "count": 1}]}, "handed_over.spares.0.unit"),
        ({"spares": [{"unit": UNIT, "count": 1}, {"unit": UNIT, "count": 2}]}, "handed_over.spares.1"),
        ({"buried": [{"name": "Pipe"}, {"name": "Pipe"}]}, "handed_over.buried.1"),
        ({"completed_on": "2027-06-03", "handed_on": "2027-06-02"}, "handed_over.handed_on"),
        ({"completed_on": "2027-06-03", "warranty_until": "2027-01-01"}, "handed_over.warranty_until"),
        ({"completed_on": "20270-06-03"}, "handed_over.completed_on"),
        ({"warranty_until": "9999-06-03"}, "handed_over.warranty_until"),
    ],
)
def test_what_cannot_be_is_refused_at_its_place(told, path):
    with pytest.raises(JobInvalid) as refused:
        with_record(**told)
    assert path in {fault.path for fault in refused.value.faults}
