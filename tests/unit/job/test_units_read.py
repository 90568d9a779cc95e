"""Units as read when they are laid: areas of the job, one level for a corner, the readings of two phones both kept."""

from __future__ import annotations

import copy
import json
from pathlib import Path

import pytest

from pavewright.job import JobInvalid, parse
from pavewright.job.on_site import CornerName, UnitState
from pavewright.job.operations import apply, inverse

TERRACE = json.loads((Path(__file__).parents[3] / "examples" / "l_terrace.json").read_text("utf-8"))
AREA = TERRACE["areas"][0]["name"]
UNIT = {
    "area": AREA,
    "piece": 12,
    "x_mm": 1000.0,
    "y_mm": 2000.0,
    "corners": [{"corner": "A", "level_mm": 10_001.0}, {"corner": "C", "level_mm": 9_999.0}],
}
BAGS = {"area": AREA, "opened": 3.0, "up_to_piece": 12}


def with_parts(**parts):
    return copy.deepcopy(TERRACE) | parts


def test_units_and_bags_are_in_the_job_and_what_is_left_out_is_not_known():
    job = parse(with_parts(units_read=[UNIT], bags_used=[BAGS]))
    unit, bags = job.units_read[0], job.bags_used[0]
    assert [each.corner for each in unit.corners] == [CornerName.A, CornerName.C]
    assert unit.state is UnitState.LAID
    assert (unit.rocks, unit.bed_mm, unit.sd_mm, bags.left_part) == (None, None, None, None)


@pytest.mark.parametrize(
    ("parts", "path"),
    [
        ({"units_read": [UNIT | {"area": "Nowhere"}]}, "units_read.0.area"),
        ({"units_read": [UNIT | {"corners": UNIT["corners"][:1] * 2}]}, "units_read.0.corners"),
        ({"bags_used": [BAGS | {"area": "Nowhere"}]}, "bags_used.0.area"),
    ],
)
def test_what_cannot_be_is_refused(parts, path):
    with pytest.raises(JobInvalid) as caught:
        parse(with_parts(**parts))
    assert [fault.path for fault in caught.value.faults] == [path]


def test_readings_of_two_phones_are_both_kept_and_one_is_taken_back():
    one = {"op": "add", "at": ["units_read"], "item": UNIT}
    other = {"op": "add", "at": ["units_read"], "item": UNIT | {"piece": 13}}
    merged = apply(apply(with_parts(), [one]).document, [other])
    assert not merged.clashes
    assert [each["piece"] for each in merged.document["units_read"]] == [12, 13]
    back = apply(merged.document, inverse([one])).document
    assert [each["piece"] for each in back["units_read"]] == [13]
